package siting

import (
	"math"
	"slices"
	"testing"
)

// good is a place that holds dams of every default height.
func good() Place {
	p := Place{BedWidthM: 1, TopWidthM: 6, BankM: 1.5}
	for _, h := range Defaults().Heights() {
		p.Offers = append(p.Offers, Offer{HeightM: h, RockT: h})
	}
	return p
}

// low is a place with banks bankM high of which the lowest dam needs 0.8 m.
func low(bankM float64) Place {
	p := good()
	p.BankM = bankM
	for k := range p.Offers {
		p.Offers[k].Fault = &Reason{RuleBanks, bankM, 0.8 + float64(k), "The banks are too low"}
	}
	return p
}

// groundOf is ground where every place is good but those of some stations.
func groundOf(odd map[int]Place) Ground {
	return Ground{PlaceAt: func(i int) Place {
		if p, ok := odd[i]; ok {
			return p
		}
		return good()
	}}
}

func TestPlacesThatHoldNoDam(t *testing.T) {
	const highest = 6 // of the offers
	tests := []struct {
		name   string
		change func(*Place)
		rules  []Rule
		got    float64
		limit  float64
	}{
		{"bed at the limit", func(p *Place) { p.BedWidthM = 6 }, nil, 0, 0},
		{"bed over it", func(p *Place) { p.BedWidthM = 6.001 }, []Rule{RuleBedWidth}, 6.001, 6},
		{"top at the limit", func(p *Place) { p.TopWidthM = 15 }, nil, 0, 0},
		{"top over it", func(p *Place) { p.TopWidthM = 15.001 }, []Rule{RuleTopWidth}, 15.001, 15},
		{"widths not known", func(p *Place) { p.BedWidthM, p.TopWidthM = math.NaN(), math.NaN() }, nil, 0, 0},
		{"one height fits", func(p *Place) {
			for k := range highest {
				p.Offers[k+1].Fault = &Reason{Rule: RuleBanks}
			}
		}, nil, 0, 0},
		{"only the highest fits", func(p *Place) {
			for k := range highest {
				p.Offers[k].Fault = &Reason{Rule: RuleDesign}
			}
		}, nil, 0, 0},
		{"no height fits", func(p *Place) { *p = low(0.5) }, []Rule{RuleBanks}, 0.5, 0.8},
		{"no section", func(p *Place) {
			*p = Place{BedWidthM: math.NaN(), TopWidthM: math.NaN(), Why: "the banks are not seen"}
		},
			[]Rule{RuleSection}, math.NaN(), math.NaN()},
		{"no offers", func(p *Place) { p.Offers = nil }, []Rule{RuleSection}, math.NaN(), math.NaN()},
		{"no section and too wide", func(p *Place) { *p = Place{BedWidthM: 7, TopWidthM: 16, Why: "one bank is not seen"} },
			[]Rule{RuleSection, RuleBedWidth, RuleTopWidth}, math.NaN(), math.NaN()},
	}
	for _, tt := range tests {
		p := good()
		tt.change(&p)
		d := drawn(60, 1, ramp(0.06))
		// At one station it keeps a dam off and no more; all along it leaves no reach.
		v := judgeStations(d, 1, Defaults(), nil, groundOf(map[int]Place{30: p}))
		if len(v.reaches) != 1 || !v.reaches[0].Eligible || v.stand[30] != (tt.rules == nil) {
			t.Errorf("%s: a dam stands is %t, reaches %+v", tt.name, v.stand[30], v.reaches)
		}
		if tt.rules != nil && (v.off[30].Rule != tt.rules[0] || !same(v.off[30].Got, tt.got) || !same(v.off[30].Limit, tt.limit)) {
			t.Errorf("%s: kept off by %+v", tt.name, v.off[30])
		}
		v = judgeStations(d, 1, Defaults(), nil, Ground{PlaceAt: func(int) Place { return p }})
		if len(v.reaches) != 1 || !slices.Equal(rulesOf(v.reaches[0].Reasons), tt.rules) {
			t.Errorf("%s all along: reaches %+v", tt.name, v.reaches)
		}
	}
}

// same compares numbers; NaN is the same as NaN.
func same(a, b float64) bool { return a == b || math.IsNaN(a) && math.IsNaN(b) }

func TestPlacesNearConfluences(t *testing.T) {
	d := drawn(60, 1, ramp(0.06))
	d.Into, d.ConfluencesM = 0, []float64{30.3}
	v := judgeStations(d, 1, Defaults(), nil, Ground{})
	// Nearer than 5 m to 0 and to 30.3: stations 1 to 4, and 26 to 35. That stretch is 9 m from first to last and breaks no reach.
	for i, stands := range v.stand {
		if off := i < 5 || i >= 26 && i <= 35; stands == off {
			t.Errorf("station %d: a dam stands is %t", i, stands)
		}
		if named := v.off[i].Rule == RuleConfluence; named != (i >= 1 && !stands) {
			t.Errorf("station %d is kept off by %+v", i, v.off[i])
		}
	}
	if len(v.reaches) != 2 || !v.reaches[1].Eligible {
		t.Errorf("reaches %+v", v.reaches)
	}
	if r := v.off[30]; math.Abs(r.Got-0.3) > 1e-9 || r.Limit != 5 {
		t.Errorf("at station 30: %+v, want 0.3 m of 5", r)
	}
}

func TestPlacesAreAskedOnlyOnSoundLand(t *testing.T) {
	d, asked := drawn(60, 1, ramp(0.06)), 0
	at(d, 10, 19, func(s *station) { s.Slope = 0.01 })
	cfg := Defaults()
	cfg.Features.Roads = roadAcross(40)
	v := judgeStations(d, 1, cfg, nil, Ground{PlaceAt: func(i int) Place {
		asked++
		if i >= 10 && i < 20 || i > 30 && i < 50 {
			t.Errorf("asked for station %d", i)
		}
		return good()
	}})
	if asked != 61-10-19 {
		t.Errorf("asked %d times, want once for each of 32 stations", asked)
	}
	if v.places[5].TopWidthM != 6 || v.places[15].Offers != nil {
		t.Errorf("places %+v and %+v", v.places[5], v.places[15])
	}
}
