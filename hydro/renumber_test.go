package hydro

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"siltstep/hydro/siting"
)

// standingAt returns dams of D01 at stations, numbered from the bottom as siting does.
func standingAt(stationsM ...float64) (sites []siting.Site) {
	for k, s := range stationsM {
		sites = append(sites, siting.Site{ID: DamID("D01", k+1), Drainage: "D01", Number: k + 1, StationM: s, EffectiveHeightM: 0.45})
	}
	return sites
}

// inField places edits on the drawn network.
func inField(t interface{ Fatal(...any) }, e Edits) *fieldwork {
	f, err := e.place(drawnNetwork(), false)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

func TestRenumber(t *testing.T) {
	four := []Earlier{stood("D01-01", 20), stood("D01-02", 40), stood("D01-03", 60), stood("D01-04", 80)}
	rows := []struct {
		name    string
		earlier []Earlier
		asked   []Asked
		sites   []float64
		want    string
	}{
		{"nothing before", nil, nil, []float64{20, 40}, "01 02"},
		{"as before", four, nil, []float64{20, 40, 60, 80}, "01 02 03 04"},
		{"stations as files round them", four, nil, []float64{20.004, 39.996, 60, 80}, "01 02 03 04"},
		{"one rejected, the one above moves down by 4 m", four, []Asked{along("D01-02", siting.Reject, "", 40)}, []float64{20, 56, 80}, "01 03 04"},
		{"one rejected, a new one next to it", four, []Asked{along("D01-02", siting.Reject, "", 40)}, []float64{20, 43, 60, 80}, "01 05 03 04"},
		{"the highest rejected, its number not used again", four, []Asked{along("D01-04", siting.Reject, "", 80)}, []float64{20, 40, 60, 76}, "01 02 03 05"},
		{"too far to be the same", four, nil, []float64{20, 40, 66, 80}, "01 02 05 04"},
		{"over half the way to the next", four[:2], nil, []float64{20, 22, 40}, "01 03 02"}, // 2 m from 01, and 22 is not it: 20 is
		{"one moved past another", four, []Asked{along("D01-01", siting.Move, "", 50)}, []float64{40, 50, 60, 80}, "02 01 03 04"},
		{"one moved, and a new dam where it stood", four, []Asked{along("D01-01", siting.Move, "", 30)}, []float64{20, 30, 40, 60, 80}, "05 01 02 03 04"},
		{"a new dam asked for", four, []Asked{along("", siting.Built, "D01", 50)}, []float64{20, 40, 50, 60, 80}, "01 02 05 03 04"},
		{"a new dam asked for right by an old one", four, []Asked{along("", siting.Built, "D01", 41)}, []float64{20, 41, 60, 80}, "01 05 03 04"},
		{"a number that the field gave", four, []Asked{along("D01-09", siting.Built, "", 50)}, []float64{20, 40, 50, 60, 80, 95}, "01 02 09 03 04 10"},
		{"numbers that do not rise", []Earlier{stood("D01-07", 20), stood("D01-02", 40)}, nil, []float64{21, 39, 60}, "07 02 08"},
		{"most pairs, then the nearest", four[:2], nil, []float64{18, 23, 38}, "01 03 02"},
		{"an edit that could not be laid out keeps its number", four, []Asked{along("D01-02", siting.Move, "", 50)}, []float64{20, 42, 60}, "01 05 03"},
	}
	for _, r := range rows {
		t.Run(r.name, func(t *testing.T) {
			sites := standingAt(r.sites...)
			inField(t, Edits{Asked: r.asked, Earlier: r.earlier}).renumber(0, sites)
			var got []string
			for _, s := range sites {
				got = append(got, strings.TrimPrefix(s.ID, "D01-"))
				if s.ID != DamID("D01", s.Number) {
					t.Errorf("%s has number %d", s.ID, s.Number)
				}
			}
			if text := strings.Join(got, " "); text != r.want {
				t.Errorf("%s, want %s", text, r.want)
			}
		})
	}
}

// slowAlign tries every pairing.
func slowAlign(oldM, newM, reachM []float64) (best pairing) {
	if len(oldM) == 0 || len(newM) == 0 {
		return pairing{}
	}
	best = slowAlign(oldM[1:], newM, reachM)
	if p := slowAlign(oldM, newM[1:], reachM[1:]); p.betterThan(best) {
		best = p
	}
	if awayM := math.Abs(oldM[0] - newM[0]); awayM <= reachM[0] {
		p := slowAlign(oldM[1:], newM[1:], reachM[1:])
		p.pairs, p.awayM = p.pairs+1, p.awayM+awayM
		if awayM <= samePlaceM {
			p.same++
		}
		if p.betterThan(best) {
			best = p
		}
	}
	return best
}

func TestAlignIsBest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		// Stations in tenths of a metre, so that same places and ties come up.
		draw := func(name string, most int) []float64 {
			all := rapid.SliceOfNDistinct(rapid.IntRange(0, 300), 0, most, rapid.ID[int]).Draw(t, name)
			slices.Sort(all)
			var m []float64
			for _, s := range all {
				m = append(m, float64(s)/8)
			}
			return m
		}
		oldM, newM := draw("old", 6), draw("new", 6)
		reachM := make([]float64, len(newM))
		for n := range reachM {
			reachM[n] = rapid.SampledFrom([]float64{0.1, 1, 2.5, 5}).Draw(t, "reach")
		}
		var got pairing
		last := -1
		for n, o := range align(oldM, newM, reachM) {
			if o < 0 {
				continue
			}
			awayM := math.Abs(oldM[o] - newM[n])
			if o <= last || awayM > reachM[n] {
				t.Fatalf("pair %g to %g: out of order or reach", oldM[o], newM[n])
			}
			last = o
			got.pairs, got.awayM = got.pairs+1, got.awayM+awayM
			if awayM <= samePlaceM {
				got.same++
			}
		}
		want := slowAlign(oldM, newM, reachM)
		if got.same != want.same || got.pairs != want.pairs || math.Abs(got.awayM-want.awayM) > 1e-9 {
			t.Fatalf("%+v, best is %+v", got, want)
		}
	})
}

