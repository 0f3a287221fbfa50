package cards

import (
	"fmt"
	"math"
	"strings"

	"siltstep/cmd/internal/facts"

	"github.com/paulmach/orb"
)

// Figures of the drawn plan: a bed that rises 6 %, dams of 0.48 m every 8 m, V banks of 1:1 above a bed 2 m wide.
const (
	drawnSlope    = 0.06
	drawnSpacingM = 8.0
	drawnHeightM  = 0.48
	drawnFirstM   = 20.0
)

// drawnPlan returns a plan of some drainages with one series of some dams each, built from the last drainage to the first.
func drawnPlan(drainages, dams int) *facts.Folder {
	f := &facts.Folder{Profiles: map[string]facts.Profile{}, Sections: map[string]facts.Section{}, Lines: map[string]orb.LineString{}}
	f.Cautions = []facts.Text{{Text: "This is a planning aid, not an engineered design."}, {Text: "Walk every site before anything is built."}}
	f.Grid = facts.Grid{CRS: "WGS 84 / UTM zone 13N"}
	f.Settings = []facts.Setting{{Key: "dams.kind", Value: "loose-rock"}, {Key: "dams.face_up", Value: "usual"}, {Key: "dams.face_down", Value: "2.5:1"}}
	f.Totals = facts.Totals{Drainages: drainages, TreatedM: 123.46, Quantities: facts.Quantities{RockM3: 73.21, RockT: 125.87}}
	for n := range drainages {
		id := fmt.Sprintf("D%02d", n+1)
		into := ""
		if n > 0 {
			into = "D01"
		}
		f.Drainages = append(f.Drainages, facts.Drainage{ID: id, Into: into})
		var ids []string
		for k := range dams {
			s := drawnSite(id, n, k, dams)
			ids = append(ids, s.ID)
			f.Sites = append(f.Sites, s)
			f.Designs = append(f.Designs, facts.Design{ID: s.ID, Buildable: true, NotchShape: "trapezoidal", NotchSideSlope: 1, CapacityM3s: 0.1934, FreeboardM: 0.1})
			f.Sections[s.ID] = drawnSection(s)
			f.Checks = append(f.Checks, facts.Check{ID: s.ID, Number: 1, Text: "Measure both banks: the wings stand 0.71 m above the bed."})
			f.Weaknesses = append(f.Weaknesses, facts.Weakness{ID: s.ID, Mode: "toe", Text: "The toe may wash out."})
		}
		f.Series = append(f.Series, facts.Series{ID: id + "-S1", Drainage: id, Number: 1, DamIDs: strings.Join(ids, " "), BuildOrder: drainages - n, Loads: 17, Year: unknown,
			Quantities: facts.Quantities{Dams: dams, RockM3: 11.11, RockT: 22.22}})
		f.Profiles[id] = drawnProfile(n, dams)
	}
	return f
}

// drawnSite is dam k of a drainage; each dam has figures of its own.
func drawnSite(drainage string, n, k, dams int) facts.Site {
	far, own := drawnFirstM+drawnSpacingM*float64(k), float64(k)/100
	s := facts.Site{
		ID: fmt.Sprintf("%s-%02d", drainage, k+1), Drainage: drainage, Series: 1, Number: k + 1,
		StationM: facts.Num(far), BedM: facts.Num(1600 + drawnSlope*far), EffectiveHeightM: drawnHeightM,
		BedWidthM: facts.Num(2 + own), BankToBankM: facts.Num(4.41 + own), BankHeightM: facts.Num(1.2 + own), CrestLengthM: facts.Num(3.42 + own), CrestWidthM: 0.5,
		SpacingDownM: drawnSpacingM, RiseFromBelowM: drawnHeightM, SpacingUpM: drawnSpacingM,
		StormHours: 24, ReturnPeriodYr: 10, PeakM3s: 0.1872, NotchWidthM: facts.Num(1.31 + own), NotchDepthM: facts.Num(0.23 + own), StoneD50M: 0.113,
		RockM3: facts.Num(3.74 + own), RockT: facts.Num(7.41 + own), ApronLengthM: facts.Num(1.23 + own), KeyBedM: 0.15, KeyBankM: 0.45,
		CatchmentHa: 1.7342, Slope: drawnSlope, Confidence: "medium", Cautions: "The bed slope is 6 %: look twice; there may be rock. A confluence lies 5.1 m away; Second thing to heed",
		Place: facts.Place{Lon: facts.Num(-104.4512345 + own), Lat: facts.Num(37.2709876 - own/10), XM: facts.Num(548000.25 + 90*float64(n)), YM: facts.Num(4125000.75 + far)},
	}
	s.NotchSillM = s.BedM + s.EffectiveHeightM
	s.DamTopM = s.NotchSillM + s.NotchDepthM
	if k == 0 {
		s.SpacingDownM, s.RiseFromBelowM = unknown, unknown
	}
	if k == dams-1 {
		s.SpacingUpM = unknown
	}
	return s
}

func drawnSection(s facts.Site) (section facts.Section) {
	half := float64(s.BedWidthM) / 2
	top, sill := float64(s.DamTopM), float64(s.NotchSillM)
	for x := -4.0; x <= 4.001; x += 0.25 {
		p := facts.SectionPoint{OffsetM: x, GroundM: float64(s.BedM) + min(1.2, max(0, math.Abs(x)-half)), DamM: math.NaN()}
		if p.GroundM <= top {
			p.DamM = top
			if math.Abs(x) <= float64(s.NotchWidthM)/2 {
				p.DamM = sill
			}
		}
		section = append(section, p)
	}
	return section
}

func drawnProfile(n, dams int) (profile facts.Profile) {
	for far := 0.0; far <= drawnFirstM+drawnSpacingM*float64(dams)+20; far++ {
		p := facts.Station{StationM: far, BedM: 1600 + drawnSlope*far, DepositM: math.NaN(), Place: facts.Place{XM: facts.Num(548000.25 + 90*float64(n)), YM: facts.Num(4125000.75 + far)}}
		if k := math.Floor((far - drawnFirstM) / drawnSpacingM); k >= 0 && k < float64(dams) {
			p.DepositM = 1600 + drawnSlope*(drawnFirstM+drawnSpacingM*k) + drawnHeightM
		}
		profile = append(profile, p)
	}
	return profile
}
