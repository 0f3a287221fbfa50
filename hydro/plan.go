package hydro

import (
	"context"
	"fmt"
	"math"
	"slices"

	"siltstep/hydro/channel"
	"siltstep/hydro/checkdam"
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

	// Sums over the dams of which each is known; NaN where there are dams and it is known of none, and on a screening.
	RockM3, RockT      float64 // in place, m³; to order, t
	PondM3, SedimentM3 float64 // of a prism with the section at the dam
	Cost               float64 // in Works.Prices.Currency
	PersonDays         float64
	Undesigned         int // dams without a cross-section: nothing of them is in these sums
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
	Designs  [][]Design          // one list per Network.Drainages, one per Layouts[i].Sites; nil where the land was screened only
	Totals   Totals
	Findings []Finding
	Config   Config

	OutletPeaksM3s []float64 // storm peak at the lower end of each of Network.Drainages, m³/s; NaN where it is not known

	paths   [][]flowPath // down to each station of Network.Drainages; nil once the plan is made
	peaks   [][]float64  // at each station of Network.Drainages, m³/s; nil where no storm is given, and once the plan is made
	law     *peakLaw     // of the storm; nil once the plan is made
	outlets []stormPeak  // at the lower end of each of Network.Drainages

	Depressions []Depression // what holds water back: cut, then filled, then kept, each by volume, largest first
}

// Screen judges the drainages of a grid by their erosion and sites nothing: Layouts stay nil. watch,
// if not nil, is called with the name of each stage as it begins: those of flow.Run, then "channels",
// "sections" and "erosion", in which storm peaks are found too. The grid is only read. The result is the same for any number of workers
// (flow.Config). Errors: a setting out of range; no data; ctx cancelled.
func Screen(ctx context.Context, g *raster.Grid, cfg Config, watch func(stage string)) (*Plan, error) {
	p, err := screen(ctx, g, cfg, watch)
	if err != nil {
		return nil, err
	}
	p.sumUp()
	return p, nil
}

// Analyze runs the whole job on a grid: all of Screen, then the stage "sites", in which dams are designed too. inside limits
// structures to a property; nil means anywhere; it is called from several goroutines. Errors as of Screen.
func Analyze(ctx context.Context, g *raster.Grid, cfg Config, inside siting.Area, watch func(stage string)) (*Plan, error) {
	p, err := screen(ctx, g, cfg, watch)
	if err != nil {
		return nil, err
	}
	if watch != nil {
		watch("sites")
	}
	if err := p.lay(ctx, inside); err != nil {
		return nil, fmt.Errorf("sites: %w", err)
	}
	if err := p.designDams(ctx); err != nil {
		return nil, fmt.Errorf("sites: %w", err)
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
	if err := p.findPeaks(ctx); err != nil {
		return nil, fmt.Errorf("erosion: %w", err)
	}
	if err := p.judgeErosion(ctx); err != nil {
		return nil, fmt.Errorf("erosion: %w", err)
	}
	return p, nil
}

// sumUp fills in what is told of the plan as a whole.
func (p *Plan) sumUp() {
	p.paths, p.peaks, p.law = nil, nil, nil
	p.Totals = totals(p.Network, p.Layouts, p.Designs)
	p.Depressions = depressions(p)
	p.Findings = findings(p)
}

// totals sums up in the order of the drainages. layouts and designs are nil where nothing was sited.
func totals(n *channel.Network, layouts []siting.Layout, designs [][]Design) Totals {
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
	t.addDesigns(slices.Concat(designs...), layouts != nil)
	return t
}

// addDesigns sums up what dams take and hold.
func (t *Totals) addDesigns(designs []Design, sited bool) {
	sum := func(of func(d *Design) float64) float64 {
		total, known := 0.0, sited && len(designs) == 0
		for i := range designs {
			if v := of(&designs[i]); !math.IsNaN(v) {
				total, known = total+v, true
			}
		}
		if !known {
			return math.NaN()
		}
		return total
	}
	ofDam := func(of func(d *checkdam.Design) float64) func(*Design) float64 {
		return func(d *Design) float64 {
			if d.Dam == nil {
				return math.NaN()
			}
			return of(d.Dam)
		}
	}
	t.RockM3 = sum(ofDam(func(d *checkdam.Design) float64 { return d.Rock.TotalM3 }))
	t.RockT = sum(ofDam(func(d *checkdam.Design) float64 { return d.Rock.OrderTonnes }))
	t.PondM3 = sum(ofDam(func(d *checkdam.Design) float64 { return d.Storage.PondM3 }))
	t.SedimentM3 = sum(ofDam(func(d *checkdam.Design) float64 { return d.Storage.SedimentM3 }))
	t.PersonDays = sum(func(d *Design) float64 { return d.PersonDays })
	t.Cost = sum(func(d *Design) float64 { return d.Cost })
	for i := range designs {
		if designs[i].Dam == nil {
			t.Undesigned++
		}
	}
}
