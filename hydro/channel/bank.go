package channel

import "math"

// What counts as a bank. Source: our own choices, tried on drawn trenches and on ground without any; 1 : 3 is
// common practice for ground that stands by itself.
const (
	leastRiseM   = 0.1     // height of the top above the bed, m
	leastRiseErr = 2.5     // the same in standard deviations of a height
	leastSlope   = 1.0 / 3 // rise over run of a bank up to shortM long; flatter ground is the side of a valley
	leastLong    = 0.5     // the same from longM on, and between the two lengths in proportion
	shortM       = 4.0     // m
	longM        = 8.0     // m
	fewCells     = 3.0     // a bank shorter than this, in cell sides, may be one cell longer than it is
	leastFew     = 0.15    // and yet no flatter than this
	flatterShare = 0.5     // slope of the ground beyond a top, as a share of that of the bank
	misfitErr    = 2.5     // root mean square difference from three straight parts, in standard deviations of a height
	misfitShare  = 0.1     // or as a share of the height of the bank, the larger counts
	surely       = 16.0    // so many times the variance of a height a top must take off the sum of squares
	outerTaller  = 1.5     // so many times as high as an inner bank an outer one counts in its stead
	outerSteeper = 0.8     // if its slope is at least this share of the inner one's
)

// How toes and tops are looked for. Source: our own choices.
const (
	bendShare   = 1.0  // least bend of the ground at a toe or top, in standard deviations of a height
	leastCells  = 1.0  // least length of a bank, in cell sides
	groundCells = 2.0  // least length of ground seen beyond a top, in cell sides
	seenCells   = 6.0  // length of it that a fit takes in to find a top, in cell sides
	seenM       = 6.0  // but no less than this, m
	levelCells  = 4.0  // length of it that tells the level of the top, in cell sides
	levelM      = 4.0  // but no less than this, m
	finest      = 0.25 // last step of toe and top, in samples
)

// bank is one side of a section as it was found; offsets are in samples from the thalweg, outward.
type bank struct {
	hinge
	found bool
	n     int     // samples of the fit
	misM  float64 // root mean square difference of the fit, m
}

// findBank finds the bank of a side. Toes and tops are looked for where the ground bends; for each top, from the
// thalweg outward, the toe is the one with which three straight parts fit best as far as a stretch of ground beyond
// the top, and it must fit surely better than a bank that has no top. An outer bank that is much taller and as
// steep takes the place of an inner one. stepM is the length of a sample, errorM the standard deviation of a height.
func (s *side) findBank(stepM, errorM float64) bank {
	s.findBends(bendShare * errorM)
	var best bank
	low, at := 0.0, 0 // of the samples before the top
	for _, top := range s.tops {
		for ; at < int(top); at++ {
			low = min(low, s.z[at])
		}
		least := max(leastRiseM, leastRiseErr*errorM) / 2
		if best.found && top > best.top+best.near() {
			least = outerTaller * best.riseM() * 0.8
			if !s.risesAgain(best) {
				break
			}
		}
		if s.z[at]-low < least {
			continue
		}
		b, ok := s.bankAt(top, stepM, errorM)
		if ok && (!best.found || b.outdoes(best)) {
			best = b
		}
	}
	if best.found {
		best.n = min(best.n, 1+int(best.top+groundBeyond(best.top-best.toe, levelCells, levelM, stepM)))
		best.hinge = s.refine(best.hinge, best.n, 0.5)
		best.misM = math.Sqrt(best.squares / float64(best.n))
		best.found = best.counts(stepM, errorM)
	}
	return best
}

// groundBeyond returns how much ground beyond a top a fit takes in, in samples: the most of two lengths and of half the
// bank's own.
func groundBeyond(run, cells, leastM, stepM float64) float64 {
	return max(cells/stepCells, leastM/stepM, run/2)
}

// near returns how far from its top another is one of the same bank, in samples.
func (b bank) near() float64 { return max(groundCells/stepCells, (b.top-b.toe)/2) }

// outdoes reports whether a bank with its top farther out counts instead of one found before: of the same bank
// the top that fits better, otherwise a taller bank that is as steep.
func (b bank) outdoes(inner bank) bool {
	if b.top <= inner.top+inner.near() {
		return b.misM < inner.misM
	}
	return b.riseM() > outerTaller*inner.riseM() && b.bank > outerSteeper*inner.bank
}

// findBends lists the samples where the ground bends up or down most, near by and over two cells; every toe that can
// be is among the first, every top among the second.
func (s *side) findBends(leastM float64) {
	const one, two = int(1 / stepCells), int(2 / stepCells)
	s.toes, s.tops = append(s.toes[:0], 0), s.tops[:0]
	last := len(s.z) - 1
	bend := func(i, w int) float64 {
		w = min(w, i, last-i)
		return s.z[i-w] + s.z[i+w] - 2*s.z[i]
	}
	a1, b1 := 0.0, bend(min(1, last), one)
	a2, b2 := 0.0, bend(min(1, last), two)
	for i := 1; i < last; i++ {
		c1, c2 := bend(i+1, one), bend(i+1, two)
		if b1 >= leastM && b1 >= a1 && b1 >= c1 || b2 >= leastM && b2 >= a2 && b2 >= c2 {
			s.toes = append(s.toes, float64(i))
		}
		if b1 <= -leastM && b1 <= a1 && b1 <= c1 || b2 <= -leastM && b2 <= a2 && b2 <= c2 {
			s.tops = append(s.tops, float64(i))
		}
		a1, b1, a2, b2 = b1, c1, b2, c2
	}
}

