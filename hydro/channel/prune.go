package channel

// prune drops first-order links shorter than minCells cell sides, measured along D8 into
// the junction they join, or to their last cell where flow ends.
//
// Junctions are judged from the heads down. At each, short inflows are dropped, the
// smallest catchment first, but never the last one left: what is left alone merges with
// the link below, and the longer link is judged again at the next junction. So of two
// short forks the larger stays as the head of the channel, no first-order link shorter
// than minCells is left anywhere, and no junction has a single inflow. A short channel
// that ends without joining another is dropped whole. Zero or less drops nothing.
func (t tree) prune(minCells float64) tree {
	links := t.links()
	stems := make([]stem, len(links))
	gone := make([]bool, len(links))
	for i := range links {
		ups := t.byMain(links, stems, links[i].Up)
		for k := len(ups) - 1; k >= 0 && len(ups) > 1; k-- {
			if s := stems[ups[k]]; s.single && s.length.cells() < minCells {
				gone[ups[k]] = true
				ups = append(ups[:k], ups[k+1:]...)
			}
		}
		stems[i] = t.continued(links, stems, i, ups)
		if s := stems[i]; links[i].Down < 0 && s.single && s.length.cells() < minCells {
			gone[i] = true
		}
	}
	return t.without(t.dropped(links, stems, gone))
}

// dropped returns which places go with the links that are gone: their cells and those of
// the stem above.
func (t tree) dropped(links []Link, stems []stem, gone []bool) []bool {
	out := make([]bool, len(t.cell))
	for i := len(links) - 1; i >= 0; i-- {
		if !gone[i] {
			continue
		}
		for _, cell := range links[i].Cells {
			out[t.place(cell)] = true
		}
		if main := stems[i].main; main >= 0 {
			gone[main] = true
		}
	}
	return out
}
