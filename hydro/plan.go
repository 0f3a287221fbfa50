package hydro

import (
	"context"
	"fmt"

	"siltstep/hydro/channel"
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
	Layouts  []siting.Layout // one per Network.Drainages, same order
	Totals   Totals
	Findings []Finding
	Config   Config

	Depressions []Depression // what holds water back: cut, then filled, then kept, each by volume, largest first
}

// Analyze runs the whole job on a grid. inside limits structures to a property; nil means
// anywhere; it is called from one goroutine. watch, if not nil, is called with the name of each
// stage as it begins: those of flow.Run, then "channels" and "sites". The grid is only read.
// Errors: a setting out of range; no data; ctx cancelled.
func Analyze(ctx context.Context, g *raster.Grid, cfg Config, inside siting.Area, watch func(stage string)) (*Plan, error) {
	if err := cfg.Validate(); err != nil {
		return nil, fmt.Errorf("settings: %w", err)
	}
	if watch == nil {
		watch = func(string) {}
	}
	p := &Plan{Grid: g, Config: cfg}
	var err error
	if p.Flow, err = flow.Run(ctx, g, cfg.Flow, watch); err != nil {
		return nil, fmt.Errorf("flow: %w", err)
	}
	if err := ctx.Err(); err != nil {
		return nil, fmt.Errorf("channels: %w", err)
	}
	watch("channels")
	p.Network = channel.Build(g, p.Flow, cfg.Channels)
	watch("sites")
	for i := range p.Network.Drainages {
		if err := ctx.Err(); err != nil {
			return nil, fmt.Errorf("sites: %w", err)
		}
		p.Layouts = append(p.Layouts, siting.Lay(&p.Network.Drainages[i], g.Transform.CellM, cfg.Siting, inside))
	}
	p.Totals = totals(p.Network, p.Layouts)
	p.Depressions = depressions(p)
	p.Findings = findings(p)
	return p, nil
}

// totals sums up in the order of the drainages.
func totals(n *channel.Network, layouts []siting.Layout) Totals {
	t := Totals{Drainages: len(n.Drainages)}
	for i := range n.Drainages {
		d, l := &n.Drainages[i], layouts[i]
		if d.Truncated {
			t.Truncated++
		}
		if k := len(l.Sites); k > 0 {
			t.Dams += k
			t.Series += l.Sites[k-1].Series
		}
		t.ChannelM += d.Profile.LengthM()
		t.EligibleM += l.EligibleM
		t.TreatedM += l.TreatedM
	}
	return t
}
