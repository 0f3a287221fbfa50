package flow

// Labels returns, for every cell, the position in points of the first point its water
// meets on the way down (a point's own cell included), or -1 where it meets none or there is no data.
// Points are cell indexes; of equal points the first counts. Cost: each cell is
// walked twice at most; 4 bytes a cell.
func (f *Field) Labels(points []int) []int32 {
	const unknown = -2
	labels := make([]int32, len(f.dir))
	for i := range labels {
		labels[i] = unknown
	}
	for k, p := range points {
		if labels[p] == unknown {
			labels[p] = int32(k)
		}
	}
	for i := range labels {
		end := i
		for labels[end] == unknown {
			down := f.Down(end)
			if down < 0 {
				labels[end] = -1
				break
			}
			end = down
		}
		for at := i; at != end; at = f.Down(at) {
			labels[at] = labels[end]
		}
	}
	return labels
}
