package hydro

import (
	"math"
	"testing"

	"siltstep/hydro/channel"
)

// Sections 5 m apart on a bed of 8 %, the one at 5 m by e = 0.1 m too high. At 5 m the five places of the regression, 2.5, 3.75 … 7.5 m, take ½, ¾, 1,
// ¾ and ½ of it: 0.7 on average, and 0.15 of each neighbour. The variance is 0.7² + 2·0.15² = 0.535. At 10 m the same of the next one, 0.15 of
// the one at 5 m. At the lower end, 0, the places are 0, 1.25 and 2.5 m: weights 5/6, 1/3 and −1/6 at the axis, so that of the section at 5 m it takes
// ⅓·¼ − ⅙·½ = 0, and all of the first one.
func TestBedAtAnAxis(t *testing.T) {
	g := &valleyGround{withinM: 7.5}
	for k := range 5 {
		g.nodes = append(g.nodes, node{stationM: 5 * float64(k), alongM: 5 * float64(k), bedM: 100 + .4*float64(k), bedWidthM: 2, sideSlope: 1, section: k})
	}
	g.nodes[1].bedM += .1
	for _, c := range []struct{ axisM, bedM, variance float64 }{{5, 100.47, .535}, {10, 100.815, .535}, {15, 101.2, .535}, {0, 100, 1}} {
		n, _, ok := g.nodeAt(c.axisM)
		bedM, variance := g.reference(n)
		if !ok || math.Abs(bedM-c.bedM) > 1e-9 || math.Abs(variance-c.variance) > 1e-9 {
			t.Errorf("at %g m: %.4f m, variance %.4f; want %g and %g", c.axisM, bedM, variance, c.bedM, c.variance)
		}
	}
	g.noiseM = .2
	if b, ok := g.behind(10, math.Inf(1), .5); !ok || math.Abs(b.errorM-.2*math.Sqrt(.535)) > 1e-9 || g.slices[0].BedM == 100.8 {
		t.Errorf("error %.4f m, slices %v", b.errorM, g.slices)
	}
	for k := range g.nodes {
		g.nodes[k].bedWidthM = 0
	}
	g.cellM = .5
	if b, _ := g.behind(10, math.Inf(1), .5); math.Abs(b.errorM-.4*math.Sqrt(.535)) > 1e-9 { // a V: twice
		t.Errorf("error %.4f m in a V", b.errorM)
	}
}

// Sections on an arc of 10 m, 40° and 20° apart, the end ones askew by 15°: directions are those of the arc within 1.2°, chords turning by sines,
// within (40° × 2 × 1.2°)/12 of it, 0.3 %.
func TestHeadingsOnAnArc(t *testing.T) {
	var fits []*channel.Section
	angles := []float64{0, 40, 60, 100}
	for k, deg := range angles {
		sin, cos := math.Sincos(deg * math.Pi / 180)
		askew := 0.0
		if k == 0 || k == 3 {
			askew = 15
		}
		dy, dx := math.Sincos((deg + askew) * math.Pi / 180)
		// The middle of the bed lies 1 m along the section from its thalweg.
		fits = append(fits, &channel.Section{StationM: 10 * deg * math.Pi / 180, X: 10*cos - dx, Y: 10*sin - dy, DX: dx, DY: dy, Left: channel.Bank{ToeM: -1}, Right: channel.Bank{ToeM: 3}})
	}
	g := &valleyGround{withinM: 7.5}
	ways := g.headings(fits)
	for k, deg := range angles {
		sin, cos := math.Sincos(deg * math.Pi / 180)
		if off := math.Asin(ways[k].across(heading{-sin, cos})) * 180 / math.Pi; !(math.Abs(off) < 1.2) || math.Abs(ways[k].lengthM()-1) > 1e-9 { // chords turn by sines, not angles
			t.Errorf("section %d: off by %.2f°", k, off)
		}
	}
	for k := 1; k < 4; k++ {
		want := 10 * (angles[k] - angles[k-1]) * math.Pi / 180
		if got := arcM(fits[k-1], fits[k], ways[k-1], ways[k]); math.Abs(got/want-1) > 0.003 {
			t.Errorf("from section %d: %.4f m, want %.4f", k-1, got, want)
		}
	}
	if chord := middles(fits[0], fits[1]).lengthM(); math.Abs(chord-20*math.Sin(20*math.Pi/180)) > 1e-9 {
		t.Errorf("chord %.4f m", chord)
	}
}
