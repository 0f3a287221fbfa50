package channel

import "siltstep/raster"

// searchSamples is how far from the line the thalweg is looked for, in samples: three cells. A line
// of D8 that is smoothed lies within two of it. Source: our own choice.
const searchSamples = 6

// humpMM is how far ground may rise and fall again on the way from the line to the thalweg: more than
// that is a bank, and what lies beyond it no bed. Source: our own choice, about the noise of a survey.
const humpMM = 100

// thalweg returns the sample where a section is lowest near the line, whose sample is at. Each sample counts as the mean
// of three, weights 1 : 2 : 1, so that one bad cell draws it less; of equal ones the nearest to the
// line. Where the ground falls to the end of the search on one side there is no bed that way.
func thalweg(mm []int32, at int) int {
	if mm[at] == raster.VoidMM {
		return at
	}
	best, bestMM := at, evened(mm, at)
	for _, dir := range [2]int{-1, 1} {
		low, lowMM := lowest(mm, at, dir)
		if lowMM < bestMM || lowMM == bestMM && abs(low-at) < abs(best-at) {
			best, bestMM = low, lowMM
		}
	}
	return best
}

// lowest returns the lowest sample on the way from one sample to a side, up to the first hump, with
// its evened elevation; the sample itself where the ground falls that way to the end.
func lowest(mm []int32, at, dir int) (low int, lowMM int64) {
	start := evened(mm, at)
	low, lowMM = at, start
	last, highMM := at, start
	for k := 1; k <= searchSamples; k++ {
		i := at + dir*k
		if i < 0 || i >= len(mm) || mm[i] == raster.VoidMM {
			break
		}
		last = i
		z := evened(mm, i)
		if z < lowMM {
			low, lowMM, highMM = i, z, z
		}
		highMM = max(highMM, z)
		if highMM-lowMM > 4*humpMM {
			break
		}
	}
	if low == last {
		return at, start
	}
	return low, lowMM
}

// evened returns four times the elevation of a sample evened out with its neighbours. The sample must
// hold data; a neighbour that holds none counts as the sample.
func evened(mm []int32, i int) int64 {
	sum := 2 * int64(mm[i])
	for _, k := range [2]int{i - 1, i + 1} {
		if k < 0 || k >= len(mm) || mm[k] == raster.VoidMM {
			k = i
		}
		sum += int64(mm[k])
	}
	return sum
}

// abs returns a count without its sign.
func abs(n int) int { return max(n, -n) }
