package channel

import "math"

// apart leaves out the sections that would cross one below them within the banks. It reuses the slice.
func apart(sections []Section) []Section {
	kept := sections[:0]
	for _, s := range sections {
		if !crossesLast(kept, s) {
			kept = append(kept, s)
		}
	}
	return kept
}

// crossesLast reports whether a section crosses one of the last kept, as far down the line as the two
// are wide.
func crossesLast(kept []Section, s Section) bool {
	width := s.spanM()
	for i := len(kept) - 1; i >= 0; i-- {
		k := &kept[i]
		if s.StationM-k.StationM > width+k.spanM() {
			return false
		}
		if cross(k, &s) {
			return true
		}
	}
	return false
}

// ends returns the offsets of the tops of both banks; the thalweg stands for one that cannot be told.
func (s *Section) ends() (leftM, rightM float64) {
	leftM, rightM = s.Left.TopM, s.Right.TopM
	if math.IsNaN(leftM) {
		leftM = 0
	}
	if math.IsNaN(rightM) {
		rightM = 0
	}
	return leftM, rightM
}

// spanM returns the width between the tops of the banks, m.
func (s *Section) spanM() float64 {
	leftM, rightM := s.ends()
	return rightM - leftM
}

// cross reports whether two sections cross, or touch, between the tops of their banks.
func cross(a, b *Section) bool {
	if !(a.spanM() > 0) || !(b.spanM() > 0) {
		return false
	}
	return splits(a, b) && splits(b, a)
}

// splits reports whether the ends of b lie on different sides of the line along a, or on it.
func splits(a, b *Section) bool {
	l, r := b.ends()
	side := func(at float64) float64 {
		return a.DX*(b.Y+b.DY*at-a.Y) - a.DY*(b.X+b.DX*at-a.X)
	}
	return side(l)*side(r) <= 0
}
