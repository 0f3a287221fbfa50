package channel

import (
	"cmp"
	"fmt"
	"slices"
)

// Drainage is a main stem from a channel head down to its confluence with a larger one,
// or to where flow ends.
type Drainage struct {
	ID             string  // D01, D02 … by catchment, largest first; of equal ones the lower last cell
	Cells          []int   // cell indexes running downstream, from the head to the last cell of its own
	Into           int     // position in Network.Drainages of the one it joins, or -1
	IntoCell       int     // cell of the confluence, on the receiving drainage, or -1
	Order          int     // Strahler order of its last link
	CatchmentM2    float64 // all that drains to its last cell, tributaries included
	Truncated      bool    // water enters the catchment over the edge of the data: areas and flows read "at least"
	TruncatedCells int     // border cells over which it enters
	Profile        Profile
	ConfluencesM   []float64 // stations at which other drainages join, ascending, each once
}

// drainages strings links together along their main stems. ranks holds, for each drainage,
// where its confluence stands in the Cells of the receiving one, or -1. Catchments,
// truncation and profiles are left empty.
func (t tree) drainages(links []Link) (drainages []Drainage, ranks []int) {
	stems := t.stems(links)
	lowest := t.lowestLinks(links, stems)
	drainages = make([]Drainage, len(lowest))
	ranks = make([]int, len(lowest))
	owner := make([]int, len(links))  // drainage of a link
	offset := make([]int, len(links)) // where a link begins in the Cells of its drainage
	for n, low := range lowest {
		d := &drainages[n]
		d.ID = fmt.Sprintf("D%02d", n+1)
		d.Order = links[low].Strahler
		for _, l := range stemLinks(stems, low) {
			owner[l], offset[l] = n, len(d.Cells)
			d.Cells = append(d.Cells, links[l].Cells...)
		}
	}
	for n, low := range lowest {
		d := &drainages[n]
		d.Into, d.IntoCell, ranks[n] = -1, -1, -1
		if down := links[low].Down; down >= 0 {
			d.Into, d.IntoCell, ranks[n] = owner[down], links[down].Cells[0], offset[down]
		}
	}
	return drainages, ranks
}

// lowestLinks returns the last link of every main stem, largest catchment first.
func (t tree) lowestLinks(links []Link, stems []stem) []int {
	var lowest []int
	for i, l := range links {
		if l.Down < 0 || stems[l.Down].main != i {
			lowest = append(lowest, i)
		}
	}
	slices.SortFunc(lowest, func(a, b int) int {
		lastA, lastB := links[a].last(), links[b].last()
		return cmp.Or(cmp.Compare(t.areaAt(lastB), t.areaAt(lastA)), cmp.Compare(lastA, lastB))
	})
	return lowest
}

// stemLinks returns the links of a main stem from its head to its last link.
func stemLinks(stems []stem, low int) []int {
	var up []int
	for l := low; l >= 0; l = stems[l].main {
		up = append(up, l)
	}
	slices.Reverse(up)
	return up
}
