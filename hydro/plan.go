package hydro

import (
	"context"
	"fmt"
	"math"
	"slices"

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

	// Sums over the dams of which each is known; NaN where there are dams and it is known of none, and on a screening.
	RockM3, RockT                 float64 // in place, m³; to order, t
	PondM3, SedimentM3            float64 // up to the sills, and when full
	SedimentLowM3, SedimentHighM3 float64 // what it may be at the least and at the most, m³
	Cost                          float64 // in Works.Prices.Currency
	PersonDays                    float64
	Undesigned                    int // dams without a cross-section: nothing of them is in these sums
}

// Plan is all that was found. It is safe for reading by several goroutines.
type Plan struct {
	Grid      *raster.Grid // as analysed
	Flow      *flow.Field
	Network   *channel.Network
	NoiseM    float64             // standard deviation of a cell's own error, m; NaN where it cannot be told
	Sections  [][]channel.Section // one list per Network.Drainages, same order
	Erosion   []erosion.Judgement // one per Network.Drainages, same order
	Layouts   []siting.Layout     // one per Network.Drainages, same order; nil where the land was screened only
	Designs   [][]Design          // one list per Network.Drainages, one per Layouts[i].Sites; nil where the land was screened only
	Totals    Totals
	Series    []Series   // every series, drainage by drainage from the bottom, also those a budget leaves out; nil where the land was screened only
	Scenarios []Scenario // other ways to treat the same land, before a budget; nil where the land was screened only
	Findings  []Finding
	Changes   []Change // what field edits made of each dam; nil where none were given
	Config    Config

	OutletPeaksM3s []float64 // storm peak at the lower end of each of Network.Drainages, m³/s; NaN where it is not known

	stairs  *Finding     // of heights in coarse steps; nil where they are fine
	budget  []Finding    // what is to be said of the budget
	paths   [][]flowPath // down to each station of Network.Drainages; nil once the plan is made
	peaks   [][]float64  // at each station of Network.Drainages, m³/s; nil where no storm is given, and once the plan is made
	law     *peakLaw     // of the storm; nil once the plan is made
	field   *fieldwork   // what the field asks, by drainage; nil once the plan is made
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
	p.Changes = p.field.changes(p.Layouts, p.Designs)
	p.Scenarios = p.scenarios()
	p.Series, p.budget = p.applyBudget(cfg.Budget)
	for i := range p.Layouts {
		p.fillSeries(i)
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
	if p.field, err = cfg.Edits.place(p.Network, cfg.Siting.Engineer); err != nil {
		return nil, fmt.Errorf("field edits: %w", err)
	}
	p.Depressions, p.stairs = depressions(p), stairsOf(g)
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
	p.Totals = p.totals()
	p.Findings = findings(p)
	p.field = nil
}

// totals sums up in the order of the drainages.
func (p *Plan) totals() Totals {
	t := Totals{Drainages: len(p.Network.Drainages)}
	for i := range p.Network.Drainages {
		d := &p.Network.Drainages[i]
		if d.Truncated {
			t.Truncated++
		}
		t.ChannelM = hundredth(t.ChannelM + hundredth(d.Profile.LengthM()))
	}
	nan := math.NaN()
	if p.Layouts == nil {
		t.RockM3, t.RockT, t.PondM3, t.SedimentM3, t.SedimentLowM3, t.SedimentHighM3, t.PersonDays, t.Cost = nan, nan, nan, nan, nan, nan, nan, nan
		return t
	}
	for i := range p.Layouts {
		t.EligibleM = hundredth(t.EligibleM + hundredth(p.Layouts[i].EligibleM))
		t.TreatedM = hundredth(t.TreatedM + p.Layouts[i].TreatedM)
	}
	for i := range p.Series {
		if !p.Series[i].LeftOut {
			t.Series++
		}
	}
	q := QuantitiesOf(slices.Concat(p.Designs...))
	t.Dams, t.Undesigned = q.Dams, q.Undesigned
	t.RockM3, t.RockT, t.PondM3, t.SedimentM3, t.SedimentLowM3, t.SedimentHighM3 = q.RockM3, q.RockT, q.PondM3, q.SedimentM3, q.SedimentLowM3, q.SedimentHighM3
	t.PersonDays, t.Cost = q.PersonDays, q.Cost
	return t
}
