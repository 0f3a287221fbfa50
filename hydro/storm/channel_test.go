package storm

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// gully is a section drawn for these tests: five points, 4.5 m wide, banks of 2.0 and 2.2 m.
func gully() Section { return Section{{0, 2.0}, {1, .5}, {2, 0}, {3, .6}, {4.5, 2.2}} }

// An engineer's sheet of a county in Virginia (2022, read): bed 4 ft, sides 2:1, slope 0.02, n 0.035, 18 ft³/s, printed to
// four places with 1.486; with 1.49 the depth would be 0.77667 ft, outside the tolerance.
func TestTrapezoidOfAnEngineersSheet(t *testing.T) {
	s := must[Section](t)(Trapezoid(4*footM, 2, 3*footM))
	c := Channel{Section: s, Slope: .02, Roughness: .035}
	f := must[Flow](t)(c.Depth(18 * cubicFootM3))
	y := must[Critical](t)(s.CriticalDepth(18 * cubicFootM3))
	shear := ShearOf(f, .02)
	const ft2 = footM * footM
	for _, row := range []struct {
		name                 string
		source               from
		got, want, tolerance float64
	}{
		{"depth, ft", read, f.DepthM / footM, .7778, .0002},
		{"depth by hand, ft", computed, f.DepthM / footM, .77782, .0002},
		{"area, ft²", read, f.AreaM2 / ft2, 4.3213, .002},
		{"perimeter, ft", read, f.PerimeterM / footM, 7.4786, .001},
		{"hydraulic radius, ft", read, f.HydraulicRadiusM() / footM, .5778, .0002},
		{"velocity, ft/s", read, f.VelocityMS / footM, 4.1654, .002},
		{"top width, ft", read, f.TopWidthM / footM, 7.1113, .001},
		{"Froude number", read, f.Froude, .9417, .001},
		{"critical depth, ft", read, y.DepthM / footM, .7507, .0002},
		{"critical depth by hand, ft", computed, y.DepthM / footM, .75077, .0002},
		{"critical velocity, ft/s", read, y.VelocityMS / footM, 4.3581, .002},
		{"critical slope", read, y.SlopeFor(.035), .0228, .00006},
		{"critical top width, ft", read, y.TopWidthM / footM, 7.00, .005},
		{"highest shear, lb/ft²", read, shear.BedPa / poundFootPa, .9707, .001},
		{"mean shear, lb/ft²", read, shear.MeanPa / poundFootPa, .7211, .001},
		{"side shear, lb/ft²", secondary, shear.SidePa / poundFootPa, .75 * .9707, .001},
		{"stream power over the top, lb/ft/s", computed, shear.PowerTopWidthWM2 / footPoundW, 3.159, .006},
		{"stream power over the top, W/m²", computed, shear.PowerTopWidthWM2, 46.10, .08},
		{"unit stream power, ft/s", computed, shear.UnitPowerMS / footM, 4.1654 * .02, .0001},
	} {
		check(t, row.source, row.name, row.got, row.want, row.tolerance)
	}
	if len(f.Notes) != 0 || !f.Contained {
		t.Errorf("notes %v", f.Notes)
	}
}

// Rectangles of Ponce1989 (read; the print rounds the radius in between) and by hand.
func TestRectangles(t *testing.T) {
	for _, row := range []struct{ bed, deep, slope, r, v, q, rHand, vHand, qHand float64 }{
		{6, 1.6, .0025, 1.043, 3.428, 32.91, 1.04348, 3.42926, 32.921},
		{5, 1.5, .003, .9375, 3.498, 26.23, .9375, 3.4977, 26.233},
	} {
		c := Channel{Section: must[Section](t)(Trapezoid(row.bed, 0, 3)), Slope: row.slope, Roughness: .015}
		f := must[Flow](t)(c.At(row.deep))
		check(t, read, "hydraulic radius", f.HydraulicRadiusM(), row.r, .0006)
		check(t, read, "velocity", f.VelocityMS, row.v, .002)
		check(t, read, "flow", f.FlowM3s, row.q, .015)
		check(t, computed, "hydraulic radius", f.HydraulicRadiusM(), row.rHand, .00001)
		check(t, computed, "velocity", f.VelocityMS, row.vHand, .0001)
		check(t, computed, "flow", f.FlowM3s, row.qHand, .001)
	}
}

