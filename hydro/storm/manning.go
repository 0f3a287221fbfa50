package storm

import (
	"errors"
	"fmt"
	"math"
	"slices"
)

// Channel is a reach of even section, slope and roughness.
type Channel struct {
	Section          Section
	Slope            float64   // of the energy line, rise over run, over 0 to 1; the bed slope where flow is uniform
	Roughness        float64   // Manning's n, 0.008 to 1
	RoughnessByPiece []float64 // n of each piece between points, instead of Roughness: the section is divided where it changes
}

// FlatSlope is the slope below which normal depth means little. Source: our own choice.
const FlatSlope = 1e-4

// Validate returns every fault, joined. A slope of 0 is one: nothing flows on it.
func (c Channel) Validate() error {
	faults := []error{c.Section.Validate()}
	if !(c.Slope > 0 && c.Slope <= 1) {
		faults = append(faults, fmt.Errorf("channel slope is %g; give more than 0 and at most 1 (rise over run)", c.Slope))
	}
	if len(c.RoughnessByPiece) == 0 {
		faults = append(faults, within("channel roughness n", c.Roughness, 0.008, 1, ""))
	} else if len(c.RoughnessByPiece) != len(c.Section)-1 {
		faults = append(faults, fmt.Errorf("%d roughnesses for %d pieces between points; give one for each", len(c.RoughnessByPiece), len(c.Section)-1))
	}
	for i, n := range c.RoughnessByPiece {
		faults = append(faults, within(fmt.Sprintf("roughness n of piece %d", i+1), n, 0.008, 1, ""))
	}
	return errors.Join(faults...)
}

// Flow is steady uniform flow in a channel.
type Flow struct {
	Wetted
	FlowM3s    float64 // m³/s
	VelocityMS float64 // mean, m/s
	Froude     float64 // of the mean depth: over 1 is rapid
	Notes      []Note
}

// manningVelocityMS returns R^(2/3) √S / n in m/s. Source: Ponce1989.
func manningVelocityMS(n, radiusM, slope float64) float64 {
	return math.Cbrt(radiusM*radiusM) * math.Sqrt(slope) / n
}

// At returns the flow at a stage in m above the thalweg; a dry channel carries 0. Source: Manning's
// formula; conveyances of pieces of different roughness are added.
func (c Channel) At(stageM float64) (Flow, error) {
	if err := errors.Join(c.Validate(), within("stage", stageM, 0, 1e4, "m")); err != nil {
		return Flow{}, err
	}
	return c.flow(stageM), nil
}

// flow is At for a channel without faults.
func (c Channel) flow(stageM float64) Flow {
	w := c.Section.At(stageM)
	f := Flow{Wetted: w, FlowM3s: c.conveyance(w) * math.Sqrt(c.Slope)}
	if w.AreaM2 > 0 {
		f.VelocityMS = f.FlowM3s / w.AreaM2
		f.Froude = f.VelocityMS / math.Sqrt(gravityMS2*w.MeanDepthM())
	}
	return f
}

// conveyance returns A R^(2/3)/n in m³/s, summed over stretches of equal roughness.
func (c Channel) conveyance(w Wetted) float64 {
	if w.AreaM2 == 0 {
		return 0
	}
	if len(c.RoughnessByPiece) == 0 {
		return w.AreaM2 * manningVelocityMS(c.Roughness, w.HydraulicRadiusM(), 1)
	}
	s, low := c.Section, c.Section.thalweg()
	level := s[low].ElevationM + w.DepthM
	first, last := low, low
	for last < len(s)-1 && s[last].ElevationM < level {
		last++
	}
	for first > 0 && s[first].ElevationM < level {
		first--
	}
	total := 0.0
	for i := first; i < last; {
		n, part := c.RoughnessByPiece[i], Wetted{}
		if i == 0 {
			part.wall(level - s[0].ElevationM)
		}
		for ; i < last && c.RoughnessByPiece[i] == n; i++ {
			a, b := s[i], s[i+1]
			if a.ElevationM >= level {
				a, b = b, a
			}
			part.wet(a, b, level)
		}
		if i == len(s)-1 {
			part.wall(level - s[i].ElevationM)
		}
		if part.AreaM2 > 0 {
			total += part.AreaM2 * manningVelocityMS(n, part.HydraulicRadiusM(), 1)
		}
	}
	return total
}

