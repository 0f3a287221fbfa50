package page

import (
	"math"
	"reflect"
	"testing"

	"siltstep/cmd/internal/facts"

	"pgregory.net/rapid"
)

func TestDifferences(t *testing.T) {
	whole := func(list ...int) (p []*int) {
		for _, n := range list {
			p = append(p, &n)
		}
		return p
	}
	nan := math.NaN()
	rows := []struct {
		name    string
		x       []float64
		perUnit float64
		want    []*int
	}{
		{"none", nil, 100, []*int{}},
		{"centimetres", []float64{1.25, 1.5, 1.49}, 100, whole(125, 25, -1)},
		{"rounding does not add up: 0, 0.4, 0.8, 1.2 of a centimetre", []float64{0, 0.004, 0.008, 0.012}, 100, whole(0, 0, 1, 0)},
		{"not known in the middle", []float64{1, nan, 3}, 1, append(whole(1), nil, whole(2)[0])},
		{"not known first", []float64{nan, 2}, 1, append([]*int{nil}, whole(2)...)},
	}
	for _, r := range rows {
		t.Run(r.name, func(t *testing.T) {
			if got := differences(r.x, r.perUnit); !reflect.DeepEqual(got, r.want) {
				t.Errorf("got %v, want %v", got, r.want)
			}
		})
	}
}

// A thinned profile must stay within its limits everywhere, keep first, last and dams, and never tell what is not known.
func TestThinnedProfile(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 80).Draw(t, "stations")
		p := make(facts.Profile, n)
		bed := 1000.0
		for i := range p {
			bed += rapid.SampledFrom([]float64{0, 0.05, 0.05, 0.051, 0.4}).Draw(t, "rise")
			ground := bed + rapid.SampledFrom([]float64{0, 0.02, 0.2}).Draw(t, "above")
			incision := rapid.SampledFrom([]float64{0.5, 0.5, 0.5, 0.8, math.NaN()}).Draw(t, "incision")
			p[i] = facts.Station{StationM: 1.25 * float64(i), BedM: bed, GroundM: ground, IncisionM: incision, Place: facts.Place{XM: facts.Num(i), YM: facts.Num(rapid.SampledFrom([]float64{0, 0, 0.1, 2}).Draw(t, "north"))}}
			if rapid.IntRange(0, 9).Draw(t, "dam") == 0 {
				p[i].DamID = "D01-01"
			}
		}
		kept := thinned(p)
		if kept[0] != 0 || kept[len(kept)-1] != n-1 {
			t.Fatalf("kept %v: first or last of %d is missing", kept, n)
		}
		next := 0
		for i, s := range p {
			if kept[next] == i {
				if next < len(kept)-1 {
					next++
				}
				continue
			}
			if s.DamID != "" {
				t.Fatalf("the station of a dam, %d, was left out", i)
			}
			a, b := p[kept[next-1]], p[kept[next]]
			share := (s.StationM - a.StationM) / (b.StationM - a.StationM)
			line := func(from, to float64) float64 { return from + share*(to-from) }
			if off := math.Abs(line(a.BedM, b.BedM) - s.BedM); off > 0.01+1e-9 { // the limit, and rounding of doubles near 1000
				t.Fatalf("bed at %d is %.3f m off", i, off)
			}
			if off := math.Abs(line(a.GroundM, b.GroundM) - s.GroundM); off > 0.05+1e-9 {
				t.Fatalf("ground at %d is %.3f m off", i, off)
			}
			if off := math.Hypot(line(float64(a.XM), float64(b.XM))-float64(s.XM), line(float64(a.YM), float64(b.YM))-float64(s.YM)); off > 0.25+1e-9 {
				t.Fatalf("place at %d is %.3f m off", i, off)
			}
			if math.IsNaN(s.IncisionM) != math.IsNaN(line(a.IncisionM, b.IncisionM)) {
				t.Fatalf("incision at %d is known where it was not, or the other way", i)
			}
		}
	})
}

// A straight profile needs its two ends alone.
func TestThinnedStraight(t *testing.T) {
	p := make(facts.Profile, 500)
	for i := range p {
		p[i] = facts.Station{StationM: float64(i), BedM: 1600 + 0.05*float64(i), GroundM: 1601, IncisionM: 1}
	}
	if kept := thinned(p); !reflect.DeepEqual(kept, []int{0, 499}) {
		t.Errorf("kept %v, want the ends", kept)
	}
}

// What a packed curve says at the stations that are kept is what the profile says, to the last digit of its file.
func TestCurveHoldsItsStations(t *testing.T) {
	f := invented(1, 5, 300)
	o := originOf(f.Grid)
	p := f.Profiles["D01"]
	c := o.curve(p)
	kept := thinned(p)
	columns := []struct {
		name    string
		packed  []*int
		perUnit float64
		value   func(facts.Station) float64
	}{
		{"station", c.Station, 100, func(s facts.Station) float64 { return s.StationM }},
		{"x", c.X, 100, func(s facts.Station) float64 { return float64(s.XM) - o.westM }},
		{"y", c.Y, 100, func(s facts.Station) float64 { return float64(s.YM) - o.southM }},
		{"bed", c.Bed, 1000, func(s facts.Station) float64 { return s.BedM }},
		{"ground", c.Ground, 1000, func(s facts.Station) float64 { return s.GroundM }},
		{"incision", c.Incision, 100, func(s facts.Station) float64 { return s.IncisionM }},
		{"slope", c.Slope, 10000, func(s facts.Station) float64 { return s.Slope }},
		{"catchment", c.Covers, 10000, func(s facts.Station) float64 { return s.CatchmentHa }},
	}
	for _, column := range columns {
		sum := 0
		for i, k := range kept {
			want := column.value(p[k])
			if column.packed[i] == nil {
				if !math.IsNaN(want) {
					t.Errorf("%s at %d is not known, want %v", column.name, k, want)
				}
				continue
			}
			sum += *column.packed[i]
			if got := float64(sum) / column.perUnit; !(math.Abs(got-want) <= 0.5001/column.perUnit) { // half of the last digit, and rounding of doubles
				t.Errorf("%s at %d is %v, want %v", column.name, k, got, want)
			}
		}
	}
}
