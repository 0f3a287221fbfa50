package flow

// head is a place that a search reached and has not left.
type head struct {
	toll        toll
	place, cell int32
}

func (a *head) before(b *head) bool {
	return a.toll < b.toll || a.toll == b.toll && a.cell < b.cell
}

// frontier is a heap of heads, four under each, the first on top.
type frontier []head

func (f *frontier) push(h head) {
	s := append(*f, h)
	k := len(s) - 1
	for k > 0 {
		up := (k - 1) / 4
		if !h.before(&s[up]) {
			break
		}
		s[k] = s[up]
		k = up
	}
	s[k] = h
	*f = s
}

func (f *frontier) pop() head {
	s := *f
	top, last := s[0], s[len(s)-1]
	s = s[:len(s)-1]
	*f = s
	if len(s) == 0 {
		return top
	}
	k := 0
	for {
		first := 4*k + 1
		if first >= len(s) {
			break
		}
		down := first
		for n := first + 1; n < min(first+4, len(s)); n++ {
			if s[n].before(&s[down]) {
				down = n
			}
		}
		if !s[down].before(&last) {
			break
		}
		s[k] = s[down]
		k = down
	}
	s[k] = last
	return top
}
