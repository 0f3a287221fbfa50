package hydro

import (
	"math"
	"strings"
	"testing"

	"siltstep/hydro/checkdam"
	"siltstep/hydro/siting"
)

// A dam of 0.6 m in b 2, z 1 on 8 %, under a deposit of half the slope, so that k = 0.04 and the wedge is 15 m long; the next dam stands 8 m above with
// half a crest of 0.25 m and a face of 3·0.6 m: cut at L = 5.95 m. V = b(HL − kL²/2) + z(H²L − HkL² + k²L³/3) = 2·(3.57 − 0.70805) +
// (2.142 − 0.84966 + 0.112337) = 7.1286 m³. A pond has k = 0.08: 2·(3.57 − 1.4161) + (2.142 − 1.69932 + 0.449348) = 5.1998 m³. Half full
// and uncut at H 0.3: 2·0.09/0.08 + 0.027/0.12 = 2.475 m³, cut at L: 2·(1.785 − 0.70805) + (0.5355 − 0.42483 + 0.112337) = 2.3769 m³.
func TestStorageUpToTheNextDam(t *testing.T) {
	_, g := gully{bedM: 2, side: 1, bankM: 1.2, cellM: .25}.ground(t, 1)
	body := checkdam.Body{CrestWidthM: .5, FaceUp: 1.5, FaceDown: 3}
	sites := []siting.Site{
		{StationM: 20, EffectiveHeightM: .6, WedgeEndM: 35},
		{StationM: 28, EffectiveHeightM: .6, WedgeEndM: 43},
	}
	endM := storageEndM(sites, 0, body)
	if math.Abs(endM-25.95) > 1e-9 || storageEndM(sites, 1, body) != 43 {
		t.Fatalf("cut at %g and %g", endM, storageEndM(sites, 1, body))
	}
	m := g.storage(&sites[0], body, .5, endM)
	for _, c := range []struct {
		what      string
		got, want float64
	}{
		{"sediment", m.SedimentM3, 7.1286}, {"pond", m.PondM3, 5.1998}, {"half full", m.HalfM3, 2.3769},
		{"wedge length", m.WedgeLengthM, 5.95}, {"plan area", m.WedgeAreaM2, 5.95 * (2 + 2*(.6+.362)/2)},
	} {
		if !(math.Abs(c.got/c.want-1) <= 0.02) {
			t.Errorf("%s %.4f, want %.4f", c.what, c.got, c.want)
		}
	}
	// Cells do not err, but a bank spans 0.6 m, 2.4 cells: q is 0.4167, and widths err by √2/6·0.25·0.1167/0.7 = 0.00982 m, with 5.95·0.481 = 2.862 m²
	// from the side 0.0281 m³.
	if math.Abs(m.SedimentHighM3-m.SedimentM3-0.0281) > 0.002 || math.Abs(m.SedimentM3-m.SedimentLowM3-0.0281) > 0.002 || m.Why != "" || !strings.Contains(m.How, "prismoidal") {
		t.Errorf("%+v", m)
	}
	if !(m.BodyM3 > 0 && m.BodyM3 < m.PondM3) {
		t.Errorf("the body takes %g m³", m.BodyM3)
	}
	// What siting asks for is the same, the sill counted from the bed of its profile.
	if got := g.siltM3(.5, 20, g.profileM(20)+.6, endM); got != m.SedimentM3 && math.Abs(got-m.SedimentM3) > 1e-9 {
		t.Errorf("for siting %.4f m³, %.4f measured", got, m.SedimentM3)
	}
	g.noiseM = math.NaN()
	if m := g.storage(&sites[0], body, .5, endM); !math.IsNaN(m.SedimentLowM3) || math.IsNaN(m.SedimentM3) {
		t.Errorf("noise not known: %+v", m)
	}
}

// Errors of cells make the error that is told: the root mean square of what dams are off is no more than told, and no less than a third of it. A bed of
// several cells errs by half of what is told, as its cells even out; in a V the tip also comes out too high or wide, so that volumes
// are too large on average, which is within what is told.
func TestErrorToldIsTheErrorMade(t *testing.T) {
	for _, c := range []struct{ cellM, bedM, side, heightM, errorM float64 }{
		{.5, 2, 1.5, .6, .05}, {.5, 2, 1.5, .6, .1}, {.5, 2, 1.5, 1, .1}, {1, 3, 1.5, 1, .1}, {1, 2, 1.5, 1, .05},
		{.5, 0, 2.5, .6, .05}, {.5, 0, 2.5, 1, .05}, {.5, 0, 2.5, 1, .1},
	} {
		want := prismM3(c.bedM, c.side, c.heightM)
		squares, told, count := 0.0, 0.0, 0.0
		for _, w := range []way{{0, 0}, {22.5, 0}} {
			for seed := range uint64(10) {
				_, g := gully{bedM: c.bedM, side: c.side, bankM: c.heightM + .5, cellM: c.cellM, errorM: c.errorM, way: w, shift: [2]float64{float64(seed) / 10, .3}}.ground(t, seed)
				for _, axisM := range axesM {
					if m := g.pond(axisM, c.heightM); m.Why == "" {
						off := m.SedimentM3/want - 1
						squares, told, count = squares+off*off, told+(m.SedimentHighM3-m.SedimentM3)/want, count+1
					}
				}
			}
		}
		made := math.Sqrt(squares / count)
		told /= count
		if count < 60 || !(made <= 1.1*told) || !(made >= told/3) { // 80 dams that are not independent: a tenth
			t.Errorf("%+v: %.0f dams, off by %.1f %%, told %.1f %%", c, count, 100*made, 100*told)
		}
		t.Logf("%+v: off by %.1f %%, told %.1f %%", c, 100*made, 100*told)
	}
}

