package storm

import (
	"fmt"
	"math"
	"strings"
)

// Method is a way to the storm peak.
type Method string

// The methods.
const (
	MethodRational       Method = "rational"
	MethodGraphical      Method = "graphical"
	MethodUnitHydrograph Method = "unit-hydrograph"
)

var methods = []Method{MethodRational, MethodGraphical, MethodUnitHydrograph}

// MethodPeak is what one method says.
type MethodPeak struct {
	Method   Method
	PeakM3s  float64 // m³/s; NaN where an input is missing
	Valid    bool    // computed, and inside the range of the method
	Range    string  // where the method holds
	Note     string  // what is missing, why it is not valid, or what to heed; may be empty
	Recalled bool    // rests on a handbook value recalled from memory
}

const needsConcentration = "a time of concentration, a flow path, or the length and slope of one"

// missing returns a method that lacks an input.
func (m MethodPeak) missing(what string) MethodPeak {
	m.PeakM3s, m.Valid, m.Note = math.NaN(), false, "Not computed: it needs "+what+"."
	return m
}

// heed adds to what there is to say of a method; unfit also takes its validity away.
func (m *MethodPeak) heed(format string, args ...any) {
	m.Note = strings.TrimSpace(m.Note + " " + fmt.Sprintf(format, args...))
}

func (m *MethodPeak) unfit(format string, args ...any) {
	m.Valid = false
	m.heed(format, args...)
}

func (m *MethodPeak) add(notes []Note) {
	for _, n := range notes {
		m.heed("%s", n.Text)
		m.Recalled = m.Recalled || n.Recalled
	}
}

// A catchment is a request with what every method shares.
type catchment struct {
	Request
	tcS      float64 // NaN where not known
	design   design
	ground   land
	hasLand  bool
	runoffMM float64 // NaN where not known
}

func (c *catchment) rational() (MethodPeak, error) {
	m := MethodPeak{Method: MethodRational, Range: "catchments to 80 ha; with caution to 260 ha"}
	if c.RunoffCoefficient == 0 {
		return m.missing("a runoff coefficient"), nil
	}
	mmh, notes, missing := c.intensity(c.design, c.tcS)
	if missing != "" {
		return m.missing(missing), nil
	}
	factor := FrequencyFactor(c.returnPeriodYr())
	coefficient := min(1, c.RunoffCoefficient*factor)
	peak, err := RationalM3s(coefficient, mmh, c.CatchmentM2)
	if err != nil {
		return m, err
	}
	m.PeakM3s, m.Valid = peak, true
	m.heed("C %.3g, %.3g mm/h.", coefficient, mmh)
	m.add(notes)
	if factor > 1 {
		m.add([]Note{{Recalled: true, Text: fmt.Sprintf("The coefficient was raised by %.3g for the return period, to 1 at most (%s).", factor, recalledText)}})
	}
	switch ha := c.CatchmentM2 / hectareM2; {
	case c.CatchmentM2 > RationalMostM2:
		m.unfit("The catchment of %.4g ha is too large for it.", ha)
	case c.CatchmentM2 > RationalBestM2:
		m.heed("The catchment of %.4g ha is large for it: rain is uneven and channels store water.", ha)
	}
	if c.evenStormTooLong() && c.Rain.IntensityMMH == 0 {
		m.unfit("The storm given is even and far longer than the time of concentration, so its intensity is too low for this method.")
	}
	return m, nil
}

// evenStormTooLong tells whether one depth is spread over more than twice the time of concentration.
func (c *catchment) evenStormTooLong() bool {
	even := c.Pattern == PatternUniform || c.Pattern == PatternTriangular
	return even && c.HoursH*hourS > 2*c.tcS
}

