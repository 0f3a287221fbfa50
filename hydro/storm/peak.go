package storm

import (
	"errors"
	"fmt"
	"math"
	"strings"
)

// Result is what Peaks found. A value that could not be computed is NaN, and a note says what it needs.
type Result struct {
	RainMM               float64 // rain of the storm, mm
	RunoffMM             float64 // runoff of the storm, mm
	RunoffDryMM          float64 // the same on dry and on wet ground, mm
	RunoffWetMM          float64
	TimeOfConcentrationS float64      // s, after the floor
	Methods              []MethodPeak // all three, in fixed order
	Chosen               Method       // empty where no method is valid and none was named
	PeakM3s              float64      // of the method chosen, m³/s
	LowM3s, HighM3s      float64      // lowest and highest peak of the valid methods, m³/s
	Storm                Hyetograph   // the rain as it fell; empty where not known
	Hydrograph           Hydrograph   // of the unit hydrograph, whichever method is chosen; its volume is the runoff. Empty where not computed
	Findings             []Note
}

// MostCatchmentM2 is the largest catchment these methods are meant for here, m². Source: our own choice.
const MostCatchmentM2 = 1e7

// Peaks returns the storm peak by every method whose inputs are there. Chosen is the highest peak
// of the valid ones, or the method named. A request with a fault is an error that lists every fault; a
// named method that lacks an input is an error too.
func Peaks(q Request) (Result, error) {
	if err := q.Validate(); err != nil {
		return Result{}, err
	}
	c := catchment{Request: q, runoffMM: math.NaN()}
	var out Result
	var err error
	var notes []Note
	if c.tcS, notes, err = q.concentration(); err != nil {
		return Result{}, err
	}
	out.Findings = append(out.Findings, notes...)
	if c.design, err = q.design(c.tcS); err != nil {
		return Result{}, err
	}
	if c.ground, c.hasLand, err = q.land(); err != nil {
		return Result{}, err
	}
	if q.CatchmentM2 > MostCatchmentM2 {
		out.Findings = append(out.Findings, Note{Rule: RuleMethod, Got: q.CatchmentM2, Limit: MostCatchmentM2,
			Text: fmt.Sprintf("The catchment of %.3g km² is over %g km²: rain is not even over it and its channels store water. An engineer should find this peak.", q.CatchmentM2/1e6, MostCatchmentM2/1e6)})
	}
	if q.Rain.given() == 0 {
		out.Findings = append(out.Findings, noRain())
	}
	out.Findings = append(out.Findings, c.design.notes...)
	if c.hasLand {
		c.runoffMM = c.ground.runoffMM(c.design.depthMM)
	}
	out.RainMM, out.RunoffMM, out.TimeOfConcentrationS, out.Storm = c.design.depthMM, c.runoffMM, c.tcS, c.design.storm
	out.RunoffDryMM, out.RunoffWetMM = c.runoffAt(WetnessDry), c.runoffAt(WetnessWet)
	out.Findings = append(out.Findings, c.groundNotes(out)...)
	if err := out.compute(&c); err != nil {
		return Result{}, err
	}
	return out, out.choose(q.Method)
}

func (r *Result) compute(c *catchment) error {
	rational, err := c.rational()
	if err != nil {
		return fmt.Errorf("rational method: %w", err)
	}
	graphical, err := c.graphical()
	if err != nil {
		return fmt.Errorf("graphical method: %w", err)
	}
	unit, flow, err := c.unitHydrograph()
	if err != nil {
		return fmt.Errorf("unit hydrograph: %w", err)
	}
	r.Methods, r.Hydrograph = []MethodPeak{rational, graphical, unit}, flow
	for i := range r.Methods {
		if m := &r.Methods[i]; m.Recalled && !strings.Contains(m.Note, recalledText) {
			m.heed("(%s)", recalledText)
		}
	}
	if c.PondShare > 0 {
		r.Findings = append(r.Findings, Note{Rule: RulePond, Got: c.PondShare, Limit: math.NaN(),
			Text: "Ponds and swamps lower the graphical peak only; the other methods leave them out and are higher for it."})
	}
	return nil
}

