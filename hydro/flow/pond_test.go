package flow

import (
	"slices"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"pgregory.net/rapid"

	"siltstep/raster"
)

// drawPoints draws places on and around a grid, not on lines through the middles of cells.
func drawPoints(t *rapid.T, n int) (points []orb.Point) {
	for range n {
		points = append(points, orb.Point{
			float64(rapid.IntRange(-50, 350).Draw(t, "x"))/10 + 0.0137, float64(rapid.IntRange(-250, 50).Draw(t, "y"))/10 + 0.0071,
		})
	}
	return points
}

func testGrid() *raster.Grid { return raster.New(15, 10, raster.Transform{CellM: 2}) }

func TestPolygonCellsAgainstEachCell(t *testing.T) {
	g := testGrid()
	rapid.Check(t, func(t *rapid.T) {
		corners := drawPoints(t, 3)
		p := orb.Polygon{append(orb.Ring(corners), corners[0])} // a triangle: it cannot cross itself
		var want []int
		for i := range g.MM {
			x, y := g.CenterOf(i)
			if planar.PolygonContains(p, orb.Point{x, y}) {
				want = append(want, i)
			}
		}
		if len(want) == 0 {
			t.Skip("no middle of a cell in it")
		}
		if got := polygonCells(g, p); !slices.Equal(got, want) {
			t.Fatalf("cells %v, want %v", got, want)
		}
	})
}

func TestPolygonCellsSmallAndHollow(t *testing.T) {
	g := testGrid()
	ring := func(x0, y0, x1, y1 float64) orb.Ring {
		return orb.Ring{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}, {x0, y0}}
	}
	tests := []struct {
		name string
		p    orb.Polygon
		want []int
	}{
		{"empty", orb.Polygon{}, nil},
		{"between middles", orb.Polygon{ring(2.1, -2.9, 2.4, -2.1)}, []int{16}},    // column 1, row 1
		{"hollow", orb.Polygon{ring(0, -2, 6, 0), ring(2, -2, 4, 0)}, []int{0, 2}}, // without column 1
		{"off the grid", orb.Polygon{ring(100, 100, 110, 110)}, nil},               //
		{"partly off", orb.Polygon{ring(-10, -2, 4, 10)}, []int{0, 1}},             //
		{"not closed", orb.Polygon{ring(0, -2, 6, 0)[:4]}, []int{0, 1, 2}},         //
	}
	for _, tt := range tests {
		if got := polygonCells(g, tt.p); !slices.Equal(got, tt.want) {
			t.Errorf("%s: cells %v, want %v", tt.name, got, tt.want)
		}
	}
}

func TestNearLinesAgainstEachCell(t *testing.T) {
	g := testGrid()
	rapid.Check(t, func(t *rapid.T) {
		line := orb.LineString(drawPoints(t, rapid.IntRange(1, 4).Draw(t, "vertices")))
		within := rapid.Float64Range(0, 8).Draw(t, "within")
		m := nearLines(g, []orb.LineString{line}, within)
		for i := range g.MM {
			x, y := g.CenterOf(i)
			away := planar.DistanceFrom(line, orb.Point{x, y})
			if len(line) == 1 {
				away = planar.Distance(line[0], orb.Point{x, y})
			}
			if d := away - within; d*d > 1e-18 && m.has(i) != (d < 0) { // rounding of the distance left out
				t.Fatalf("cell %d is %g m away, within %g is %v: %v", i, away, within, m.has(i), line)
			}
		}
	})
}
