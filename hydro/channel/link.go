package channel

import (
	"cmp"
	"math"
	"slices"
)

// Link is a piece of channel between a head or junction and the next junction or end.
type Link struct {
	Cells    []int // cell indexes running downstream, from the head or the junction cell to the last cell before the next junction
	Down     int   // link it flows into, or -1
	Up       []int // links that flow into it, ascending
	Strahler int
	Shreve   int
}

// links cuts the tree at its heads and junctions. Orders are left at zero.
func (t tree) links() []Link {
	inflows := t.inflows()
	starts := t.starts(inflows)
	linkAt := make([]int32, len(t.cell)) // link that begins at a place; read at starts only
	for i, p := range starts {
		linkAt[p] = int32(i)
	}
	links := make([]Link, len(starts))
	cells := make([]int, 0, len(t.cell)) // one array under all links
	for i, p := range starts {
		from := len(cells)
		next := int32(p)
		for {
			cells = append(cells, t.cell[next])
			next = t.down[next]
			if next < 0 || inflows[next] > 1 {
				break
			}
		}
		links[i].Cells = cells[from:len(cells):len(cells)]
		links[i].Down = -1
		if next >= 0 {
			down := int(linkAt[next])
			links[i].Down = down
			links[down].Up = append(links[down].Up, i)
		}
	}
	return links
}

// starts returns the places of heads and junctions, upstream before downstream.
func (t tree) starts(inflows []uint8) []int {
	var starts []int
	for p, n := range inflows {
		if n != 1 {
			starts = append(starts, p)
		}
	}
	slices.SortFunc(starts, func(a, b int) int {
		return cmp.Or(cmp.Compare(t.area[a], t.area[b]), cmp.Compare(a, b))
	})
	return starts
}

// rank sets the orders of links that stand upstream before downstream. Strahler: 1 at a
// head, else the highest order that flows in, one more where it flows in twice or oftener
// (Strahler 1957). Shreve: the number of heads above.
func rank(links []Link) {
	for i := range links {
		l := &links[i]
		if len(l.Up) == 0 {
			l.Strahler, l.Shreve = 1, 1
			continue
		}
		top, times := 0, 0
		for _, u := range l.Up {
			l.Shreve += links[u].Shreve
			switch s := links[u].Strahler; {
			case s > top:
				top, times = s, 1
			case s == top:
				times++
			}
		}
		l.Strahler = top
		if times > 1 {
			l.Strahler++
		}
	}
}

// steps is a length along D8, kept as two counts so that equal lengths compare equal.
type steps struct {
	straight, diagonal int
}

// cells returns the length in cell sides.
func (s steps) cells() float64 { return float64(s.straight) + math.Sqrt2*float64(s.diagonal) }

// plus returns the sum of two lengths.
func (s steps) plus(o steps) steps {
	return steps{s.straight + o.straight, s.diagonal + o.diagonal}
}

// linkSteps returns the D8 length of a link, the step into the next junction included.
func (t tree) linkSteps(links []Link, i int) steps {
	var s steps
	cells := links[i].Cells
	for k := 1; k < len(cells); k++ {
		s = s.plus(t.step(cells[k-1], cells[k]))
	}
	if down := links[i].Down; down >= 0 {
		s = s.plus(t.step(cells[len(cells)-1], links[down].Cells[0]))
	}
	return s
}

// step returns the length from a cell to one of its eight neighbours.
func (t tree) step(from, to int) steps {
	if from/t.cols != to/t.cols && from%t.cols != to%t.cols {
		return steps{diagonal: 1}
	}
	return steps{straight: 1}
}
