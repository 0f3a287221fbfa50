package erosion

import (
	"math"
	"testing"

	"siltstep/hydro/channel"
	"siltstep/raster"
	"siltstep/raster/rastertest"

	"pgregory.net/rapid"
)

// profileOf returns an unresolved section over a shape, samples every half metre to 20 m either side.
func profileOf(stationM, dx, dy float64, z func(offsetM float64) float64) channel.Section {
	s := dim(stationM)
	s.DX, s.DY, s.FirstM, s.StepM = dx, dy, -20, 0.5
	for i := range 81 {
		s.MM = append(s.MM, int32(math.Round(1000*z(s.FirstM+0.5*float64(i)))))
	}
	return s
}

func TestValley(t *testing.T) {
	const half = math.Sqrt2 / 2
	v := func(left, right, depth, wide float64) func(float64) float64 {
		return func(o float64) float64 {
			z := max(-left*o, right*o)
			if math.Abs(o) <= wide/2 {
				z -= depth
			}
			return z
		}
	}
	tests := []struct {
		name string
		s    channel.Section
		bed  float64
		want float64 // of a square of 30 m, m
	}{
		{"plain", profileOf(0, 1, 0, v(0, 0, 0, 0)), 0, 0},
		{"V of 0.1", profileOf(0, 1, 0, v(0.1, 0.1, 0, 0)), 0, 1.5},              // 15 m of 0.1
		{"V of 0.1, steep bed", profileOf(0, 1, 0, v(0.1, 0.1, 0, 0)), 0.3, 1.5}, // the upper edge of the square at the bed's own cell
		{"V of 0.1 and 0.3", profileOf(0, 0, -1, v(0.1, 0.3, 0, 0)), 0.05, 2.25}, // 22.5 m of 0.1 and 7.5 of 0.3
		{"V at 45°", profileOf(0, half, half, v(0.1, 0.1, 0, 0)), 0, 2.1213203},  // half the diagonal of 30 m
		// Each plane then falls along both axes towards one corner, and a square with that corner at the bed lies below it.
		{"V at 45°, as steep along the bed", profileOf(0, half, half, v(0.1, 0.1, 0, 0)), 0.1, 0},
		{"V with a wide trench in it", profileOf(0, 1, 0, v(0.1, 0.1, 1.5, 18)), 0, 1.5},
		{"hillside", profileOf(0, 1, 0, func(o float64) float64 { return 0.2 * o }), 0, 0},
	}
	for _, tt := range tests {
		forms := valleys([]channel.Section{tt.s}, 30)
		if len(forms) != 1 {
			t.Errorf("%s: no form", tt.name)
			continue
		}
		// Elevations are whole millimetres: the slope over 10 m is good to 0.1 ‰, the answer to 2 mm.
		if got := forms[0].topHatM(tt.bed); !(math.Abs(got-tt.want) <= 0.002) {
			t.Errorf("%s: got %g m, want %g", tt.name, got, tt.want)
		}
	}
	hole := profileOf(0, 1, 0, v(0.1, 0.1, 0, 0))
	for i := range 39 {
		hole.MM[i] = raster.VoidMM // two samples are left on the left
	}
	if got := valleys([]channel.Section{hole, dim(5)}, 30); got != nil {
		t.Errorf("without ground on the left, and without samples: got %+v, want no form", got)
	}
}

// The form of a valley, at any angle and slope, against the top-hat of a drawn one.
func TestValleyAgainstTopHat(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		const reach = 6
		form := valley{spanM: 2 * reach, left: rapid.Float64Range(0.01, 0.4).Draw(t, "left"), right: rapid.Float64Range(0.01, 0.4).Draw(t, "right")}
		form.dy, form.dx = math.Sincos(rapid.Float64Range(0, 2*math.Pi).Draw(t, "direction"))
		bed := rapid.Float64Range(0, 0.3).Draw(t, "bed")
		g := rastertest.Surface(4*reach+1, 4*reach+1, 1, func(col, row int) int32 {
			x, y := float64(col-2*reach), float64(2*reach-row)
			across, up := x*form.dx+y*form.dy, x*form.dy-y*form.dx
			return int32(math.Round(1000 * (max(-form.left*across, form.right*across) + bed*up)))
		})
		got := float64(TopHatMM(g, 2*reach+1, 1)[g.Index(2*reach, 2*reach)]) / 1000
		// Squares lie on whole cells: half a cell either way along both axes of the steeper plane, and 1 mm of rounding.
		slack := 0.001 + max(form.left, form.right) + bed
		if want := form.topHatM(bed); got < want-0.002 || got > want+slack {
			t.Fatalf("got %g m, want %g", got, want)
		}
	})
}

