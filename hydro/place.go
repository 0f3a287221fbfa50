package hydro

import (
	"math"
	"slices"
	"sort"
	"strings"

	"siltstep/hydro/channel"
	"siltstep/hydro/checkdam"
	"siltstep/hydro/siting"
)

// places tells siting what dams the cross-sections of a drainage offer. One section speaks for the stations nearest to it, so that
// dams are sized once for all of them: for the largest peak and catchment there.
type places struct {
	plan     *Plan
	drainage int
	known    map[int]siting.Place // by position in Plan.Sections
}

// placesOf returns the places of a drainage.
func (p *Plan) placesOf(drainage int) *places {
	return &places{p, drainage, map[int]siting.Place{}}
}

// at returns the place at a station, by its position in the profile.
func (s *places) at(station int) siting.Place {
	stations := s.plan.Network.Drainages[s.drainage].Profile.Stations
	nearest, why := s.plan.bankedSection(s.drainage, stations[station].StationM)
	if nearest < 0 {
		nan := math.NaN()
		return siting.Place{BedWidthM: nan, TopWidthM: nan, BankM: nan, Why: why}
	}
	place, ok := s.known[nearest]
	if !ok {
		place = s.plan.placeOn(s.drainage, nearest, station)
		s.known[nearest] = place
	}
	return place
}

// placeOn sizes a dam of each height on a section.
func (p *Plan) placeOn(drainage, section, station int) siting.Place {
	c := p.Sections[drainage][section]
	place := siting.Place{BedWidthM: c.BedWidthM, TopWidthM: c.TopWidthM, BankM: c.DepthM}
	ground, err := checkdam.NewSection(bankToBank(c, p.dipM()))
	if err != nil {
		place.Why = err.Error()
		return place
	}
	r := p.requestOf(ground)
	r.PeakM3s, r.CatchmentM2, r.Slope = p.worstAround(drainage, section, station)
	heights := p.Config.Siting.Heights()
	place.Offers = make([]siting.Offer, len(heights))
	for i, h := range heights {
		r.HeightM = h
		place.Offers[i] = offerOf(r)
	}
	return place
}

// offerOf sizes a dam and tells whether it can be built, how near others stand left out.
func offerOf(r checkdam.Request) siting.Offer {
	out := siting.Offer{HeightM: r.HeightM}
	nan := math.NaN()
	dam, err := sizeAt(r, checkdam.Appraise)
	if err != nil {
		out.Fault = &siting.Reason{Rule: siting.RuleDesign, Got: nan, Limit: nan, Text: strings.ReplaceAll(err.Error(), "\n", "; ")}
		return out
	}
	out.RockT, out.CrestWidthM = dam.Rock.OrderTonnes, dam.Body.CrestWidthM
	if i := slices.IndexFunc(dam.Notes, func(n checkdam.Note) bool { return n.Fail }); i >= 0 {
		out.Fault = faultOf(dam.Notes[i])
	}
	return out
}

// faultOf returns the first sentence of a note as a reason.
func faultOf(n checkdam.Note) *siting.Reason {
	rule := siting.RuleDesign
	if n.Rule == checkdam.RuleBanks {
		rule = siting.RuleBanks
	}
	text, _, _ := strings.Cut(n.Says.String(), ": ")
	text, _, _ = strings.Cut(text, ". ")
	return &siting.Reason{Rule: rule, Got: n.Got, Limit: n.Limit, Text: strings.TrimSuffix(text, ".")}
}

// worstAround returns the largest peak and catchment among the stations around one that a section speaks for, and
// the greatest slope told there, rise over run, no less than what a dam can be sized on and no more than is eligible: where
// it is too steep, siting tells.
func (p *Plan) worstAround(drainage, section, station int) (peakM3s, catchmentM2, slope float64) {
	const leastSlope = 0.001
	peakM3s, slope = math.NaN(), leastSlope
	stations := p.Network.Drainages[drainage].Profile.Stations
	look := func(i int) bool {
		if nearest, _ := p.bankedSection(drainage, stations[i].StationM); nearest != section {
			return false
		}
		s := &stations[i]
		if along := p.peaks[drainage]; along != nil && along[i] >= leastPeakM3s && !(along[i] <= peakM3s) {
			peakM3s = along[i]
		}
		catchmentM2 = max(catchmentM2, s.CatchmentM2)
		if s.Slope > slope {
			slope = s.Slope
		}
		return true
	}
	for i := station; i >= 0 && look(i); i-- {
	}
	for i := station + 1; i < len(stations) && look(i); i++ {
	}
	return peakM3s, catchmentM2, max(leastSlope, min(slope, p.Config.Siting.SlopeMax))
}

// bankedSection returns the position of the nearest section to a station, in metres along the line, that is resolved and has banks; −1 where none lies near
// enough, and why says so.
func (p *Plan) bankedSection(drainage int, stationM float64) (at int, why string) {
	var all []channel.Section
	if drainage < len(p.Sections) {
		all = p.Sections[drainage]
	}
	withinM := nearSpacings * max(p.Config.Sections.SpacingM, 2*p.Grid.Transform.CellM)
	best, bestM := -1, math.Inf(1)
	unfit, unfitM := "none was taken", math.Inf(1)
	first := sort.Search(len(all), func(i int) bool { return all[i].StationM >= stationM-withinM })
	for i := first; i < len(all) && all[i].StationM <= stationM+withinM; i++ {
		c := &all[i]
		awayM := math.Abs(c.StationM - stationM)
		switch has := hasBanks(c); {
		case has && awayM < bestM:
			best, bestM = i, awayM
		case !has && awayM < unfitM:
			unfit, unfitM = c.Why, awayM
			if c.Resolved {
				unfit = "the ground has no banks there"
			}
		}
	}
	if best < 0 {
		return -1, noSectionText(withinM, unfit)
	}
	return best, ""
}

// hasBanks tells whether a dam can be sized on a section.
func hasBanks(c *channel.Section) bool {
	return c.Resolved && c.DepthM > 0 && c.Left.HeightM > 0 && c.Right.HeightM > 0
}
