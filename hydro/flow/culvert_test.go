package flow

import (
	"context"
	"slices"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"siltstep/raster"
)

// channelWithFill draws a valley that falls 20 mm a cell towards the east along row 10, sides 400 mm a cell, with a
// road fill of 3 m over columns 30 to 33.
func channelWithFill() *raster.Grid {
	g := raster.New(60, 21, raster.Transform{OriginX: 1000, OriginY: 2000, CellM: 1})
	for i := range g.MM {
		c, r := g.ColRow(i)
		g.MM[i] = int32(50_000 - 20*c + 400*max(r-10, 10-r))
		if c >= 30 && c <= 33 {
			g.MM[i] = max(g.MM[i], 52_400)
		}
	}
	return g
}

func place(g *raster.Grid, col, row int) orb.Point {
	x, y := g.Transform.Center(col, row)
	return orb.Point{x, y}
}

func TestCulverts(t *testing.T) {
	g := channelWithFill()
	hole := channelWithFill()
	hole.MM[hole.Index(31, 10)] = raster.VoidMM
	pond := orb.Polygon{{place(g, 30, 5), place(g, 33, 5), place(g, 33, 15), place(g, 30, 15), place(g, 30, 5)}}
	line := func(points ...orb.Point) orb.LineString { return points }
	tests := []struct {
		name   string
		g      *raster.Grid
		line   orb.LineString
		ponds  []orb.Polygon
		unused string  // else the culvert must be cut
		lower  []int   // columns of row 10 that must be lower
		depthM float64 // deepest
	}{
		// From 49.42 in column 29 to 49.32 in column 34 by 20 a cell: the bed that was there; 52.4 − 49.34 deep.
		{"line", g, line(place(g, 29, 10), place(g, 34, 10)), nil, "", []int{30, 31, 32, 33}, 3.06},
		{"line drawn two cells beside the bed", g, line(place(g, 29, 12), place(g, 34, 12)), nil, "", []int{30, 31, 32, 33}, 3.06},
		{"line drawn upstream", g, line(place(g, 34, 10), place(g, 29, 10)), nil, "", []int{30, 31, 32, 33}, 3.06},
		// The inlet drawn on the fill is moved back to its foot.
		{"line from the fill", g, line(place(g, 30, 10), place(g, 34, 10)), nil, "", []int{30, 31, 32, 33}, 3.06},
		{"place on the fill", g, line(place(g, 31, 10)), nil, "", []int{30, 31, 32, 33}, 3.06},
		{"place at the inlet", g, line(place(g, 29, 10)), nil, "", []int{30, 31, 32, 33}, 3.06},
		{"off the data", g, line(orb.Point{0, 0}), nil, "culvert 1: it lies outside the data", nil, 0},
		{"line off the data", g, line(place(g, 59, 10), place(g, 80, 10)), nil, "culvert 1: it leaves the data", nil, 0},
		{"nothing to cut", rampGrid(), line(place(g, 20, 10)), nil, "culvert 1: no depression within 30 m", nil, 0},
		{"hole under it", hole, line(place(g, 29, 10), place(g, 34, 10)), nil, "culvert 1: it crosses a hole", nil, 0},
		{"stock pond under it", g, line(place(g, 29, 10), place(g, 34, 10)), []orb.Polygon{pond}, "culvert 1: it crosses a stock pond", nil, 0},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			f, err := Run(context.Background(), tt.g, Config{Features: Features{Culverts: []orb.LineString{tt.line}, StockPonds: tt.ponds}}, nil)
			if err != nil {
				t.Fatal(err)
			}
			if got := strings.Join(f.Unused, "\n"); (tt.unused == "") != (got == "") || !strings.HasPrefix(got, tt.unused) {
				t.Errorf("unused %q, want %q", got, tt.unused)
			}
			if tt.unused != "" {
				if len(f.Cuts) != 0 || !slices.Equal(f.FilledMM, Fill(tt.g, 1)) {
					t.Errorf("cuts %+v, want filling alone", f.Cuts)
				}
				return
			}
			if len(f.Cuts) != 1 || f.Cuts[0].Cause != CauseCulvert || f.Cuts[0].DepthM > 3.06 || f.Cuts[0].DepthM < tt.depthM-0.05 {
				t.Fatalf("cuts %+v, want one culvert, about %g m deep", f.Cuts, tt.depthM)
			}
			for _, col := range tt.lower {
				if i := tt.g.Index(col, 10); !f.Cut(i) || f.FilledMM[i] > 49_420 {
					t.Errorf("column %d stands at %d, cut %v", col, f.FilledMM[i], f.Cut(i))
				}
			}
			// All that drains to the bed above the fill passes through.
			if below, above := f.Cells[tt.g.Index(35, 10)], f.Cells[tt.g.Index(28, 10)]; below < above {
				t.Errorf("%d cells drain above the fill, %d below", above, below)
			}
		})
	}
}

// A point on the fill 6 m off the bed is taken as it is: the way of least excavation, on the bed, crosses farther away.
func TestCulvertPointFarFromTheBed(t *testing.T) {
	g := channelWithFill()
	for _, tt := range []struct {
		row     int
		through bool // the cell of the point
	}{{6, false}, {5, false}, {4, true}} {
		f, err := Run(context.Background(), g, Config{Features: Features{Culverts: []orb.LineString{{place(g, 31, tt.row)}}}}, nil)
		if err != nil {
			t.Fatal(err)
		}
		if len(f.Cuts) != 1 || len(f.Unused) != 0 {
			t.Fatalf("row %d: cuts %+v, unused %q", tt.row, f.Cuts, f.Unused)
		}
		if got := f.Cut(g.Index(31, tt.row)); got != tt.through {
			t.Errorf("point on row %d: its own cell is cut %v, want %v", tt.row, got, tt.through)
		}
		if got := f.Cut(g.Index(31, 10)); got == tt.through {
			t.Errorf("point on row %d: the bed under the fill is cut %v", tt.row, got)
		}
	}
}

// rampGrid falls 20 mm a cell towards the east.
func rampGrid() *raster.Grid {
	g := raster.New(60, 21, raster.Transform{OriginX: 1000, OriginY: 2000, CellM: 1})
	for i := range g.MM {
		g.MM[i] = int32(50_000 - 20*(i%60))
	}
	return g
}