// Depth returns normal depth: the lowest stage at which the channel carries peakM3s, found by halving
// to a micrometre. Where a wide bank makes the capacity fall as it floods, that is the stage within
// the banks. A flow that the section does not contain is found between walls on its ends, and noted.
func (c Channel) Depth(peakM3s float64) (Flow, error) {
	if err := errors.Join(c.Validate(), above("flow", peakM3s, "m³/s")); err != nil {
		return Flow{}, err
	}
	stage, err := lowestStage(c.Section, func(stageM float64) bool { return c.flow(stageM).FlowM3s >= peakM3s })
	if err != nil {
		return Flow{}, fmt.Errorf("normal depth of %g m³/s: %w", peakM3s, err)
	}
	f := c.flow(stage)
	f.Notes = append(c.notes(f), containedNote(f.Wetted)...)
	return f, nil
}

// lowestStage returns the least stage at which a flow fits, looked for between the heights of the points
// and then above them.
func lowestStage(s Section, fits func(stageM float64) bool) (float64, error) {
	base := s[s.thalweg()].ElevationM
	stages := []float64{}
	for _, p := range s {
		if p.ElevationM > base {
			stages = append(stages, p.ElevationM-base)
		}
	}
	slices.Sort(stages)
	lo, hi := 0.0, 0.0
	for _, hi = range stages {
		if fits(hi) {
			break
		}
		lo = hi
	}
	for !fits(hi) {
		if lo, hi = hi, hi*2; hi > 1e5 {
			return math.NaN(), errors.New("no depth carries it; check the units of flow, slope and section")
		}
	}
	for range 200 {
		if hi-lo < 1e-6*min(1, hi) {
			break
		}
		if middle := (lo + hi) / 2; fits(middle) {
			hi = middle
		} else {
			lo = middle
		}
	}
	return hi, nil
}

func containedNote(w Wetted) []Note {
	if w.Contained {
		return nil
	}
	return []Note{{Rule: RuleContained, Got: w.DepthM, Limit: math.NaN(),
		Text: fmt.Sprintf("The section does not contain the flow: it would stand %.2f m above the lowest point, between walls put on the ends. Measure the section further up the banks, or expect water to leave the channel.", w.DepthM)}}
}

func (c Channel) notes(f Flow) []Note {
	var notes []Note
	if c.Slope < FlatSlope {
		notes = append(notes, Note{Rule: RuleSlope, Got: c.Slope, Limit: FlatSlope,
			Text: fmt.Sprintf("On a slope of %.2g %% normal depth means little: what lies downstream sets the depth.", c.Slope*100)})
	}
	if f.Froude > 1 {
		notes = append(notes, Note{Rule: RuleFroude, Got: f.Froude, Limit: 1, Source: "Jarrett1984", Recalled: true,
			Text: fmt.Sprintf("Froude number %.2g: natural steep channels rarely sustain more than 1, so the roughness is probably higher and the water deeper and slower (%s). Keep the velocity for sizing stone.", f.Froude, recalledText)})
	}
	return notes
}

// JarrettRoughness returns n = 0.32 S^0.38 R^-0.16 of steep streams (R in m; 0.39 in feet) and a note
// where it is outside the data: slopes 0.002 to 0.04, hydraulic radii 0.15 to 2.1 m. Standard error 28 %.
// Source: Jarrett1984, from memory.
func JarrettRoughness(slope, radiusM float64) (float64, Note, error) {
	n, err := finite("roughness n", 0.32*math.Pow(slope, 0.38)*math.Pow(radiusM, -0.16), within("slope", slope, 1e-6, 1, "rise over run"), above("hydraulic radius", radiusM, "m"))
	note := Note{Rule: RuleHandbook, Got: n, Limit: math.NaN(), Source: "Jarrett1984", Recalled: true, Text: fmt.Sprintf("Roughness of a steep stream: %s.", recalledText)}
	if slope < 0.002 || slope > 0.04 || radiusM < 0.5*footM || radiusM > 7*footM {
		note.Text = fmt.Sprintf("Roughness of a steep stream, outside the data (slope 0.2 to 4 %%, hydraulic radius 0.15 to 2.1 m): %s.", recalledText)
	}
	return n, note, err
}
