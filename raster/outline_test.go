package raster

import (
	"math"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"pgregory.net/rapid"
)

// drawn turns rows of text into labels: '.' is -1, a digit is itself.
func drawn(rows ...string) (labels []int32, cols, n int) {
	for _, row := range rows {
		for _, c := range row {
			if c == '.' {
				labels = append(labels, -1)
			} else {
				labels = append(labels, int32(c-'0'))
			}
		}
	}
	return labels, len(rows[0]), len(rows)
}

func TestOutlineShapes(t *testing.T) {
	for _, tt := range []struct {
		name         string
		rows         []string
		lo, hi       int32
		outer, holes int
		areaCells    float64 // hand sum: cells − outer/2 + holes/2
		vertices     int     // of all rings, the closing one not counted
	}{
		{"nothing", []string{"...", "..."}, 0, 9, 0, 0, 0, 0},
		{"one cell is a diamond", []string{"...", ".1.", "..."}, 0, 9, 1, 0, 0.5, 4},
		{"one cell fills the grid", []string{"1"}, 0, 9, 1, 0, 0.5, 4},
		{"square of four", []string{"11", "11"}, 0, 9, 1, 0, 3.5, 8},
		{"row of five", []string{"11111"}, 0, 9, 1, 0, 4.5, 6},
		{"diagonal of three is one ring", []string{"1..", ".1.", "..1"}, 0, 9, 1, 0, 2.5, 4},
		{"ring of eight round a hole", []string{"111", "1.1", "111"}, 0, 9, 1, 1, 8, 12},
		{"two holes corner to corner", []string{"1111", "1.11", "11.1", "1111"}, 0, 9, 1, 2, 14.5, 16},
		{"island in a lake", []string{"11111", "1...1", "1.1.1", "1...1", "11111"}, 0, 9, 2, 1, 16.5, 20},
		{"labels outside lo to hi are outside", []string{"012", "012"}, 1, 2, 1, 0, 3.5, 8},
	} {
		t.Run(tt.name, func(t *testing.T) {
			labels, cols, rows := drawn(tt.rows...)
			tr := Transform{OriginX: 1000, OriginY: 5000, CellM: 2}
			mp := Outline(labels, cols, rows, tr, tt.lo, tt.hi)
			holes, vertices := 0, 0
			for _, p := range mp {
				holes += len(p) - 1
				for _, r := range p {
					vertices += len(r) - 1
				}
			}
			if len(mp) != tt.outer || holes != tt.holes || vertices != tt.vertices {
				t.Errorf("%d outer, %d holes, %d vertices; want %d, %d, %d\n%v", len(mp), holes, vertices, tt.outer, tt.holes, tt.vertices, mp)
			}
			if got := planar.Area(mp) / 4; got != tt.areaCells { // exact: halves and whole metres
				t.Errorf("area %v cells, want %v", got, tt.areaCells)
			}
		})
	}
}

func TestOutlinePlace(t *testing.T) {
	labels, cols, rows := drawn("...", "..1")
	mp := Outline(labels, cols, rows, Transform{OriginX: 100, OriginY: 50, CellM: 10}, 1, 1)
	// The cell spans x 120–130 and y 30–40, so its edge midpoints are these, anticlockwise from the north.
	want := orb.Ring{{125, 40}, {120, 35}, {125, 30}, {130, 35}, {125, 40}}
	if len(mp) != 1 || !mp[0][0].Equal(want) {
		t.Errorf("got %v, want %v", mp, want)
	}
}

func TestIslandGoesToItsOwnLake(t *testing.T) {
	labels, cols, rows := drawn("11111111", "1......1", "1.1111.1", "1.1..1.1", "1.1111.1", "1......1", "11111111")
	mp := Outline(labels, cols, rows, Transform{CellM: 1}, 1, 1)
	if len(mp) != 2 || len(mp[0]) != 2 || len(mp[1]) != 2 {
		t.Fatalf("want two polygons with a hole each, got %v", mp)
	}
	if b := mp[1][1].Bound(); b.Min[0] < 2 || b.Max[0] > 6 {
		t.Errorf("the small lake went to the wrong polygon: %v", b)
	}
}

func TestOutlineWindow(t *testing.T) {
	labels, cols, rows := drawn("......", "..11..", "..1...", "......")
	tr := Transform{CellM: 1}
	whole := Outline(labels, cols, rows, tr, 1, 1)
	if got := OutlineWithin(labels, cols, rows, tr, 1, 1, Window{Col: 2, Row: 1, Cols: 2, Rows: 2}); !got.Equal(whole) {
		t.Errorf("a window that holds it all: %v, want %v", got, whole)
	}
	if got := planar.Area(OutlineWithin(labels, cols, rows, tr, 1, 1, Window{Col: 2, Row: 0, Cols: 1, Rows: 99})); got != 1.5 {
		t.Errorf("a window over the western column: area %v, want 1.5 (two cells minus a half)", got)
	}
}

