package erosion

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"siltstep/hydro/channel"
)

// crowd is n drainages, each cut a little deeper than the one before.
func crowd(n int, fromM, stepM float64) []seen {
	var out []seen
	for i := range n {
		s := sight
		s.headcutsM = nil
		s.incisionM = fromM + stepM*float64(i)
		out = append(out, s)
	}
	return out
}

func TestFewAreSteady(t *testing.T) {
	for i, s := range ranked(0.2, nil, crowd(10, 0.5, 0.01)...) {
		if s.Steady != 1 {
			t.Errorf("D%02d of ten is among the first ten in %g of draws", i+1, s.Steady)
		}
	}
}

func TestClearRanksAreSteady(t *testing.T) {
	// The ten deepest are 0.5 m deeper than the next: 30·0.5/1.7 = 8.8 points, 4.4 with half the weight. The
	// mean over 100 m scatters by 0.02·√(2/10 + 0.25) = 0.013 m, the bank slope by 0.013/0.5 of 1.25, which is
	// 15·0.034/1.5 = 0.3 points.
	all := append(crowd(10, 0.5, 0.01), crowd(10, 1.1, 0.01)...)
	for i, s := range ranked(0.02, nil, all...) {
		if want := float64(i / 10); s.Steady != want {
			t.Errorf("D%02d: steady %g, want %g", i+1, s.Steady, want)
		}
	}
}

func TestCloseRanksAreNotSteady(t *testing.T) {
	all := ranked(0.2, nil, crowd(20, 1, 0.005)...)
	lowest, highest := 1.0, 0.0
	for _, s := range all {
		lowest, highest = min(lowest, s.Steady), max(highest, s.Steady)
	}
	if lowest == 0 || highest == 1 {
		t.Errorf("steady from %g to %g though 0.2 m of noise covers 0.1 m of difference", lowest, highest)
	}
	if all[19].Steady < all[0].Steady {
		t.Errorf("the deepest is steadier by %g, the shallowest by %g", all[19].Steady, all[0].Steady)
	}
}

func TestNoNoiseOfEqualsShares(t *testing.T) {
	// Forty equals share ten places.
	for i, s := range ranked(0, nil, crowd(40, 0.8, 0)...) {
		if math.Abs(s.Steady-0.25) > 1e-9 {
			t.Errorf("D%02d: steady %g, want 0.25", i+1, s.Steady)
		}
	}
}

func TestWeightsAloneMoveRanks(t *testing.T) {
	// Half are deep, half have headcuts, and the totals are alike. Deep: 30·(1.04 − 0.3)/1.7 = 13.1 points;
	// headcuts: 25·0.5 = 12.5. Which of the two comes first hangs on the weights alone.
	var all []seen
	for i := range 20 {
		s := seen{lengthM: 100, incisionM: 1.04, bankSlope: 1, shear: null}
		if i%2 == 1 {
			s.incisionM, s.headcutsM = 0.3, []float64{0.5}
		}
		all = append(all, s)
	}
	got := ranked(0, nil, all...)
	deep, cut := got[0].Steady, got[1].Steady
	if !(deep > 0.4 && deep < 0.7) || math.Abs(deep+cut-1) > 1e-9 {
		t.Errorf("deep ones are steady by %g, those with headcuts by %g", deep, cut)
	}
}

func TestSteadyIsTheSameEachTime(t *testing.T) {
	a, b := ranked(0.1, nil, crowd(30, 0.5, 0.02)...), ranked(0.1, nil, crowd(30, 0.5, 0.02)...)
	if fmt.Sprint(a) != fmt.Sprint(b) {
		t.Error("a second run differs")
	}
}

// The scatter of each part is held against heights drawn cell by cell.
func TestScatterAgainstDrawnHeights(t *testing.T) {
	const noiseM, draws, sections, headcuts = 0.1, 20_000, 30, 4 // sections each 10 m
	s := seen{lengthM: 300, incisionM: 1, bankSlope: 1.5, shear: null, headcutsM: []float64{0.5, 0.5, 0.5, 0.5}}
	d, j := s.drawn()
	e := evidenceOf(d.Profile, &j, noiseM, Defaults())
	rng := rand.New(rand.NewPCG(3, 4))
	height := func() float64 { return noiseM * rng.NormFloat64() }
	var means, sums, banks []float64
	for range draws {
		shared, sum := 0.5*height(), 0.0
		for range sections {
			sum += 1 + height() - height() + shared // bank top less bed
		}
		means = append(means, sum/sections)
		banks = append(banks, 1.5*sum/sections) // a run of 1/1.5 m that is known
		sum = 0
		for range headcuts {
			sum += 0.5 + height() - height() // lip less foot
		}
		sums = append(sums, 100*sum/300)
	}
	// 20,000 draws tell a standard deviation to 1/√40,000, 0.5 %; 2 % is four times that.
	for name, pair := range map[string][2]float64{
		"incision":   {e.scatter[partIncision], deviation(means)},
		"headcuts":   {e.scatter[partHeadcuts], deviation(sums)},
		"bank slope": {e.scatter[partBankSlope], deviation(banks)},
	} {
		if got, want := pair[0], pair[1]; math.Abs(got-want) > 0.02*want {
			t.Errorf("%s scatters by %.5f, drawn %.5f", name, got, want)
		}
	}
}

func TestScatterOfIncisedLength(t *testing.T) {
	// A bed whose incision rises evenly from 0 to 1 m over 1 km: the share over 0.3 m is 0.7, and moves by
	// as many metres as the depth. The mean of 100 depths scatters by 0.1·√(2/100 + 0.25) = 0.052 m.
	d, j := seen{lengthM: 1000, shear: null}.drawn()
	for i := range j.Depths.IncisionM {
		j.Depths.IncisionM[i] = float64(i) / 1000
	}
	sumUp(&d, &j)
	e := evidenceOf(d.Profile, &j, 0.1, Defaults())
	if got := e.values[partIncisedLength]; math.Abs(got-0.7) > 0.001 { // a station
		t.Errorf("incised share %g, want 0.7", got)
	}
	if got := e.scatter[partIncisedLength]; math.Abs(got-0.052) > 0.001 { // a station
		t.Errorf("scatter %g, want 0.052", got)
	}
}

func TestLargest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		values := rapid.SliceOfN(rapid.SampledFrom([]float64{0, 1, 2, 3, 5, 8, 13}), 1, 40).Draw(t, "values")
		n := rapid.IntRange(1, min(SteadyFirst, len(values))).Draw(t, "n")
		sorted := slices.Clone(values)
		slices.Sort(sorted)
		if got, want := largest(values, n), sorted[len(sorted)-n]; got != want {
			t.Fatalf("%d-th largest of %v is %g, want %g", n, values, got, want)
		}
	})
}

func deviation(x []float64) float64 {
	mean, sum := 0.0, 0.0
	for _, v := range x {
		mean += v / float64(len(x))
	}
	for _, v := range x {
		sum += (v - mean) * (v - mean)
	}
	return math.Sqrt(sum / float64(len(x)-1))
}

func TestRankOfNothing(t *testing.T) {
	Rank(&channel.Network{}, nil, 0.1, Defaults()) // must not panic
}
