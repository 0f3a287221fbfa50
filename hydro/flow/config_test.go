package flow

import (
	"context"
	"math"
	"strings"
	"testing"

	"github.com/paulmach/orb"
)

func TestConfigValidate(t *testing.T) {
	long := orb.LineString{{0, 0}, {30, 0}, {30, 31}} // 61 m
	tests := []struct {
		name   string
		change func(*Config)
		want   string // in the first line; empty: no fault
	}{
		{"defaults", func(*Config) {}, ""},
		{"zero", func(c *Config) { *c = Config{} }, ""},
		{"edge", func(c *Config) { c.Edge = 7 }, "edge 7 is neither"},
		{"workers", func(c *Config) { c.Workers = -2 }, "-2 workers"},
		{"length", func(c *Config) { c.CutLengthM = 201 }, "longest cut 201 m; 0 to 200 m"},
		{"depth", func(c *Config) { c.CutDepthM = -1 }, "deepest cut -1 m; 0 to 20 m"},
		{"road length", func(c *Config) { c.RoadCutLengthM = math.Inf(1) }, "longest cut near a road +Inf m"},
		{"road depth", func(c *Config) { c.RoadCutDepthM = math.NaN() }, "deepest cut near a road NaN m"},
		{"reach", func(c *Config) { c.RoadReachM = 300 }, "reach of a road 300 m"},
		{"culvert", func(c *Config) { c.Features.Culverts = []orb.LineString{{{0, 0}}, long} }, "culvert 2 is 61 m long from inlet to outlet; at most 60 m"},
		{"culvert without a place", func(c *Config) { c.Features.Culverts = []orb.LineString{{}} }, "culvert 1 has no place"},
		{"inflow of nothing", func(c *Config) { c.Features.Inflows = []Inflow{{CatchmentM2: 0}} }, "inflow 1 has a catchment of 0 m²"},
		{"inflow without a place", func(c *Config) { c.Features.Inflows = []Inflow{{X: math.NaN(), CatchmentM2: 1}} }, "inflow 1 has no place"},
		{"inflow over a closed edge", func(c *Config) { c.Edge, c.Features.Inflows = EdgeClosed, []Inflow{{CatchmentM2: 1}} }, "inflow 1 is given, but the edge is declared closed"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			cfg := Defaults()
			tt.change(&cfg)
			err := cfg.Validate()
			if (err == nil) != (tt.want == "") || err != nil && !strings.HasPrefix(err.Error(), tt.want) {
				t.Errorf("fault %v, want %q", err, tt.want)
			}
		})
	}
}

func TestInflowErrors(t *testing.T) {
	g := rampGrid() // water comes in over the west border
	x, y := g.Transform.Center(0, 10)
	for _, tt := range []struct {
		name string
		in   Inflow
		want string // empty: none
	}{
		{"at the border", Inflow{x, y, 5000}, ""},
		{"nowhere near", Inflow{x - 26, y, 5000}, "inflow 1 at x 974.5, y 1989.5 m: no water enters"},
		{"too large", Inflow{x, y, 1e10}, "inflow 1: a catchment of 1e+10 m² is more cells"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			_, err := Run(context.Background(), g, Config{Features: Features{Inflows: []Inflow{tt.in}}}, nil)
			if (err == nil) != (tt.want == "") || err != nil && !strings.HasPrefix(err.Error(), tt.want) {
				t.Errorf("error %v, want %q", err, tt.want)
			}
		})
	}
}
