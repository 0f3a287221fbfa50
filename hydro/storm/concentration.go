package storm

import (
	"errors"
	"fmt"
	"math"
)

// Limits of times of concentration.
const (
	LeastConcentrationS = 360.0    // s; 0.1 h, the floor in every method. Source: SCS1986, in a copy
	MostConcentrationS  = 36_000.0 // s; 10 h, where the graphical method ends. Source: SCS1986, in a copy
	LeastSlope          = 0.0005   // rise over run; flatter ground counts as this, so that no time is endless. Source: our own choice
	LeastChannelMS      = 0.15     // m/s; slower channels count as this. Source: our own choice
	MostRatio           = 2.0      // between two estimates before a note is given. Source: our own choice
)

// Segment is a piece of the flow path with one kind of flow: SheetFlow, ShallowFlow, ChannelFlow or Pool.
type Segment interface {
	// TravelS returns the time water takes through the segment in s, what to heed, and every
	// fault of the inputs.
	TravelS() (float64, []Note, error)
	run() (lengthM, slope float64)
}

// SheetFlow is the thin sheet at the top of a flow path.
type SheetFlow struct {
	LengthM   float64 // m, to 30.48 (100 ft)
	Slope     float64 // rise over run, 0 to 1
	Roughness float64 // n for sheet flow, 0.005 to 1; see SheetRoughness. It is not the n of channels
	Rain2yrMM float64 // depth of the 2-year 24-hour rain, mm
}

// mostSheetM is the greatest length of sheet flow, m: water gathers before. SCS1986 had 300 ft. Source: NRCSNEH630,
// chapter 15, 100 ft, from memory.
const mostSheetM = 100 * footM

// TravelS returns 0.007(nL)^0.8/(P2^0.5 s^0.4) hours with L in feet and P2 in inches, in s.
// Source: SCS1986, worksheet 3. It notes lengths over 100√s/n feet (McCuenSpiess, from memory), beyond
// which the time comes out too long and the peak too low; over 30.48 m is an error.
func (s SheetFlow) TravelS() (float64, []Note, error) {
	if s.LengthM > mostSheetM && s.LengthM <= 1e5 {
		return math.NaN(), nil, fmt.Errorf("sheet flow: length is %g m; give at most %g m and count the rest as shallow flow", s.LengthM, mostSheetM)
	}
	if err := errors.Join(
		within("sheet flow: length", s.LengthM, 0, mostSheetM, "m"),
		within("sheet flow: slope", s.Slope, 0, 1, "rise over run"),
		within("sheet flow: roughness n", s.Roughness, 0.005, 1, ""),
		above("sheet flow: 2-year 24-hour rain", s.Rain2yrMM, "mm"),
	); err != nil {
		return math.NaN(), nil, err
	}
	slope, notes := leastSlope("sheet flow", s.Slope)
	if most := 100 * math.Sqrt(slope) / s.Roughness * footM; s.LengthM > most*(1+1e-9) {
		notes = append(notes, Note{Rule: RuleConcentration, Got: s.LengthM, Limit: most, Source: "McCuenSpiess", Recalled: true,
			Text: fmt.Sprintf("Sheet flow of %.3g m is longer than the %.2g m over which it holds on this ground, which makes the time long and the peak low: count the rest as shallow concentrated flow (%s).", s.LengthM, most, recalledText)})
	}
	hours := 0.007 * math.Pow(s.Roughness*s.LengthM/footM, 0.8) / (math.Sqrt(s.Rain2yrMM/inchMM) * math.Pow(slope, 0.4))
	t, err := finite("time of sheet flow", hours*hourS)
	return t, notes, err
}

func (s SheetFlow) run() (float64, float64) { return s.LengthM, s.Slope }

// ShallowFlow is flow gathered in rills and swales before there is a channel.
type ShallowFlow struct {
	LengthM float64 // m, to 100,000
	Slope   float64 // rise over run, 0 to 1
	Surface string  // a name of Surfaces; "unpaved" where nothing better is known
}

