package chart

import (
	"bytes"
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"siltstep/cmd/internal/units"
	"siltstep/hydro/erosion"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"
)

// wander returns a line of short steps that keeps its way more or less, as drainages do.
func wander(from orb.Point, steps int, turn func() float64) orb.LineString {
	line := orb.LineString{from}
	way := turn() * math.Pi
	for range steps {
		way += 0.4 * turn()
		from = orb.Point{from[0] + 9*math.Cos(way), from[1] + 9*math.Sin(way)}
		line = append(line, from)
	}
	return line
}

// crowd returns a map of 5 by 4 km with n wandering drainages of all classes.
func crowd(n int, next func() float64) Map {
	m := Map{Title: "Crowd", Extent: orb.Bound{Min: orb.Point{500000, 4000000}, Max: orb.Point{505000, 4004000}}}
	for i := range n {
		from := orb.Point{502500 + 2500*next(), 4002000 + 2000*next()}
		steps := 4 + int(40*(1+next()))
		m.Drainages = append(m.Drainages, MapDrainage{
			ID: fmt.Sprintf("D%02d", i+1), Line: wander(from, steps, next), CatchmentM2: math.Pow(10, 5+1.5*next()),
			Class: classStyles[i%len(classStyles)].class, Rank: n - i, Truncated: i%9 == 0,
		})
	}
	return m
}

// mixed returns numbers from −1 to 1, the same on every machine: steps of 32 bits by the constants of
// Knuth's and Lewis's quick generator (Press et al., Numerical Recipes; from memory), the upper half used.
func mixed(seed uint32) func() float64 {
	return func() float64 {
		seed = seed*1664525 + 1013904223
		return float64(seed>>16)/32767.5 - 1
	}
}

// checkLabels fails where two labels overlap, one runs out of the frame, or a name stands twice.
func checkLabels(t interface{ Fatalf(string, ...any) }, d *mapDrawing) {
	seen := map[string]bool{}
	for i, a := range d.placed {
		if seen[a.name] {
			t.Fatalf("%s is labelled twice", a.name)
		}
		seen[a.name] = true
		if !a.box.within(d.frame) {
			t.Fatalf("%s at %v runs out of the frame %v", a.name, a.box, d.frame)
		}
		if w := textWidth(a.name, a.size); a.box.width() < w-1e-6 || a.box.height() < a.size-1e-6 {
			t.Fatalf("%s: box %v is smaller than the text, %.1f by %.1f", a.name, a.box, w, a.size)
		}
		for _, b := range d.placed[:i] {
			if a.box.x0 < b.box.x1 && b.box.x0 < a.box.x1 && a.box.y0 < b.box.y1 && b.box.y0 < a.box.y1 {
				t.Fatalf("%s at %v and %s at %v overlap", a.name, a.box, b.name, b.box)
			}
		}
	}
}

func TestLabelsNeverCollide(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := crowd(rapid.IntRange(0, 120).Draw(t, "drainages"), mixed(rapid.Uint32().Draw(t, "seed")))
		if rapid.Bool().Draw(t, "close") { // a part of the same, enlarged: lines run out of the frame
			m.Extent.Max = orb.Point{501200, 4000900}
		}
		d := drawMap(m, units.Metric)
		checkLabels(t, d)
		if n := strings.Count(d.pen.String(), "<text"); n < len(d.placed) {
			t.Fatalf("%d texts for %d labels", n, len(d.placed))
		}
	})
}

// A drainage with all the room of the map is labelled, wherever it runs.
func TestLoneDrainageIsLabelled(t *testing.T) {
	for _, line := range []orb.LineString{
		{{500000, 4002000}, {505000, 4002000}}, {{502000, 4000000}, {502000, 4004000}}, {{500000, 4000000}, {505000, 4004000}},
		{{500001, 4003999}, {500001, 4000001}}, {{504999, 4003999}, {504900, 4003999}}, {{490000, 4002000}, {510000, 4002000}},
	} {
		m := crowd(0, nil)
		m.Drainages = []MapDrainage{{ID: "D01", Line: line, CatchmentM2: 1e4, Class: erosion.Sound, Rank: 1}}
		if d := drawMap(m, units.Metric); len(d.placed) != 1 || !d.placed[0].bold {
			t.Errorf("%v: labels %v, want D01 in bold", line, d.placed)
		}
	}
}

// A name wider than the map is left out, and counted.
func TestEndlessName(t *testing.T) {
	m := crowd(1, mixed(1))
	m.Drainages[0].ID = strings.Repeat("D01", 100)
	d := drawMap(m, units.Metric)
	if len(d.placed) != 0 || !strings.Contains(d.pen.String(), "Without a label, for room: 1 of 1 drainage.") {
		t.Errorf("%d labels, want none and a note", len(d.placed))
	}
}

