package erosion

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func TestSeverityByHand(t *testing.T) {
	tests := []struct {
		name  string
		seen  seen
		want  float64
		class Class
	}{
		// Incision (1.15 − 0.3)/1.7 = 50 · 30; headcuts 0.5 m/100 m = 50 · 25; shear (2.5 − 1)/3 = 50 · 20;
		// banks (1.25 − 0.5)/1.5 = 50 · 15; incised 100 · 10: 4,500 + 1,000 over 100.
		{"all five", seen{100, 1.15, 1.25, 2.5, []float64{0.5}}, 55, Eroding},
		// 1,500 + 1,250 + 750 + 1,000 over 80.
		{"no storm", seen{100, 1.15, 1.25, null, []float64{0.5}}, 56.25, Eroding},
		// 1,500 + 1,250 + 1,000 over 65.
		{"no storm, no banks seen", seen{100, 1.15, null, null, []float64{0.5}}, 3750. / 65, Eroding},
		// Incised by less than 0.3 m no bank stands: its 15 count with 0 points. 25 · 50 over 80.
		{"a step on sound ground", seen{100, 0.1, 3, null, []float64{0.5}}, 15.625, Sound},
		{"nothing", seen{100, 0, null, null, nil}, 0, Sound},
		{"beyond every limit", seen{100, 9, 9, 9, []float64{2, 2}}, 100, Severe},
		// 0.4 m and 0.2 m over 200 m are 0.3 m/100 m: 1,500 + 750 + 750 + 1,000 over 80.
		{"two headcuts, 200 m", seen{200, 1.15, 1.25, null, []float64{0.4, 0.2}}, 50, Eroding},
		// 0.3 m is where incision begins to give points and where a length counts as incised: 10 · 100 over 80.
		{"at the incised depth", seen{100, 0.3, 0.5, null, nil}, 12.5, Sound},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			s := ranked(0.1, nil, tt.seen)[0]
			if math.Abs(s.Total-tt.want) > 1e-9 || s.Class != tt.class || s.Rank != 1 { // 1e-9: rounding
				t.Errorf("severity %.6f, %q, rank %d; want %g, %q, 1; parts %+v", s.Total, s.Class, s.Rank, tt.want, tt.class, s.Parts)
			}
		})
	}
}

func TestPartsStandBesideTheTotal(t *testing.T) {
	s := ranked(0, nil, seen{100, 1.15, 1.25, null, []float64{0.25}})[0]
	want := []Part{
		{"incision", 1.15, "m", 50, 30}, {"headcuts", 0.25, "m/100 m", 25, 25}, {"shear", null, "1", null, 20},
		{"bank-slope", 1.25, "1", 50, 15}, {"incised-length", 1, "1", 100, 10},
	}
	near := func(a, b float64) bool { return math.Abs(a-b) < 1e-9 || math.IsNaN(a) && math.IsNaN(b) }
	if len(s.Parts) != len(want) {
		t.Fatalf("%d parts: %+v", len(s.Parts), s.Parts)
	}
	for k, w := range want {
		if p := s.Parts[k]; p.Name != w.Name || p.Unit != w.Unit || !near(p.Value, w.Value) || !near(p.Score, w.Score) || p.Weight != w.Weight {
			t.Errorf("part %+v, want %+v", p, w)
		}
	}
}

func TestHeadcutsAtRoadsAndPondsDoNotCount(t *testing.T) {
	n, judged := network(sight)
	judged[0].Headcuts = append(judged[0].Headcuts, Headcut{HeightM: 3, Cause: CauseRoad}, Headcut{HeightM: 3, Cause: CauseDam})
	Rank(n, judged, 0.1, Defaults())
	if got := judged[0].Severity.Parts[partHeadcuts].Value; got != 0.5 { // 0.5 m over 100 m
		t.Errorf("headcuts %g m/100 m, want 0.5", got)
	}
}

func TestLengthWithoutBedDoesNotThinHeadcuts(t *testing.T) {
	n, judged := network(sight)
	st := n.Drainages[0].Profile.Stations
	for i := range st { // 300 m, of which 151.5 m keep a bed: to midway between 50 and 51
		st[i].StationM *= 3
		if i > 50 {
			st[i].NoBed, judged[0].Depths.IncisionM[i] = true, null
		}
	}
	sumUp(&n.Drainages[0], &judged[0])
	Rank(n, judged, 0.1, Defaults())
	if got, want := judged[0].Severity.Parts[partHeadcuts].Value, 50/151.5; math.Abs(got-want) > 1e-9 {
		t.Errorf("headcuts %g m/100 m, want %g", got, want)
	}
}