// TravelS returns length over velocity, k√s with the k of the surface, in s.
func (s ShallowFlow) TravelS() (float64, []Note, error) {
	surface, err := surfaceOf(s.Surface)
	if err := errors.Join(err,
		within("shallow flow: length", s.LengthM, 0, 1e5, "m"),
		within("shallow flow: slope", s.Slope, 0, 1, "rise over run"),
	); err != nil {
		return math.NaN(), nil, err
	}
	slope, notes := leastSlope("shallow flow", s.Slope)
	if surface.Evidence == EvidenceRecalled {
		notes = append(notes, Note{Rule: RuleHandbook, Got: surface.VelocityMS, Limit: math.NaN(), Source: surface.Source, Recalled: true,
			Text: fmt.Sprintf("Velocity of shallow flow over %s: %s.", surface.Name, recalledText)})
	}
	return s.LengthM / (surface.VelocityMS * math.Sqrt(slope)), notes, nil
}

func (s ShallowFlow) run() (float64, float64) { return s.LengthM, s.Slope }

// ChannelFlow is flow in a channel or gully, at bankfull or design depth.
type ChannelFlow struct {
	LengthM          float64 // m, to 100,000
	Slope            float64 // rise over run, 0 to 1
	Roughness        float64 // Manning's n, 0.008 to 1
	HydraulicRadiusM float64 // wetted area over wetted perimeter, m
}

// TravelS returns length over Manning's velocity in s; velocities below LeastChannelMS count as
// that, with a note.
func (c ChannelFlow) TravelS() (float64, []Note, error) {
	if err := errors.Join(
		within("channel flow: length", c.LengthM, 0, 1e5, "m"),
		within("channel flow: slope", c.Slope, 0, 1, "rise over run"),
		within("channel flow: roughness n", c.Roughness, 0.008, 1, ""),
		above("channel flow: hydraulic radius", c.HydraulicRadiusM, "m"),
	); err != nil {
		return math.NaN(), nil, err
	}
	slope, notes := leastSlope("channel flow", c.Slope)
	v := manningVelocityMS(c.Roughness, c.HydraulicRadiusM, slope)
	if v < LeastChannelMS {
		notes = append(notes, Note{Rule: RuleConcentration, Got: v, Limit: LeastChannelMS,
			Text: fmt.Sprintf("Channel flow would run at %.2g m/s and counts as %g m/s: check roughness, depth and slope; for a pool give its depth instead.", v, LeastChannelMS)})
	}
	return c.LengthM / max(v, LeastChannelMS), notes, nil
}

func (c ChannelFlow) run() (float64, float64) { return c.LengthM, c.Slope }

// Pool is standing water on the flow path: a storm passes it as a wave, √(gh).
type Pool struct {
	LengthM float64 // m, to 100,000
	DepthM  float64 // mean depth, m, over 0
}

// TravelS returns length over wave speed in s.
func (p Pool) TravelS() (float64, []Note, error) {
	if err := errors.Join(within("pool: length", p.LengthM, 0, 1e5, "m"), above("pool: depth", p.DepthM, "m")); err != nil {
		return math.NaN(), nil, err
	}
	return p.LengthM / math.Sqrt(gravityMS2*p.DepthM), nil, nil
}

func (p Pool) run() (float64, float64) { return p.LengthM, 0 }

// PathTravelS returns the time through all segments in s: the time of concentration where the path
// is the longest in time. An empty path is an error.
func PathTravelS(path []Segment) (float64, []Note, error) {
	if len(path) == 0 {
		return math.NaN(), nil, errors.New("flow path: no segment in it")
	}
	total := 0.0
	var notes []Note
	for i, s := range path {
		if s == nil {
			return math.NaN(), nil, fmt.Errorf("flow path, segment %d: it is empty", i+1)
		}
		t, heed, err := s.TravelS()
		if err != nil {
			return math.NaN(), nil, fmt.Errorf("flow path, segment %d: %w", i+1, err)
		}
		total += t
		notes = append(notes, heed...)
	}
	return total, notes, nil
}

// leastSlope returns the slope, or LeastSlope with a note where it is flatter.
func leastSlope(what string, slope float64) (float64, []Note) {
	if slope >= LeastSlope {
		return slope, nil
	}
	return LeastSlope, []Note{{Rule: RuleSlope, Got: slope, Limit: LeastSlope,
		Text: fmt.Sprintf("Slope of %s is %.2g %% and counts as %g %%: on flatter ground no time can be told. Measure the fall.", what, slope*100, LeastSlope*100)}}
}