// A plan of 900 drainages: below 1 MB, the worst labelled first, what is left out counted. These lines
// cross each other, so that there is less room than among drainages; of 4 seeds 87 to 91 % of the first
// 300 were labelled.
func TestMapOfManyDrainages(t *testing.T) {
	m := crowd(900, mixed(7))
	d := drawMap(m, units.Metric)
	checkLabels(t, d)
	if n := d.pen.Len(); n > 1_000_000 {
		t.Errorf("%d bytes, want 1 MB at most", n)
	}
	byName := map[string]bool{}
	for _, l := range d.placed {
		byName[l.name] = true
	}
	share := func(from, to int) float64 { // of ranks that are labelled
		n := 0
		for _, drainage := range m.Drainages {
			if drainage.Rank >= from && drainage.Rank <= to && byName[drainage.ID] {
				n++
			}
		}
		return float64(n) / float64(to-from+1)
	}
	if first, last := share(1, 300), share(601, 900); first < 0.85 || first <= last {
		t.Errorf("%.0f %% of the first 300 are labelled and %.0f %% of the last; want 85 %% or more, and the first rather than the last", 100*first, 100*last)
	}
	if share(1, 10) < 1 {
		t.Error("one of the first ten has no label")
	}
	if want := fmt.Sprintf("Without a label, for room: %d of 900 drainages.", 900-len(d.placed)); !strings.Contains(d.pen.String(), want) {
		t.Errorf("%q is not said", want)
	}
	if n := strings.Count(d.pen.String(), "<path id="); n != 900 {
		t.Errorf("%d lines, want all 900", n)
	}
	if again := drawMap(m, units.Metric); !bytes.Equal(d.pen.Bytes(), again.pen.Bytes()) {
		t.Error("two drawings of one map differ")
	}
}

// What is drawn of a line is within the pixel of it, and its steps lead back to the rounded points.
func TestSimplifiedLineKeepsToItsOwn(t *testing.T) {
	m := crowd(60, mixed(3))
	s := fitSheet(m.Extent, units.Metric)
	for _, drainage := range m.Drainages {
		const halfPixel = 0.375 // of 0.75 points, at 96 pixels to the inch
		short := s.simplified(drainage.Line)
		for _, p := range drainage.Line {
			if off := distanceTo(short, s.at(p)); off > halfPixel+1e-9 {
				t.Fatalf("%s: a point lies %.3f points off its line, want %.3f at most", drainage.ID, off, halfPixel)
			}
		}
		var b bytes.Buffer
		appendPath(&b, short, false)
		last := sumPath(t, b.String())
		if want := short[len(short)-1]; math.Abs(last[0]-want[0]) > 0.05+1e-9 || math.Abs(last[1]-want[1]) > 0.05+1e-9 {
			t.Fatalf("%s: the path ends at %v, want %v", drainage.ID, last, want)
		}
	}
}

// distanceTo returns the distance of a point from a line.
func distanceTo(line []orb.Point, p orb.Point) float64 {
	least := math.Inf(1)
	for i := 1; i < len(line); i++ {
		a, b := line[i-1], line[i]
		dx, dy := b[0]-a[0], b[1]-a[1]
		t := 0.0
		if size := dx*dx + dy*dy; size > 0 {
			t = min(max(((p[0]-a[0])*dx+(p[1]-a[1])*dy)/size, 0), 1)
		}
		least = min(least, math.Hypot(p[0]-a[0]-t*dx, p[1]-a[1]-t*dy))
	}
	return least
}

// sumPath follows a path of one start and steps to its end.
func sumPath(t *testing.T, path string) orb.Point {
	t.Helper()
	numbers := regexp.MustCompile(`-?[0-9]+(\.[0-9])?`).FindAllString(path, -1)
	if len(numbers)%2 != 0 {
		t.Fatalf("odd number of coordinates in %s", path)
	}
	var at orb.Point
	for i, n := range numbers {
		v, err := strconv.ParseFloat(n, 64)
		if err != nil {
			t.Fatal(err)
		}
		at[i%2] += v
	}
	return at
}

// A level line of 2 points across a box of 20 by 10 takes its 20 by 3 squares (the squares of 1 point
// that it touches), by hand 0.3.
func TestCoverOfABox(t *testing.T) {
	c := cover{cols: 100, rows: 100, sums: make([]int32, 101*101)}
	c.line([]orb.Point{{-50, 50.5}, {150, 50.5}}, 1)
	taken := 0
	for _, v := range c.sums {
		taken += int(v)
	}
	if taken != 100*3 {
		t.Errorf("%d squares are taken, want 300", taken)
	}
	c.add()
	if got := c.share(box{40, 45, 60, 55}); math.Abs(got-0.3) > 1e-9 {
		t.Errorf("share %v, want 0.3", got)
	}
	if got := c.share(box{40, 5, 60, 15}); got != 0 {
		t.Errorf("share %v far from the line, want 0", got)
	}
}
