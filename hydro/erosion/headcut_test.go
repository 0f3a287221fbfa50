package erosion

import (
	"math"
	"math/rand/v2"
	"testing"

	"siltstep/hydro/channel"
)

// drawn is a bed drawn by hand: level at a station, in metres.
type drawn func(stationM float64) float64

// straight is an even bed.
func straight(slope float64) drawn { return func(s float64) float64 { return slope * s } }

// drop is a step of a bed.
type drop struct{ lipM, heightM float64 }

// stepped puts steps into a bed. Their faces run a quarter of their height, the upper edge at the lip.
func stepped(bed drawn, drops ...drop) drawn {
	return func(s float64) float64 {
		z := bed(s)
		for _, d := range drops {
			z += d.heightM * min(max((s-d.lipM)/(0.25*d.heightM)+1, 0), 1)
		}
		return z
	}
}

// survey is what an elevation model makes of a drawn bed.
type survey struct {
	lengthM, cellM float64
	noiseM         float64 // standard deviation of a cell's own error, m
	rng            *rand.Rand
}

// drainage returns a drainage whose stations stand a cell apart, the first a part of a cell above the lower end. As in a
// profile the raw bed is the lowest of three cells, each with an error of its own.
func (v survey) drainage(bed drawn) *channel.Drainage {
	d := &channel.Drainage{Into: -1}
	shift := 0.0
	if v.rng != nil {
		shift = v.rng.Float64() * v.cellM
	}
	for k := range int(v.lengthM / v.cellM) {
		at := float64(k) * v.cellM
		z := math.Inf(1)
		for range 3 {
			e := 0.0
			if v.noiseM > 0 {
				e = v.noiseM * v.rng.NormFloat64()
			}
			z = min(z, bed(at+shift)+e)
		}
		d.Profile.Stations = append(d.Profile.Stations, channel.Station{StationM: at + shift, X: 100 + at + shift, Y: 50, GroundM: z, CatchmentM2: 10_000 - at})
	}
	return d
}

func seeded(seed uint64) *rand.Rand { return rand.New(rand.NewPCG(seed, 11)) }

// Noise alone makes no headcut: not one on 200 straight beds of 2 to 8 % for any cell size and error, 2,400 in all.
func TestNoiseAloneMakesNone(t *testing.T) {
	for _, cellM := range []float64{0.5, 1, 2, 5} {
		for _, noiseM := range []float64{0.05, 0.10, 0.15} {
			for k := range uint64(200) {
				rng := seeded(k)
				d := survey{300, cellM, noiseM, rng}.drainage(straight(0.02 + 0.06*rng.Float64()))
				for _, h := range Headcuts(d, cellM, noiseM, Defaults()) {
					t.Errorf("cells of %g m, error %g m, bed %d: %.2f m at %.1f", cellM, noiseM, k, h.HeightM, h.StationM)
				}
			}
		}
	}
}

// Without noise a step is found wherever it falls between stations, its lip on the first station at or above it, its
// height to the millimetre that the lines of both beds leave.
func TestStepOfKnownHeight(t *testing.T) {
	for _, cellM := range []float64{0.5, 1} {
		for _, heightM := range []float64{0.3, 0.45, 0.6, 1, 1.5} {
			for _, slope := range []float64{0, 0.02, 0.08, 0.15} {
				for _, lipM := range []float64{60, 60.3, 60.45, 60.8} {
					d := survey{lengthM: 120, cellM: cellM}.drainage(stepped(straight(slope), drop{lipM, heightM}))
					got := Headcuts(d, cellM, 0, Defaults())
					if len(got) != 1 {
						t.Errorf("cells of %g m, %g m at %g on %g: %d headcuts, want 1", cellM, heightM, lipM, slope, len(got))
						continue
					}
					h := got[0]
					if off := h.StationM - lipM; off < -0.25*heightM-1e-9 || off >= cellM {
						t.Errorf("cells of %g m: lip %.2f m off", cellM, off)
					}
					if math.Abs(h.HeightM-heightM) > 0.001 {
						t.Errorf("cells of %g m, slope %g: %.3f m high, want %g", cellM, slope, h.HeightM, heightM)
					}
					// As survey draws them.
					if h.X != 100+h.StationM || h.Y != 50 || h.CatchmentM2 != 10_000-h.StationM || h.Cause != CauseHeadcut {
						t.Errorf("at (%g, %g), %g m², %q", h.X, h.Y, h.CatchmentM2, h.Cause)
					}
				}
			}
		}
	}
}

func TestLowerStepsAreNone(t *testing.T) {
	for _, row := range []struct {
		name                     string
		heightM, noiseM, headcut float64
	}{
		{"under 0.3 m", 0.25, 0, 0.3},
		{"under 3·√2 errors of 0.15 m, 0.64 m", 0.55, 0.15, 0.3},
		{"under what was asked for", 0.7, 0, 0.8},
	} {
		d := survey{lengthM: 120, cellM: 1}.drainage(stepped(straight(0.05), drop{60.3, row.heightM}))
		cfg := Defaults()
		cfg.HeadcutM = row.headcut
		if got := Headcuts(d, 1, row.noiseM, cfg); len(got) != 0 {
			t.Errorf("%s: %.2f m told", row.name, got[0].HeightM)
		}
	}
}

