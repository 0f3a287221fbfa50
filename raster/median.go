package raster

import "slices"

// median returns the middle value, of the two middle ones the higher. It changes the order of v, which
// must not be empty. Cost: linear on average, by narrowing down the part that holds the middle.
func median(v []int32) int32 {
	k, lo, hi := len(v)/2, 0, len(v)-1
	for lo < hi {
		pivot := v[(lo+hi)/2]
		i, j := lo, hi
		for i <= j {
			for v[i] < pivot {
				i++
			}
			for v[j] > pivot {
				j--
			}
			if i <= j {
				v[i], v[j] = v[j], v[i]
				i++
				j--
			}
		}
		switch {
		case k <= j:
			hi = j
		case k >= i:
			lo = i
		default:
			return v[k]
		}
	}
	return v[k]
}

// middle returns the middle value of a copy of v, of the two middle ones the higher; 0 where v is empty.
func middle(v []float64) float64 {
	if len(v) == 0 {
		return 0
	}
	sorted := slices.Sorted(slices.Values(v))
	return sorted[len(v)/2]
}
