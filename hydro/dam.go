package hydro

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"

	"siltstep/hydro/checkdam"
	"siltstep/hydro/siting"
)

// leastPeakM3s is the least peak that a notch is sized for, m³/s; what is less is no storm. Source: our own choice.
const leastPeakM3s = 1e-6

// designDams fills in the storm and the design of every dam, and cautions first of those that cannot be built.
func (p *Plan) designDams(ctx context.Context) error {
	p.Designs = make([][]Design, len(p.Network.Drainages))
	return p.eachDrainage(ctx, func(i int) {
		sites := p.Layouts[i].Sites
		p.Designs[i] = make([]Design, len(sites))
		for k := range sites {
			p.Designs[i][k] = p.design(i, &sites[k])
		}
		for k, m := range p.measured(i) {
			p.Designs[i][k].Measured = m
			if d := p.Designs[i][k].Dam; d != nil {
				d.Storage = m.Over(d.Storage).LessBody()
			}
		}
		p.fillSeries(i)
	})
}

// design returns the storm at a dam of a drainage and what it asks of the dam.
func (p *Plan) design(drainage int, s *siting.Site) Design {
	stations := p.Network.Drainages[drainage].Profile.Stations
	storm := noPeak("its cell is not on the profile")
	for k := range stations {
		if stations[k].Cell == s.Cell {
			storm = p.peakAt(&stations[k], p.paths[drainage][k])
			break
		}
	}
	d := Design{
		PeakM3s: storm.peakM3s, LowM3s: storm.lowM3s, HighM3s: storm.highM3s, Method: storm.method,
		ConcentrationS: storm.concentrationS, Methods: storm.methods, Notes: storm.notes,
		LowerM: math.NaN(), PersonDays: math.NaN(), Cost: math.NaN(), noPeak: storm.why,
	}
	var missing []string
	if storm.why != "" {
		missing = append(missing, "no storm peak: "+storm.why)
	} else if d.PeakM3s < leastPeakM3s {
		missing = append(missing, "the storm gives no runoff, so that there is nothing to size notch and stone for")
	}
	if why := p.size(drainage, s, &d); why != "" {
		missing = append(missing, "no design: "+why)
	}
	d.Why = strings.Join(missing, "; ")
	return d
}

// size sizes the dam, and what it takes; why says what stands against it.
func (p *Plan) size(drainage int, s *siting.Site, d *Design) (why string) {
	section, why := p.sectionAt(drainage, s.StationM)
	if why != "" {
		return why
	}
	r := p.requestOf(section)
	r.HeightM, r.Slope, r.CatchmentM2 = s.EffectiveHeightM, slopeAt(s, p.Config.Siting.DepositRatio), s.CatchmentM2
	r.PeakM3s = d.PeakM3s
	if !(r.PeakM3s >= leastPeakM3s) {
		r.PeakM3s = math.NaN()
	}
	dam, err := sizeAt(r, checkdam.Size)
	if err != nil {
		return strings.ReplaceAll(err.Error(), "\n", "; ")
	}
	d.Dam = &dam
	d.PersonDays, d.Cost = p.Config.Works.Prices.of(dam.Rock)
	if !dam.Buildable {
		d.LowerM = lowerM(dam)
		s.Cautions = slices.Insert(s.Cautions, 0, unbuildable(dam, d.LowerM)) // before all that is only to be heeded
	}
	return ""
}

// requestOf returns a dam of the plan's kind on a section; height, slope, catchment and peak are left out.
func (p *Plan) requestOf(section checkdam.Section) checkdam.Request {
	r := p.Config.Works.request(p.Config.Siting.Kind)
	r.Section = section
	r.DepositRatio, r.Engineer = p.Config.Siting.DepositRatio, p.Config.Siting.Engineer
	return r
}

// slopeAt returns the bed slope at a dam; where none is told there, or the bed is level, that of the bed under its wedge,
// which climbs to the deposit line over that length.
func slopeAt(s *siting.Site, depositRatio float64) float64 {
	if s.Slope > 0 {
		return s.Slope
	}
	return s.EffectiveHeightM / (1 - depositRatio) / (s.WedgeEndM - s.StationM)
}

// sizeAt sizes a dam with one of the two ways of checkdam. Siting keeps the bodies of dams apart, which goes before the spacing of an even bed.
func sizeAt(r checkdam.Request, size func(checkdam.Request) (checkdam.Design, error)) (checkdam.Design, error) {
	d, err := size(r)
	d.Notes = slices.DeleteFunc(d.Notes, func(n checkdam.Note) bool { return n.Rule == checkdam.RuleBodies })
	d.Buildable = !slices.ContainsFunc(d.Notes, func(n checkdam.Note) bool { return n.Fail })
	return d, err
}

// unbuildable returns the caution of a dam that cannot be built as designed: why, and the lower height at which it can.
func unbuildable(d checkdam.Design, lowerM float64) siting.Reason {
	var texts []string
	got, limit := math.NaN(), math.NaN()
	for _, n := range d.Notes {
		if n.Fail {
			if texts == nil {
				got, limit = n.Got, n.Limit
			}
			texts = append(texts, n.Says.String())
		}
	}
	if !math.IsNaN(lowerM) {
		text := fmt.Sprintf("At %.2f m high it could be built here", lowerM)
		if d.Notch == nil {
			text += ", if the storm, which is not known, asks for no deeper notch than the least"
		}
		texts = append(texts, text+".")
	}
	text := "This dam cannot be built as designed: " + strings.Join(texts, " ")
	return siting.Reason{Rule: siting.RuleDesign, Got: got, Limit: limit, Text: strings.TrimSuffix(text, ".")}
}

// lowerM returns the greatest height below that of a dam, in steps of 0.05 m from the least of its kind, at which it can be
// built; NaN where there is none.
func lowerM(d checkdam.Design) float64 {
	const stepM, slackM = 0.05, 1e-6
	r := d.Request
	lowM := d.Limits.LowM
	for k := math.Ceil((r.HeightM-lowM)/stepM-slackM) - 1; k >= 0; k-- {
		r.HeightM = lowM + k*stepM
		if lower, err := sizeAt(r, checkdam.Appraise); err == nil && lower.Buildable {
			return r.HeightM
		}
	}
	return math.NaN()
}

// of returns the work and the cost that rock takes; NaN where a price for it is not given.
func (p Prices) of(rock checkdam.Rock) (personDays, cost float64) {
	personDays, cost = math.NaN(), math.NaN()
	if p.DaysPerM3 > 0 {
		personDays = rock.TotalM3 * p.DaysPerM3
	}
	if p.RockPerTonne > 0 && p.PerDay > 0 {
		cost = rock.OrderTonnes*p.RockPerTonne + personDays*p.PerDay
	}
	return personDays, cost
}
