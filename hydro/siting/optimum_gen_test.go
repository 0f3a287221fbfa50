package siting

import (
	"math"
	"math/rand/v2"
	"slices"
)

// snap brings a length to whole 1,024ths of a metre: sums and differences of such lengths are exact, and so are ties.
func snap(m float64) float64 { return math.Round(1024*m) / 1024 }

// drawnBed is a bed as a broken line with a corner every stepM, the first at 0.
type drawnBed struct {
	stepM  float64
	levels []float64
}

func (b drawnBed) lengthM() float64 { return b.stepM * float64(len(b.levels)-1) }

// levelM returns the bed at a station.
func (b drawnBed) levelM(s float64) float64 {
	i := min(int(s/b.stepM), len(b.levels)-2)
	return b.levels[i] + (s-float64(i)*b.stepM)/b.stepM*(b.levels[i+1]-b.levels[i])
}

// meetM returns where the bed above a station first stands at a level; the upper end where it never does.
func (b drawnBed) meetM(from, level float64) float64 {
	for i := range b.levels {
		lo, hi := max(from, float64(i-1)*b.stepM), float64(i)*b.stepM
		if hi <= from || b.levels[i] < level {
			continue
		}
		z := b.levelM(lo)
		return lo + (level-z)/(b.levels[i]-z)*(hi-lo)
	}
	return b.lengthM()
}

// anyBed draws a bed that does not descend: even, stepped, concave, noisy or nearly flat.
func anyBed(r *rand.Rand, lengthM float64) drawnBed {
	b := drawnBed{stepM: 1, levels: []float64{100}}
	kind, grade := r.IntN(5), 0.02+0.13*r.Float64()
	for s := 1.0; s <= lengthM; s++ {
		rise := grade
		switch kind {
		case 1:
			if rise = grade / 4; r.IntN(6) == 0 {
				rise = 0.3 + 0.7*r.Float64()
			}
		case 2:
			rise = 2 * grade * s / lengthM
		case 3:
			rise = max(0, grade*(1+2*r.NormFloat64()))
		case 4:
			rise = 0.004
		}
		b.levels = append(b.levels, b.levels[len(b.levels)-1]+snap(rise))
	}
	return b
}

// A terms is what a problem is drawn by.
type terms struct {
	bed       drawnBed
	ratio     float64   // of the deposit
	heights   []float64 // rising
	bodyScale float64   // of the bodies
	barM      float64   // where wedges are cut off; infinite for nowhere
	rock      int       // how it is drawn
	lips      float64   // how often a place has one
}

// anyProblem draws a small problem of up to most places.
func anyProblem(r *rand.Rand, most int) *problem {
	places := 2 + r.IntN(most-1)
	lengthM := float64(8 + r.IntN(5*places))
	t := terms{
		bed:       anyBed(r, lengthM),
		ratio:     0.5 * float64(r.IntN(2)),
		heights:   slices.Clone([]float64{0.25, 0.375, 0.625}[r.IntN(3):]),
		bodyScale: []float64{1, 0.5, 0.125}[r.IntN(3)],
		barM:      math.Inf(1),
		rock:      r.IntN(5),
		lips:      []float64{0, 0, 0.25, 0.6}[r.IntN(4)],
	}
	if r.IntN(3) == 0 {
		t.barM = snap(lengthM * r.Float64())
	}
	p := &problem{fixedKg: int64(r.IntN(2)) * 1000, need: anyNeed(r, lengthM)}
	axes := anyAxes(r, t, places)
	for _, axisM := range axes {
		p.options = append(p.options, anyPlace(r, t, axisM)...)
	}
	askSome(r, p, axes)
	p.siltL = anySilt(r, axes)
	return p
}

// anySilt draws the width of a trough for each place and returns what it holds, litres.
func anySilt(r *rand.Rand, axes []float64) func(o *option, toM float64) int64 {
	widths := map[float64]float64{}
	for _, axisM := range axes {
		widths[axisM] = float64(r.IntN(6))
	}
	return func(o *option, toM float64) int64 {
		x := min(toM, o.endM) - o.axisM
		if x <= 0 {
			return 0
		}
		full := o.meetM - o.axisM
		return int64(1000 * widths[o.axisM] * o.heightM * x * (1 - x/(2*full)))
	}
}

