package erosion

import (
	"math"
	"testing"

	"siltstep/hydro/channel"
)

// blurred returns a drainage over cells that hold the mean of a drawn bed along cellM, its stations apartM from each other, the first
// shiftM above the lower end.
func blurred(bed drawn, cellM, apartM, shiftM float64) *channel.Drainage {
	d := &channel.Drainage{Into: -1}
	const parts = 64
	for at := shiftM; at < 120; at += apartM {
		z := 0.0
		for k := range parts {
			z += bed(at+cellM*((float64(k)+0.5)/parts-0.5)) / parts
		}
		d.Profile.Stations = append(d.Profile.Stations, channel.Station{StationM: at, GroundM: z})
	}
	return d
}

// A vertical step that larger cells blur is found wherever it falls between them along rows; from corner to corner, where a
// ramp of 6 m can look the same, at nine of ten places.
func TestStepsThatCellsBlur(t *testing.T) {
	for _, cellM := range []float64{1, 2} {
		for _, apartM := range []float64{cellM, 1.15 * cellM, math.Sqrt2 * cellM} {
			for _, heightM := range []float64{0.5, 0.8, 1.2} {
				lost := 0
				for k := range 10 {
					shiftM := apartM * float64(k) / 10
					d := blurred(stepped(straight(0.06), drop{60, heightM}), cellM, apartM, shiftM)
					got := Headcuts(d, cellM, 0.01, Defaults())
					if len(got) == 0 {
						lost++
						continue
					}
					// The cell at the lip or at the foot may hold a quarter of the step and count to the bed beside it.
					if off := got[0].HeightM - heightM; len(got) > 1 || math.Abs(off) > 0.25*heightM || math.Abs(got[0].StationM-60) > 1.5*apartM {
						t.Errorf("cells of %g m, %.2f m apart from %.2f m, %g m high: %d told, %.2f m at %.1f", cellM, apartM, shiftM, heightM, len(got), got[0].HeightM, got[0].StationM)
					}
				}
				if lost > 1 || lost > 0 && apartM < 1.2*cellM {
					t.Errorf("cells of %g m, %.2f m apart, %g m high: lost at %d of 10 places", cellM, apartM, heightM, lost)
				}
			}
		}
	}
}

// A ramp too long for a headcut is none over cells of 2 m either, wherever it falls between them.
func TestRampsThatCellsBlur(t *testing.T) {
	for _, runM := range []float64{6, 8, 12} {
		ramp := func(s float64) float64 { return 0.06*s + 0.8*min(max(s-60, 0), runM)/runM }
		for k := range 20 {
			for _, apartM := range []float64{2, 2.3, 2.8} {
				for _, h := range Headcuts(blurred(ramp, 2, apartM, apartM*float64(k)/20), 2, 0.01, Defaults()) {
					t.Errorf("0.8 m over %g m, stations %g m apart: %.2f m told at %.1f", runM, apartM, h.HeightM, h.StationM)
				}
			}
		}
	}
}

// A step of 0.8 m below a bed that something holds level is the face of what holds it.
func TestStepBelowLevelBed(t *testing.T) {
	for _, row := range []struct {
		name         string
		below, above float64
		want         Cause
	}{
		{"level above, 8 % below", 0.08, 0.005, CauseDam},
		{"pool above, 5 % below", 0.05, -0.01, CauseDam},
		{"meadow of 3 % above, 8 % below", 0.08, 0.03, CauseHeadcut},
		{"gully gentler than the valley", 0.02, 0.05, CauseHeadcut},
		{"level land", 0, 0, CauseHeadcut},
		{"2 % below: too gentle to tell", 0.02, 0, CauseHeadcut},
	} {
		bed := func(s float64) float64 { return row.below*min(s, 60) + row.above*max(s-60, 0) }
		d := survey{lengthM: 120, cellM: 1}.drainage(stepped(bed, drop{60, 0.8}))
		if h, ok := one(t, row.name, d); ok && h.Cause != row.want {
			t.Errorf("%s: cause %q, want %q", row.name, h.Cause, row.want)
		}
	}
}
