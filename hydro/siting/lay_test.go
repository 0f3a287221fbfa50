package siting

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
	"siltstep/hydro/channel"
)

// anyDrainage draws a drainage with an uneven line and bed, odd values included.
func anyDrainage(t *rapid.T) *channel.Drainage {
	n := rapid.IntRange(1, 120).Draw(t, "stations")
	d := &channel.Drainage{ID: "D01", Into: rapid.IntRange(-1, 0).Draw(t, "into"), IntoCell: -1}
	s, z, y := 0.0, 100.0, 0.0
	for i := range n {
		if i > 0 {
			s += rapid.Float64Range(0.5, 3).Draw(t, "step")
			z += rapid.SampledFrom([]float64{0, 0.02, 0.05, 0.1, 0.2, 0.7}).Draw(t, "rise")
			y += rapid.Float64Range(-1, 1).Draw(t, "turn")
		}
		d.Profile.Stations = append(d.Profile.Stations, channel.Station{
			StationM: s, X: s, Y: y, Cell: i, GroundM: z, BedM: z,
			Slope:       rapid.SampledFrom([]float64{0.06, 0.06, 0.06, 0.06, 0.06, 0.06, 0.1, 0.01, 0.3, math.NaN()}).Draw(t, "slope"),
			CatchmentM2: rapid.SampledFrom([]float64{10_000, 10_000, 10_000, 10_000, 30_000, 50_000, 100}).Draw(t, "catchment"),
			FillM:       rapid.SampledFrom([]float64{0, 0, 0, 0, 0, 0.2, 0.5, 1.5}).Draw(t, "fill"),
		})
	}
	return d
}

// calm makes most stations alike, so that reaches grow long.
func calm(t *rapid.T, d *channel.Drainage) {
	from := rapid.Float64Range(0, 100).Draw(t, "calm from")
	at(d, from, from+80, func(s *station) { s.Slope, s.CatchmentM2, s.FillM = 0.06, 10_000, 0 })
}

func TestLayAlways(t *testing.T) {
	if testing.Short() {
		t.Skip("lays out a hundred drainages of any form")
	}
	rapid.Check(t, func(t *rapid.T) {
		d := anyDrainage(t)
		calm(t, d)
		cfg := Defaults()
		cfg.HeightM = rapid.SampledFrom([]float64{0.1, 0.3, 0.6, 0.9}).Draw(t, "height")
		cfg.DepositRatio = rapid.SampledFrom([]float64{0, 0, 0.5, 0.7}).Draw(t, "ratio")
		var inside Area
		if rapid.Bool().Draw(t, "property") {
			inside = westOf(rapid.Float64Range(0, 200).Draw(t, "line"))
		}
		var ground Ground
		if rapid.Bool().Draw(t, "screened") {
			ground = cutBy(d, func(float64) float64 {
				return rapid.SampledFrom([]float64{0.5, 0.5, 0.5, 0.5, 0.5, 0.1, 0, math.NaN()}).Draw(t, "incision")
			})
		}
		l := Lay(d, 1, cfg, inside, ground, nil)
		checkReaches(t, d, l)
		checkSites(t, d, cfg, inside, l)
		if got := paintedBareM(d, l); math.Abs(got-l.BareM) > 1e-6*(1+got)+0.04*float64(len(l.Sites)+len(l.Reaches)) {
			t.Fatalf("%g m left bare, painted %g m", l.BareM, got)
		}
		if l.TreatedM < 0 || l.TreatedM > d.Profile.LengthM()+1e-9 {
			t.Fatalf("treated %g m of %g m", l.TreatedM, d.Profile.LengthM())
		}
		if got := paintedM(d, l); math.Abs(got-l.TreatedM) > 1e-6*(1+got)+0.02*float64(len(l.Sites)) {
			t.Fatalf("treated %g m, painted %g m", l.TreatedM, got)
		}
		// NaN differs from itself under DeepEqual, so the printed form is compared.
		if again := Lay(d, 1, cfg, inside, ground, nil); fmt.Sprint(l) != fmt.Sprint(again) {
			t.Fatal("a second run differs")
		}
	})
}

func checkReaches(t *rapid.T, d *channel.Drainage, l Layout) {
	end, eligible := 0.0, 0.0
	for _, r := range l.Reaches {
		if r.FromM != end || r.ToM < r.FromM || r.Eligible != (len(r.Reasons) == 0) {
			t.Fatalf("reach %+v begins where the last ended at %g", r, end)
		}
		end = r.ToM
		if r.Eligible {
			eligible += r.ToM - r.FromM
		}
	}
	if end != d.Profile.LengthM() || math.Abs(eligible-l.EligibleM) > 1e-9 {
		t.Fatalf("reaches end at %g of %g m, %g of %g m eligible", end, d.Profile.LengthM(), eligible, l.EligibleM)
	}
}

