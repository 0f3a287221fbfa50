package siting

import (
	"math"
	"slices"
	"strings"

	"siltstep/hydro/channel"
)

// A teller is what the checker tells faults to: a test, or one that gathers them.
type teller interface {
	Helper()
	Errorf(format string, args ...any)
}

const slack = 1e-6 // m; rounding of sums of stations and levels

// checkLayout holds a layout against the ground and the settings alone, whatever way it was found. What the field asked for is
// let off the limits.
func checkLayout(t teller, d *channel.Drainage, cellM float64, cfg Config, l Layout) {
	t.Helper()
	g := surveyed(d.Profile.Stations)
	if cellM > MaxSiteCellM && !cfg.AllowCoarse && slices.ContainsFunc(l.Sites, func(s Site) bool { return s.Edit == "" }) {
		t.Errorf("dams on cells of %g m", cellM)
	}
	for i := range l.Sites {
		s := &l.Sites[i]
		g.checkSite(t, cfg, s)
		g.checkWedge(t, cfg, s)
		if s.Number != i+1 || s.Drainage != d.ID {
			t.Errorf("%s: number %d of drainage %s, want %d of %s", s.ID, s.Number, s.Drainage, i+1, d.ID)
		}
		var below *Site
		if i > 0 {
			below = &l.Sites[i-1]
			checkPair(t, cfg, below, s)
		} else if s.Series != 1 || !math.IsNaN(s.SpacingDownM) || !math.IsNaN(s.RiseM) {
			t.Errorf("%s is the lowest: series %d, %g m from the one below, rise %g m", s.ID, s.Series, s.SpacingDownM, s.RiseM)
		}
		if s.Edit == "" {
			checkLimits(t, d, cfg, l, s)
			g.checkFooting(t, cfg, s, below)
		}
	}
	checkSums(t, l)
}

// surveyed is a bed as it was surveyed.
type surveyed []station

func (g surveyed) lengthM() float64 { return g[len(g)-1].StationM }

// levelM returns the bed at a station, straight between those surveyed; beyond an end, that of the end.
func (g surveyed) levelM(s float64) float64 {
	for i := 1; i < len(g); i++ {
		lo, hi := g[i-1], g[i]
		if s <= hi.StationM {
			t := min(1, max(0, (s-lo.StationM)/(hi.StationM-lo.StationM)))
			return (1-t)*lo.BedM + t*hi.BedM
		}
	}
	return g[len(g)-1].BedM
}

// dry tells whether no surveyed station between two is a cut, a stock pond or water.
func (g surveyed) dry(fromM, toM float64) bool {
	return !slices.ContainsFunc(g, func(s station) bool {
		return s.StationM > fromM && s.StationM < toM && (s.Cut || s.StockPond || s.NoBed)
	})
}

// checkSite holds a dam against its own figures.
func (g surveyed) checkSite(t teller, cfg Config, s *Site) {
	if !(s.StationM >= 0 && s.StationM <= g.lengthM()) || math.Abs(s.BedM-g.levelM(s.StationM)) > slack {
		t.Errorf("%s at %g of %g m: bed %g m, surveyed %g", s.ID, s.StationM, g.lengthM(), s.BedM, g.levelM(s.StationM))
	}
	if math.Abs(s.SillM-s.BedM-s.EffectiveHeightM) > slack {
		t.Errorf("%s: sill %g m is not %g above the bed at %g", s.ID, s.SillM, s.EffectiveHeightM, s.BedM)
	}
	if s.Edit != Built && s.Edit != Fix && !slices.Contains(cfg.Heights(), s.EffectiveHeightM) {
		t.Errorf("%s: %g m high is none of %v", s.ID, s.EffectiveHeightM, cfg.Heights())
	}
	b := cfg.body()
	upM, downM := s.BodyUpM-b.FaceUp*s.EffectiveHeightM, s.BodyDownM-b.FaceDown*s.EffectiveHeightM
	if math.Abs(upM-downM) > slack || upM < b.CrestWidthM/2-slack {
		t.Errorf("%s: body %g m up and %g down of the axis, with half a crest of %g m", s.ID, s.BodyUpM, s.BodyDownM, b.CrestWidthM/2)
	}
}

