package hydro

import (
	"context"
	"math"
	"runtime"

	"golang.org/x/sync/errgroup"

	"siltstep/hydro/channel"
	"siltstep/hydro/erosion"
)

// takeSections fills in the cross-sections of every drainage.
func (p *Plan) takeSections(ctx context.Context) error {
	drainages := p.Network.Drainages
	p.Sections = make([][]channel.Section, len(drainages))
	return p.eachDrainage(ctx, func(i int) {
		p.Sections[i] = channel.Sections(p.Grid, drainages[i].Profile, p.Config.Sections)
	})
}

// findPeaks fills in the flow paths and the peak at the lower end of every drainage.
func (p *Plan) findPeaks(ctx context.Context) error {
	drainages := p.Network.Drainages
	p.paths = make([][]flowPath, len(drainages))
	p.outlets = make([]stormPeak, len(drainages))
	p.law = &peakLaw{ask: p.Config.Storm.request()}
	p.OutletPeaksM3s = make([]float64, len(drainages))
	return p.eachDrainage(ctx, func(i int) { p.findOutlets(&drainages[i], i) })
}

// judgeErosion fills in the erosion of every drainage, and ranks them. Without a storm no peak is
// known. Where the noise of the cells cannot be told, none is reckoned with.
func (p *Plan) judgeErosion(ctx context.Context) error {
	cfg, noiseM := p.Config.Erosion, p.NoiseM
	if math.IsNaN(noiseM) {
		noiseM = 0
	}
	if err := ctx.Err(); err != nil {
		return err
	}
	topHats := erosion.Survey(p.Grid, p.Network, cfg.WindowM, p.Config.Flow.Workers)
	drainages := p.Network.Drainages
	p.Erosion = make([]erosion.Judgement, len(drainages))
	p.peaks = make([][]float64, len(drainages))
	err := p.eachDrainage(ctx, func(i int) {
		d, j := &drainages[i], &p.Erosion[i]
		j.Depths = erosion.Measure(d, p.Sections[i], topHats[i], cfg)
		p.peaks[i] = p.peaksAlong(d, p.paths[i])
		j.Power = erosion.PowerAt(d, p.Sections[i], j.Depths, p.peaks[i], cfg)
	})
	if err != nil {
		return err
	}
	erosion.LeaveMouths(p.Network, p.Erosion, p.Grid.Transform.CellM, cfg)
	for i, headcuts := range erosion.NetworkHeadcuts(p.Grid, p.Network, noiseM, cfg) {
		p.Erosion[i].Headcuts = headcuts
	}
	erosion.Rank(p.Network, p.Erosion, noiseM, cfg)
	return nil
}

// eachDrainage calls do for every drainage, several at once; do writes only what belongs to its own.
// The error is that of ctx.
func (p *Plan) eachDrainage(ctx context.Context, do func(i int)) error {
	workers := p.Config.Flow.Workers
	if workers == 0 {
		workers = runtime.GOMAXPROCS(0)
	}
	var group errgroup.Group
	group.SetLimit(workers)
	for i := range p.Network.Drainages {
		if ctx.Err() != nil {
			break
		}
		group.Go(func() error {
			if ctx.Err() == nil {
				do(i)
			}
			return nil
		})
	}
	if err := group.Wait(); err != nil {
		return err
	}
	return ctx.Err()
}