// Whatever the field asks, every dam has an id of its own, none has that of a rejected dam, dams that no edit speaks of keep their
// order, and what an edit asks for has the id of the edit.
func TestRenumberAlways(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		stations := func(name string) []float64 {
			all := rapid.SliceOfNDistinct(rapid.IntRange(0, 150), 0, 12, rapid.ID[int]).Draw(t, name)
			slices.Sort(all)
			var m []float64
			for _, s := range all {
				m = append(m, float64(s))
			}
			return m
		}
		var e Edits
		earlierM := stations("earlier")
		numbers := rapid.Permutation([]int{1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 14}).Draw(t, "numbers")
		taken := map[float64]bool{}
		newM := stations("new")
		for i, m := range earlierM {
			was := stood(DamID("D01", numbers[i]), m)
			e.Earlier = append(e.Earlier, was)
			switch place := float64(rapid.IntRange(0, 150).Draw(t, "place")); {
			case rapid.IntRange(0, 3).Draw(t, "edited") > 0:
			case rapid.Bool().Draw(t, "rejected"):
				if !taken[m] {
					taken[m] = true
					e.Asked = append(e.Asked, along(was.ID, siting.Reject, "", m))
				}
			case !taken[place]:
				taken[place] = true
				e.Asked = append(e.Asked, along(was.ID, siting.Move, "", place))
				newM = append(newM, place)
			}
		}
		slices.Sort(newM)
		sites := standingAt(slices.Compact(newM)...)
		inField(t, e).renumber(0, sites)

		edited := map[string]Asked{}
		for _, a := range e.Asked {
			edited[a.ID] = a
		}
		stoodM := map[string]float64{}
		for _, was := range e.Earlier {
			stoodM[was.ID] = was.StationM
		}
		seen := map[string]bool{}
		lastM := math.Inf(-1)
		for _, s := range sites {
			if seen[s.ID] {
				t.Fatalf("%s twice", s.ID)
			}
			seen[s.ID] = true
			if a, ok := edited[s.ID]; ok {
				if a.Action == siting.Reject || a.StationM != s.StationM {
					t.Fatalf("%s stands at %g, asked for was %+v", s.ID, s.StationM, a)
				}
				continue
			}
			if m, ok := stoodM[s.ID]; ok {
				if m < lastM {
					t.Fatalf("%s is out of order", s.ID)
				}
				lastM = m
			}
		}
		for _, a := range e.Asked {
			if a.Action == siting.Move && !seen[a.ID] {
				t.Fatalf("%s was moved and is gone", a.ID)
			}
		}
	})
}

// A file that comes back without edits changes no id, whatever numbers it holds.
func TestUneditedChangesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		all := rapid.SliceOfNDistinct(rapid.IntRange(1, 1500), 1, 20, rapid.ID[int]).Draw(t, "tenths")
		var e Edits
		var m []float64
		for i, tenths := range all { // numbers in any order along the channel
			m = append(m, float64(tenths)/10)
			e.Earlier = append(e.Earlier, stood(DamID("D01", i+1), math.Round(m[i]*100)/100))
		}
		slices.SortFunc(e.Earlier, func(a, b Earlier) int { return cmp.Compare(a.StationM, b.StationM) })
		slices.Sort(m)
		sites := standingAt(m...)
		f := inField(t, e)
		f.renumber(0, sites)
		for k, s := range sites {
			if s.ID != e.Earlier[k].ID {
				t.Fatalf("%s became %s", e.Earlier[k].ID, s.ID)
			}
		}
		for _, c := range f.changes([]siting.Layout{{Sites: sites}}, nil) {
			if c.Kind != ChangeKept {
				t.Fatalf("%s: %s", c.ID, fmt.Sprint(c))
			}
		}
	})
}
