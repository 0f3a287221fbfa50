package siting

import (
	"math"
	"slices"
	"testing"
)

// oneHeight is the usual settings with dams of one height.
func oneHeight(m float64) Config {
	cfg := Defaults()
	cfg.HeightM, cfg.MinHeightM = m, m
	return cfg
}

func TestSpacingOnEvenSlope(t *testing.T) {
	const ft = 0.3048
	tests := []struct {
		name              string
		slope, heightM, f float64
		lengthM, wantM    float64
	}{
		// Dam 2 ft: 100, 50, 40, 25 ft, an Indiana erosion manual read in a copy; height over slope.
		{"2 ft at 2 %", 0.02, 2 * ft, 0, 400, 100 * ft},
		{"2 ft at 4 %", 0.04, 2 * ft, 0, 400, 50 * ft},
		{"2 ft at 5 %", 0.05, 2 * ft, 0, 400, 40 * ft},
		{"2 ft at 8 %", 0.08, 2 * ft, 0, 400, 25 * ft},
		// 0.6/(0.06·(1 − f)): 10, 20, 33.333 m.
		{"0.6 m at 6 %, level", 0.06, 0.6, 0, 400, 10},
		{"0.6 m at 6 %, half", 0.06, 0.6, 0.5, 400, 20},
		{"0.6 m at 6 %, 0.7", 0.06, 0.6, 0.7, 400, 100.0 / 3},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			cfg := oneHeight(tt.heightM)
			cfg.HeightM = math.Round(1000*tt.heightM) / 1000 // heights are whole millimetres
			cfg.MinHeightM, cfg.DepositRatio = cfg.HeightM, tt.f
			wantM := tt.wantM * cfg.HeightM / tt.heightM
			d := drawn(tt.lengthM, 1, ramp(tt.slope))
			evenSlope(d, tt.slope) // central differences of 2 % may round to just below it
			l := Lay(d, 1, cfg, nil, Ground{}, nil)
			// The uppermost metre needs no dam.
			if want := int((tt.lengthM-1)/wantM) + 1; len(l.Sites) != want {
				t.Fatalf("%d dams, want %d", len(l.Sites), want)
			}
			for i, s := range l.Sites[1:] {
				if math.Abs(s.SpacingDownM-wantM) > 1e-6 {
					t.Errorf("dam %d: spacing %.9f m, want %.9f", i+2, s.SpacingDownM, wantM)
				}
				if want := tt.slope * wantM; math.Abs(s.RiseM-want) > 1e-6 {
					t.Errorf("dam %d: rise %.9f m, want %.9f", i+2, s.RiseM, want)
				}
			}
		})
	}
}

func TestDamsOnDrawnBeds(t *testing.T) {
	tests := []struct {
		name    string
		lengthM float64
		bedM    func(float64) float64
		slope   float64   // of every station
		wantM   []float64 // stations of the dams
	}{
		// Bed s²/400: the next dam stands where s² = sᵢ² + 240: 0, √240, √480, √720; stations at
		// whole metres cut the corners of the parabola by less than 1/1600 m of height.
		{"concave up", 31, func(s float64) float64 { return s * s / 400 }, 0.05, []float64{0, 15.492, 21.909, 26.833}},
		{"flat", 50, func(float64) float64 { return 7 }, 0.05, []float64{0}},
		// A tread of 10 m at 2 %, a riser of 0.2 m in 1 m at 20 %, and so on: 0.4 m each 11 m. From 0
		// the bed is 0.6 at 20.5 … 11·1 + x: 0.4 + 0.02x = 0.6 at x = 10, so 21; then 1.2 = 3·0.4 at 33.
		{"gentle steps", 55, func(s float64) float64 {
			tread := math.Floor(s / 11)
			in := s - 11*tread
			return 0.4*tread + 0.02*min(in, 10) + 0.2*max(in-10, 0)
		}, 0.036, []float64{0, 21, 33}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			d := drawn(tt.lengthM, 1, tt.bedM)
			evenSlope(d, tt.slope)
			l := Lay(d, 1, oneHeight(0.6), nil, Ground{}, nil)
			var got []float64
			for _, s := range l.Sites {
				got = append(got, s.StationM)
			}
			near := func(a, b float64) bool { return math.Abs(a-b) < 0.02 } // m: the cut corners
			if !slices.EqualFunc(got, tt.wantM, near) {
				t.Errorf("dams at %v, want %v", got, tt.wantM)
			}
		})
	}
}