// Shares found and errors of height on 200 beds of 2 to 8 % with one step each, as first run, with a margin of 5 of the
// 200 and a tenth of the error. More than half a metre above the least height nearly all are found.
func TestStepsUnderNoise(t *testing.T) {
	for _, row := range []struct {
		cellM, noiseM, heightM float64
		found                  int
		rmsM                   float64
	}{
		{0.5, 0.05, 0.45, 195, 0.04},
		{0.5, 0.10, 0.60, 192, 0.075},
		{0.5, 0.15, 0.80, 189, 0.105},
		{1, 0.05, 0.45, 194, 0.055},
		{1, 0.05, 0.60, 195, 0.055},
		{1, 0.10, 0.60, 182, 0.10},
		{1, 0.10, 1.00, 195, 0.105},
		{1, 0.15, 1.00, 188, 0.155},
		{1, 0.15, 1.50, 195, 0.16},
		{2, 0.05, 0.60, 188, 0.072},
		{2, 0.10, 1.00, 182, 0.145},
		{2, 0.15, 1.50, 188, 0.215},
	} {
		found, elsewhere, squares := 0, 0, 0.0
		for k := range uint64(200) {
			rng := seeded(k)
			d := survey{200, row.cellM, row.noiseM, rng}.drainage(stepped(straight(0.02+0.06*rng.Float64()), drop{100, row.heightM}))
			hit := 0
			for _, h := range Headcuts(d, row.cellM, row.noiseM, Defaults()) {
				// Over cells of 2 m noise may move the lip by a station more.
				if math.Abs(h.StationM-100) > max(3, 2*row.cellM) {
					elsewhere++
					continue
				}
				hit++
				squares += (h.HeightM - row.heightM) * (h.HeightM - row.heightM)
			}
			if hit > 1 {
				t.Errorf("%+v: one step told %d times", row, hit)
			}
			found += min(hit, 1)
		}
		rms := math.Sqrt(squares / float64(max(found, 1)))
		t.Logf("cells of %g m, error %g m, %g m high: %d of 200 found, height %.3f m off", row.cellM, row.noiseM, row.heightM, found, rms)
		if found < row.found || rms > row.rmsM || elsewhere > 0 {
			t.Errorf("%+v: %d found, %d elsewhere, height %.3f m off", row, found, elsewhere, rms)
		}
	}
}

func TestTwoStepsAreTwo(t *testing.T) {
	for _, row := range []struct{ cellM, noiseM, apartM float64 }{
		{0.5, 0, 8}, {1, 0, 8}, {1, 0.05, 8}, {0.5, 0.05, 8}, {1, 0, 12}, {2, 0, 14},
	} {
		v := survey{lengthM: 150, cellM: row.cellM, noiseM: row.noiseM}
		if row.noiseM > 0 {
			v.rng = seeded(7)
		}
		d := v.drainage(stepped(straight(0.05), drop{70, 0.8}, drop{70 + row.apartM, 0.9}))
		got := Headcuts(d, row.cellM, row.noiseM, Defaults())
		if len(got) != 2 {
			t.Errorf("%+v: %d headcuts, want 2: %+v", row, len(got), got)
			continue
		}
		for k, want := range []drop{{70, 0.8}, {70 + row.apartM, 0.9}} {
			// 0.15 m: three errors of a cell of 0.05 m.
			if math.Abs(got[k].StationM-want.lipM) > row.cellM || math.Abs(got[k].HeightM-want.heightM) > 0.001+3*row.noiseM {
				t.Errorf("%+v: %.2f m at %.1f, want %+v", row, got[k].HeightM, got[k].StationM, want)
			}
		}
	}
}

// Beds that steepen, however much, but hold no step.
func TestSteepeningIsNone(t *testing.T) {
	bent := func(at, below, above float64) drawn {
		return func(s float64) float64 { return below*min(s, at) + above*max(s-at, 0) }
	}
	zone := func(heightM, lengthM float64) drawn { // an S of that height over about that length
		return func(s float64) float64 { return 0.03*s + heightM/(1+math.Exp(-8*(s-100)/lengthM)) }
	}
	for _, row := range []struct {
		name      string
		bed       drawn
		coarsestM float64 // largest cells; 1 where larger ones cannot tell it from a step under noise
	}{
		{"concave, 2 to 25 %", func(s float64) float64 { return 0.02*s + 0.23*s*s/400 }, 5},
		{"steeper below, 20 under 2 %", bent(100.4, 0.20, 0.02), 5},
		{"steeper below, 50 under 1 %", bent(100.4, 0.50, 0.01), 5},
		{"steeper above, 2 under 20 %", bent(100.4, 0.02, 0.20), 5},
		{"steeper above, 2 under 60 %", bent(100.4, 0.02, 0.60), 5},
		{"knickzone, 3 m over 30 m", zone(3, 30), 5},
		{"knickzone, 5 m over 30 m", zone(5, 30), 5},
		{"ramp, 1 m over 6 m", func(s float64) float64 { return 0.02*s + min(max(s-100, 0), 6)/6 }, 1},
		{"waves of 0.1 m", func(s float64) float64 { return 0.04*s + 0.1*math.Sin(s) }, 5},
	} {
		for _, cellM := range []float64{0.5, 1, 2, 5} {
			if cellM > row.coarsestM {
				continue
			}
			for _, noiseM := range []float64{0, 0.05, 0.1} {
				for k := range uint64(20) {
					d := survey{200, cellM, noiseM, seeded(k)}.drainage(row.bed)
					for _, h := range Headcuts(d, cellM, noiseM, Defaults()) {
						t.Errorf("%s, cells of %g m, error %g m: %.2f m at %.1f", row.name, cellM, noiseM, h.HeightM, h.StationM)
					}
				}
			}
		}
	}
}