// anyNeed draws up to four spans apart from each other.
func anyNeed(r *rand.Rand, lengthM float64) (all []span) {
	if r.IntN(3) == 0 {
		return []span{{0, lengthM}}
	}
	ends := make([]float64, 2*r.IntN(5))
	for i := range ends {
		ends[i] = snap(lengthM * r.Float64())
	}
	slices.Sort(ends)
	ends = slices.Compact(ends)
	for i := 0; i+1 < len(ends); i += 2 {
		all = append(all, span{ends[i], ends[i+1]})
	}
	return all
}

// anyAxes draws places: anywhere, or just where a wedge from a lower one ends.
func anyAxes(r *rand.Rand, t terms, n int) (axes []float64) {
	lengthM := t.bed.lengthM()
	for range n {
		s := snap((lengthM - 1) * r.Float64())
		if len(axes) > 0 && r.IntN(3) == 0 {
			from, h := axes[r.IntN(len(axes))], t.heights[r.IntN(len(t.heights))]
			s = snap(t.bed.meetM(from, t.bed.levelM(from)+h/(1-t.ratio)))
		}
		if s < lengthM {
			axes = append(axes, s)
		}
	}
	slices.Sort(axes)
	return slices.Compact(axes)
}

// anyPlace draws the options of one place, at times fewer than there are heights.
func anyPlace(r *rand.Rand, t terms, axisM float64) (all []option) {
	bedM := snap(t.bed.levelM(axisM))
	lip := lipNeed{axisM, math.Inf(-1)}
	if r.Float64() < t.lips {
		s := snap(max(0, axisM-4*r.Float64()))
		lip = lipNeed{s, snap(t.bed.levelM(s))}
	}
	heights := t.heights
	if r.IntN(4) == 0 {
		heights = heights[:1+r.IntN(len(heights))]
	}
	for _, h := range heights {
		o := option{
			axisM: axisM, heightM: h, bedM: bedM, lip: lip,
			upM: snap(t.bodyScale * (0.25 + 1.5*h)), downM: snap(t.bodyScale * (0.25 + 3*h)),
			meetM: max(axisM+1.0/1024, snap(t.bed.meetM(axisM, t.bed.levelM(axisM)+h/(1-t.ratio)))),
		}
		o.endM = o.meetM
		if t.barM > axisM {
			o.endM = min(o.endM, t.barM)
		}
		switch t.rock {
		case 0: // one cost for all
			o.rockKg = 700
		case 1: // by the section
			o.rockKg = int64(20_000 * h * h)
		case 2: // near nothing
			o.rockKg = int64(r.IntN(3))
		case 3:
			o.rockKg = int64(r.IntN(5000))
		}
		all = append(all, o)
	}
	return all
}

// askSome makes the field ask for no place, one, or two, at times next to each other: for the lowest height or for any.
func askSome(r *rand.Rand, p *problem, axes []float64) {
	asked := map[float64]bool{}
	k := r.IntN(len(axes))
	switch r.IntN(6) {
	case 0:
		asked[axes[k]] = true
	case 1:
		asked[axes[k]], asked[axes[r.IntN(len(axes))]] = true, true
	case 2:
		asked[axes[k]], asked[axes[min(k+1, len(axes)-1)]] = true, true
	}
	one := r.IntN(2) == 0
	kept := map[float64]bool{}
	p.options = slices.DeleteFunc(p.options, func(o option) bool {
		again := kept[o.axisM]
		kept[o.axisM] = true
		return asked[o.axisM] && one && again
	})
	for i := range p.options {
		if o := &p.options[i]; asked[o.axisM] {
			o.must, o.lip = true, lipNeed{o.axisM, math.Inf(-1)} // steps are not held against it
		}
	}
}