// choose sets the method, its peak and the spread.
func (r *Result) choose(named Method) error {
	r.PeakM3s, r.LowM3s, r.HighM3s = math.NaN(), math.NaN(), math.NaN()
	valid := 0
	for _, m := range r.Methods {
		if m.Method == named {
			if math.IsNaN(m.PeakM3s) {
				return fmt.Errorf("the %s method was asked for. %s", named, m.Note)
			}
			r.Chosen, r.PeakM3s = named, m.PeakM3s
			if !m.Valid {
				r.Findings = append(r.Findings, Note{Rule: RuleMethod, Got: math.NaN(), Limit: math.NaN(),
					Text: fmt.Sprintf("The %s method was asked for outside its range. %s", named, m.Note)})
			}
		}
		if !m.Valid {
			continue
		}
		if named == "" && !(m.PeakM3s <= r.PeakM3s) {
			r.Chosen, r.PeakM3s = m.Method, m.PeakM3s
		}
		if valid++; valid == 1 {
			r.LowM3s, r.HighM3s = m.PeakM3s, m.PeakM3s
		}
		r.LowM3s, r.HighM3s = min(r.LowM3s, m.PeakM3s), max(r.HighM3s, m.PeakM3s)
	}
	r.Findings = append(r.Findings, r.spread(valid))
	return nil
}

// Share and multiple that an ungauged peak may be off by. Source: Genereux2003 (read) found 0.42 to
// 2.6 m³/s by four methods for one catchment of 15.8 ha; the figures are our own.
const (
	peakShareLow  = 0.5
	peakShareHigh = 2.0
)

func (r *Result) spread(valid int) Note {
	n := Note{Rule: RuleSpread, Got: r.PeakM3s, Limit: math.NaN(), Source: "Genereux2003"}
	switch {
	case valid == 0 && r.Chosen == "":
		n.Source = ""
		n.Text = "No method gives a valid peak. Each says what it needs."
	case valid <= 1:
		n.Text = fmt.Sprintf("Only one method stands behind this peak. For a catchment without a gauge the true one may lie from %.2g to %.2g m³/s: give the inputs of a second method.", r.PeakM3s*peakShareLow, r.PeakM3s*peakShareHigh)
	default:
		n.Text = fmt.Sprintf("%d methods give %.2g to %.2g m³/s. For a catchment without a gauge the true peak may still be half or twice as large.", valid, r.LowM3s, r.HighM3s)
	}
	return n
}

// runoffAt returns the runoff in mm at a wetness, NaN where it is not known.
func (c *catchment) runoffAt(w Wetness) float64 {
	q := c.Request
	q.Wetness = w
	ground, ok, err := q.land()
	if !ok || err != nil {
		return math.NaN()
	}
	return ground.runoffMM(c.design.depthMM)
}

// groundNotes tells what to heed of the runoff.
func (c *catchment) groundNotes(r Result) []Note {
	if !c.hasLand || math.IsNaN(r.RunoffMM) {
		return nil
	}
	var notes []Note
	add := func(got, limit float64, recalled bool, source, format string, args ...any) {
		notes = append(notes, Note{RuleCurveNumber, got, limit, fmt.Sprintf(format, args...), source, recalled})
	}
	cn := c.ground.equivalent(r.RainMM, r.RunoffMM).CurveNumber
	if cn < LowCurveNumber {
		add(cn, LowCurveNumber, false, "SCS1986", "The curve number of %.3g is below %g, where the method is unfit.", cn, LowCurveNumber)
	}
	if r.RunoffMM == 0 {
		add(0, math.NaN(), false, "", "No runoff: the rain of %.3g mm stays below what the ground takes up first. Real storms on this ground may still run off.", r.RainMM)
	}
	if c.Wetness == "" || c.Wetness == WetnessAverage {
		add(r.RunoffMM, math.NaN(), true, "ChowMaidmentMays1988", "Runoff is %.3g mm on ground of average wetness, %.3g mm on dry and %.3g mm on wet ground (%s).", r.RunoffMM, r.RunoffDryMM, r.RunoffWetMM, recalledText)
	} else {
		add(cn, math.NaN(), true, "ChowMaidmentMays1988", "The curve number was changed for %s ground, to %.3g (%s).", c.Wetness, cn, recalledText)
	}
	return notes
}

// MethodPeakOf returns what one method says.
func (r Result) MethodPeakOf(m Method) (MethodPeak, error) {
	for _, p := range r.Methods {
		if p.Method == m {
			return p, nil
		}
	}
	return MethodPeak{}, errors.New("no such method: " + string(m))
}
