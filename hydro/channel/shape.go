package channel

import (
	"fmt"
	"math"
)

// How a bank is told as a line of its own. Source: our own choices.
const (
	pureCells = 0.25 // so near a break, in cell sides, a bilinear sample mixes both sides of it
	leastPure = 4    // so many samples on the bank alone tell its slope
)

// straight is a bank as a line, z = at + slope·i, with the offsets of its ends in samples outward.
type straight struct {
	at, slope float64
	toe, top  float64
	seenToe   float64 // toe as the samples show it
	told      bool    // by samples that lie on the bank alone
}

// topM returns the level of the top above the thalweg's sample, m.
func (b straight) topM() float64 { return b.at + b.slope*b.top }

// reaches returns the offset at which a bank reaches a level, between its ends.
func (b straight) reaches(levelM float64) float64 {
	return min(b.top, max(b.toe, (levelM-b.at)/b.slope))
}

// sharpened returns a bank freed of what the cells add to its length. Of a wall they make a bank one cell long, and a
// bank of half a cell hardly looks longer; one that looks a cell long is taken to be a quarter of one, and one of
// two cells or more to be as long as it looks. A bank told by samples of its own is kept. groundAt and
// ground are the line of the ground beyond, cell is the length of a cell as seen along the section, in
// samples. Source: our own choice, by what drawn banks look like.
func (b straight) sharpened(groundAt, ground, cell float64) straight {
	run := b.top - b.toe
	over := max(0, 2-run/cell)
	off := min(run, cell*over*over) * 3 / 8
	if b.told || off <= 0 {
		return b
	}
	bed := b.at + b.slope*b.toe
	out := b
	out.toe += off
	out.top -= off
	if out.slope = (groundAt + ground*out.top - bed) / (out.top - out.toe); !(out.slope > 0) {
		return b
	}
	out.at = bed - out.slope*out.toe
	return out
}

// straighten returns the bank that was found as a line of its own. Where the samples that lie on the bank
// alone are enough, it goes through those; its top is where it meets the ground beyond, its toe where
// it meets the bed. acrossCell is the length of a cell as seen along the section, in samples.
func (s *side) straighten(b bank, bedM, stepM, acrossCell float64) straight {
	const cell = 1 / stepCells
	at, slope, told := s.line(b.toe+cell*pureCells, b.top-cell*pureCells, leastPure)
	if told = told && slope >= b.bank/2; !told {
		at, slope = b.bedM-b.bank*b.toe, b.bank
	}
	out := straight{at: at, slope: slope, toe: b.toe, top: b.top, told: told}
	beyond := b.top + groundBeyond(b.top-b.toe, levelCells, levelM, stepM)
	groundAt, ground, ok := s.line(b.top+cell*pureCells, beyond, leastPure)
	if !ok {
		groundAt, ground = b.bedM+b.riseM()-b.ground*b.top, b.ground
	}
	if ground < slope {
		out.top = min(b.top+cell, max(b.top-cell, (groundAt-at)/(slope-ground)))
	}
	out.seenToe = b.toe
	out.toe = min(out.top-1e-6, max(0, b.toe-cell, min(b.toe+cell, (bedM-at)/slope)))
	return out.sharpened(groundAt, ground, acrossCell)
}

// bedBetween returns the mean level between two toes, left and right of the thalweg in samples, above its
// sample, m. Where there is room samples beside the toes are left out: they mix bed and bank.
func (m *meter) bedBetween(left, right float64) float64 {
	inset := min(1, max(0, (left+right-2)/2))
	from, to := int(math.Ceil(inset-left)), int(math.Floor(right-inset))
	sum := 0.0
	for i := from; i <= to; i++ {
		if i < 0 {
			sum += m.left.z[-i]
		} else {
			sum += m.right.z[i]
		}
	}
	return sum / float64(to-from+1)
}

