package channel

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// digitised returns the cells of a smooth curve as D8 would step along it: on each row it
// crosses where it runs more across rows, on each column elsewhere, the nearest cell.
// at runs from 0 to 1; both ends are kept.
func digitised(at func(s float64) vertex) []vertex {
	const samples = 40_000
	was := at(0)
	cells := []vertex{{math.Round(was.col), math.Round(was.row)}}
	add := func(v vertex) {
		if cells[len(cells)-1] != v {
			cells = append(cells, v)
		}
	}
	for i := 1; i <= samples; i++ {
		v := at(float64(i) / samples)
		switch alongCols := math.Abs(v.col-was.col) > math.Abs(v.row-was.row); {
		case alongCols && math.Floor(v.col) != math.Floor(was.col):
			add(vertex{max(math.Floor(v.col), math.Floor(was.col)), math.Round(v.row)})
		case !alongCols && math.Floor(v.row) != math.Floor(was.row):
			add(vertex{math.Round(v.col), max(math.Floor(v.row), math.Floor(was.row))})
		}
		was = v
	}
	add(vertex{math.Round(was.col), math.Round(was.row)})
	return cells
}

// lengthOf returns the length of a line in cell sides.
func lengthOf(line []vertex) float64 { return stationsOf(line)[0] }

func TestStraightValleysAtEveryAngle(t *testing.T) {
	// A straight line of 150 cells, every degree, four offsets across the grid. The true
	// length is that between the two end cells.
	const tolerance = 0.01 // relative; three passes leave 0.66 % at worst by the algebra of the kernel, and a kink at an end, which is fixed, some 0.15 %
	worst, worstD8 := 0.0, 0.0
	for deg := range 360 {
		for phase := range 4 {
			sin, cos := math.Sincos(float64(deg) * math.Pi / 180)
			shift := float64(phase) / 4
			cells := digitised(func(s float64) vertex {
				return vertex{150*s*cos - shift*sin, 150*s*sin + shift*cos}
			})
			want := cells[0].distance(cells[len(cells)-1])
			worst = max(worst, math.Abs(lengthOf(smooth(cells))/want-1))
			worstD8 = max(worstD8, lengthOf(cells)/want-1)
		}
	}
	t.Logf("worst error of length: smoothed %.2f %%, along D8 %.2f %%", 100*worst, 100*worstD8)
	if worst > tolerance {
		t.Errorf("smoothed length is off by %.3f %%, allowed %.3f %%", 100*worst, 100*tolerance)
	}
	if worstD8 < 0.08 { // closed form 8.24 % at 22.5°: the test must see the bias it is about
		t.Errorf("D8 is %.2f %% long at worst; the drawn lines are not those of D8", 100*worstD8)
	}
}

func TestBends(t *testing.T) {
	// Half circles that begin and end in cell centres: true length πR.
	for _, tt := range []struct {
		radius    float64
		tolerance float64 // relative
	}{
		{10, 0.015}, {11, 0.015}, {12, 0.015}, {15, 0.015}, {20, 0.01}, {30, 0.01}, {50, 0.01}, {100, 0.01},
	} {
		cells := digitised(func(s float64) vertex {
			sin, cos := math.Sincos(math.Pi * s)
			return vertex{tt.radius * cos, tt.radius * sin}
		})
		for k := 1; k < len(cells); k++ {
			if cells[k].distance(cells[k-1]) > 1.5 {
				t.Fatalf("radius %v: the drawn bend has a gap at %v", tt.radius, cells[k])
			}
		}
		got := lengthOf(smooth(cells))/(math.Pi*tt.radius) - 1
		t.Logf("radius %3.0f: smoothed %+.2f %%, along D8 %+.2f %%", tt.radius, 100*got, 100*(lengthOf(cells)/(math.Pi*tt.radius)-1))
		if math.Abs(got) > tt.tolerance {
			t.Errorf("radius %v: off by %+.2f %%, allowed %.2f %%", tt.radius, 100*got, 100*tt.tolerance)
		}
	}
}

