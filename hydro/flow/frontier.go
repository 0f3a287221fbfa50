package flow

// head is a place that a search reached and has not left.
type head struct {
	cost, length int64
	place, cell  int32
}

func (a *head) before(b *head) bool {
	if a.cost != b.cost {
		return a.cost < b.cost
	}
	if a.length != b.length {
		return a.length < b.length
	}
	return a.cell < b.cell
}

// frontier is a heap of heads, the first on top.
type frontier []head

func (f *frontier) push(h head) {
	s := append(*f, h)
	k := len(s) - 1
	for k > 0 {
		up := (k - 1) / 2
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
		down := 2*k + 1
		if down >= len(s) {
			break
		}
		if down+1 < len(s) && s[down+1].before(&s[down]) {
			down++
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
