package flow

import (
	"math/bits"
	"slices"
)

// buckets is a queue by whole elevation: a chain of places for each value, and a bit for
// each chain that is not empty. What is taken out never falls, and nothing is put in below it.
type buckets struct {
	next [places]uint16
	head []uint16
	full []uint64
	word int     // where to look next
	end  int     // words in use
	base int32   // elevation of the first bucket, where each value has one
	rank []int32 // else the values of the tile, ascending: one bucket a value
}

// mostBuckets is the widest range of elevations, in millimetres, that gets a bucket a
// millimetre: 4 km in one tile. Own choice: 8 MB a worker.
const mostBuckets = 1 << 22

const chainEnd uint16 = 0 // place 0 is in the wall

func (b *buckets) reset(z *[places]int32, label *[places]uint16, lo, hi int32) {
	b.base, b.rank, b.word = lo, nil, 0
	n := int(hi) - int(lo) + 1
	if n > mostBuckets {
		b.rank = ranked(z, label)
		n = len(b.rank)
	}
	if len(b.head) < n {
		b.head = make([]uint16, n)
		b.full = make([]uint64, (n+63)/64)
	}
	b.end = (n + 63) / 64
}

func (b *buckets) push(p uint16, z int32) {
	k := int(z - b.base)
	if b.rank != nil {
		k = rankOf(b.rank, z)
	}
	b.next[p] = b.head[k]
	b.head[k] = p
	b.full[k>>6] |= 1 << (k & 63)
}

func (b *buckets) pop() (uint16, bool) {
	for b.full[b.word] == 0 {
		b.word++
		if b.word == b.end {
			return 0, false
		}
	}
	full := b.full[b.word]
	k := b.word<<6 + bits.TrailingZeros64(full)
	p := b.head[k]
	rest := b.next[p]
	b.head[k] = rest
	left := full & (full - 1)
	if rest != chainEnd {
		left = full
	}
	b.full[b.word] = left
	return p, true
}

// ranked returns the distinct elevations of a tile, ascending.
func ranked(z *[places]int32, label *[places]uint16) []int32 {
	var all []int32
	for p, l := range label {
		if l != voidLabel {
			all = append(all, z[p])
		}
	}
	slices.Sort(all)
	return slices.Compact(all)
}

// rankOf returns the place of an elevation among those of ranked.
func rankOf(rank []int32, z int32) int {
	k, _ := slices.BinarySearch(rank, z)
	return k
}