func checkSites(t *rapid.T, d *channel.Drainage, cfg Config, inside Area, l Layout) {
	b := bed{d.Profile.Stations}
	for i, s := range l.Sites {
		home := false
		for _, r := range l.Reaches {
			home = home || r.Eligible && s.StationM >= r.FromM && s.StationM <= r.ToM
		}
		if !home {
			t.Fatalf("%s at %g m stands outside every eligible reach", s.ID, s.StationM)
		}
		if !slices.Contains(cfg.Heights(), s.EffectiveHeightM) || math.Abs(s.SillM-s.BedM-s.EffectiveHeightM) > 1e-9 {
			t.Fatalf("%s: height %g m of %v, sill %g m", s.ID, s.EffectiveHeightM, cfg.Heights(), s.SillM)
		}
		if b.grade(s.StationM, s.BodyUpM+s.BodyDownM) > cfg.SlopeMax+1e-6 {
			t.Fatalf("%s hangs on a step", s.ID)
		}
		var next *Site // down the drainage
		if i > 0 {
			next = &l.Sites[i-1]
		}
		if at := exposedLipM(b, s.StationM, cfg.SlopeMax, next); s.StationM-at < cfg.bodyM() {
			t.Fatalf("%s at %g m stands just above the lip at %g m", s.ID, s.StationM, at)
		} else if s.StationM-s.BodyDownM-at < StepLookM && !hasRule(s, RuleStep) {
			t.Fatalf("%s at %g m has no caution of the lip at %g m", s.ID, s.StationM, at)
		}
		if !(s.WedgeEndM > s.StationM) {
			t.Fatalf("%s: wedge to %g m", s.ID, s.WedgeEndM)
		}
		if inside != nil && (!ends(b, s.StationM, inside) || !ends(b, s.WedgeEndM, inside)) {
			t.Fatalf("%s at %g m with wedge to %g m is over the property line", s.ID, s.StationM, s.WedgeEndM)
		}
		if i == 0 {
			continue
		}
		below := l.Sites[i-1]
		if s.StationM-s.BodyDownM < below.StationM+below.BodyUpM-1e-6 || s.SillM <= below.SillM || s.Series < below.Series || s.Number != i+1 {
			t.Fatalf("%+v does not follow %+v", s, below)
		}
		// Toe to crest within a series, and apart between two.
		if (s.Series == below.Series) != (s.StationM <= below.WedgeEndM+1e-6) {
			t.Fatalf("%s at %g m, series %d; the wedge of the dam below, series %d, ends at %g m", s.ID, s.StationM, s.Series, below.Series, below.WedgeEndM)
		}
		if s.Series == below.Series && (s.SpacingDownM < 0 || s.SpacingDownM != below.SpacingUpM) {
			t.Fatalf("%s: spacing %g m down, %g m up", s.ID, s.SpacingDownM, below.SpacingUpM)
		}
	}
	if l.March.BareM < l.Chosen.BareM-1e-9 || l.March.BareM == l.Chosen.BareM && l.March.CostT < l.Chosen.CostT {
		t.Fatalf("a plain march takes %+v, the best %+v", l.March, l.Chosen)
	}
}

// exposedLipM is a slow twin of lipBelow for plain steps: the highest place from s down, station or s
// itself, under which the bed is steeper than slopeMax, falls over 0.5 m in 2 m, and that the dam
// below does not drown. Minus infinity where there is none.
func exposedLipM(b bed, s, slopeMax float64, below *Site) float64 {
	end, sill := 0.0, math.Inf(-1)
	if below != nil {
		end, sill = below.StationM, below.SillM
	}
	places := []float64{s}
	for i := len(b.stations) - 1; i >= 0; i-- {
		if at := b.stations[i].StationM; at < s && at > end {
			places = append(places, at)
		}
	}
	for _, at := range places {
		const shortM = 0.001
		steep := b.elevationM(at)-b.elevationM(at-shortM) > 1.0001*slopeMax*shortM
		falls := b.elevationM(at)-b.elevationM(max(at-2, end)) > 0.5+1e-6
		if steep && falls && b.elevationM(at) > sill+1e-5 {
			return at
		}
	}
	return math.Inf(-1)
}

func ends(b bed, s float64, inside Area) bool {
	x, y := b.xy(s)
	return inside(x, y)
}

func hasRule(s Site, r Rule) bool {
	for _, c := range s.Cautions {
		if c.Rule == r {
			return true
		}
	}
	return false
}

// paintedM is the slow twin of treatedM: it paints the channel in hundredths of a metre.
func paintedM(d *channel.Drainage, l Layout) float64 {
	const stepM = 0.01
	n := 0
	for k := range int(d.Profile.LengthM() / stepM) {
		mid := (float64(k) + 0.5) * stepM
		for _, s := range l.Sites {
			if mid >= s.StationM && mid <= s.WedgeEndM {
				n++
				break
			}
		}
	}
	return float64(n) * stepM
}

// paintedBareM is the slow twin of what is left uncovered of eligible reaches.
func paintedBareM(d *channel.Drainage, l Layout) float64 {
	const stepM = 0.01
	n := 0
	for k := range int(d.Profile.LengthM() / stepM) {
		mid := (float64(k) + 0.5) * stepM
		eligible := slices.ContainsFunc(l.Reaches, func(r Reach) bool { return r.Eligible && r.FromM <= mid && mid < r.ToM })
		covered := slices.ContainsFunc(l.Sites, func(s Site) bool { return s.StationM <= mid && mid <= s.WedgeEndM })
		if eligible && !covered {
			n++
		}
	}
	return float64(n) * stepM
}