func TestNumberingOverTwoReaches(t *testing.T) {
	d := drawn(100, 1, ramp(0.06))
	at(d, 30, 60, func(s *station) { s.CatchmentM2 = 50_000 })
	l := Lay(d, 1, oneHeight(0.6), nil, Ground{}, nil)
	// Reaches 0–29.5 and 60.5–100: dams at 0, 10, 20, then from station 61 at 61, 71, 81, 91.
	want := []struct {
		id       string
		series   int
		stationM float64
	}{
		{"D07-01", 1, 0}, {"D07-02", 1, 10}, {"D07-03", 1, 20},
		{"D07-04", 2, 61}, {"D07-05", 2, 71}, {"D07-06", 2, 81}, {"D07-07", 2, 91},
	}
	if len(l.Sites) != len(want) {
		t.Fatalf("%d dams, want %d", len(l.Sites), len(want))
	}
	for i, w := range want {
		s := l.Sites[i]
		if s.ID != w.id || s.Series != w.series || s.Number != i+1 || math.Abs(s.StationM-w.stationM) > 1e-9 {
			t.Errorf("dam %d: %s series %d number %d at %.3f m, want %v", i, s.ID, s.Series, s.Number, s.StationM, w)
		}
	}
	if !math.IsNaN(l.Sites[3].SpacingDownM) || !math.IsNaN(l.Sites[2].SpacingUpM) {
		t.Error("spacing is told across two series")
	}
	if math.Abs(l.EligibleM-(29.5+39.5)) > 1e-9 {
		t.Errorf("eligible %.3f m, want 69", l.EligibleM)
	}
	// Wedges cover 0–30 and 61–100 (the last one, 91–101, is cut off at the upper end); 60.5–61 is bare.
	if math.Abs(l.TreatedM-69) > 1e-9 || math.Abs(l.SeriesTreatedM[0]-30) > 1e-9 || math.Abs(l.SeriesTreatedM[1]-39) > 1e-9 || math.Abs(l.BareM-0.5) > 1e-9 {
		t.Errorf("treated %.3f m, %v, bare %.3f m; want 69, 30 and 39, 0.5", l.TreatedM, l.SeriesTreatedM, l.BareM)
	}
	if got := rulesOf(l.Sites[6].Cautions); !slices.Contains(got, RuleWedge) {
		t.Errorf("topmost dam has cautions %v, want one of rule %s", got, RuleWedge)
	}
}

// rock offers dams at each station whose rock follows a price a metre of height squared.
func rock(d []station, tonnes func(s, heightM float64) float64, mostM func(s float64) float64) func(int) Place {
	return func(i int) Place {
		at := d[i].StationM
		p := Place{BedWidthM: 1, TopWidthM: 3, BankM: 1}
		for _, h := range Defaults().Heights() {
			o := Offer{HeightM: h, RockT: tonnes(at, h)}
			if h > mostM(at)+1e-9 {
				o.Fault = &Reason{RuleBanks, mostM(at), h, "The banks are too low"}
			}
			p.Offers = append(p.Offers, o)
		}
		return p
	}
}

func TestNarrowThroatsWin(t *testing.T) {
	// Rock is 1 t everywhere but at 18 and 19 m, where a throat takes a tenth: dams move there though the sill below
	// reaches to 20.
	d := drawn(40, 1, ramp(0.06))
	ground := Ground{PlaceAt: rock(d.Profile.Stations, func(s, h float64) float64 {
		if s == 18 {
			return h / 10
		}
		return 20 * h
	}, func(float64) float64 { return 0.6 })}
	l := Lay(d, 1, Defaults(), nil, ground, nil)
	if !slices.ContainsFunc(l.Sites, func(s Site) bool { return s.StationM == 18 }) {
		t.Errorf("no dam in the throat at 18 m: %+v", l.Sites)
	}
	if l.Chosen.CostT >= l.March.CostT {
		t.Errorf("the best takes %+v, a plain march %+v", l.Chosen, l.March)
	}
}

func TestBanksLimitHeights(t *testing.T) {
	// From 10 to 20 m the banks hold 0.4 m at most.
	d := drawn(40, 1, ramp(0.06))
	ground := Ground{PlaceAt: rock(d.Profile.Stations, func(_, h float64) float64 { return h }, func(s float64) float64 {
		if s >= 10 && s <= 20 {
			return 0.4
		}
		return 0.6
	})}
	l := Lay(d, 1, Defaults(), nil, ground, nil)
	low := 0
	for _, s := range l.Sites {
		if s.StationM >= 10 && s.StationM < 21 {
			low++
			if s.EffectiveHeightM > 0.4 {
				t.Errorf("%s at %.1f m is %.2f m high", s.ID, s.StationM, s.EffectiveHeightM)
			}
		}
	}
	if low == 0 || math.Abs(l.BareM) > 1e-9 && l.BareM > 1.85 {
		t.Errorf("%d dams between low banks, %.2f m left bare", low, l.BareM)
	}
}

func TestObjectives(t *testing.T) {
	// Rock goes with the square of height: many low dams take least, few high ones are fewest.
	d := drawn(60, 1, ramp(0.06))
	ground := Ground{
		PlaceAt: rock(d.Profile.Stations, func(_, h float64) float64 { return 20 * h * h }, func(float64) float64 { return 0.6 }),
		SiltM3:  func(axisM, sillM, toM float64) float64 { return toM - axisM },
	}
	cfg := Defaults()
	cfg.Compare, cfg.DamCostT = true, 0.5
	l := Lay(d, 1, cfg, nil, ground, nil)
	least, fewest, silt := l.Others[0], l.Others[1], l.Others[2]
	if !(least.CostT < fewest.CostT && fewest.Dams < least.Dams && silt.SiltM3/silt.CostT >= least.SiltM3/least.CostT) {
		t.Errorf("least rock %+v, fewest %+v, most silt a tonne %+v", least, fewest, silt)
	}
	if l.Chosen != least {
		t.Errorf("chosen %+v, least rock %+v", l.Chosen, least)
	}
	cfg.Objective = FewestDams
	if got := Lay(d, 1, cfg, nil, ground, nil); len(got.Sites) != fewest.Dams || got.Chosen.RockT != fewest.RockT {
		t.Errorf("%d dams, %+v; want %+v", len(got.Sites), got.Chosen, fewest)
	}
}