// checkWedge holds a wedge against the ground: under the deposit line as far as it goes, and ended by the bed, by water or a cut, or by
// the drainage.
func (g surveyed) checkWedge(t teller, cfg Config, s *Site) {
	if !(s.WedgeEndM >= s.StationM && s.WedgeEndM <= g.lengthM()+slack) {
		t.Errorf("%s at %g m: wedge to %g of %g m", s.ID, s.StationM, s.WedgeEndM, g.lengthM())
		return
	}
	over := func(at float64) float64 { // of the bed over the deposit line, m
		z := g.levelM(at)
		return z - s.SillM - cfg.DepositRatio*(z-s.BedM)
	}
	for _, at := range g {
		if at.StationM > s.StationM && at.StationM < s.WedgeEndM && over(at.StationM) > slack {
			t.Errorf("%s: the bed stands %g m out of the wedge at %g m", s.ID, over(at.StationM), at.StationM)
			return
		}
	}
	i := slices.IndexFunc(g, func(at station) bool { return at.StationM > s.WedgeEndM })
	barred := i > 0 && (!g.dry(g[i-1].StationM-slack, g[i].StationM+slack) || g[i].FillM > 0)
	if s.Edit == "" && !g.dry(s.StationM, s.WedgeEndM) {
		t.Errorf("%s: wedge to %g m over a cut or water", s.ID, s.WedgeEndM)
	}
	if math.Abs(over(s.WedgeEndM)) > slack && s.WedgeEndM < g.lengthM()-slack && !barred {
		t.Errorf("%s: wedge ends at %g m, %g m under the deposit line", s.ID, s.WedgeEndM, -over(s.WedgeEndM))
	}
}

// checkPair holds a dam against the one below.
func checkPair(t teller, cfg Config, below, s *Site) {
	gapM := s.StationM - below.StationM
	asked := below.Edit != "" && s.Edit != ""
	if gapM <= 0 || !asked && gapM < below.BodyUpM+s.BodyDownM-slack {
		t.Errorf("%s stands %g m above %s: bodies reach %g m", s.ID, gapM, below.ID, below.BodyUpM+s.BodyDownM)
	}
	if !asked && s.SillM <= below.SillM {
		t.Errorf("%s: sill %g m; that of %s is %g", s.ID, s.SillM, below.ID, below.SillM)
	}
	if !asked && s.StationM <= below.WedgeEndM && s.WedgeEndM <= below.WedgeEndM {
		t.Errorf("%s: the wedge to %g m covers nothing that %s does not", s.ID, s.WedgeEndM, below.ID)
	}
	if s.Series != below.Series {
		if s.Series != below.Series+1 || s.StationM <= below.WedgeEndM || !math.IsNaN(s.SpacingDownM) || !math.IsNaN(s.RiseM) || !math.IsNaN(below.SpacingUpM) {
			t.Errorf("%s at %g m begins series %d; the wedge of %s, series %d, ends at %g m", s.ID, s.StationM, s.Series, below.ID, below.Series, below.WedgeEndM)
		}
		return
	}
	depositM := below.SillM + cfg.DepositRatio*(s.BedM-below.BedM)
	if s.BedM > depositM+slack || s.StationM > below.WedgeEndM+slack {
		t.Errorf("%s stands on bed at %g m; the deposit of %s, of one series, lies at %g and ends at %g m", s.ID, s.BedM, below.ID, depositM, below.WedgeEndM)
	}
	if math.Abs(s.SpacingDownM-gapM) > slack || s.SpacingDownM != below.SpacingUpM || math.Abs(s.RiseM-(s.BedM-below.BedM)) > slack {
		t.Errorf("%s: %g m from %s, which says %g; rise %g m", s.ID, s.SpacingDownM, below.ID, below.SpacingUpM, s.RiseM)
	}
}

// checkLimits holds the place of a dam against the settings.
func checkLimits(t teller, d *channel.Drainage, cfg Config, l Layout, s *Site) {
	if !slices.ContainsFunc(l.Reaches, func(r Reach) bool { return r.Eligible && r.FromM <= s.StationM && s.StationM <= r.ToM }) {
		t.Errorf("%s at %g m stands in no eligible reach", s.ID, s.StationM)
	}
	if s.CatchmentM2 > cfg.CatchmentMaxM2 || s.CatchmentM2 < cfg.CatchmentMinM2 {
		t.Errorf("%s: catchment %g m²", s.ID, s.CatchmentM2)
	}
	near := slices.Clone(d.ConfluencesM)
	if d.Into >= 0 {
		near = append(near, 0)
	}
	for _, c := range near {
		if math.Abs(s.StationM-c) < cfg.ConfluenceM-slack {
			t.Errorf("%s at %g m stands near the confluence at %g m", s.ID, s.StationM, c)
		}
	}
}

