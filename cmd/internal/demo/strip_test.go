package demo

import (
	"math"
	"testing"

	"siltstep/raster"
)

// slowStrip measures every cell of the canvas against every metre of the line.
func slowStrip(c *canvas, l line, reachM float64) map[int]float64 {
	out := map[int]float64{}
	for i := range c.MM {
		p := c.spotOf(c.ColRow(i))
		best := math.Inf(1)
		for k := range l.length() {
			leg := l.at[k+1].minus(l.at[k])
			t := min(max(p.minus(l.at[k]).dot(leg)/leg.dot(leg), 0), 1)
			best = min(best, p.minus(l.at[k].plus(leg.times(t))).length())
		}
		if best < reachM {
			out[i] = best
		}
	}
	return out
}

func TestStripFindsEveryCellOnce(t *testing.T) {
	c := &canvas{raster.New(150, 120, raster.Transform{CellM: 1})}
	var at []spot
	for k := range 40 {
		x := float64(k) * 4
		at = append(at, spot{x - 10, 60 + 25*math.Sin(x/30)})
	}
	l := drawLine(at, make([]float64, len(at)))
	want := slowStrip(c, l, 9)
	seen := map[int]bool{}
	for _, n := range c.strip(l, 9) {
		if seen[n.cell] {
			t.Fatalf("cell %d twice", n.cell)
		}
		seen[n.cell] = true
		// 1e-9 m: the same sums in another order.
		if math.Abs(n.sideM-want[n.cell]) > 1e-9 {
			t.Fatalf("cell %d: %.9f m; want %.9f m", n.cell, n.sideM, want[n.cell])
		}
	}
	if len(seen) != len(want) {
		t.Errorf("%d cells; want %d", len(seen), len(want))
	}
}
