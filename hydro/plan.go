package hydro

import (
	"context"
	"fmt"

	"siltstep/hydro/channel"
	"siltstep/hydro/erosion"
	"siltstep/hydro/flow"
	"siltstep/hydro/siting"
	"siltstep/raster"
)

// Totals are the sums of a plan.
type Totals struct {
	Drainages, Truncated int
	Dams, Series         int
	ChannelM             float64 // length of all drainages, m
	EligibleM, TreatedM  float64
}

// Plan is all that was found. It is safe for reading by several goroutines.
type Plan struct {
	Grid     *raster.Grid // as analysed
	Flow     *flow.Field
	Network  *channel.Network
	NoiseM   float64             // standard deviation of a cell's own error, m; NaN where it cannot be told
	Sections [][]channel.Section // one list per Network.Drainages, same order
	Erosion  []erosion.Judgement // one per Network.Drainages, same order
	Layouts  []siting.Layout     // one per Network.Drainages, same order; nil where the land was screened only
	Totals   Totals
	Findings []Finding
	Config   Config

	Depressions []Depression // what holds water back: cut, then filled, then kept, each by volume, largest first
}

// Screen judges the drainages of a grid by their erosion and sites nothing: Layouts stay nil. watch,
// if not nil, is called with the name of each stage as it begins: those of flow.Run, then "channels",
// "sections" and "erosion". The grid is only read. The result is the same for any number of workers
// (flow.Config). Errors: a setting out of range; no data; ctx cancelled.
func Screen(ctx context.Context, g *raster.Grid, cfg Config, watch func(stage string)) (*Plan, error) {
	p, err := screen(ctx, g, cfg, watch)
	if err != nil {
		return nil, err
	}
	p.sumUp()
	return p, nil
}

// Analyze runs the whole job on a grid: all of Screen, then the stage "sites". inside limits
// structures to a property; nil means anywhere; it is called from one goroutine. Errors as of Screen.
func Analyze(ctx context.Context, g *raster.Grid, cfg Config, inside siting.Area, watch func(stage string)) (*Plan, error) {
	p, err := screen(ctx, g, cfg, watch)
	if err != nil {
		return nil, err
	}
	if watch != nil {
		watch("sites")
	}
	p.Layouts = make([]siting.Layout, len(p.Network.Drainages))
	for i := range p.Network.Drainages {
		if err := ctx.Err(); err != nil {
			return nil, fmt.Errorf("sites: %w", err)
		}
		p.Layouts[i] = siting.Lay(&p.Network.Drainages[i], g.Transform.CellM, cfg.Siting, inside, siting.Ground{IncisionM: p.Erosion[i].Depths.IncisionM})
	}
	p.sumUp()
	return p, nil
}

// screen runs all that comes before sites.
func screen(ctx context.Context, g *raster.Grid, cfg Config, watch func(stage string)) (*Plan, error) {
	if err := cfg.Validate(); err != nil {
		return nil, fmt.Errorf("settings: %w", err)
	}
	if watch == nil {
		watch = func(string) {}
	}
	p := &Plan{Grid: g, Config: cfg, NoiseM: g.NoiseM()}
	var err error
	if p.Flow, err = flow.Run(ctx, g, cfg.Flow, watch); err != nil {
		return nil, fmt.Errorf("flow: %w", err)
	}
	if err := ctx.Err(); err != nil {
		return nil, fmt.Errorf("channels: %w", err)
	}
	watch("channels")
	p.Network = channel.Build(g, p.Flow, cfg.Channels)
	watch("sections")
	if err := p.takeSections(ctx); err != nil {
		return nil, fmt.Errorf("sections: %w", err)
	}
	watch("erosion")
	if err := p.judgeErosion(ctx); err != nil {
		return nil, fmt.Errorf("erosion: %w", err)
	}
	return p, nil
}

// sumUp fills in what is told of the plan as a whole.
func (p *Plan) sumUp() {
	p.Totals = totals(p.Network, p.Layouts)
	p.Depressions = depressions(p)
	p.Findings = findings(p)
}

// totals sums up in the order of the drainages. layouts is nil where nothing was sited.
func totals(n *channel.Network, layouts []siting.Layout) Totals {
	t := Totals{Drainages: len(n.Drainages)}
	for i := range n.Drainages {
		d := &n.Drainages[i]
		if d.Truncated {
			t.Truncated++
		}
		t.ChannelM += d.Profile.LengthM()
		if layouts == nil {
			continue
		}
		l := layouts[i]
		if k := len(l.Sites); k > 0 {
			t.Dams += k
			t.Series += l.Sites[k-1].Series
		}
		t.EligibleM += l.EligibleM
		t.TreatedM += l.TreatedM
	}
	return t
}
