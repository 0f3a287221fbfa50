package demo

import (
	"errors"
	"math"
)

// Measures of the stock pond and its earth dam.
const (
	pondRadiusM   = 20.0
	pondUneven    = 0.14 // share by which the shore bends in and out
	pondDamTopM   = 0.9  // dam top above the water
	pondTopWidthM = 4.0  // of the dam
	pondSideRun   = 2.0  // horizontal run of the dam's sides and of the cut bank, per metre of height
	pondReachM    = 40.0 // nothing is built farther than this from the middle
)

// pond is an earth-dammed stock pond with a level, still surface.
type pond struct {
	middle spot
	waterM float64
	down   spot // unit vector down the valley
	shape  noise
}

// radiusM returns the distance of the shore in a direction, a unit vector.
func (p *pond) radiusM(dir spot) float64 {
	return pondRadiusM * (1 + float64(pondUneven*p.shape.at(5+float64(1.3*dir.e), 5+float64(1.3*dir.s))))
}

// layPond finds a small drainage without a trench for the pond and builds it.
func (b *builder) layPond() error {
	best, score := line{}, math.Inf(1)
	at := 0
	for k, s := range b.stems {
		if b.taken[k] || len(s.cells) < 25 {
			continue
		}
		l := lineOf(b.land, b.routing, s)
		for m := 30; m < l.length()-40; m += 10 {
			if v, ok := b.pondScore(l, m); ok && v < score {
				best, at, score = l, m, v
			}
		}
	}
	if best.at == nil {
		return errors.New("no small drainage suits a stock pond; try another seed")
	}
	p := &pond{middle: best.at[at], down: best.along(at), shape: noise{mix(b.land.rand.seed + 303)}}
	p.waterM = b.canvas.heightM(p.middle) + 0.1
	b.pond = p
	b.digPond(p)
	return nil
}

// pondScore judges a place for the pond by its slope, the gentler the better; ok is false
// where it does not suit.
func (b *builder) pondScore(l line, m int) (float64, bool) {
	a, p := l.areaM2[m], l.at[m]
	if a < 8000 || a > 30000 || !b.limits.holds(p, 60) || b.nearGully(p, 70) {
		return 0, false
	}
	slope := (b.groundM(l.at[m-20]) - b.groundM(l.at[m+20])) / 40
	return slope, slope > 0.03
}

// digPond shapes the canvas: still water, a dam below it, a cut bank above it.
func (b *builder) digPond(p *pond) {
	w := b.canvas.around([]spot{p.middle}, pondReachM)
	for row := w.top; row <= w.bottom; row++ {
		for col := w.left; col <= w.right; col++ {
			d := b.canvas.spotOf(col, row).minus(p.middle)
			i := b.canvas.Index(col, row)
			b.canvas.set(i, p.surfaceM(d, float64(b.canvas.MM[i])/1000))
		}
	}
}

// surfaceM returns the finished level at an offset from the middle, from the ground there:
// water within the shore, a cut bank where the ground is higher, a dam where it is lower,
// which runs out toward the upper end.
func (p *pond) surfaceM(d spot, ground float64) float64 {
	shore := d.length() - p.radiusM(d.unit())
	if shore <= 0 {
		return p.waterM
	}
	rise := float64(shore / pondSideRun)
	if ground > p.waterM+rise {
		return p.waterM + rise
	}
	top := pondDamTopM * min(max(2+float64(4*d.unit().dot(p.down)), 0), 1)
	outer := top - (shore-float64(top*pondSideRun)-pondTopWidthM)/pondSideRun
	return max(ground, p.waterM+min(rise, top, outer))
}
