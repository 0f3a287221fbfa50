package gdal

import (
	"context"
	"math"
	"slices"
	"strings"
	"testing"

	"siltstep/raster"
)

func TestOwnCellsAreNotWarped(t *testing.T) {
	s := degrees(40, 30)
	s.z = func(col, row int) float64 {
		if col == 3 && row == 5 {
			return -9999
		}
		return float64(1500 + col - row)
	}
	d := open(t, s.write(t, temp(t, "a.tif")))
	g, err := d.ReadOwn(context.Background(), nil)
	ok(t, err)
	want := planeGrid(40, 30, s.z)
	want.MM[want.Index(3, 5)] = raster.VoidMM
	if g.Cols != 40 || g.Rows != 30 || !slices.Equal(g.MM, want.MM) {
		t.Errorf("%d x %d cells, or heights changed", g.Cols, g.Rows)
	}
	i := d.Info()
	if side := math.Sqrt(i.CellEastM * i.CellNorthM); i.Kept || math.Abs(g.Transform.CellM-side) > 1e-9 {
		t.Errorf("cell of %g m, want %g", g.Transform.CellM, side)
	}
	if all := strings.Join(i.Decisions, "\n"); !strings.Contains(all, "is warped because") || !strings.Contains(all, "-9999") {
		t.Errorf("decisions: %s", all)
	}
	if warped := read(t, d); warped.Transform != d.Transform() {
		t.Error("the analysis grid has changed")
	}
}

func TestOwnCellsOfAKeptGrid(t *testing.T) {
	d := open(t, sample{}.write(t, temp(t, "a.tif")))
	g, err := d.ReadOwn(context.Background(), nil)
	ok(t, err)
	same(t, g, read(t, d), 0)
}