// checkFooting holds what lies under a dam against the rules: no water or cut, no step, and none just below that is not drowned. A
// step is made of stretches between surveyed stations, each too steep, that fall over StepM.
func (g surveyed) checkFooting(t teller, cfg Config, s, below *Site) {
	if !g.dry(s.StationM-s.BodyDownM, s.StationM+s.BodyUpM) {
		t.Errorf("%s at %g m stands on a cut or in water", s.ID, s.StationM)
	}
	halfM := (s.BodyUpM + s.BodyDownM) / 2
	lo, hi := max(0, s.StationM-halfM), min(g.lengthM(), s.StationM+halfM)
	if fall := g.levelM(hi) - g.levelM(lo); fall > cfg.SlopeMax*(hi-lo)+slack {
		t.Errorf("%s: the bed under it falls %g m in %g m", s.ID, fall, hi-lo)
	}
	endM, drownedM := 0.0, math.Inf(-1)
	if below != nil {
		endM, drownedM = below.StationM, below.SillM
	}
	topM, fall := math.NaN(), 0.0 // upper end of the steep stretches that were just passed, downstream
	for i := len(g) - 1; i > 0; i-- {
		lo, hi := g[i-1], g[i]
		if hi.StationM > s.StationM || lo.StationM < endM {
			continue
		}
		if hi.BedM-lo.BedM <= cfg.SlopeMax*(hi.StationM-lo.StationM)*(1+slack) {
			topM, fall = math.NaN(), 0
			continue
		}
		if math.IsNaN(topM) {
			topM = hi.StationM
		}
		fall += hi.BedM - lo.BedM
		if fall > StepM+slack && s.StationM-topM < cfg.bodyM() && g.levelM(topM) > drownedM+2*slack {
			t.Errorf("%s stands %g m above the lip of a step at %g m, which is not drowned", s.ID, s.StationM-topM, topM)
			return
		}
	}
}

// underM returns how much of a stretch lies under the wedges of dams that rise upstream, m, and how many pieces of a length do not.
func underM(sites []Site, fromM, toM, leastM float64) (m float64, bare int) {
	dry := func(at float64) {
		if at-fromM >= leastM {
			bare++
		}
	}
	for _, s := range sites {
		if a, b := max(s.StationM, fromM), min(s.WedgeEndM, toM); a < b {
			dry(a)
			m += b - a
			fromM = b
		}
	}
	dry(toM)
	return m, bare
}

// checkSums holds the sums of a layout against its reaches and dams.
func checkSums(t teller, l Layout) {
	eligibleM, coveredM := 0.0, 0.0
	for i, r := range l.Reaches {
		if i > 0 && r.FromM != l.Reaches[i-1].ToM || r.ToM < r.FromM || r.Eligible != (len(r.Reasons) == 0) {
			t.Errorf("reach %+v does not follow the one below, or has no verdict", r)
		}
		for _, why := range r.Reasons {
			if why.Text == "" || why.Rule == "" || strings.HasSuffix(why.Text, ".") {
				t.Errorf("reach from %g m: reason %+v", r.FromM, why)
			}
		}
		if !r.Eligible {
			continue
		}
		m, bare := underM(l.Sites, r.FromM, r.ToM, leastBareM)
		eligibleM, coveredM = eligibleM+r.LengthM(), coveredM+m
		if bare != len(r.Notes) {
			t.Errorf("reach from %g m: %d bare pieces, %d notes: %+v", r.FromM, bare, len(r.Notes), r.Notes)
		}
	}
	treatedM, _ := underM(l.Sites, 0, math.Inf(1), 0)
	sumM := 0.0
	for _, m := range l.SeriesTreatedM {
		sumM += m
	}
	if math.Abs(eligibleM-l.EligibleM) > slack || math.Abs(eligibleM-coveredM-l.BareM) > slack || math.Abs(treatedM-l.TreatedM) > slack || math.Abs(sumM-l.TreatedM) > slack {
		t.Errorf("eligible %g, bare %g, treated %g, by series %g m; want %g, %g, %g and %g", l.EligibleM, l.BareM, l.TreatedM, sumM,
			eligibleM, eligibleM-coveredM, treatedM, treatedM)
	}
	series := 0
	if n := len(l.Sites); n > 0 {
		series = l.Sites[n-1].Series
	}
	if len(l.SeriesTreatedM) != series || l.Chosen.Dams != len(l.Sites) {
		t.Errorf("%d lengths of series, %d dams; want %d and %d", len(l.SeriesTreatedM), l.Chosen.Dams, series, len(l.Sites))
	}
}

