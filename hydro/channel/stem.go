package channel

import (
	"cmp"
	"slices"
)

// stem is the main stem above the lower end of a link.
type stem struct {
	main   int   // inflow the main stem comes from, or -1 at a head
	length steps // from its head to the next junction or end below the link
	single bool  // no other inflow joins the link or the stem above: one first-order link, once merged
}

// stems returns the main stem of every link. Links stand upstream before downstream.
func (t tree) stems(links []Link) []stem {
	stems := make([]stem, len(links))
	for i := range links {
		stems[i] = t.continued(links, stems, i, t.byMain(links, stems, links[i].Up))
	}
	return stems
}

// byMain returns inflows of one junction, the main stem first: by catchment, then length
// from the head, then lower cell index.
func (t tree) byMain(links []Link, stems []stem, ups []int) []int {
	sorted := slices.Clone(ups)
	slices.SortFunc(sorted, func(a, b int) int {
		lastA, lastB := links[a].last(), links[b].last()
		return cmp.Or(
			cmp.Compare(t.areaAt(lastB), t.areaAt(lastA)),
			cmp.Compare(stems[b].length.cells(), stems[a].length.cells()),
			cmp.Compare(lastA, lastB),
		)
	})
	return sorted
}

// continued returns the stem of link i that the given inflows lead into, main one first.
func (t tree) continued(links []Link, stems []stem, i int, ups []int) stem {
	s := stem{main: -1, length: t.linkSteps(links, i), single: true}
	if len(ups) > 0 {
		s.main = ups[0]
		s.length = s.length.plus(stems[ups[0]].length)
		s.single = len(ups) == 1 && stems[ups[0]].single
	}
	return s
}

// last returns the lowest cell of a link.
func (l Link) last() int { return l.Cells[len(l.Cells)-1] }
