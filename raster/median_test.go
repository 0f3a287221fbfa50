package raster

import (
	"slices"
	"testing"

	"pgregory.net/rapid"
)

func TestMedianAgainstSorting(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := rapid.SliceOfN(rapid.Int32Range(-5, 5), 1, 60).Draw(t, "values")
		sorted := slices.Sorted(slices.Values(v))
		if got := median(slices.Clone(v)); got != sorted[len(v)/2] {
			t.Fatalf("median of %v: got %d, want %d", v, got, sorted[len(v)/2])
		}
	})
}

// Patches lie on the grid, do not overlap, cover it where they may, and are few where it is large.
func TestPatches(t *testing.T) {
	for _, row := range []struct{ cols, rows, side, most, want int }{
		{1, 1, 32, 1000, 1}, {33, 31, 32, 1 << 20, 2}, {100, 100, 10, 1 << 20, 100}, {100, 100, 10, 2500, 25}, {1000, 3, 10, 900, 9}, {50, 50, 32, 10, 1},
	} {
		g := New(row.cols, row.rows, Transform{CellM: 1})
		patches := g.patches(row.side, row.most)
		if len(patches) != row.want {
			t.Errorf("%+v: got %d patches", row, len(patches))
		}
		for _, w := range patches {
			for r := w.Row; r < w.Row+w.Rows; r++ {
				for c := w.Col; c < w.Col+w.Cols; c++ {
					g.MM[g.Index(c, r)]++
				}
			}
		}
		covered := 0
		for _, n := range g.MM {
			covered += int(n)
			if n > 1 {
				t.Fatalf("%+v: a cell in %d patches", row, n)
			}
		}
		if whole := row.cols*row.rows <= row.most; whole && covered != len(g.MM) {
			t.Errorf("%+v: %d cells covered", row, covered)
		}
	}
}

// The weights keep every parabola: what is left of one is rounding.
func TestParabolaKeepsParabolas(t *testing.T) {
	sum := 0.0
	for _, w := range parabola {
		sum += w
	}
	if sum != parabolaSum {
		t.Errorf("weights sum to %g, want %d", sum, parabolaSum)
	}
	profile, steps := make([]partValues, 40), make([]partValues, 39)
	for i := range profile {
		profile[i][0] = 7 - 3*float64(i) + 2*float64(i*i)
	}
	for i := 5; i < 35; i++ {
		if off, ok := offset(profile, steps, i, 0); !ok || off > 1e-9 || off < -1e-9 {
			t.Errorf("line %d: offset %g of a parabola, %v", i, off, ok)
		}
	}
}