// parts counts, by flood fill, the pieces of cells that are in (eight ways) and the pieces
// of the rest (four ways) that do not reach the border: the slow twin of the ring counts.
func parts(labels []int32, cols, rows int) (in, holes int) {
	seen := make([]bool, len(labels))
	for i := range labels {
		if seen[i] {
			continue
		}
		edge, inside := false, labels[i] == 1
		stack := []int{i}
		seen[i] = true
		for len(stack) > 0 {
			k := stack[len(stack)-1]
			stack = stack[:len(stack)-1]
			c, r := k%cols, k/cols
			edge = edge || c == 0 || r == 0 || c == cols-1 || r == rows-1
			for dr := -1; dr <= 1; dr++ {
				for dc := -1; dc <= 1; dc++ {
					nc, nr := c+dc, r+dr
					if nc < 0 || nr < 0 || nc >= cols || nr >= rows || (!inside && dc != 0 && dr != 0) {
						continue
					}
					if n := nr*cols + nc; !seen[n] && (labels[n] == 1) == inside {
						seen[n] = true
						stack = append(stack, n)
					}
				}
			}
		}
		switch {
		case inside:
			in++
		case !edge:
			holes++
		}
	}
	return in, holes
}

func TestOutlineOfRandomMasks(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cols, rows := rapid.IntRange(1, 12).Draw(t, "cols"), rapid.IntRange(1, 12).Draw(t, "rows")
		labels := rapid.SliceOfN(rapid.Int32Range(0, 1), cols*rows, cols*rows).Draw(t, "labels")
		cells := 0
		for _, l := range labels {
			cells += int(l)
		}
		mp := Outline(labels, cols, rows, Transform{CellM: 2}, 1, 1)
		outer, holes := parts(labels, cols, rows)
		gotHoles := 0
		for _, p := range mp {
			gotHoles += len(p) - 1
			for k, r := range p {
				checkRing(t, r, k == 0)
			}
		}
		if len(mp) != outer || gotHoles != holes {
			t.Fatalf("%d outer and %d holes, flood fill counts %d and %d", len(mp), gotHoles, outer, holes)
		}
		if got, want := planar.Area(mp)/4, float64(cells)-float64(outer)/2+float64(holes)/2; math.Abs(got-want) > 1e-9 {
			t.Fatalf("area %v cells, want %v", got, want)
		}
		for i, l := range labels { // cell centres are well off the outline, so this is exact too
			x, y := (Transform{CellM: 2}).Center(i%cols, i/cols)
			if planar.MultiPolygonContains(mp, orb.Point{x, y}) != (l == 1) {
				t.Fatalf("cell %d on the wrong side", i)
			}
		}
		checkDisjoint(t, mp)
	})
}

func checkRing(t *rapid.T, r orb.Ring, outer bool) {
	if !r.Closed() || len(r) < 5 {
		t.Fatalf("ring not closed or too short: %v", r)
	}
	if (r.Orientation() == orb.CCW) != outer {
		t.Fatalf("ring turns the wrong way (outer %v): %v", outer, r)
	}
	for i := 1; i < len(r); i++ {
		a, b, c := r[i-1], r[i], r[i%(len(r)-1)+1]
		if (b[0]-a[0])*(c[1]-b[1]) == (b[1]-a[1])*(c[0]-b[0]) {
			t.Fatalf("vertex %v lies on a straight run: %v", b, r)
		}
	}
}

// checkDisjoint tries every pair of segments of every ring: none may meet, but for
// neighbours at their common vertex.
func checkDisjoint(t *rapid.T, mp orb.MultiPolygon) {
	type segment struct{ a, b orb.Point }
	var all []segment
	for _, p := range mp {
		for _, r := range p {
			for i := 1; i < len(r); i++ {
				all = append(all, segment{r[i-1], r[i]})
			}
		}
	}
	side := func(a, b, p orb.Point) float64 { return (b[0]-a[0])*(p[1]-a[1]) - (b[1]-a[1])*(p[0]-a[0]) }
	for i, s := range all {
		for _, u := range all[:i] {
			if s.a == u.b || s.b == u.a {
				continue
			}
			if side(s.a, s.b, u.a)*side(s.a, s.b, u.b) <= 0 && side(u.a, u.b, s.a)*side(u.a, u.b, s.b) <= 0 {
				bs, bu := (orb.LineString{s.a, s.b}).Bound(), (orb.LineString{u.a, u.b}).Bound()
				if bs.Intersects(bu) {
					t.Fatalf("%v meets %v", s, u)
				}
			}
		}
	}
}
