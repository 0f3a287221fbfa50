package hydro

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"siltstep/hydro/channel"
	"siltstep/hydro/checkdam"
	"siltstep/hydro/erosion"
	"siltstep/hydro/siting"
)

// drawn is a series as a test draws it: rock of each dam in t, wedges of 10 m without gaps.
type drawn struct {
	fromM float64
	rockT []float64
}

// drawnPlan has a drainage for each list of series, and a severity for each. Dams are 10 m apart; each m³ is 2 t, takes a day,
// and a tonne costs 10.
func drawnPlan(severities []float64, drainages ...[]drawn) *Plan {
	p := &Plan{Network: &channel.Network{}, Config: Defaults()}
	p.Config.Works.Prices = Prices{Currency: "USD", RockPerTonne: 10, PerDay: 1, DaysPerM3: 1}
	for i, list := range drainages {
		id := fmt.Sprintf("D%02d", i+1)
		p.Network.Drainages = append(p.Network.Drainages, channel.Drainage{ID: id})
		var l siting.Layout
		var designs []Design
		for n, s := range list {
			for k, rock := range s.rockT {
				m := s.fromM + 10*float64(k)
				l.Sites = append(l.Sites, siting.Site{ID: fmt.Sprintf("%s-%02d", id, len(l.Sites)+1), Drainage: id, Series: n + 1, Number: len(l.Sites) + 1, StationM: m, WedgeEndM: m + 10})
				d := Design{Dam: &checkdam.Design{Rock: checkdam.Rock{TotalM3: rock / 2, OrderTonnes: rock}}, PersonDays: rock / 2, Cost: 10 * rock}
				if math.IsNaN(rock) {
					d = Design{PersonDays: rock, Cost: rock}
				}
				designs = append(designs, d)
			}
		}
		l.TreatedM = treatedM(&l)
		p.Layouts, p.Designs = append(p.Layouts, l), append(p.Designs, designs)
		p.Erosion = append(p.Erosion, erosion.Judgement{Severity: erosion.Severity{Total: severities[i]}})
	}
	return p
}

func TestSeriesOf(t *testing.T) {
	p := drawnPlan([]float64{40, 60}, []drawn{{0, []float64{1, 2, 3}}, {100, []float64{4}}}, []drawn{{5, []float64{math.NaN(), 2}}})
	p.Layouts[0].Sites[2].WedgeEndM = 105 // 5 m into the series above: counted once, for the lower
	list := seriesOf(p)
	var got []string
	for _, s := range list {
		got = append(got, fmt.Sprintf("%s drainage %d number %d %v %g-%g treated %g value %g rock %g dams %d undesigned %d", s.ID, s.Drainage, s.Number, s.DamIDs, s.FromM, s.ToM, s.TreatedM, s.Value, s.RockT, s.Dams, s.Undesigned))
	}
	// By hand: 10 + 10 + 85 m, the last cut short at 110 − 105; values at 40 % and 60 %.
	want := []string{
		"D01-S1 drainage 0 number 1 [D01-01 D01-02 D01-03] 0-105 treated 105 value 42 rock 6 dams 3 undesigned 0",
		"D01-S2 drainage 0 number 2 [D01-04] 100-110 treated 5 value 2 rock 4 dams 1 undesigned 0",
		"D02-S1 drainage 1 number 1 [D02-01 D02-02] 5-25 treated 20 value 12 rock 2 dams 2 undesigned 1",
	}
	if !slices.Equal(got, want) {
		t.Errorf("got\n%v\nwant\n%v", got, want)
	}
}

// What a left-out series shared with the one above falls to that one.
func TestSeriesLeftOut(t *testing.T) {
	p := drawnPlan([]float64{50}, []drawn{{0, []float64{1, 2}}, {15, []float64{4, 5}}, {60, []float64{6}}})
	list := seriesOf(p)
	if list[1].TreatedM != 15 { // 20 to 35
		t.Fatalf("treated %g, want 15", list[1].TreatedM)
	}
	p.Layouts[0].Reaches = []siting.Reach{{FromM: 0, ToM: 2}, {FromM: 2, ToM: 80, Eligible: true}}
	list[0].LeftOut, list[0].FromM = true, 2
	p.leaveOut(list)
	// 2 to 15, 35 to 60, 70 to 80.
	if got := p.Layouts[0].BareM; got != 48 {
		t.Errorf("bare %g m, want 48", got)
	}
	if notes := p.Layouts[0].Reaches[1].Notes; len(notes) != 1 || notes[0].Text != "The budget leaves out D01-S1, stations 2.0 to 20.0 m" || len(p.Layouts[0].Reaches[0].Notes) > 0 {
		t.Errorf("notes %v", notes)
	}
	var ids []string
	for k, s := range p.Layouts[0].Sites {
		ids = append(ids, fmt.Sprintf("%s series %d %g t", s.ID, s.Series, p.Designs[0][k].Dam.Rock.OrderTonnes))
	}
	if want := []string{"D01-03 series 2 4 t", "D01-04 series 2 5 t", "D01-05 series 3 6 t"}; !slices.Equal(ids, want) {
		t.Errorf("dams %v, want %v", ids, want)
	}
	// 15 to 35 and 60 to 70; half of 20 m.
	if l := p.Layouts[0]; l.TreatedM != 30 || list[1].TreatedM != 20 || list[1].Value != 10 || list[0].TreatedM != 20 {
		t.Errorf("treated %g, of the series %g, value %g; left out %g", l.TreatedM, list[1].TreatedM, list[1].Value, list[0].TreatedM)
	}
}

// Treated lengths of series, each rounded, add up to that of the layout, to the last cent.
func TestTreatedLengthAddsUp(t *testing.T) {
	var series []drawn
	for n := range 40 {
		series = append(series, drawn{fromM: 30.00333 * float64(n), rockT: []float64{1, 1}})
	}
	p := drawnPlan([]float64{50}, series)
	for k := range p.Layouts[0].Sites {
		p.Layouts[0].Sites[k].WedgeEndM += 0.004 * float64(k%3)
	}
	list := seriesOf(p)
	p.leaveOut(list)
	sum := 0.0
	for _, s := range list {
		sum += s.TreatedM
	}
	if got := p.Layouts[0].TreatedM; fmt.Sprintf("%.2f", sum) != fmt.Sprintf("%.2f", got) || hundredth(got) != got || len(list) != 40 {
		t.Errorf("%d series treat %.4f m, the layout %.4f", len(list), sum, got)
	}
}