// shape measures a section with a bank on both sides.
func (m *meter) shape(s *Section, foundLeft, foundRight bank) {
	baseM := float64(s.MM[len(s.MM)/2]) / 1000
	bed := m.bedBetween(foundLeft.toe, foundRight.toe)
	left := m.left.straighten(foundLeft, bed, m.stepM, s.acrossCell())
	right := m.right.straighten(foundRight, bed, m.stepM, s.acrossCell())
	// Where the lines of both banks meet.
	tip := (left.at - right.at) / (left.slope + right.slope)
	hidden := 0.0 // how much lower than it shows the bed may lie
	narrow := left.seenToe+right.seenToe < tipCells/stepCells
	if narrow {
		hidden = max(0, bed-(right.at+right.slope*tip))
		bed -= hidden
		tip = min(right.toe, max(-left.toe, tip))
		left.toe, right.toe = -tip, tip
	}
	level := min(left.topM(), right.topM())
	depth := level - bed
	if !(depth > 0) || !(left.top > left.toe) || !(right.top > right.toe) {
		m.noBanks(s)
		return
	}
	s.BedM, s.DepthM = baseM+bed, depth
	s.Left, s.Right = m.bankOf(left, bed, -1), m.bankOf(right, bed, 1)
	s.BedWidthM = max(0, left.toe+right.toe) * m.stepM
	fromM, toM := -left.reaches(level)*m.stepM, right.reaches(level)*m.stepM
	s.TopWidthM = max(toM-fromM, s.BedWidthM)
	s.AreaM2 = s.areaBelow(baseM+level, fromM, toM)
	s.Fit = trapezoidOf(s.AreaM2, s.TopWidthM, depth)
	s.Fit.ResidualM = s.residual(s.Fit, fromM, toM)
	switch {
	case s.TopWidthM < leastTopCells*m.cellM:
		s.Why = fmt.Sprintf("%.2g m wide at the top, under three cells of %.3g m", s.TopWidthM, m.cellM)
	case narrow && !(left.told && right.told):
		s.Why = fmt.Sprintf("neither the bed nor the banks can be told on cells of %.3g m", m.cellM)
	case hidden > max(tipM, tipShare*depth):
		s.Why = fmt.Sprintf("the bed is narrower than a cell of %.3g m and may lie %.2g m lower than it shows", m.cellM, hidden)
	default:
		s.Resolved = true
	}
}

// acrossCell returns the length of a cell as seen along a section, in samples: a side along the grid, a diagonal
// at 45°.
func (s *Section) acrossCell() float64 { return (math.Abs(s.DX) + math.Abs(s.DY)) / stepCells }

// oneBank tells the only bank found of a section.
func (m *meter) oneBank(s *Section, on *side, found bank, dir float64) Bank {
	s.BedM = float64(s.MM[len(s.MM)/2])/1000 + found.bedM
	return m.bankOf(on.straighten(found, found.bedM, m.stepM, s.acrossCell()), found.bedM, dir)
}

// bankOf returns a bank in metres; dir is −1 on the left.
func (m *meter) bankOf(b straight, bedM, dir float64) Bank {
	return Bank{ToeM: dir * b.toe * m.stepM, TopM: dir * b.top * m.stepM, HeightM: b.topM() - bedM, Slope: b.slope / m.stepM}
}

// areaBelow returns the area between the samples and a level they reach at two offsets, by trapezoids, m².
func (s *Section) areaBelow(levelM, fromM, toM float64) float64 {
	area, lastM, lastDeep := 0.0, fromM, 0.0
	for i, z := range s.MM {
		at := s.FirstM + float64(i)*s.StepM
		if at <= fromM || at >= toM {
			continue
		}
		deep := levelM - float64(z)/1000
		area += (at - lastM) * (deep + lastDeep) / 2
		lastM, lastDeep = at, deep
	}
	return max(0, area+(toM-lastM)*lastDeep/2)
}

// residual returns the root mean square difference of the samples between two offsets from a shape that stands in
// their middle, m.
func (s *Section) residual(t Trapezoid, fromM, toM float64) float64 {
	sum, n := 0.0, 0
	middleM := (fromM + toM) / 2
	for i, z := range s.MM {
		at := s.FirstM + float64(i)*s.StepM
		if at < fromM || at > toM {
			continue
		}
		d := float64(z)/1000 - s.BedM - t.heightM(at-middleM)
		sum += d * d
		n++
	}
	if n == 0 {
		return 0
	}
	return math.Sqrt(sum / float64(n))
}