// By hand, n 0.04 and slope 0.05: depth 0.5 m cuts the right bank at 2.8333 m.
func TestGully(t *testing.T) {
	c := Channel{Section: gully(), Slope: .05, Roughness: .04}
	for _, row := range []struct{ stage, area, perimeter, top, q float64 }{
		{.5, .45833, 2.08986, 1.83333, .93179}, {1, 1.60833, 3.43344, 2.70833, 5.4229}, {1.5, 3.16302, 4.71973, math.NaN(), 13.541},
	} {
		f := must[Flow](t)(c.At(row.stage))
		check(t, computed, "area", f.AreaM2, row.area, .00001)
		check(t, computed, "perimeter", f.PerimeterM, row.perimeter, .00001)
		check(t, computed, "flow", f.FlowM3s, row.q, .0006)
		if !math.IsNaN(row.top) {
			check(t, computed, "top width", f.TopWidthM, row.top, .00001)
		}
	}
	f := must[Flow](t)(c.At(.5))
	check(t, computed, "velocity", f.VelocityMS, 2.0330, .0001)
	check(t, computed, "Froude number", f.Froude, 1.298, .0006)
	shear := ShearOf(f, .05)
	check(t, computed, "mean shear, Pa", shear.MeanPa, 107.6, .06)
	// Two widths, two powers: which one is meant must be said.
	check(t, computed, "power over the top width", shear.PowerTopWidthWM2, 249.3, .06)
	check(t, computed, "power over the perimeter", shear.PowerPerimeterWM2, 218.7, .06)
	check(t, computed, "mean shear times velocity", shear.MeanPa*f.VelocityMS, 218.7, .06)
	for q, depth := range map[float64]float64{.1: .21651, 1: .51271, 3: .77888} {
		f := must[Flow](t)(c.Depth(q))
		check(t, computed, "normal depth", f.DepthM, depth, .00001)
		check(t, computed, "its flow", f.FlowM3s, q, 1e-4)
	}
	if f := must[Flow](t)(c.Depth(1)); len(f.Notes) != 1 || f.Notes[0].Rule != RuleFroude || !f.Notes[0].Recalled {
		t.Errorf("Froude number %.2f is not noted: %v", f.Froude, f.Notes)
	}
	check(t, computed, "dry", must[Flow](t)(c.At(0)).FlowM3s, 0, 0)
}

// A second low behind a hump of 1 m is dry until the stage tops it: 0.9 m fills the first triangle only, by hand
// 0.81 m²; 1.1 m fills both, 2 × 1 + 4 × 0.1 and the ends, 0.01.
func TestOnlyTheThalwegsLowIsWet(t *testing.T) {
	s := Section{{0, 2}, {2, 0}, {3, 1}, {4, .2}, {6, 2.2}}
	c := Channel{Section: s, Slope: .02, Roughness: .04}
	below := must[Flow](t)(c.At(.9))
	check(t, computed, "below the hump", below.AreaM2, .81, 1e-9)
	check(t, computed, "top width", below.TopWidthM, 1.8, 1e-9)
	// Above: left triangle 1.1²/2, 2 to 3 m (1.1 + 0.1)/2, 3 to 4 m (0.1 + 0.9)/2, right 0.9²/2.
	check(t, computed, "above the hump", must[Flow](t)(c.At(1.1)).AreaM2, .605+.6+.5+.405, 1e-9)
	// Flow between what the first low and both together carry at 1 m stands at the hump.
	q := must[Flow](t)(c.At(.9999)).FlowM3s * 1.05
	check(t, computed, "stage at the hump", must[Flow](t)(c.Depth(q)).DepthM, 1, 1e-5)
}

// By hand: 3 m above a section 2 m deep stands between walls of 1 m on the left and 0.8 m on the right.
func TestFlowThatIsNotContained(t *testing.T) {
	s := gully()
	w := s.At(3)
	if w.Contained || !s.At(2).Contained {
		t.Error("contained")
	}
	check(t, computed, "top width", w.TopWidthM, 4.5, 1e-9)
	whole := s.At(2.2)
	check(t, computed, "walls", w.PerimeterM-whole.PerimeterM, .8+1-.2, 1e-9)
	c := Channel{Section: s, Slope: .05, Roughness: .04}
	f := must[Flow](t)(c.Depth(60))
	if f.Contained || f.DepthM < 2 || f.Notes[len(f.Notes)-1].Rule != RuleContained {
		t.Errorf("60 m³/s stands %.2f m deep in a 2 m section; notes %v", f.DepthM, f.Notes)
	}
	check(t, computed, "its flow", f.FlowM3s, 60, .001)
	if y := must[Critical](t)(s.CriticalDepth(80)); y.Contained || len(y.Notes) != 1 {
		t.Errorf("critical depth %.2f m, notes %v", y.DepthM, y.Notes)
	}
	if f := must[Flow](t)(Channel{Section: s, Slope: .00005, Roughness: .04}.Depth(.1)); len(f.Notes) != 1 || f.Notes[0].Rule != RuleSlope {
		t.Errorf("a slope of 0.005 %% is not noted: %v", f.Notes)
	}
}

