package demo

import (
	"math"
	"testing"

	"github.com/paulmach/orb"

	"siltstep/hydro"
	"siltstep/hydro/channel"
	"siltstep/hydro/erosion"
	"siltstep/raster"
)

// A turning is a way to lay the same land on a grid.
type turning struct {
	name   string
	turned bool                                              // columns become rows
	from   func(col, row, cols, rows int) (int, int)         // cell of the land that lies at a cell of the turned grid of that size
	back   func(x, y, wide, high float64) (float64, float64) // place on the land from its north-west corner, of one on the turned grid of that size
}

var turnings = []turning{
	{
		name: "by 90 degrees", turned: true,
		from: func(col, row, cols, _ int) (int, int) { return row, cols - 1 - col },
		back: func(x, y, wide, _ float64) (float64, float64) { return y, wide - x },
	},
	{
		name: "east for west",
		from: func(col, row, cols, _ int) (int, int) { return cols - 1 - col, row },
		back: func(x, y, wide, _ float64) (float64, float64) { return wide - x, y },
	},
}

// apply returns a grid turned, its north-west corner where it was.
func (m turning) apply(g *raster.Grid) *raster.Grid {
	cols, rows := g.Cols, g.Rows
	if m.turned {
		cols, rows = rows, cols
	}
	out := raster.New(cols, rows, g.Transform)
	for i := range out.MM {
		col, row := out.ColRow(i)
		out.MM[i] = g.At(m.from(col, row, cols, rows))
	}
	return out
}

// Of the same land turned or mirrored no drainage changes its class. The order in which equal ways are taken is not turned with it, so that a
// few divides lie a little elsewhere, and of two branches nearly alike the other may be the main one: drainages are compared where both
// begin, end and have the same catchment, nine of ten at least.
func TestTurnedLandHasTheSameClasses(t *testing.T) {
	eachRanch(t, func(t *testing.T, r *Ranch) {
		plain := screenedBare(t, r.Grid)
		for _, m := range turnings {
			g := m.apply(r.Grid)
			wide, high := float64(g.Cols)*g.Transform.CellM, float64(g.Rows)*g.Transform.CellM
			place := func(s channel.Station) orb.Point {
				x, y := m.back(s.X-g.Transform.OriginX, g.Transform.OriginY-s.Y, wide, high)
				return orb.Point{x + g.Transform.OriginX, g.Transform.OriginY - y}
			}
			sameClasses(t, m.name, plain, screenedBare(t, g), place)
		}
	})
}

// screenedBare screens a grid with nothing declared.
func screenedBare(t *testing.T, g *raster.Grid) *hydro.Plan {
	t.Helper()
	p, err := hydro.Screen(t.Context(), g, hydro.Defaults(), nil)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// sameClasses compares the drainages of a plan with those of a turned one; place brings a station of that back.
func sameClasses(t *testing.T, name string, plain, other *hydro.Plan, place func(channel.Station) orb.Point) {
	t.Helper()
	matched, most := 0, 0.0
	for i := range other.Network.Drainages {
		d := &other.Network.Drainages[i]
		k := sameDrainage(plain, d, place)
		if k < 0 {
			continue
		}
		matched++
		a, b := plain.Erosion[k].Severity, other.Erosion[i].Severity
		if a.Class != b.Class && !(scarce(plain.Erosion[k]) && scarce(other.Erosion[i])) {
			t.Errorf("%s: %s, %.0f m, is %q (%.2f, known along %.2f) and as %s %q (%.2f, %.2f)", name, plain.Network.Drainages[k].ID, d.Profile.LengthM(),
				a.Class, a.Total, plain.Erosion[k].Depths.KnownShare, d.ID, b.Class, b.Total, other.Erosion[i].Depths.KnownShare)
		}
		if off := math.Abs(a.Total - b.Total); off > most {
			most = off
		}
	}
	t.Logf("%s: %d of %d drainages are the same, severities at most %.2f apart", name, matched, len(other.Network.Drainages), most)
	if matched < len(plain.Network.Drainages)*9/10 {
		t.Errorf("%s: only %d of %d drainages are the same", name, matched, len(plain.Network.Drainages))
	}
}

// scarce reports whether so little is known of a drainage that it may be judged or not by a station more or less.
func scarce(j erosion.Judgement) bool { return j.Depths.KnownShare < 3*erosion.MinKnownShare }

// sameDrainage returns the drainage of a plan that begins and ends within 3 m of a turned one, is as long within 2 % and has its catchment
// within 2 %; -1 where none is.
func sameDrainage(p *hydro.Plan, d *channel.Drainage, place func(channel.Station) orb.Point) int {
	st := d.Profile.Stations
	low, high := place(st[0]), place(st[len(st)-1])
	for i := range p.Network.Drainages {
		e := &p.Network.Drainages[i]
		se := e.Profile.Stations
		near := func(s channel.Station, at orb.Point) bool { return math.Hypot(s.X-at[0], s.Y-at[1]) <= 3 }
		if near(se[0], low) && near(se[len(se)-1], high) && math.Abs(e.CatchmentM2-d.CatchmentM2) <= 0.02*d.CatchmentM2 &&
			math.Abs(e.Profile.LengthM()-d.Profile.LengthM()) <= 0.02*d.Profile.LengthM()+1 {
			return i
		}
	}
	return -1
}