// risesAgain reports whether ground beyond a bank's top stands high enough for an outer bank to count instead.
func (s *side) risesAgain(b bank) bool {
	goal := b.bedM + outerTaller*b.riseM()
	for i := int(b.top); i < len(s.z); i++ {
		if s.z[i] > goal {
			return true
		}
	}
	return false
}

// bankAt looks for a bank with a given top.
func (s *side) bankAt(top, stepM, errorM float64) (bank, bool) {
	n := min(len(s.z), 1+int(top+groundBeyond(top, seenCells, seenM, stepM)))
	if top+groundCells/stepCells > float64(n-1) || top < leastCells/stepCells {
		return bank{}, false
	}
	best := bank{n: n, found: true}
	best.squares = math.Inf(1)
	q, topM := s.beyond(top, n), s.z[int(top)]
	const slack = 0.6 // a single sample may be off
	leastRise, few, long := slack*max(leastRiseM, leastRiseErr*errorM), slack*leastFew*stepM, slack*leastSlope*stepM
	for _, toe := range s.toes {
		if toe > top-leastCells/stepCells {
			break
		}
		rise, run := topM-s.z[int(toe)], top-toe
		if rise < leastRise || rise < few*run || run >= fewCells/stepCells && rise < long*run {
			continue // by far too low or too flat
		}
		if h, ok := s.fitFrom(toe, s.beyond(toe, n), top, q, n); ok && h.squares < best.squares && h.flattens() {
			best.hinge = h
		}
	}
	best.misM = math.Sqrt(best.squares / float64(n))
	if !best.counts(stepM, errorM) {
		return bank{}, false
	}
	return best, s.topless(top, n)-best.squares >= surely*errorM*errorM
}

// topless returns the least sum of squared differences of the first n samples from a bed and a bank without a top.
func (s *side) topless(top float64, n int) float64 {
	least := math.Inf(1)
	for _, toe := range s.toes {
		if toe > top-leastCells/stepCells {
			break
		}
		least = min(least, s.risingFrom(s.beyond(toe, n), n))
	}
	return least
}

// counts reports whether what was found is a bank.
func (b bank) counts(stepM, errorM float64) bool {
	rise := b.riseM()
	least := leastSlope
	switch runM := (b.top - b.toe) * stepM; {
	case b.top-b.toe < fewCells/stepCells && runM < longM:
		least = max(leastFew, rise/(rise/leastSlope+stepM/stepCells))
	case runM > shortM:
		least += (leastLong - leastSlope) * min(1, (runM-shortM)/(longM-shortM))
	}
	return rise >= max(leastRiseM, leastRiseErr*errorM) && b.bank >= least*stepM &&
		b.misM <= max(misfitErr*errorM, misfitShare*rise)
}

// flattens reports whether the ground beyond the top is markedly flatter than the bank.
func (h hinge) flattens() bool { return h.bank > 0 && h.ground <= flatterShare*h.bank }

// refine moves toe and top, one at a time or else both, by ever smaller steps to where the squares are least.
func (s *side) refine(best hinge, n int, step float64) hinge {
	farthest := float64(n-1) - groundCells/stepCells
	for ; step >= finest; step /= 2 {
		for left := 8; left > 0; left-- {
			was := best.squares
			best = s.better(best, n, farthest, [4][2]float64{{-step, 0}, {step, 0}, {0, -step}, {0, step}})
			if best.squares == was {
				best = s.better(best, n, farthest, [4][2]float64{{-step, -step}, {step, step}, {-step, step}, {step, -step}})
			}
			if best.squares == was {
				break
			}
		}
	}
	return best
}

// better returns the best fit to the first n samples of one and those with toe and top moved from it.
func (s *side) better(h hinge, n int, farthest float64, moves [4][2]float64) hinge {
	best := h
	p, q := s.beyond(h.toe, n), s.beyond(h.top, n)
	for _, by := range moves {
		toe, top := h.toe+by[0], h.top+by[1]
		if toe < 0 || top-toe < leastCells/stepCells || top > farthest {
			continue
		}
		p, q := p, q
		if by[0] != 0 {
			p = s.beyond(toe, n)
		}
		if by[1] != 0 {
			q = s.beyond(top, n)
		}
		if m, ok := s.fitFrom(toe, p, top, q, n); ok && m.squares < best.squares && m.flattens() {
			best = m
		}
	}
	return best
}