// bermed is a slot 2 m wide and 1 m deep with flat banks of 20 m: unsplit, its capacity falls as they flood.
func bermed() Section {
	return Section{{-21, 2}, {-21, 1}, {-1, 1}, {-1, 0}, {1, 0}, {1, 1}, {21, 1}, {21, 2}}
}

func TestFloodedBanks(t *testing.T) {
	c := Channel{Section: bermed(), Slope: .01, Roughness: .03}
	full, over := must[Flow](t)(c.At(1)), must[Flow](t)(c.At(1.05))
	if !(over.FlowM3s < full.FlowM3s) {
		t.Fatalf("the section does not show the fall: %g then %g m³/s", full.FlowM3s, over.FlowM3s)
	}
	// The lowest depth that carries the flow is the answer, not one of the two above.
	if f := must[Flow](t)(c.Depth(full.FlowM3s * .98)); !(f.DepthM < 1) {
		t.Errorf("depth %.3f m", f.DepthM)
	}
	// Split where roughness changes, flooding never lowers it. By hand at 1.5 m: slot 3 m², P 4 m; each bank 10 m², P 20.5 m.
	c.RoughnessByPiece = []float64{.05, .05, .03, .03, .03, .05, .05}
	check(t, computed, "split flow", must[Flow](t)(c.At(1.5)).FlowM3s, (3*math.Cbrt(.75*.75)/.03+2*10*math.Pow(10/20.5, 2./3)/.05)*.1, 1e-9)
	before := 0.0
	for stage := .02; stage < 3; stage += .02 {
		f := must[Flow](t)(c.At(stage))
		if f.FlowM3s < before {
			t.Fatalf("capacity falls to %g at %.2f m", f.FlowM3s, stage)
		}
		before = f.FlowM3s
	}
	c.RoughnessByPiece = []float64{.03, .03, .03, .03, .03, .03, .03}
	check(t, computed, "one roughness on every piece", must[Flow](t)(c.At(1.5)).FlowM3s, must[Flow](t)(Channel{Section: bermed(), Slope: .01, Roughness: .03}.At(1.5)).FlowM3s, 1e-9)
}

func TestChannelRefuses(t *testing.T) {
	good := func() Channel { return Channel{Section: gully(), Slope: .05, Roughness: .04} }
	for _, row := range []struct {
		words  string
		change func(*Channel)
	}{
		{"slope is 0", func(c *Channel) { c.Slope = 0 }}, {"slope is NaN", func(c *Channel) { c.Slope = math.NaN() }}, {"slope is -0.1", func(c *Channel) { c.Slope = -.1 }},
		{"slope is 5", func(c *Channel) { c.Slope = 5 }}, {"roughness n is 0", func(c *Channel) { c.Roughness = 0 }}, {"3 roughnesses", func(c *Channel) { c.RoughnessByPiece = []float64{.1, .1, .1} }},
		{"piece 2", func(c *Channel) { c.RoughnessByPiece = []float64{.1, 7, .1, .1} }},
		{"2 points", func(c *Channel) { c.Section = c.Section[:2] }}, {"point 3", func(c *Channel) { c.Section[2].OffsetM = .5 }},
		{"point 1", func(c *Channel) { c.Section[0].ElevationM = math.Inf(1) }}, {"holds no water", func(c *Channel) { c.Section = Section{{0, 1}, {1, 0}, {2, 0}} }},
		{"holds no water", func(c *Channel) { c.Section = Section{{0, 1}, {0, 0}, {0, 1}} }},
	} {
		c := good()
		row.change(&c)
		_, err := c.Depth(1)
		refused(t, row.words, err, row.words)
		_, err = c.At(1)
		refused(t, row.words, err, row.words)
	}
	for _, q := range []float64{0, -1, math.NaN(), math.Inf(1)} {
		_, err := good().Depth(q)
		refused(t, "flow", err, "flow")
		_, err = gully().CriticalDepth(q)
		refused(t, "flow", err, "flow")
	}
	_, err := good().At(-1)
	refused(t, "stage", err, "stage")
	_, err = good().Depth(1e300)
	refused(t, "flow out of reach", err, "units")
	_, err = Trapezoid(0, 0, 1)
	refused(t, "no width", err, "holds no water")
	_, err = Trapezoid(-1, 1, 1)
	refused(t, "bed", err, "bed width")
	if !math.IsNaN(ShearOf(Flow{}, -1).MeanPa) || ShearOf(Flow{}, .1) != (Shear{}) {
		t.Error("shear of a negative slope, or of a dry bed")
	}
}

