package chart

import (
	"math"
	"slices"
	"strconv"

	"siltstep/cmd/internal/units"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg/draw"
)

// Room left free on the page around what is drawn, points: above for the dam labels.
const (
	roomAbove = 52
	roomBelow = 8
)

// leastReliefM is the least range of the elevation axis without room, m, so that a level
// profile has axes too. Our own choice.
const leastReliefM = 0.5

// roundScales are the vertical exaggerations that a drawing is fitted to, in each decade.
var roundScales = []float64{1, 1.5, 2, 3, 4, 5, 6, 8}

// fit returns axes fitted to the canvas and their vertical exaggeration, measured. The
// width of the tick labels hangs on the range and the range on the width, so it settles
// in a few rounds.
func fit(p Profile, system units.System, c draw.Canvas) (axes *plot.Plot, exaggeration float64) {
	unit := system.LengthScale()
	lo, hi := p.rangeM()
	a := newAxes(p, system)
	return a, fitY(a, c, unit.Value(lo), unit.Value(max(hi, lo+leastReliefM)), roomAbove, roomBelow)
}

// fitY fits the elevation axis to a range, room above and below left free (points), and returns the
// vertical exaggeration, measured.
func fitY(a *plot.Plot, c draw.Canvas, lo, hi, above, below float64) (exaggeration float64) {
	a.Y.Min, a.Y.Max = lo, hi
	for range 4 {
		box := a.DataCanvas(c).Size()
		across := float64(box.X) / (a.X.Max - a.X.Min) // points a unit
		up := (float64(box.Y) - above - below) / (hi - lo)
		if round := roundDown(up / across); round > 0 {
			up = round * across
		}
		a.Y.Min = lo - below/up
		a.Y.Max = a.Y.Min + float64(box.Y)/up
	}
	box := a.DataCanvas(c).Size()
	return float64(box.Y) / (a.Y.Max - a.Y.Min) / (float64(box.X) / (a.X.Max - a.X.Min))
}

// roundDown returns the largest round scale not above v; 0 where v is not positive.
func roundDown(v float64) float64 {
	if !(v > 0) || math.IsInf(v, 0) {
		return 0
	}
	decade := math.Pow(10, math.Floor(math.Log10(v)))
	best := decade
	for _, r := range roundScales {
		if r*decade <= v {
			best = r * decade
		}
	}
	return best
}

// mostTicks is the most labelled ticks of an axis.
const mostTicks = 9

// endRoom is the share of the elevation axis at each end that stays free of ticks: a label
// there would push the axes inwards, and the scale with them.
const endRoom = 0.03

// inner is ticks without those near the ends.
func inner(lo, hi float64) []plot.Tick {
	room := endRoom * (hi - lo)
	return slices.DeleteFunc(ticks(lo, hi), func(t plot.Tick) bool { return t.Value < lo+room || t.Value > hi-room })
}

// ticks places labelled ticks at 1, 2 or 5 times a power of ten, as many as mostTicks allows.
func ticks(lo, hi float64) []plot.Tick {
	step := math.Pow(10, math.Floor(math.Log10((hi-lo)/mostTicks)))
	for _, k := range []float64{1, 2, 5, 10} {
		if (hi-lo)/(k*step) <= mostTicks {
			step *= k
			break
		}
	}
	decimals := max(0, int(-math.Floor(math.Log10(step)+1e-9)))
	var out []plot.Tick
	for k := math.Ceil(lo/step - 1e-9); k*step <= hi+1e-9*step; k++ {
		out = append(out, plot.Tick{Value: k * step, Label: strconv.FormatFloat(k*step+0, 'f', decimals, 64)})
	}
	return out
}