// The bed rises by 0.7 m at once 4 m above the axis, in the middle between the sections to either side: the pond of a dam 0.6 m high ends there, at
// V = b(HL − kL²/2) + z(H²L − HkL² + k²L³/3), L = 4, k = 0.08: 2·(2.4 − 0.64) + (1.44 − 0.768 + 0.136533) = 4.3285 m³. Straight from section to section
// the bed would rise over 5 m, 0.35 m of it below the step, and hold a third less.
func TestPondEndsAtAStep(t *testing.T) {
	d := gully{bedM: 2, side: 1, bankM: 1.5, cellM: .25}
	// Station 25 is midway between two sections; stations count from the lower edge, the grid's middle lies at gullyHalfM.
	d.stepM = func(x float64) float64 {
		if x < gullyHalfM-25 {
			return .7
		}
		return 0
	}
	_, g := d.ground(t, 1)
	m := g.pond(21, .6)
	if !(math.Abs(m.PondM3/4.3285-1) <= 0.1) { // a cell and the slope of the step between cells
		t.Errorf("%+v, want 4.33 m³; slices %.2f", m, g.slices)
	}
}

func TestWhereGroundIsNotKnown(t *testing.T) {
	_, g := gully{bedM: 2, side: 1.5, bankM: 1.2, cellM: .5}.ground(t, 1)
	sections := g.sections
	// Only the sections at 12.5 and 42.5 m are left: ground is known to 20 m and from 35 m.
	var few = sections[:0:0]
	for _, s := range sections {
		if s.StationM == 12.5 || s.StationM == 42.5 {
			few = append(few, s)
		}
	}
	h := &valleyGround{stations: g.stations, sections: few, withinM: g.withinM, cellM: g.cellM, noiseM: g.noiseM}
	h.addNodes(leastDipM)
	for _, c := range []struct {
		axisM, toM float64
		why        string
	}{
		{10, math.Inf(1), ""},
		{10, 22, ""}, // the pond ends before
		{16, math.Inf(1), "the wedge goes on above station 20.0 m"},
		{16, 19, ""},
		{27, math.Inf(1), "no cross-section with banks is resolved within 7.5 m of the axis"},
		{36, math.Inf(1), ""},
		{3, math.Inf(1), "no cross-section with banks is resolved within 7.5 m of the axis"},
	} {
		m := h.storage(&siting.Site{StationM: c.axisM, EffectiveHeightM: .6}, checkdam.Body{}, 0, c.toM)
		if !strings.HasPrefix(m.Why, c.why) || math.IsNaN(m.PondM3) != (c.why != "") || (m.Why == "") != (c.why == "") {
			t.Errorf("axis %g to %g: %+v, want %q", c.axisM, c.toM, m, c.why)
		}
	}
	if got := h.siltM3(0, 27, 200, 40); got != 0 {
		t.Errorf("silt where nothing is known: %g m³", got)
	}
	if got := h.siltM3(0, 16, g.profileM(16)+.6, math.Inf(1)); !(got > 0) {
		t.Errorf("silt as far as it is known: %g m³", got)
	}
	empty := &valleyGround{stations: g.stations, withinM: 7.5, cellM: 1, noiseM: .1}
	if m := empty.storage(&siting.Site{StationM: 5, EffectiveHeightM: .6}, checkdam.Body{}, 0, 9); m.Why == "" || empty.siltM3(0, 5, 101, 9) != 0 {
		t.Errorf("no sections: %+v", m)
	}
}

// Water 0.5 m deep over b 2 with sides of 1.5 is 2 + 2·1.5·0.5 = 3.5 m wide.
func TestReachOfWater(t *testing.T) {
	for _, w := range ways {
		_, g := gully{bedM: 2, side: 1.5, bankM: 1.2, cellM: .25, way: w}.ground(t, 1)
		for _, stationM := range []float64{14, 20, 30.5} {
			level := g.profileM(stationM) + .5
			left, right := g.waterM(stationM, level)
			if math.Abs(left+right-3.5) > 0.25 || min(left, right) < 0.5 { // a cell; sections lie askew to bends by up to 20°, and the line anywhere in the bed
				t.Errorf("%+v, station %g: %.2f m left, %.2f right", w, stationM, left, right)
			}
			if l, r := g.waterM(stationM, level-.5); l != 0 || r != 0 {
				t.Errorf("dry, and yet %g and %g m", l, r)
			}
			if l, r := g.waterM(stationM, level+50); l < 5 || r < 5 { // of 20 m, or to the edge of the grid
				t.Errorf("under water as far as is seen: %g and %g m", l, r)
			}
		}
	}
}

func BenchmarkValleyGround(b *testing.B) {
	_, g := gully{bedM: 2, side: 1.5, bankM: 1.2, cellM: .5}.ground(b, 1)
	b.Run("build", func(b *testing.B) {
		for b.Loop() {
			g.nodes = g.nodes[:0]
			g.addNodes(leastDipM)
		}
	})
	b.Run("silt", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			g.siltM3(.5, 20, 98.5, 40)
		}
	})
	b.Run("water", func(b *testing.B) {
		for b.Loop() {
			g.waterM(20, 99)
		}
	})
}
