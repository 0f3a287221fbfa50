package channel

import (
	"slices"
	"testing"

	"pgregory.net/rapid"
)

func TestCarve(t *testing.T) {
	// Short series with hand answers. At 0.1 and 0.5 the first is its running minimum, at
	// 0.7 its fill from below: each rise is one cell of 8.2 over 8, so weights settle it.
	first := []int32{10000, 9000, 9500, 8000, 8200, 7000}
	second := []int32{5000, 3000, 4000, 4000, 1000, 2000, 6000, 0}
	tests := []struct {
		name     string
		z        []int32
		quantile int32
		want     []int32
	}{
		{"first, 0.1", first, 100, []int32{10000, 9000, 9000, 8000, 8000, 7000}},
		{"first, 0.5", first, 500, []int32{10000, 9000, 9000, 8000, 8000, 7000}},
		{"first, 0.7", first, 700, []int32{10000, 9500, 9500, 8200, 8200, 7000}},
		{"second, 0.1", second, 100, []int32{5000, 3000, 3000, 3000, 1000, 1000, 1000, 0}},
		{"second, 0.5", second, 500, []int32{5000, 4000, 4000, 4000, 2000, 2000, 2000, 0}},
		{"second, 0.9", second, 900, []int32{6000, 6000, 6000, 6000, 6000, 6000, 6000, 0}},
		{"one", []int32{-7}, 500, []int32{-7}},
		{"none", nil, 500, []int32{}},
		{"rising throughout: the median, lower of two", []int32{1, 2, 3, 4}, 500, []int32{2, 2, 2, 2}},
	}
	for _, tt := range tests {
		if got := carve(tt.z, tt.quantile); !slices.Equal(got, tt.want) {
			t.Errorf("%s: %v, want %v", tt.name, got, tt.want)
		}
	}
}

// cost returns Σ ρ(z − bed) in thousandths.
func cost(z, bed []int32, quantile int32) (sum int64) {
	for k := range z {
		if u := int64(z[k]) - int64(bed[k]); u > 0 {
			sum += u * int64(quantile)
		} else {
			sum -= u * int64(weightOne-quantile)
		}
	}
	return sum
}

// carveByTrial tries every series of the observed values that never rises and returns
// the cheapest, cell by cell the lowest of equal ones.
func carveByTrial(z []int32, quantile int32) []int32 {
	values := slices.Compact(slices.Sorted(slices.Values(z)))
	best := int64(-1)
	lowest := make([]int32, len(z))
	bed := make([]int32, len(z))
	var try func(k, top int)
	try = func(k, top int) {
		if k == len(z) {
			switch c := cost(z, bed, quantile); {
			case best < 0 || c < best:
				best = c
				copy(lowest, bed)
			case c == best:
				for i := range bed {
					lowest[i] = min(lowest[i], bed[i])
				}
			}
			return
		}
		for v := 0; v <= top; v++ {
			bed[k] = values[v]
			try(k+1, v)
		}
	}
	try(0, len(values)-1)
	return lowest
}

func TestCarveEqualsTrial(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		z := rapid.SliceOfN(rapid.Int32Range(-9, 9), 1, 7).Draw(r, "z")
		quantile := rapid.SampledFrom([]int32{100, 250, 333, 500, 700, 900}).Draw(r, "quantile")
		if got, want := carve(z, quantile), carveByTrial(z, quantile); !slices.Equal(got, want) {
			r.Fatalf("carve %v, by trial %v", got, want)
		}
	})
}

func TestCarveNeverRisesAndKeepsAFallingBed(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		z := rapid.SliceOfN(rapid.Int32(), 1, 200).Draw(r, "z")
		bed := carve(z, bedQuantile)
		for k := 1; k < len(bed); k++ {
			if bed[k] > bed[k-1] {
				r.Fatalf("the bed rises at %d: %v", k, bed)
			}
		}
		if again := carve(bed, bedQuantile); !slices.Equal(again, bed) {
			r.Fatalf("a bed that falls is carved: %v to %v", bed, again)
		}
	})
}

func TestLiftedBedIsBestAboveItsFloor(t *testing.T) {
	// Against trial: of all series of observed values or the floor, never rising and never
	// below the floor, none costs less.
	rapid.Check(t, func(r *rapid.T) {
		z := rapid.SliceOfN(rapid.Int32Range(0, 6), 1, 6).Draw(r, "z")
		floor := rapid.Int32Range(0, 6).Draw(r, "floor")
		bed := carve(z, bedQuantile)
		liftTo(bed, floor)
		clipped := make([]int32, len(z))
		var try func(k int, top int32)
		try = func(k int, top int32) {
			if k == len(z) {
				if c := cost(z, clipped, bedQuantile); c < cost(z, bed, bedQuantile) {
					r.Fatalf("%v costs less than %v", clipped, bed)
				}
				return
			}
			for v := floor; v <= top; v++ {
				clipped[k] = v
				try(k+1, v)
			}
		}
		try(0, 6)
	})
}
