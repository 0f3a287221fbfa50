package hydro

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strconv"
	"testing"

	"siltstep/hydro/checkdam"
)

// manyDams draws what dams take and give; each value is missing once in a while, cost in half of the draws always.
func manyDams(rng *rand.Rand, n int) []Quantities {
	free := rng.IntN(2) == 0
	list := make([]Quantities, n)
	for k := range list {
		list[k].Dams = 1
		for i, x := range list[k].fields() {
			*x = math.Exp(12*rng.Float64() - 6)
			if rng.IntN(10) == 0 || free && i == 7 {
				*x = math.NaN()
			}
		}
		list[k] = list[k].Rounded()
	}
	return list
}

func sumOf(list []Quantities) (q Quantities) {
	for _, one := range list {
		q.Add(one)
	}
	return q
}

// inGroups cuts a list at random places and adds up the sums of the parts, from the last to the first, some of them cut again.
func inGroups(rng *rand.Rand, list []Quantities, depth int) Quantities {
	if depth == 0 || len(list) < 2 {
		return sumOf(list)
	}
	cut := rng.IntN(len(list))
	q := inGroups(rng, list[cut:], depth-1)
	q.Add(inGroups(rng, list[:cut], depth-1))
	return q
}

func TestQuantitiesAddUpInAnyGrouping(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 6))
	for trial := range 60 {
		list := manyDams(rng, rng.IntN(3000))
		want := sumOf(list)
		rng.Shuffle(len(list), func(i, j int) { list[i], list[j] = list[j], list[i] })
		if got := inGroups(rng, list, 5); fmt.Sprint(got) != fmt.Sprint(want) {
			t.Fatalf("trial %d, %d dams: %+v in groups, %+v one by one", trial, len(list), got, want)
		}
		// The sum as shown is that of the numbers as shown, in whole hundredths.
		var cents int64
		for _, q := range list {
			if !math.IsNaN(q.RockT) {
				shown, err := strconv.ParseFloat(strconv.FormatFloat(q.RockT, 'f', 2, 64), 64)
				if err != nil {
					t.Fatal(err)
				}
				cents += int64(math.Round(100 * shown))
			}
		}
		if want := fmt.Sprintf("%d.%02d", cents/100, cents%100); len(list) > 0 && fmt.Sprintf("%.2f", sumOf(list).RockT) != want {
			t.Fatalf("trial %d: the sum is shown as %.2f, that of what is shown is %s", trial, sumOf(list).RockT, want)
		}
	}
}

func TestQuantitiesOfWhatIsNotKnown(t *testing.T) {
	nan := math.NaN()
	dam := func(cost float64) Quantities { return Quantities{Dams: 1, Cost: cost} }
	for _, c := range []struct {
		name string
		sum  []Quantities
		want float64 // cost
	}{
		{"no dams", nil, 0},
		{"known of none", []Quantities{dam(nan), dam(nan)}, nan},
		{"known of the second", []Quantities{dam(nan), dam(3)}, 3},
		{"known of the first", []Quantities{dam(3), dam(nan)}, 3},
		{"no dams between", []Quantities{dam(nan), {}, dam(3), {}}, 3},
		{"nothing for free", []Quantities{dam(0), dam(nan)}, 0},
	} {
		if got := sumOf(c.sum); fmt.Sprint(got.Cost) != fmt.Sprint(c.want) || got.RockT != 0 {
			t.Errorf("%s: cost %v, want %v; rock %v, want 0", c.name, got.Cost, c.want, got.RockT)
		}
	}
}

func TestQuantitiesOfDesigns(t *testing.T) {
	nan := math.NaN()
	dam := func(m3, t, pond, silt float64) *checkdam.Design {
		return &checkdam.Design{Rock: checkdam.Rock{TotalM3: m3, OrderTonnes: t}, Storage: checkdam.Storage{PondM3: pond, SedimentM3: silt}}
	}
	q := QuantitiesOf([]Design{
		{Dam: dam(1.004, 2.004, 3.004, 4.004), Measured: checkdam.Measured{SedimentLowM3: 3.004, SedimentHighM3: 5.004}, PersonDays: 1.004, Cost: 10.004},
		{Dam: dam(1.004, 2.004, 3.004, 4.004), Measured: checkdam.NotMeasured("cells are too coarse"), PersonDays: 1.004, Cost: nan},
		{PersonDays: nan, Cost: nan},
	})
	// 1.00 + 1.00, not 2.008 rounded to 2.01.
	want := Quantities{Dams: 3, Undesigned: 1, RockM3: 2, RockT: 4, PondM3: 6, SedimentM3: 8, SedimentLowM3: 7, SedimentHighM3: 9, PersonDays: 2, Cost: 10}
	if fmt.Sprint(q) != fmt.Sprint(want) {
		t.Errorf("%+v, want %+v", q, want)
	}
}

func TestHundredthIsAsShown(t *testing.T) {
	for _, c := range []struct {
		x, want float64
	}{
		{1.115, 1.11}, // in binary a little less than 1.115, though times 100 it is a little more than 111.5
		{0.125, 0.12}, // exactly half way: to the even digit
		{0.375, 0.38}, {2.999, 3}, {-0.001, 0}, {1e15 + 0.125, 1e15 + 0.12},
	} {
		if got := hundredth(c.x); got != c.want || math.Signbit(got) && got == 0 {
			t.Errorf("%v: %v, want %v", c.x, got, c.want)
		}
	}
	if !math.IsNaN(hundredth(math.NaN())) {
		t.Error("NaN must stay")
	}
}
