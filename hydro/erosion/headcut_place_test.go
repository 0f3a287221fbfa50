package erosion

import (
	"math"
	"testing"

	"siltstep/hydro/channel"
)

// one returns the only headcut of a drainage on cells of 1 m without noise.
func one(t *testing.T, name string, d *channel.Drainage) (Headcut, bool) {
	t.Helper()
	got := Headcuts(d, 1, 0, Defaults())
	if len(got) != 1 {
		t.Errorf("%s: %d headcuts, want 1: %+v", name, len(got), got)
		return Headcut{}, false
	}
	return got[0], true
}

func none(t *testing.T, name string, d *channel.Drainage) {
	t.Helper()
	for _, h := range Headcuts(d, 1, 0, Defaults()) {
		t.Errorf("%s: %.2f m told at %g, cause %q", name, h.HeightM, h.StationM, h.Cause)
	}
}

func TestNothingToTell(t *testing.T) {
	none(t, "no stations", &channel.Drainage{Into: -1})
	none(t, "no stations, tributary", &channel.Drainage{Into: 3})
	none(t, "one station", survey{lengthM: 1, cellM: 1}.drainage(straight(0.05)))
	none(t, "shorter than two sides", survey{lengthM: 6, cellM: 1}.drainage(stepped(straight(0.05), drop{3, 1})))
	d := survey{lengthM: 120, cellM: 1}.drainage(stepped(straight(0.05), drop{60, 1}))
	for i := range d.Profile.Stations {
		d.Profile.Stations[i].NoBed = true
	}
	none(t, "no bed anywhere", d)
	d = survey{lengthM: 120, cellM: 1}.drainage(stepped(straight(0.05), drop{60, 1}))
	for _, noiseM := range []float64{math.NaN(), -1} {
		if got := Headcuts(d, 1, noiseM, Defaults()); len(got) != 1 {
			t.Errorf("error of %g m: %d headcuts, want 1 as without noise", noiseM, len(got))
		}
	}
}

// A boulder, a hole and a pool at the foot of a step are no steps, and leave its height alone.
func TestSingleStationsOff(t *testing.T) {
	d := survey{lengthM: 120, cellM: 1}.drainage(stepped(straight(0.05), drop{60, 0.8}))
	st := d.Profile.Stations
	st[30].GroundM += 0.9
	st[45].GroundM -= 0.7
	st[52].GroundM += 0.6
	st[58].GroundM -= 0.3
	st[90].GroundM += 0.5
	st[91].GroundM += 0.5
	h, ok := one(t, "stations off", d)
	// 0.03 m: two of ten stations off move the medians by one place in an even bed, where all places lie on the line.
	if ok && (h.StationM != 60 || math.Abs(h.HeightM-0.8) > 0.03) {
		t.Errorf("%.3f m at %g, want 0.8 m at 60", h.HeightM, h.StationM)
	}
}

// Below its head a drainage comes down a hillside of 40 to 60 % with hollows; the water reaches gentler ground at 100 m.
func TestHillsideIsNone(t *testing.T) {
	hill := func(s float64) float64 {
		return 0.06*min(s, 100) + 0.4*max(s-100, 0) + 0.02*math.Pow(max(s-100, 0), 2)/2
	}
	none(t, "hillside", survey{lengthM: 110, cellM: 1}.drainage(hill))
	brow := stepped(straight(0.06), drop{107, 1})
	none(t, "step 3 m below the head", survey{lengthM: 111, cellM: 1}.drainage(brow))
	one(t, "step 13 m below the head", survey{lengthM: 121, cellM: 1}.drainage(brow))
}

// A tributary that ends on a drainage 1.4 m below its own bed. The last station has the level of that drainage.
func TestMouth(t *testing.T) {
	hanging := survey{lengthM: 80, cellM: 1}.drainage(straight(0.05))
	hanging.Into = 0
	hanging.Profile.Stations[0].GroundM -= 1.4
	none(t, "confluence below the bed", hanging)

	for _, row := range []struct {
		lipM float64
		told bool
	}{{3, false}, {5, false}, {12, true}, {30, true}} {
		d := survey{lengthM: 80, cellM: 1}.drainage(stepped(straight(0.05), drop{row.lipM, 1.4}))
		if row.told {
			d.Into = 0
			if h, ok := one(t, "tributary", d); ok && (h.StationM != row.lipM || math.Abs(h.HeightM-1.4) > 0.001) {
				t.Errorf("%.3f m at %g, want 1.4 m at %g", h.HeightM, h.StationM, row.lipM)
			}
			continue
		}
		d.Into = 0
		none(t, "bank of the receiving drainage", d)
	}
	// The same step 5 m above where flow ends is a step of its own bed.
	one(t, "end of flow", survey{lengthM: 80, cellM: 1}.drainage(stepped(straight(0.05), drop{5, 1.4})))
}

// A step of 0.8 m with its lip at 60 m; other ground between two stations.
func TestCauses(t *testing.T) {
	for _, row := range []struct {
		name        string
		from, to    float64
		cut, pond   bool
		want        Cause
		explanation string
	}{
		{"nothing", 0, -1, false, false, CauseHeadcut, ""},
		{"cut just above", 64, 75, true, false, CauseRoad, "the outlet of a culvert 4 m above the lip"},
		{"cut 9 m above", 69, 75, true, false, CauseRoad, "water that leaves it scours that far"},
		{"cut 15 m above", 75, 90, true, false, CauseHeadcut, "too far"},
		{"cut 4 m below", 40, 55, true, false, CauseRoad, "within 5 m of a culvert"},
		{"cut 8 m below", 40, 51, true, false, CauseHeadcut, "a headcut that works upstream from a culvert's inlet has left it"},
		{"pond above", 65, 90, false, true, CauseDam, "below the dam"},
		{"pond below", 30, 55, false, true, CauseDam, "at the pond's edge"},
		{"what holds water above", 65, 70, false, false, CauseDam, "no bed, yet neither cut nor pond"},
		{"pond far above", 75, 90, false, true, CauseHeadcut, "too far"},
	} {
		d := survey{lengthM: 120, cellM: 1}.drainage(stepped(straight(0.05), drop{60, 0.8}))
		for i := range d.Profile.Stations {
			if s := &d.Profile.Stations[i]; row.from <= s.StationM && s.StationM <= row.to {
				s.NoBed, s.Cut, s.StockPond = true, row.cut, row.pond
			}
		}
		if h, ok := one(t, row.name, d); ok && (h.Cause != row.want || h.StationM != 60 || math.Abs(h.HeightM-0.8) > 0.001) {
			t.Errorf("%s (%s): %.3f m at %g, cause %q, want %q", row.name, row.explanation, h.HeightM, h.StationM, h.Cause, row.want)
		}
	}
}

// A road fill 2.5 m high that is cut through: the bed to either side is even, and no step is told at its feet. The same
// where the bed below lies 0.8 m lower than that above: what is hidden under the fill is not told.
func TestNoStepUnderAFill(t *testing.T) {
	for _, lower := range []float64{0, 0.8} {
		d := survey{lengthM: 120, cellM: 1}.drainage(straight(0.05))
		for i := range d.Profile.Stations {
			s := &d.Profile.Stations[i]
			if s.StationM < 50 {
				s.GroundM -= lower
			}
			if s.StationM >= 50 && s.StationM <= 66 {
				s.NoBed, s.Cut = true, true
				s.GroundM += 2.5 - max(0, math.Abs(s.StationM-58)-4)/1.6
			}
		}
		none(t, "road fill", d)
	}
}