// What a valley adds to the top-hat is taken off again where sections show the valley.
func TestMeasureValley(t *testing.T) {
	v := func(o float64) float64 { return 0.1 * math.Abs(o) }
	cfg := Defaults()
	cfg.WindowM = 30
	d := Measure(metreByMetre(11), []channel.Section{profileOf(5, 1, 0, v)}, level(11, 1.5), cfg)
	for i, got := range d.IncisionM {
		if got > 0.002 {
			t.Errorf("plain valley at %d m: incision %g m, want none", i, got)
		}
	}
	d = Measure(metreByMetre(11), []channel.Section{profileOf(5, 1, 0, v)}, level(11, 2.5), cfg)
	if got := d.IncisionM[5]; math.Abs(got-1) > 0.002 {
		t.Errorf("trench of 1 m in a valley: incision %g m", got)
	}
}

// A V valley at an angle, its lower half cut 1.5 m deep and 3 m wide, through sections, survey and all. At 2 m cells no
// section can tell the trench.
func TestMeasureDrawnValley(t *testing.T) {
	for _, tt := range []struct {
		name                 string
		cellM, degrees, side float64
		tolM                 float64 // the trench is 1.5 cells wide at 2 m cells: some hold bank too
	}{
		{"1 m cells, south", 1, 0, 0.1, 0.1},
		{"1 m cells, 22.5°", 1, 22.5, 0.2, 0.1},
		{"1 m cells, 45°", 1, 45, 0.1, 0.1},
		{"2 m cells, south", 2, 0, 0.2, 0.2},
		{"2 m cells, 45°", 2, 45, 0.2, 0.2},
	} {
		t.Run(tt.name, func(t *testing.T) {
			g, up := cutValley(tt.cellM, tt.degrees, tt.side)
			n := networkOf(t, g)
			d := &n.Drainages[0]
			sections := channel.Sections(g, d.Profile, channel.SectionConfig{SpacingM: 5, ReachM: 20})
			m := Measure(d, sections, Survey(g, n, Defaults().WindowM, 2)[0], Defaults())
			var plain, trench []float64
			for i, s := range d.Profile.Stations {
				switch upM := up(s.X, s.Y); {
				case upM > 20 && upM < 90:
					plain = append(plain, m.TopHatM[i])
				case upM < -20 && upM > -90:
					trench = append(trench, m.TopHatM[i])
				}
			}
			if len(plain) < 20 || len(trench) < 20 {
				t.Fatalf("%d and %d stations: too few to tell", len(plain), len(trench))
			}
			if got := median(plain); !(got <= 0.05) {
				t.Errorf("plain valley: top-hat %g m, want none", got)
			}
			if got := median(trench); !(math.Abs(got-1.5) <= tt.tolM) {
				t.Errorf("trench: top-hat %g m, want 1.5", got)
			}
		})
	}
}

// cutValley draws a valley, each cell the mean of 16 points, and tells how far up the valley from its middle a place lies.
func cutValley(cellM, degrees, side float64) (g *raster.Grid, up func(x, y float64) float64) {
	const halfM = 140.0
	sin, cos := math.Sincos(degrees * math.Pi / 180)
	turn := func(x, y float64) (across, up float64) {
		x, y = x-rastertest.CornerX-halfM-0.3, y-rastertest.CornerY+halfM+0.2
		return x*cos + y*sin, y*cos - x*sin
	}
	cells := int(2 * halfM / cellM)
	g = rastertest.Surface(cells, cells, cellM, func(col, row int) int32 {
		const parts = 4
		sum := 0.0
		for k := range parts * parts {
			c, r := float64(col)+(float64(k%parts)+0.5)/parts, float64(row)+(float64(k/parts)+0.5)/parts
			across, upM := turn(rastertest.CornerX+c*cellM, rastertest.CornerY-r*cellM)
			sum += 100 + side*math.Abs(across) + 0.04*upM
			if upM < 0 && math.Abs(across) <= 1.5 {
				sum -= 1.5
			}
		}
		return int32(math.Round(1000 * sum / (parts * parts)))
	})
	return g, func(x, y float64) float64 { _, upM := turn(x, y); return upM }
}
