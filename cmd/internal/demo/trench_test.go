package demo

import (
	"math"
	"slices"
	"testing"

	"github.com/paulmach/orb"
)

// around returns the elevations of the cells within a metre of a place, m, in rising order.
func around(r *Ranch, p orb.Point) []float64 {
	g := r.Grid
	var z []float64
	c0, r0 := g.Transform.ColRow(p[0]-1, p[1]+1)
	c1, r1 := g.Transform.ColRow(p[0]+1, p[1]-1)
	for row := r0; row <= r1; row++ {
		for col := c0; col <= c1; col++ {
			if g.Inside(col, row) {
				z = append(z, float64(g.At(col, row))/1000)
			}
		}
	}
	slices.Sort(z)
	return z
}

// groundAt returns the mean around a place, which takes most of the texture away.
func groundAt(r *Ranch, p orb.Point) float64 {
	z := around(r, p)
	total := 0.0
	for _, v := range z {
		total += v
	}
	return total / float64(len(z))
}

// bedAt returns the ground at a place between the four cells around it, m: all of them lie
// on a bed 2 m wide where groundAt would reach its banks.
func bedAt(r *Ranch, p orb.Point) float64 {
	c := &canvas{r.Grid}
	return c.heightM(spot{p[0] - westM, northM - p[1]})
}

// bankTops returns the ground at a distance to both sides of a known place of a trench, m,
// each the mean of three places a metre apart along it.
func bankTops(r *Ranch, line []orb.Point, k int, distM float64) (left, right float64) {
	a, b := line[max(k-1, 0)], line[min(k+1, len(line)-1)]
	l := math.Hypot(b[0]-a[0], b[1]-a[1])
	ux, uy := (b[0]-a[0])/l, (b[1]-a[1])/l
	for d := -1.0; d <= 1; d++ {
		x, y := line[k][0]+d*ux, line[k][1]+d*uy
		left += bedAt(r, orb.Point{x - uy*distM, y + ux*distM}) / 3
		right += bedAt(r, orb.Point{x + uy*distM, y - ux*distM}) / 3
	}
	return left, right
}

func TestTrenchDepths(t *testing.T) {
	eachRanch(t, func(t *testing.T, r *Ranch) {
		measured := 0
		for _, tr := range r.Truth.Trenches {
			for _, k := range tr.MeasuredAt {
				d := tr.DepthM[k]
				if d < 0.55 || d > 1.85 {
					t.Errorf("%s: depth %.2f m; want 0.6 to 1.8 m", tr.ID, d)
				}
				// The bank top is half the bed and the run of the bank away; a metre beyond it lies floor,
				// or on one side already the foot of the hill.
				left, right := bankTops(r, tr.Line, k, tr.BedWidthM/2+d*tr.BankRun+1)
				got := min(left, right) - bedAt(r, tr.Line[k])
				// 0.1 m: texture of 2 cm on both, and a floor that rises a little outward.
				if math.Abs(got-d) > 0.1 {
					t.Errorf("%s at %v: depth %.3f m measured, %.3f m known", tr.ID, tr.Line[k], got, d)
				}
				measured++
			}
		}
		if measured < 300 {
			t.Errorf("only %d depths could be measured", measured)
		}
	})
}

func TestBedFallsDownstream(t *testing.T) {
	eachRanch(t, func(t *testing.T, r *Ranch) {
		for _, tr := range r.Truth.Trenches {
			for k := 1; k < len(tr.BedM); k++ {
				if tr.BedM[k] >= tr.BedM[k-1] {
					t.Errorf("%s: known bed rises at %v", tr.ID, tr.Line[k])
				}
			}
			low := math.Inf(1)
			for _, k := range tr.MeasuredAt {
				got := bedAt(r, tr.Line[k])
				// 0.08 m: four standard deviations of the texture.
				if got > low+0.08 {
					t.Errorf("%s: bed rises by %.3f m at %v", tr.ID, got-low, tr.Line[k])
				}
				if off := got - tr.BedM[k]; math.Abs(off) > 0.1 {
					t.Errorf("%s: bed %.3f m off at %v", tr.ID, off, tr.Line[k])
				}
				low = min(low, got)
			}
		}
	})
}

func TestHeadcutSteps(t *testing.T) {
	eachRanch(t, func(t *testing.T, r *Ranch) {
		if len(r.Truth.Headcuts) < len(r.Truth.Trenches)-1 {
			t.Errorf("%d headcuts on %d trenches", len(r.Truth.Headcuts), len(r.Truth.Trenches))
		}
		for _, h := range r.Truth.Headcuts {
			if h.HeightM < 0.6 || h.HeightM > 1.5 {
				t.Errorf("%s: headcut of %.2f m; want 0.6 to 1.5 m", h.Trench, h.HeightM)
			}
			const away = 3.0 // m above and below the lip
			up := orb.Point{h.At[0] - away*h.Toward[0], h.At[1] - away*h.Toward[1]}
			down := orb.Point{h.At[0] + away*h.Toward[0], h.At[1] + away*h.Toward[1]}
			got := bedAt(r, up) - bedAt(r, down) - 2*away*h.Grade
			// 0.15 m: texture, and a grade that is not quite even.
			if math.Abs(got-h.HeightM) > 0.15 {
				t.Errorf("%s at %v: step %.3f m measured, %.3f m known", h.Trench, h.At, got, h.HeightM)
			}
		}
	})
}

func TestTrenchesMeet(t *testing.T) {
	eachRanch(t, func(t *testing.T, r *Ranch) {
		byID := map[string]Trench{}
		for _, tr := range r.Truth.Trenches {
			byID[tr.ID] = tr
		}
		meetings := 0
		for _, tr := range r.Truth.Trenches {
			if tr.Into == "" {
				continue
			}
			meetings++
			other := byID[tr.Into]
			near, bed := math.Inf(1), 0.0
			for k, p := range other.Line {
				if d := math.Hypot(p[0]-tr.End[0], p[1]-tr.End[1]); d < near {
					near, bed = d, other.BedM[k]
				}
			}
			// 2 m: known places are 4 m apart. 0.3 m: the bed falls up to 0.1 m between two of
			// them, and the last metres of the smaller trench keep their least fall.
			if near > 2.1 || math.Abs(bed-tr.BedM[len(tr.BedM)-1]) > 0.3 {
				t.Errorf("%s ends %.2f m from the line of %s, bed %.2f m for %.2f m", tr.ID, near, tr.Into, tr.BedM[len(tr.BedM)-1], bed)
			}
		}
		if meetings < 1 {
			t.Errorf("%d trenches meet another", meetings)
		}
	})
}