// anyPath draws a path of steps to any of the eight neighbours, hairpins and all.
func anyPath(r *rapid.T) []vertex {
	line := []vertex{{0, 0}}
	for _, m := range rapid.SliceOfN(rapid.IntRange(0, 7), 0, 40).Draw(r, "moves") {
		step := [8][2]float64{{1, 0}, {1, 1}, {0, 1}, {-1, 1}, {-1, 0}, {-1, -1}, {0, -1}, {1, -1}}[m]
		last := line[len(line)-1]
		line = append(line, vertex{last.col + step[0], last.row + step[1]})
	}
	return line
}

func TestSmoothKeepsEndsAndStaysNear(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		line := anyPath(r)
		out := smooth(line)
		n := len(line) - 1
		if len(out) != len(line) || out[0] != line[0] || out[n] != line[n] {
			r.Fatalf("ends moved: %v to %v", line, out)
		}
		for k := range out {
			if d := out[k].distance(line[k]); d > maxShiftCells+1e-12 { // rounding only
				r.Fatalf("vertex %d moved by %v cells", k, d)
			}
		}
		if lengthOf(out) > lengthOf(line)+1e-9 { // rounding only
			r.Fatalf("the line grew from %v to %v", lengthOf(line), lengthOf(out))
		}
	})
}

func TestCornerIsRounded(t *testing.T) {
	// Three passes of 1 : 2 : 1 are 1 : 6 : 15 : 20 : 15 : 6 : 1 over 64. At a right angle each
	// arm pulls the corner by (1·15 + 2·6 + 3·1)/64 = 30/64 and the vertex beside it, on the
	// other arm, by (1·6 + 2·1)/64 = 8/64.
	var line []vertex
	for k := range 6 {
		line = append(line, vertex{float64(k - 6), 0})
	}
	for k := range 7 {
		line = append(line, vertex{0, float64(k)})
	}
	out := smooth(line)
	if want := (vertex{-30.0 / 64, 30.0 / 64}); out[6] != want {
		t.Errorf("corner at %v, want %v", out[6], want)
	}
	if want := 8.0 / 64; out[5].row != want || out[7].col != -want {
		t.Errorf("beside the corner %v and %v, want %v off the arms", out[5], out[7], want)
	}
}

func TestHairpinIsHeldBack(t *testing.T) {
	// Ten cells out along a diagonal and back along the same: three passes alone would pull the tip by
	// √2 · 60/64 = 1.33 cells (mean distance from the middle of six coin tosses, twice).
	var line []vertex
	for k := -10; k <= 10; k++ {
		far := 10 - math.Abs(float64(k))
		line = append(line, vertex{far, far})
	}
	if d := smooth(line)[10].distance(line[10]); math.Abs(d-maxShiftCells) > 1e-12 {
		t.Errorf("the tip moved by %v cells, want %v", d, maxShiftCells)
	}
}

func TestLengthTurnsWithTheGrid(t *testing.T) {
	turns := map[string]func(vertex) vertex{
		"mirror east-west":   func(v vertex) vertex { return vertex{-v.col, v.row} },
		"mirror north-south": func(v vertex) vertex { return vertex{v.col, -v.row} },
		"quarter turn":       func(v vertex) vertex { return vertex{v.row, -v.col} },
		"transpose":          func(v vertex) vertex { return vertex{v.row, v.col} },
		"moved":              func(v vertex) vertex { return vertex{v.col + 70_000, v.row + 9_001} },
	}
	rapid.Check(t, func(r *rapid.T) {
		line := anyPath(r)
		for name, turn := range turns {
			turned := make([]vertex, len(line))
			for k, v := range line {
				turned[k] = turn(v)
			}
			if a, b := lengthOf(smooth(line)), lengthOf(smooth(turned)); math.Abs(a-b) > 1e-9*(1+a) { // only where a hairpin is held back is there rounding at all
				r.Fatalf("%s: length %v, was %v", name, b, a)
			}
		}
	})
}

func TestStationsOf(t *testing.T) {
	// 3-4-5 triangle, then 2 straight on: from the lower end 0, 2, 7.
	got := stationsOf([]vertex{{0, 0}, {3, 4}, {5, 4}})
	if want := [3]float64{7, 2, 0}; got[0] != want[0] || got[1] != want[1] || got[2] != want[2] {
		t.Errorf("stations %v, want %v", got, want)
	}
}