func (c *catchment) graphical() (MethodPeak, error) {
	m := MethodPeak{Method: MethodGraphical, Range: "24-hour storm types, time of concentration 0.1 to 10 h, curve number 40 and up, ponds and swamps to 5 %"}
	switch {
	case !c.hasLand:
		return m.missing("a curve number"), nil
	case math.IsNaN(c.tcS):
		return m.missing(needsConcentration), nil
	case !c.Pattern.day() || c.HoursH != dayH || math.IsNaN(c.design.depthMM):
		return m.missing("a 24-hour rain depth and a storm type (I, IA, II or III)"), nil
	case c.tcS > MostConcentrationS:
		return m.missing(fmt.Sprintf("a time of concentration of at most 10 h, and it is %.3g h", c.tcS/hourS)), nil
	}
	loss := c.ground.equivalent(c.design.depthMM, c.runoffMM)
	ratio := min(loss.AbstractionMM()/c.design.depthMM, 1e6)
	unit, notes, err := UnitPeak(c.Pattern, c.tcS, ratio)
	if err != nil {
		return m, err
	}
	m.PeakM3s, m.Valid = unit*c.CatchmentM2/1e6*c.runoffMM, true
	m.Recalled = c.Pattern == PatternIII || c.Pattern == PatternII && ratio > 0.45
	m.heed("Ia/P %.3g.", ratio)
	m.add(notes)
	if loss.CurveNumber < LowCurveNumber {
		m.unfit("The curve number of %.3g is below %g.", loss.CurveNumber, LowCurveNumber)
	}
	if c.Ratio == Ratio05 {
		m.heed("The method was made with Ia = 0.2 S; here Ia is that of the ratio chosen.")
	}
	if c.PondShare > 0 {
		factor, err := PondFactor(min(c.PondShare, 0.05))
		if err != nil {
			return m, err
		}
		m.PeakM3s *= factor
		m.add([]Note{{Recalled: true, Text: fmt.Sprintf("Lowered to %.2g of itself for ponds and swamps (%s).", factor, recalledText)}})
		if c.PondShare > 0.05 {
			m.unfit("Ponds and swamps cover %.3g %%, and the method knows 5 %% at most: route the storm through them.", c.PondShare*100)
		}
	}
	return m, nil
}

func (c *catchment) unitHydrograph() (MethodPeak, Hydrograph, error) {
	m := MethodPeak{Method: MethodUnitHydrograph, Range: "rain known in steps no longer than the time of concentration, curve number 40 and up"}
	switch {
	case !c.hasLand:
		return m.missing("a curve number"), Hydrograph{}, nil
	case math.IsNaN(c.tcS):
		return m.missing(needsConcentration), Hydrograph{}, nil
	case len(c.design.storm.DepthMM) == 0:
		return m.missing(c.design.missing), Hydrograph{}, nil
	}
	storm := c.design.storm
	if fine := int(stepShare * c.tcS / 10 / storm.StepS); fine > 1 {
		storm = storm.merged(fine)
	}
	n := math.Ceil(storm.StepS / (stepShare * c.tcS) * (1 - 1e-9))
	if n*float64(len(storm.DepthMM)) > MaxSteps {
		return m, Hydrograph{}, fmt.Errorf("a storm of %.4g h is too long for a time of concentration of %.3g min; give a shorter one", storm.DurationS()/hourS, c.tcS/minuteS)
	}
	storm = storm.split(max(1, int(n)))
	unit, err := NewUnitHydrograph(c.Shape, c.CatchmentM2, c.tcS, storm.StepS, c.PeakFactor)
	if err != nil {
		return m, Hydrograph{}, err
	}
	flow := unit.Convolve(c.ground.excess(storm))
	m.PeakM3s, m.Valid, m.Recalled = flow.PeakM3s(), true, c.design.recalled
	if known := c.design.knownS; known > c.tcS*(1+1e-9) {
		m.unfit("The storm is known in steps of %.3g min, longer than the time of concentration of %.3g min, so its peak comes out too low.", known/minuteS, c.tcS/minuteS)
	}
	if cn := c.ground.equivalent(c.design.depthMM, c.runoffMM).CurveNumber; cn < LowCurveNumber {
		m.unfit("The curve number of %.3g is below %g.", cn, LowCurveNumber)
	}
	if c.evenStormTooLong() {
		m.heed("The storm given is even and far longer than the time of concentration: real storms of this depth have bursts, and peak higher.")
	}
	return m, flow, nil
}

// excess returns the runoff of each step of a storm in mm.
func (g land) excess(storm Hyetograph) []float64 {
	out := make([]float64, len(storm.DepthMM))
	rain, before := 0.0, 0.0
	for i, mm := range storm.DepthMM {
		rain += mm
		after := g.runoffMM(rain)
		out[i] = max(0, after-before)
		before = max(before, after)
	}
	return out
}
