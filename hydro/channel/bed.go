package channel

import "math"

// bedQuantile is the share of the carve, in thousandths: 500 carves to the median, so that
// cells too high and too low weigh alike. Source: common practice for lidar; the idea is
// that of Schwanghart and Scherler 2017.
const bedQuantile = 500

// weightOne is the weight of one observation in the carve.
const weightOne = 1000

// carve returns the bed under observed elevations that run downstream: of all series that
// never rise, the lowest of those that minimise Σ ρ(z − bed), ρ(u) = τu above and
// (1 − τ)|u| below the bed, τ = quantile/1000, 0 < τ < 1. An empty series gives an empty bed.
// Exact in integers; m log m (Schwanghart and Scherler 2017 for the idea; the form with a
// heap is our own derivation).
func carve(zMM []int32, quantile int32) []int32 {
	bed := make([]int32, len(zMM))
	var h heap
	for k, z := range zMM {
		h.push(observed{z, weightOne})
		bed[k] = h.take(quantile)
	}
	for k := len(bed) - 2; k >= 0; k-- {
		bed[k] = max(bed[k], bed[k+1])
	}
	return bed
}

// bedOf returns the bed along a path in millimetres, running downstream: the ground of the
// stations that show the bed, carved, and straight between them where none is shown; before the
// first and after the last of them level. Where no station shows the bed all of the ground is
// carved. end, if not nil, is the confluence, whose bed is fixed.
func bedOf(groundMM []int32, p Profile, end *joint) []int32 {
	n := len(p.Stations)
	shown := make([]int, 0, n) // vertices whose ground is the bed
	for k := range groundMM {
		if !p.Stations[n-1-k].NoBed {
			shown = append(shown, k)
		}
	}
	if len(shown) == 0 {
		for k := range groundMM {
			shown = append(shown, k)
		}
	}
	seen := make([]int32, len(shown))
	for i, k := range shown {
		seen[i] = groundMM[k]
	}
	seen = carve(seen, bedQuantile)
	if end != nil {
		liftTo(seen, end.bedMM)
		seen, shown = append(seen, end.bedMM), append(shown, n-1)
	}
	bed := make([]int32, n)
	at := func(k int) float64 { return p.Stations[n-1-k].StationM }
	for k, i := 0, 0; k < n; k++ {
		for i < len(shown)-1 && shown[i+1] <= k {
			i++
		}
		switch upper := shown[i]; {
		case k <= upper || i == len(shown)-1 || at(upper) == at(shown[i+1]):
			bed[k] = seen[i]
		default:
			lower := shown[i+1]
			down := (at(upper) - at(k)) / (at(upper) - at(lower))
			bed[k] = seen[i] - int32(math.Round(float64(seen[i]-seen[i+1])*down))
		}
	}
	return bed
}

// liftTo raises a bed to a floor: the bed of the drainage it joins, which is fixed. Of a
// series that never rises it is still the best one above the floor.
func liftTo(bedMM []int32, floorMM int32) {
	for k := range bedMM {
		bedMM[k] = max(bedMM[k], floorMM)
	}
}

// observed is an elevation with what is left of its weight.
type observed struct {
	zMM    int32
	weight int32
}

// heap keeps elevations with the lowest first.
type heap []observed

// take removes weight from the lowest elevations, splitting the last one's, and returns
// the last one touched. The heap holds at least that much.
func (h *heap) take(weight int32) int32 {
	for {
		lowest := &(*h)[0]
		z := lowest.zMM
		if lowest.weight > weight {
			lowest.weight -= weight
			return z
		}
		weight -= lowest.weight
		h.pop()
		if weight == 0 {
			return z
		}
	}
}

// push adds an elevation.
func (h *heap) push(o observed) {
	*h = append(*h, o)
	s := *h
	for i := len(s) - 1; i > 0; {
		parent := (i - 1) / 2
		if s[parent].zMM <= s[i].zMM {
			return
		}
		s[parent], s[i] = s[i], s[parent]
		i = parent
	}
}

// pop removes the lowest elevation.
func (h *heap) pop() {
	s := *h
	n := len(s) - 1
	s[0] = s[n]
	*h = s[:n]
	for i := 0; ; {
		child := 2*i + 1
		if child >= n {
			return
		}
		if child+1 < n && s[child+1].zMM < s[child].zMM {
			child++
		}
		if s[i].zMM <= s[child].zMM {
			return
		}
		s[i], s[child] = s[child], s[i]
		i = child
	}
}
