package channel

import (
	"math"
	"slices"
	"testing"

	"siltstep/hydro/flow"
	"siltstep/raster"
	"siltstep/raster/rastertest"
)

func TestDownstream(t *testing.T) {
	// V valley, 21 x 30: from (4, 12) water runs six cells east to the bed and 17 down it to row 29.
	g := rastertest.Valley(21, 30, 50_000, 500, 50)
	p := Downstream(g, run(t, g), 12*21+4)
	if len(p.Stations) != 24 {
		t.Fatalf("%d stations, want 24", len(p.Stations))
	}
	low, high := p.Stations[0], p.Stations[23]
	if low.Cell != 29*21+10 || high.Cell != 12*21+4 || low.StationM != 0 {
		t.Errorf("runs from cell %d to %d, station %v", high.Cell, low.Cell, low.StationM)
	}
	// Ground at (4, 12) is the lowest across the flow east: of rows 11 to 13, z = 50 + 3 − 0.65.
	if high.GroundM != 52.35 || low.BedM != 48.55 {
		t.Errorf("ground %v at the top, bed %v at the foot; want 52.35 and 48.55", high.GroundM, low.BedM)
	}
	// A corner of 90° is cut, so a little shorter than 23 m and longer than the hypotenuse.
	if l := p.LengthM(); l >= 23 || l <= math.Hypot(6, 17) {
		t.Errorf("length %v m", l)
	}
}

func TestDownstreamOfAnEnd(t *testing.T) {
	g := rastertest.Plane(1, 6, 9000, 0, 100)
	p := Downstream(g, run(t, g), 5)
	if len(p.Stations) != 1 || p.LengthM() != 0 || p.DropM() != 0 || !math.IsNaN(p.Stations[0].Slope) {
		t.Errorf("profile of one cell: %+v", p)
	}
}

func TestDownstreamRefusesAVoid(t *testing.T) {
	defer func() {
		if recover() == nil {
			t.Error("a void was taken")
		}
	}()
	g := rastertest.Of([]int32{3, 2, raster.VoidMM})
	Downstream(g, run(t, g), 2)
}

func TestEmptyProfile(t *testing.T) {
	var p Profile
	if p.LengthM() != 0 || p.DropM() != 0 || len(p.Line()) != 0 {
		t.Errorf("length %v, drop %v, line %v", p.LengthM(), p.DropM(), p.Line())
	}
}

func TestRoadFillIsCarvedAndShown(t *testing.T) {
	// V valley, 100 x 21, row 60 raised to at least 48.5. Behind it water stands to 48.5, the
	// bed being 47.05 just upstream: 1.45 m deep. No bed is read under that water, from row 32 on,
	// nor on the road; it runs straight from row 31 to row 61, which is 50 − 0.05·r again.
	g := rastertest.RaiseRow(rastertest.Valley(21, 100, 50_000, 500, 50), 60, 48_500)
	p := Build(g, run(t, g), Config{}).Drainages[0].Profile
	if len(p.Stations) != 98 { // rows 2 to 99
		t.Fatalf("%d stations, want 98", len(p.Stations))
	}
	deepest := 0.0
	for _, s := range p.Stations {
		_, row := g.ColRow(s.Cell)
		deepest = max(deepest, s.FillM)
		if want := float64(50_000-50*row) / 1000; s.BedM != want {
			t.Errorf("row %d: bed %v, want %v", row, s.BedM, want)
		}
		if want := row >= 32 && row <= 60; s.NoBed != want || math.IsNaN(s.Slope) != want {
			t.Errorf("row %d: no bed %v, slope %v, want no bed %v", row, s.NoBed, s.Slope, want)
		}
	}
	if deepest != 1.45 {
		t.Errorf("water is %v m deep behind the road, want 1.45", deepest)
	}
}

func TestBedIsCarvedToTheMedian(t *testing.T) {
	// The series whose carves at 0.1, 0.5 and 0.9 differ, along a single row.
	g := rastertest.Of([]int32{5000, 3000, 4000, 4000, 1000, 2000, 6000, 0})
	c := follow(g, unblocked(t, g), marks{field: unblocked(t, g)}, []int{0, 1, 2, 3, 4, 5, 6, 7}, nil)
	if want := []int32{5000, 4000, 4000, 4000, 2000, 2000, 2000, 0}; !slices.Equal(c.bedMM, want) {
		t.Errorf("bed %v, want %v", c.bedMM, want)
	}
}

func TestTributaryBedIsLiftedToTheConfluence(t *testing.T) {
	// The bed of a receiving drainage is fixed first: at a confluence whose bed is 7 m the
	// tributary z = 10 9 6 5 ends as 10 9 7 7, and 7 again at the confluence.
	g := rastertest.Of([]int32{10_000, 9_000, 6_000, 5_000, 5_500})
	c := follow(g, unblocked(t, g), marks{field: unblocked(t, g)}, []int{0, 1, 2, 3}, &joint{vertex{4, 0}, 6.5, 7_000})
	for k, want := range []int32{10_000, 9_000, 7_000, 7_000, 7_000} {
		if c.bedMM[k] != want {
			t.Errorf("bed %v, want 10000 9000 7000 7000 7000", c.bedMM)
			break
		}
	}
	if s := c.profile.Stations[0]; s.GroundM != 6.5 || c.line[4] != (vertex{4, 0}) {
		t.Errorf("ends at %v on ground %v, want the joint", c.line[4], s.GroundM)
	}
}

// unblocked is the field of a grid as if it stood as it is: nothing filled, nothing cut.
func unblocked(t *testing.T, g *raster.Grid) *flow.Field {
	f := run(t, g)
	f.FilledMM, f.Depressions = g.MM, nil
	return f
}
