package flow

// mask marks cells, one bit each.
type mask []uint64

func newMask(cells int) mask { return make(mask, (cells+63)/64) }

// has reports whether cell i is marked. A nil mask marks none.
func (m mask) has(i int) bool { return m != nil && m[i>>6]&(1<<(i&63)) != 0 }

func (m mask) set(i int) { m[i>>6] |= 1 << (i & 63) }

func (m mask) clear(i int) { m[i>>6] &^= 1 << (i & 63) }