// A step of 0.5 m in 30 m is no more than one in 100 m.
func TestHeadcutOfAShortDrainage(t *testing.T) {
	n, judged := network(sight)
	for i := range n.Drainages[0].Profile.Stations {
		n.Drainages[0].Profile.Stations[i].StationM *= 0.3
	}
	sumUp(&n.Drainages[0], &judged[0])
	Rank(n, judged, 0.1, Defaults())
	if got := judged[0].Severity.Parts[partHeadcuts].Value; got != 0.5 {
		t.Errorf("headcuts %g m/100 m, want 0.5", got)
	}
}

func TestBankSlopeIsThatOfTheIncisedLength(t *testing.T) {
	// The first metres to 19.5 are cut 1 m with banks of 2, the rest 0.1 m with banks of 9, which are noise.
	n, judged := network(sight)
	dep := &judged[0].Depths
	for i := range dep.IncisionM {
		dep.IncisionM[i], dep.BankSlope[i] = 0.1, 9
		if i < 20 {
			dep.IncisionM[i], dep.BankSlope[i] = 1, 2
		}
	}
	sumUp(&n.Drainages[0], &judged[0])
	bank := func() float64 {
		Rank(n, judged, 0.1, Defaults())
		return judged[0].Severity.Parts[partBankSlope].Value
	}
	if got := bank(); math.Abs(got-2) > 1e-9 {
		t.Errorf("bank slope %g, want 2", got)
	}
	// Seen along 9.5 m only: too little to tell.
	for i := 10; i < 20; i++ {
		dep.BankSlope[i] = null
	}
	if got := bank(); !math.IsNaN(got) {
		t.Errorf("bank slope %g along 9.5 m, want none", got)
	}
	// Incised along 9.5 m only: no bank to speak of.
	for i := 10; i < 20; i++ {
		dep.IncisionM[i] = 0.1
	}
	if got := bank(); got != 0 {
		t.Errorf("bank slope %g with 9.5 m incised, want 0", got)
	}
}

func TestTooLittleKnownIsNotJudged(t *testing.T) {
	n, judged := network(sight, sight, sight)
	hide := func(k, from int) { // all from a station on
		for i := from; i <= 100; i++ {
			judged[k].Depths.IncisionM[i] = null
		}
		sumUp(&n.Drainages[k], &judged[k])
	}
	hide(0, 10) // known to 9.5 m of 100
	hide(1, 11) // to 10.5 m
	Rank(n, judged, 0.1, Defaults())
	s := judged[0].Severity
	if !math.IsNaN(s.Total) || s.Class != "" || s.Rank != 0 || !math.IsNaN(s.Steady) || len(s.Parts) != partCount || s.Parts[partHeadcuts].Value != 0.5 {
		t.Errorf("known along 9.5 %%: %+v", s)
	}
	if s := judged[1].Severity; s.Class == "" || s.Rank == 0 {
		t.Errorf("known along 10.5 %%: %+v", s)
	}
	if s := judged[2].Severity; s.Rank == 0 || s.Steady != 1 {
		t.Errorf("known all along: %+v", s)
	}
}

func TestNothingThatCountsIsKnown(t *testing.T) {
	onlyShear := func(c *Config) {
		c.Incision.Weight, c.Headcuts.Weight, c.BankSlope.Weight, c.IncisedLength.Weight = 0, 0, 0, 0
	}
	if s := ranked(0.1, onlyShear, sight)[0]; !math.IsNaN(s.Total) || s.Class != "" || s.Rank != 0 || !math.IsNaN(s.Steady) {
		t.Errorf("only shear counts, and it is not known: %+v", s)
	}
}

func TestJudgementsOfAnotherNetworkPanic(t *testing.T) {
	defer func() {
		if recover() == nil {
			t.Error("two judgements of one drainage are let through")
		}
	}()
	n, judged := network(sight)
	Rank(n, append(judged, Judgement{}), 0, Defaults())
}

func TestRankOrder(t *testing.T) {
	worse, sound := sight, sight
	worse.incisionM = 1.5
	sound.incisionM, sound.headcutsM = 0.1, nil
	unseen := sight
	unseen.incisionM = null
	all := ranked(0.1, nil, sound, sight, unseen, worse, sight)
	for i, want := range []int{4, 2, 0, 1, 3} { // equals keep the order of their ids
		if all[i].Rank != want {
			t.Errorf("D%02d has rank %d, want %d", i+1, all[i].Rank, want)
		}
	}
}

// anySight draws what may be measured of a drainage.
func anySight(t *rapid.T) seen {
	s := seen{
		lengthM:   float64(rapid.IntRange(1, 60).Draw(t, "length")),
		incisionM: rapid.SampledFrom([]float64{0, 0.2, 0.3, 0.31, 0.7, 1.4, 2, 5, null}).Draw(t, "incision"),
		bankSlope: rapid.SampledFrom([]float64{0, 0.5, 0.8, 1.7, 2, 40, null}).Draw(t, "bank slope"),
		shear:     rapid.SampledFrom([]float64{0, 1, 1.7, 4, 9, null}).Draw(t, "shear"),
	}
	for range rapid.IntRange(0, 3).Draw(t, "headcuts") {
		s.headcutsM = append(s.headcutsM, rapid.Float64Range(0.3, 2).Draw(t, "headcut"))
	}
	return s
}