// More water is never shallower, carries itself, and stays finite.
func TestNormalDepthGrowsWithFlow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(3, 12).Draw(t, "points")
		s := make(Section, n)
		x := 0.0
		for i := range s {
			s[i] = Point{x, rapid.Float64Range(0, 3).Draw(t, "z")}
			x += rapid.Float64Range(.3, 3).Draw(t, "dx")
		}
		s[0].ElevationM, s[n-1].ElevationM = 4, rapid.Float64Range(3.5, 4.5).Draw(t, "bank")
		c := Channel{Section: s, Slope: rapid.Float64Range(.0001, .3).Draw(t, "slope"), Roughness: rapid.Float64Range(.01, .2).Draw(t, "n")}
		q := rapid.Float64Range(.001, 50).Draw(t, "flow")
		more := rapid.Float64Range(q, 60).Draw(t, "more")
		a, errA := c.Depth(q)
		b, errB := c.Depth(more)
		if errA != nil || errB != nil || b.DepthM < a.DepthM {
			t.Fatalf("%g m at %g m³/s, %g m at %g m³/s; %v %v", a.DepthM, q, b.DepthM, more, errA, errB)
		}
		if a.FlowM3s < q || !(a.FlowM3s < math.MaxFloat64 && a.Froude >= 0 && a.VelocityMS > 0) {
			t.Fatalf("%+v at %g m³/s", a, q)
		}
		y, err := s.CriticalDepth(q)
		if err != nil || !(y.DepthM > 0 && y.VelocityMS > 0) {
			t.Fatalf("%+v, %v", y, err)
		}
	})
}

// A parabola of 4 m width at 1 m drawn with more and more points comes to its closed form, area 2/3 × 4 × 1, and a
// trapezoid cut into pieces is that trapezoid: A = (b + zy)y, P = b + 2y√(1+z²).
func TestSectionsConverge(t *testing.T) {
	before := math.Inf(1)
	for _, n := range []int{4, 16, 64, 256} {
		var s Section
		for i := range n + 1 {
			x := -3 + 6*float64(i)/float64(n)
			s = append(s, Point{x, x * x / 4})
		}
		wrong := math.Abs(s.At(1).AreaM2 - 8./3)
		if wrong > before/3 {
			t.Errorf("%d pieces are off by %g m², before %g", n, wrong, before)
		}
		before = wrong
	}
	check(t, computed, "parabola", before, 0, 1e-3)
	rapid.Check(t, func(t *rapid.T) {
		b := rapid.Float64Range(.1, 20).Draw(t, "bed")
		z := rapid.Float64Range(0, 5).Draw(t, "side")
		y := rapid.Float64Range(.01, 4.9).Draw(t, "stage")
		whole, err := Trapezoid(b, z, 5)
		if err != nil {
			t.Fatal(err)
		}
		pieces := rapid.IntRange(1, 50).Draw(t, "pieces")
		cutUp := Section{whole[0]}
		for i := 1; i < len(whole); i++ {
			for k := 1; k <= pieces; k++ {
				f := float64(k) / float64(pieces)
				cutUp = append(cutUp, Point{whole[i-1].OffsetM + f*(whole[i].OffsetM-whole[i-1].OffsetM), whole[i-1].ElevationM + f*(whole[i].ElevationM-whole[i-1].ElevationM)})
			}
		}
		for _, s := range []Section{whole, cutUp} {
			w := s.At(y)
			area, perimeter, top := (b+z*y)*y, b+2*y*math.Sqrt(1+z*z), b+2*z*y
			if math.Abs(w.AreaM2-area) > 1e-9*area || math.Abs(w.PerimeterM-perimeter) > 1e-9*perimeter || math.Abs(w.TopWidthM-top) > 1e-9*top {
				t.Fatalf("%+v, want %g m², %g m, %g m", w, area, perimeter, top)
			}
		}
	})
}
