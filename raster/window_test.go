package raster_test

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"siltstep/raster"
)

// numbered returns a grid whose elevations count 0, 1, 2 … in millimetres, row by row.
func numbered(cols, rows int) *raster.Grid {
	g := raster.New(cols, rows, raster.Transform{OriginX: 500, OriginY: 900, CellM: 2})
	for i := range g.MM {
		g.MM[i] = int32(i)
	}
	return g
}

func TestClip(t *testing.T) {
	// 4 x 3 grid:  0 1 2 3 / 4 5 6 7 / 8 9 10 11, cells of 2 m, corner at (500, 900).
	tests := []struct {
		name       string
		w          raster.Window
		cols, rows int
		mm         []int32
		x, y       float64 // outer corner, m
	}{
		{"whole", raster.Window{Cols: 4, Rows: 3}, 4, 3, []int32{0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11}, 500, 900},
		{"inner", raster.Window{Col: 1, Row: 1, Cols: 2, Rows: 2}, 2, 2, []int32{5, 6, 9, 10}, 502, 898},
		{"over north-west", raster.Window{Col: -3, Row: -1, Cols: 5, Rows: 2}, 2, 1, []int32{0, 1}, 500, 900},
		{"over south-east", raster.Window{Col: 3, Row: 2, Cols: 9, Rows: 9}, 1, 1, []int32{11}, 506, 896},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			g := numbered(4, 3)
			got, err := g.Clip(tt.w)
			if err != nil {
				t.Fatal(err)
			}
			if got.Cols != tt.cols || got.Rows != tt.rows || !slices.Equal(got.MM, tt.mm) {
				t.Errorf("got %d x %d %v, want %d x %d %v", got.Cols, got.Rows, got.MM, tt.cols, tt.rows, tt.mm)
			}
			if got.Transform != (raster.Transform{OriginX: tt.x, OriginY: tt.y, CellM: 2}) {
				t.Errorf("transform %+v, want corner (%g, %g)", got.Transform, tt.x, tt.y)
			}
			got.MM[0] = -1
			if slices.Contains(g.MM, -1) {
				t.Error("changing the clip changed the grid")
			}
		})
	}
}

func TestClipOutside(t *testing.T) {
	tests := []struct {
		name string
		w    raster.Window
	}{
		{"east of the grid", raster.Window{Col: 4, Cols: 2, Rows: 2}},
		{"north of the grid", raster.Window{Row: -2, Cols: 4, Rows: 2}},
		{"no columns", raster.Window{Rows: 3}},
		{"negative size", raster.Window{Col: 2, Row: 2, Cols: -1, Rows: -1}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if got, err := numbered(4, 3).Clip(tt.w); err == nil {
				t.Errorf("got a grid of %d x %d, want an error", got.Cols, got.Rows)
			}
		})
	}
}

func drawWindow(t *rapid.T, label string) raster.Window {
	place, size := rapid.IntRange(-6, 12), rapid.IntRange(-1, 12)
	return raster.Window{
		Col: place.Draw(t, label+" col"), Row: place.Draw(t, label+" row"),
		Cols: size.Draw(t, label+" cols"), Rows: size.Draw(t, label+" rows"),
	}
}

func holds(w raster.Window, col, row int) bool {
	return col >= w.Col && row >= w.Row && col < w.Col+w.Cols && row < w.Row+w.Rows
}

// A cell is in the intersection when it is in both windows, and whichever comes first.
func TestIntersectCellByCell(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := drawWindow(t, "a"), drawWindow(t, "b")
		both := a.Intersect(b)
		if both != b.Intersect(a) {
			t.Fatalf("order matters: %+v and %+v", both, b.Intersect(a))
		}
		for row := -8; row < 26; row++ {
			for col := -8; col < 26; col++ {
				if want := holds(a, col, row) && holds(b, col, row); holds(both, col, row) != want {
					t.Fatalf("cell (%d, %d) of %+v and %+v: want %v", col, row, a, b, want)
				}
			}
		}
	})
}

// Every cell of a clip keeps its elevation and its place on the map.
func TestClipKeepsPlace(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := numbered(9, 7)
		clip, err := g.Clip(drawWindow(t, "w"))
		if err != nil {
			return // outside, told by the table above
		}
		for i, z := range clip.MM {
			x, y := clip.CenterOf(i)
			if col, row := g.Transform.ColRow(x, y); g.At(col, row) != z {
				t.Fatalf("cell %d holds %d, the grid has %d at (%g, %g)", i, z, g.At(col, row), x, y)
			}
		}
	})
}
