package flow_test

import (
	"testing"

	"github.com/paulmach/orb"

	"siltstep/hydro/flow"
	"siltstep/raster/rastertest"
)

// People point at a culvert from the road, some metres off the bed. The bank on row 60 is
// 1.5 m high; wherever near the bed the point lies, one cut lets all the water of the valley through.
func TestCulvertPointOffTheBed(t *testing.T) {
	g := bankedValley(1500, 60)
	for _, off := range []struct{ col, row int }{{10, 60}, {9, 60}, {12, 60}, {14, 60}, {10, 59}, {10, 61}, {11, 58}} {
		cfg := conditioning()
		cfg.Features.Culverts = []orb.LineString{{placeOf(g, off.col, off.row)}}
		f := conditioned(t, g, cfg)
		if len(f.Cuts) != 1 || f.Cuts[0].Cause != flow.CauseCulvert || len(f.Depressions) != 0 {
			t.Errorf("point at column %d, row %d: cuts %+v, depressions %+v; want one culvert alone", off.col, off.row, f.Cuts, f.Depressions)
		}
		for _, c := range f.Cuts {
			for _, i := range c.Cells {
				if col, _ := g.ColRow(i); col != bedCol {
					t.Errorf("point at column %d, row %d: the cut %v leaves the bed", off.col, off.row, c.Cells)
				}
			}
		}
		if got := f.FilledMM[g.Index(bedCol, 59)]; got != bedMM(59) {
			t.Errorf("point at column %d, row %d: the bed before the bank lies at %d, want %d", off.col, off.row, got, bedMM(59))
		}
		at{70, bedCol, 71 * 21}.check(t, g, f)
	}
}

// A line drawn from the lower end to the upper is the same culvert.
func TestCulvertDrawnUpstream(t *testing.T) {
	g := bankedValley(1500, 60)
	cfg := conditioning()
	cfg.Features.Culverts = []orb.LineString{{placeOf(g, bedCol, 61), placeOf(g, bedCol, 59)}}
	f := conditioned(t, g, cfg)
	sameCells(t, "filled", g, f.FilledMM, withBed(g, 60).MM)
}

// A high fill of 8 m, too deep for any cut near a road: rows 57 to 63 of a valley that falls by 0.2 a
// row, its sides 0.5, with the bed at 38 on row 60 and the crest at 46, below the bed at the head. Its culvert
// from foot to foot, rows 56 to 64, is 8 m long and lays the bed bare: 41·100 cells at the end.
func TestCulvertUnderAHighFill(t *testing.T) {
	g := rastertest.Valley(41, 100, 50_000, 500, 200)
	for row := 57; row <= 63; row++ {
		rastertest.RaiseRow(g, row, 46_000)
	}
	cfg := conditioning()
	cfg.RoadReachM, cfg.Features.Roads = 100, roadAlong(g, 60)
	if f := conditioned(t, g, cfg); len(f.Cuts) != 0 || len(f.Depressions) != 1 || f.Depressions[0].Why != "deeper than 6 m" {
		t.Errorf("without a culvert: cuts %+v, depressions %+v; want one, deeper than 6 m", f.Cuts, f.Depressions)
	}
	cfg.Features.Culverts = []orb.LineString{{placeOf(g, 20, 56), placeOf(g, 20, 64)}}
	f := conditioned(t, g, cfg)
	for row := 56; row <= 64; row++ {
		if got, want := f.FilledMM[g.Index(20, row)], 50_000-200*int32(row); got != want {
			t.Errorf("row %d of the culvert lies at %d, want %d", row, got, want)
		}
	}
	if len(f.Depressions) != 0 {
		t.Errorf("depressions %+v, want none", f.Depressions)
	}
	at{99, 20, 4100}.check(t, g, f)
}

// A culvert where nothing is held back changes nothing and is told as unused.
func TestCulvertWithoutUse(t *testing.T) {
	g := rastertest.Valley(21, bedRows, 50_000, 500, 50)
	for name, line := range map[string]orb.LineString{
		"place": {placeOf(g, bedCol, 60)},
		"line":  {placeOf(g, bedCol, 59), placeOf(g, bedCol, 61)},
	} {
		t.Run(name, func(t *testing.T) {
			cfg := conditioning()
			cfg.Features.Culverts = []orb.LineString{line}
			f := conditioned(t, g, cfg)
			sameField(t, "against filling alone", g, f, run(t, g, 1))
			if len(f.Unused) != 1 {
				t.Errorf("unused %q, want the culvert", f.Unused)
			}
		})
	}
}
