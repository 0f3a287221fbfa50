package flow

import (
	"context"
	"slices"
	"testing"

	"github.com/paulmach/orb"

	"siltstep/raster"
)

// wideValley draws a valley of 61 x 160 cells of 1 m whose bed falls 10 mm a row and whose sides rise 50 mm a cell, with a bank of
// one row on row 120 that stands 900 mm above the bed. Water stands 0.89 m deep behind it, over some 90 rows and
// at most 35 columns, without the pits of its bed: about 1,500 m². hollows are pits on its bed.
func wideValley(hollows ...int) *raster.Grid {
	g := raster.New(61, 160, raster.Transform{OriginX: 1000, OriginY: 2000, CellM: 1})
	for i := range g.MM {
		c, r := g.ColRow(i)
		g.MM[i] = int32(50_000 + 50*max(c-30, 30-c) - 10*r)
		if r == 120 {
			g.MM[i] = max(g.MM[i], 50_000-1200+900)
		}
	}
	for _, i := range hollows {
		g.MM[i] -= 100
	}
	return g
}

func TestLikelyPondIsLeft(t *testing.T) {
	plain := wideValley()
	// Pits of 0.1 m in its water, one beside the bank, and one below it that is lower than none of the pond.
	pitted := wideValley(plain.Index(30, 119), plain.Index(31, 118), plain.Index(28, 100), plain.Index(36, 90))
	bank := []orb.LineString{{place(plain, 0, 120), place(plain, 60, 120)}}
	tests := []struct {
		name   string
		g      *raster.Grid
		change func(*Config)
		why    string // of the pond
		cut    bool   // the bank is
	}{
		{"undeclared", plain, func(*Config) {}, WhyReview, false},
		{"with pits", pitted, func(*Config) {}, WhyReview, false},
		{"too deep anyway", plain, func(c *Config) { c.CutDepthM = 0.5 }, "deeper than 0.5 m", false},
		{"pits, too deep anyway", pitted, func(c *Config) { c.CutDepthM = 0.95 }, "deeper than 0.95 m", false},
		{"road on the bank", plain, func(c *Config) { c.Features.Roads = bank }, "", true},
		{"road on the bank, with pits", pitted, func(c *Config) { c.Features.Roads = bank }, "", true},
		{"culvert", plain, func(c *Config) { c.Features.Culverts = []orb.LineString{{place(plain, 30, 120)}} }, "", true},
		{"declared", pitted, func(c *Config) {
			c.Features.StockPonds = []orb.Polygon{{{place(plain, 14, 60), place(plain, 46, 60), place(plain, 46, 119), place(plain, 14, 119), place(plain, 14, 60)}}}
		}, "", false},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			cfg := Defaults()
			tt.change(&cfg)
			f, err := Run(context.Background(), tt.g, cfg, nil)
			if err != nil {
				t.Fatal(err)
			}
			bed := tt.g.Index(30, 120)
			if f.Cut(bed) != tt.cut || tt.cut != (f.FilledMM[bed] < 49_000) {
				t.Errorf("the bank stands at %d, cut %v; want cut %v; cuts %+v", f.FilledMM[bed], f.Cut(bed), tt.cut, f.Cuts)
			}
			if tt.cut {
				if len(f.Depressions) != 0 {
					t.Errorf("depressions %+v, want none", f.Depressions)
				}
				return
			}
			if len(f.Depressions) != 1 {
				t.Fatalf("depressions %+v, want one", f.Depressions)
			}
			if d := f.Depressions[0]; d.Cause != CauseStockPond || d.Why != tt.why || d.LevelMM != 49_700 {
				t.Errorf("depression %+v, want a stock pond to 49700, %q", d, tt.why)
			}
			if !slices.Equal(f.FilledMM, Fill(tt.g, 1)) {
				t.Error("the surface is not that of filling alone")
			}
		})
	}
}

// Ground below a pond, lower than its water and with a pit higher than its bed, is drained another way than through the bank.
func TestNoCutIntoALikelyPond(t *testing.T) {
	g := wideValley()
	// A basin below the bank: a lip 0.3 m high on row 124 holds 0.2 m of water on rows 121 to 123.
	for c := range g.Cols {
		g.MM[g.Index(c, 124)] += 300
		g.MM[g.Index(c, 119)] -= 600 // the bed before the bank is dug out
	}
	cfg := Defaults()
	cfg.CutDepthM = 1.6
	f, err := Run(context.Background(), g, cfg, nil)
	if err != nil {
		t.Fatal(err)
	}
	for c := range g.Cols {
		if i := g.Index(c, 120); f.FilledMM[i] < g.MM[i] {
			t.Errorf("the bank is cut in column %d", c)
		}
	}
	if len(f.Depressions) != 1 || f.Depressions[0].Why != WhyReview || f.Depressions[0].LevelMM != 49_700 {
		t.Errorf("depressions %+v, want the pond alone, to 49700", f.Depressions)
	}
}

// A bank of rows 60 to 70, top 48.5, on a bed of 50 − 0.05·row, its road on row 60 with a reach of 3 m: a cut
// from row 59 to row 71 is 12 m long, and deeper than 1 m where the road does not reach. Water spills on row 70.
func TestWhyNearARoad(t *testing.T) {
	g := raster.New(61, 100, raster.Transform{OriginX: 1000, OriginY: 2000, CellM: 1})
	for i := range g.MM {
		c, r := g.ColRow(i)
		g.MM[i] = int32(50_000 + 500*max(c-30, 30-c) - 50*r)
		if r >= 60 && r <= 70 {
			g.MM[i] = max(g.MM[i], 48_500)
		}
	}
	tests := []struct {
		name                              string
		length, depth, roadLength, depthR float64
		why                               string
	}{
		{"too long near the road", 8, 1, 10, 6, "longer than 10 m"},
		{"as long as allowed, too deep away from it", 8, 1, 60, 6, "deeper than 1 m"},
		{"too deep near it", 8, 3, 60, 1.2, "deeper than 1.2 m"},
		{"too long for open ground", 8, 3, 10, 6, "longer than 10 m"},
		{"open ground has the wider limits", 30, 1.3, 10, 1.2, "deeper than 1.3 m"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			cfg := Config{CutLengthM: tt.length, CutDepthM: tt.depth, RoadCutLengthM: tt.roadLength, RoadCutDepthM: tt.depthR, RoadReachM: 3}
			cfg.Features.Roads = []orb.LineString{{place(g, 0, 60), place(g, 60, 60)}}
			f, err := Run(context.Background(), g, cfg, nil)
			if err != nil {
				t.Fatal(err)
			}
			if len(f.Depressions) != 1 || f.Depressions[0].Why != tt.why {
				t.Errorf("depressions %+v, want one, %q; cuts %+v", f.Depressions, tt.why, f.Cuts)
			}
		})
	}
}
