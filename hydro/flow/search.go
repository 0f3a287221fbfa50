package flow

import "math"

// Path lengths are whole numbers of 1/stepScale of a cell: a step to the side and one to a corner. 99/70 is 5 parts in 100,000 more
// than √2, so that no path is longer than it seems.
const (
	stepScale  = 70
	stepCorner = 99
)

var stepLength = [8]int64{stepScale, stepScale, stepScale, stepScale, stepCorner, stepCorner, stepCorner, stepCorner}

// mostSteps is the longest path that is sought, in cells. Own choice: the widest limit of settings on cells of 0.06 m.
const mostSteps = 3500

// lengthUnits returns a length in metres in units of a path, at most mostSteps.
func lengthUnits(m, cellM float64) int64 {
	return int64(min(m/cellM*stepScale+1e-6, mostSteps*stepScale))
}

// toll orders paths: mm of cut times units of length, and below lengthBits the length, which mostSteps keeps inside.
type toll uint64

const (
	lengthBits = 18
	mostCost   = 1<<(64-lengthBits) - 1 // no path may cost more: a cut of 200 km all along
)

func (t toll) length() int64 { return int64(t & (1<<lengthBits - 1)) }

// node is a cell of the window of a search.
type node struct {
	toll toll
	mark uint32 // number of the search that reached it
	step uint8  // direction of the step that led here; seedStep on a seed
	done bool
	road bool // the path came within reach of a road
}

const seedStep uint8 = 8

// search finds the path of least excavation from a pit to lower ground. Its window is used again and again.
type search struct {
	cols     int
	z        []int32
	ground   *ground
	ends     mask // where flow may end
	shut     mask // never entered
	off      [8]int
	nodes    []node
	mark     uint32
	side     int // columns of the window
	col, row int // cell of its first node
	winOff   [8]int
	heap     frontier
	least    toll // of the first known place, if any, where a path may end
	seeds    []int
	level    int64
	downOnly bool // ends of flow that are not lower do not count
	goal     int  // if not negative, the only cell where a path may end
}

func newSearch(cols int, ground *ground, ends, shut mask) *search {
	s := &search{cols: cols, z: ground.z, ground: ground, ends: ends, shut: shut, goal: -1}
	for d := range s.off {
		s.off[d] = stepRow[d]*cols + stepCol[d]
	}
	return s
}

// open starts a search from cells of one level, for paths up to a length. It reports false where the window would be larger than mostNodes.
func (s *search) open(seeds []int, longest int64) bool {
	west, east := math.MaxInt, 0
	north, south := seeds[0]/s.cols, seeds[0]/s.cols
	for _, i := range seeds {
		c, r := i%s.cols, i/s.cols
		west, east, north, south = min(west, c), max(east, c), min(north, r), max(south, r)
	}
	margin := int(longest/stepScale) + 2
	s.col, s.row = max(west-margin, 0), max(north-margin, 0)
	s.side = min(east+margin, s.cols-1) - s.col + 1
	n := s.side * (min(south+margin, len(s.z)/s.cols-1) - s.row + 1)
	if n > mostNodes {
		return false
	}
	if n > len(s.nodes) {
		s.nodes, s.mark = make([]node, n), 0
	}
	if s.mark++; s.mark == 0 {
		clear(s.nodes)
		s.mark = 1
	}
	for d := range s.winOff {
		s.winOff[d] = stepRow[d]*s.side + stepCol[d]
	}
	s.seeds, s.level = seeds, int64(s.z[seeds[0]])
	s.heap = s.heap[:0]
	s.least = math.MaxUint64
	return true
}

// mostNodes is the largest window of a search, in cells. Own choice: 16 MB.
const mostNodes = 1 << 20

func (s *search) place(i int) int { return (i/s.cols-s.row)*s.side + i%s.cols - s.col }

// close keeps a cell from being entered in the search at hand.
func (s *search) close(i int) {
	n := &s.nodes[s.place(i)]
	n.mark, n.done = s.mark, true
}

// run returns whether lower ground, an end of flow, or the goal is reached within the limits. The first one
// reached by (excavation, length, index) counts. Entering a cell costs its height above the level of the
// pit times the length of the step.
func (s *search) run(lim *limits) (target int, ok bool) {
	for _, i := range s.seeds {
		p := s.place(i)
		s.nodes[p] = node{mark: s.mark, step: seedStep, road: lim.reach.has(i)}
		s.heap.push(head{0, int32(p), int32(i)})
	}
	for len(s.heap) > 0 {
		h := s.heap.pop()
		n := &s.nodes[h.place]
		if n.done {
			continue
		}
		n.done = true
		i := int(h.cell)
		if int64(s.z[i]) > s.level && s.ground.at(i)-lim.depthAt(i) > s.level {
			continue // too deep, whichever way it is reached
		}
		if s.arrived(n, i, lim) {
			return i, true
		}
		if s.ends.has(i) {
			continue
		}
		s.expand(n, int(h.place), i, lim)
	}
	return -1, false
}

// arrived reports whether a path may end at a cell.
func (s *search) arrived(n *node, i int, lim *limits) bool {
	if s.goal >= 0 {
		return i == s.goal
	}
	if n.step == seedStep || int64(s.z[i]) >= s.level && (s.downOnly || !s.ends.has(i)) {
		return false
	}
	return n.toll.length() <= lim.length || n.road && n.toll.length() <= lim.roadLength
}

// expand reaches the neighbours of a cell. Neither the border of the grid nor a void lies beyond: both are ends of flow.
func (s *search) expand(n *node, p, i int, lim *limits) {
	longest := lim.longest()
	for d, o := range s.off {
		q := p + s.winOff[d]
		m := &s.nodes[q]
		if m.mark == s.mark && m.done {
			continue
		}
		to := i + o
		above := int64(s.z[to]) - s.level
		length := n.toll.length() + stepLength[d]
		cost := int64(n.toll>>lengthBits) + max(0, above)*stepLength[d]
		t := toll(cost)<<lengthBits | toll(length)
		if length > longest || cost > mostCost || t > s.least {
			continue
		}
		if s.shut.has(to) && (s.goal >= 0 || above >= 0) {
			continue
		}
		if m.mark == s.mark && m.toll <= t {
			continue
		}
		*m = node{toll: t, mark: s.mark, step: uint8(d), road: n.road || lim.reach.has(to)}
		s.heap.push(head{t, int32(q), int32(to)})
		if above < 0 && s.goal < 0 && (length <= lim.length || m.road && length <= lim.roadLength) {
			s.least = t // nothing behind this can be the end
		}
	}
}

// path returns the cells from a seed to a target, in that order.
func (s *search) path(into []int, target int) []int {
	into = into[:0]
	for i, p := target, s.place(target); ; {
		into = append(into, i)
		d := s.nodes[p].step
		if d == seedStep {
			break
		}
		i, p = i-s.off[d], p-s.winOff[d]
	}
	for a, b := 0, len(into)-1; a < b; a, b = a+1, b-1 {
		into[a], into[b] = into[b], into[a]
	}
	return into
}
