package checkdam

import (
	"math"
	"sort"
)

// fits tells whether a notch lies between the banks: nowhere within its opening does the ground stand above it. Ends are looked at from
// inside, so that an upright bank may bound it.
func (n Notch) fits(s Section, heightM float64) bool {
	const inside, slack = 1e-9, 1e-6 // m
	crest, middle, half := notchedCrest(s, heightM, n), s.BedMiddleM(), n.opensM()/2
	first, last := s.points[0].OffsetM, s.points[len(s.points)-1].OffsetM
	if middle-half < first-slack || middle+half > last+slack {
		return false
	}
	at := breaks(s.points, crest)
	for i := 1; i < len(at); i++ {
		left, right := max(at[i-1], middle-half), min(at[i], middle+half)
		if right-left <= 2*inside {
			continue
		}
		mid := (left + right) / 2
		for _, x := range []float64{left + inside, right - inside} {
			if levelWithin(s.points, x, mid) > levelWithin(crest, x, mid)+slack {
				return false
			}
		}
	}
	return true
}

// narrowSteps is how many widths of the bed are tried for a notch whose sides would cut into the banks. Own choice.
const narrowSteps = 20

// fittedNotch sizes a notch. Where its width is left open and one as wide as the bed would cut into the banks, it is the widest that
// does not, in steps of a twentieth of the bed; where none fits, the one as wide as the bed. Error: a value out of range.
func fittedNotch(r Request, l Limits) (Notch, error) {
	bedM := r.Section.BedWidthM()
	whole, err := solveNotch(r.Notch, l, bedM, r.PeakM3s)
	if err != nil || r.Notch.WidthM != 0 || bedM == 0 || whole.fits(r.Section, r.HeightM) {
		return whole, err
	}
	for k := narrowSteps - 1; k > 0; k-- {
		ask := r.Notch
		ask.WidthM = bedM * float64(k) / narrowSteps
		n, err := solveNotch(ask, l, bedM, r.PeakM3s)
		if err == nil && n.fits(r.Section, r.HeightM) {
			return n, nil
		}
	}
	return whole, nil
}

// channels counts the parts of a section that lie below a level, with ground at or above it between.
func (s Section) channels(levelM float64) int {
	count, below := 0, false
	for _, p := range s.points {
		under := p.LevelM < levelM
		if under && !below {
			count++
		}
		below = under
	}
	return count
}

// Stone that hands can lift and place.
const (
	liftedM     = 0.3 // m. Source: our own choice: a round stone of 0.3 m weighs 37 kg
	flattestRun = 6.0 // of a face, horizontal run a metre of height, that is offered to make the stone lighter. Own choice
)

// lighterNotchM returns the least width of the notch, in steps of 0.1 m, that brings the stone down to liftedM; NaN where none between
// the banks does. A wider notch never asks for larger stone, so the width is found by halving.
func (d *Design) lighterNotchM() float64 {
	const stepM = 0.1
	first, most := math.Floor(d.Notch.WidthM/stepM)+1, math.Floor(d.CrestM/stepM)
	sized := func(k int) (n Notch, light bool) {
		ask := d.Request.Notch
		ask.WidthM = (first + float64(k)) * stepM
		n, err := solveNotch(ask, d.Limits, d.Request.Section.BedWidthM(), d.Request.PeakM3s)
		if err != nil {
			return n, false
		}
		best, ok := chosen(stones(stoneCaseOf(d.Request, n)))
		return n, ok && best.WithFactorM <= liftedM
	}
	steps := int(max(0, most-first+1))
	k := sort.Search(steps, func(k int) bool { _, light := sized(k); return light })
	if k == steps {
		return math.NaN()
	}
	if n, _ := sized(k); n.fits(d.Request.Section, d.Request.HeightM) {
		return n.WidthM
	}
	return math.NaN()
}

// lighterFace returns the steepest downstream face, in steps of 0.5, flatter than this one that brings the stone down to liftedM; NaN
// where none up to flattestRun does, and for an upright face.
func (d *Design) lighterFace() float64 {
	const step = 0.5
	if d.Request.FaceDown == 0 {
		return math.NaN()
	}
	for run := math.Floor(d.Request.FaceDown/step)*step + step; run <= flattestRun; run += step {
		r := d.Request
		r.FaceDown = run
		if best, ok := chosen(stones(stoneCaseOf(r, *d.Notch))); ok && best.WithFactorM <= liftedM {
			return run
		}
	}
	return math.NaN()
}