// checkRoom looks for a dam more at a surveyed station that would cover ground left bare, on a straight drainage without features, and
// laid out anywhere on it without edits or judged banks. Stations near anything doubtful are passed over.
func checkRoom(t teller, d *channel.Drainage, cfg Config, l Layout) {
	t.Helper()
	g := surveyed(d.Profile.Stations)
	for _, r := range l.Reaches {
		topM := r.ToM - cfg.body().LengthM(cfg.Heights()[0])
		if !r.Eligible || topM <= r.FromM {
			continue
		}
		wasM, _ := underM(l.Sites, r.FromM, topM, 0)
		for _, at := range g {
			if at.StationM <= r.FromM || at.StationM >= topM || !g.sound(d, cfg, at.StationM) {
				continue
			}
			for _, h := range cfg.Heights() {
				more, ok := g.oneMore(cfg, l.Sites, at.StationM, h)
				if !ok {
					continue
				}
				if m, _ := underM(more, r.FromM, topM, 0); m > wasM+0.01 {
					t.Errorf("a dam of %g m more, at %g m, covers %.3f m", h, at.StationM, m-wasM)
					return
				}
			}
		}
	}
}

// sound tells whether a place is far from water, confluences and all that is steep.
func (g surveyed) sound(d *channel.Drainage, cfg Config, s float64) bool {
	const belowM, aboveM = 10, 4 // more than a body and the way a lip is looked for
	for i := 1; i < len(g); i++ {
		lo, hi := g[i-1], g[i]
		if hi.StationM > s-belowM && lo.StationM < s+aboveM && hi.BedM-lo.BedM > 0.99*cfg.SlopeMax*(hi.StationM-lo.StationM) {
			return false
		}
	}
	for _, c := range d.ConfluencesM {
		if math.Abs(c-s) < cfg.ConfluenceM+1 {
			return false
		}
	}
	return g.dry(s-belowM, s+aboveM) && (d.Into < 0 || s > cfg.ConfluenceM+1) && s+aboveM < g.lengthM()
}

// oneMore returns the dams with one more, where it fits among them.
func (g surveyed) oneMore(cfg Config, sites []Site, s, h float64) (all []Site, ok bool) {
	b, bedM := cfg.body(), g.levelM(s)
	n := Site{StationM: s, BedM: bedM, SillM: bedM + h, WedgeEndM: g.lengthM(),
		BodyUpM: b.CrestWidthM/2 + b.FaceUp*h, BodyDownM: b.CrestWidthM/2 + b.FaceDown*h}
	for i := 1; i < len(g) && n.WedgeEndM == g.lengthM(); i++ {
		lo, hi := g[i-1], g[i]
		rise := bedM + h/(1-cfg.DepositRatio) - lo.BedM
		switch {
		case hi.StationM <= s:
		case !g.dry(lo.StationM, hi.StationM+slack):
			n.WedgeEndM = max(s, lo.StationM) // never too long
		case hi.BedM-lo.BedM >= rise:
			n.WedgeEndM = lo.StationM + rise/(hi.BedM-lo.BedM)*(hi.StationM-lo.StationM)
		}
	}
	i := 0
	for i < len(sites) && sites[i].StationM <= s {
		i++
	}
	fits := func(lo, hi Site) bool {
		return hi.StationM-lo.StationM > lo.BodyUpM+hi.BodyDownM+slack && hi.SillM > lo.SillM+slack && hi.WedgeEndM > lo.WedgeEndM+slack
	}
	if i > 0 && !fits(sites[i-1], n) || i < len(sites) && !fits(n, sites[i]) {
		return nil, false
	}
	return slices.Insert(slices.Clone(sites), i, n), true
}