func TestSeverityAlways(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var seens []seen
		for range rapid.IntRange(1, 15).Draw(t, "drainages") {
			seens = append(seens, anySight(t))
		}
		got := ranked(rapid.Float64Range(0, 0.3).Draw(t, "noise"), nil, seens...)
		taken := map[int]bool{}
		judged, steady := 0, 0.0
		for i, s := range got {
			if s.Rank == 0 {
				if !math.IsNaN(s.Total) || !math.IsNaN(s.Steady) {
					t.Fatalf("D%02d is not ranked and has %+v", i+1, s)
				}
				continue
			}
			judged, steady = judged+1, steady+s.Steady
			taken[s.Rank] = true
			class := ClassOf(s.Total)
			if class == Sound && s.WornM > 0 {
				class = Watch // one piece keeps it from being called sound
			}
			if !(s.Total >= 0 && s.Total <= 100) || s.Class != class || !(s.Steady >= 0 && s.Steady <= 1) {
				t.Fatalf("D%02d: %+v", i+1, s)
			}
			for k, other := range got[:i] {
				if other.Rank != 0 && (other.Total < s.Total) != (other.Rank > s.Rank) {
					t.Fatalf("D%02d at %g has rank %d, D%02d at %g rank %d", k+1, other.Total, other.Rank, i+1, s.Total, s.Rank)
				}
			}
		}
		for rank := range judged {
			if !taken[rank+1] {
				t.Fatalf("no drainage has rank %d of %d", rank+1, judged)
			}
		}
		if want := float64(min(judged, SteadyFirst)); math.Abs(steady-want) > 1e-9 {
			t.Fatalf("steadiness adds up to %g, want %g", steady, want)
		}
	})
}

func TestSeverityDoesNotDependOnTheOthers(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var seens []seen
		for range rapid.IntRange(1, 15).Draw(t, "drainages") {
			seens = append(seens, anySight(t))
		}
		order := rapid.Permutation(index(len(seens))).Draw(t, "order")
		var turned []seen
		for _, i := range order {
			turned = append(turned, seens[i])
		}
		a, b := ranked(0.1, nil, seens...), ranked(0.1, nil, turned...)
		for k, i := range order {
			if same := a[i].Total == b[k].Total || a[i].Rank == 0 && b[k].Rank == 0; !same || a[i].Class != b[k].Class {
				t.Fatalf("drainage %d: %+v, elsewhere in the order %+v", i, a[i], b[k])
			}
		}
	})
}

func TestWorseEvidenceNeverLowersSeverity(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anySight(t)
		worse := s
		more := rapid.Float64Range(0, 2).Draw(t, "more")
		switch part := rapid.IntRange(0, partCount-1).Draw(t, "part"); part {
		case partIncision, partIncisedLength:
			worse.incisionM += more
		case partHeadcuts:
			worse.headcutsM = append([]float64{more}, s.headcutsM...)
		case partShear:
			worse.shear += more
		case partBankSlope:
			worse.bankSlope += more
		}
		all := ranked(0.1, nil, s, worse)
		if before, after := all[0].Total, all[1].Total; after < before-1e-9 || math.IsNaN(before) != math.IsNaN(after) {
			t.Fatalf("%+v gives %g, %+v gives %g", s, before, worse, after)
		}
	})
}

func TestWeightsOnlyCountAmongEachOther(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anySight(t)
		by := rapid.SampledFrom([]float64{0.25, 2, 64}).Draw(t, "factor") // powers of two: no rounding
		got := ranked(0.1, func(c *Config) {
			for _, w := range []*Scale{&c.Incision, &c.Headcuts, &c.Shear, &c.BankSlope, &c.IncisedLength} {
				w.Weight *= by
			}
		}, s)[0]
		want := ranked(0.1, nil, s)[0]
		if got.Total != want.Total && !(math.IsNaN(got.Total) && math.IsNaN(want.Total)) {
			t.Fatalf("%g with all weights %g times as large, else %g", got.Total, by, want.Total)
		}
		for k := range got.Parts {
			if a, b := got.Parts[k].Score, want.Parts[k].Score; a != b && !(math.IsNaN(a) && math.IsNaN(b)) {
				t.Fatalf("weights change the score of %s from %g to %g", got.Parts[k].Name, b, a)
			}
		}
	})
}

// index returns 0 to n − 1.
func index(n int) []int {
	out := make([]int, n)
	for i := range out {
		out[i] = i
	}
	return out
}
