package channel

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"siltstep/raster"
)

// reach is the section setting of these tests: sections every 5 m, 15 m to either side.
var reach = SectionConfig{SpacingM: 5, ReachM: 15}

// shifts of the line off the cell centres, in cells.
var shifts = []float64{0, 0.25, 0.5, 0.8}

// ways a trench can lie.
var ways = []struct {
	name                string
	deg, cross, radiusM float64
}{
	{"straight", 0, 0, 0}, {"at 22.5°", 22.5, 0, 0}, {"at 45°", 45, 0, 0}, {"in a bend of 20 m", 0, 0, 20}, {"beside a slope of 0.2", 0, 0.2, 0},
}

// misses are how far sections are off the truth, one value a resolved section.
type misses struct {
	taken                 int
	depthM, topM, bedM    []float64
	leftSlope, rightSlope []float64 // as a share
	leftM, rightM         []float64 // height of the banks
	areaShare             []float64
	why                   map[string]int
}

// measured draws a trench at all shifts and compares its sections with the truth.
func (t trench) measured(cellM, errorM float64) misses {
	m := misses{why: map[string]int{}}
	left, right := t.topsM()
	leftHigh, rightHigh := t.depthM-left*t.cross, t.depthM+right*t.cross
	depth := min(leftHigh, rightHigh)
	for i, shift := range shifts {
		t.shift = shift
		g, p := t.draw(cellM, errorM, uint64(7+i))
		for _, s := range Sections(g, p, reach) {
			m.taken++
			if !s.Resolved {
				m.why[s.Why]++
				continue
			}
			m.depthM = append(m.depthM, s.DepthM-depth)
			m.topM = append(m.topM, s.TopWidthM-t.bedM-2*depth*t.run)
			m.bedM = append(m.bedM, s.BedWidthM-t.bedM)
			m.leftSlope = append(m.leftSlope, s.Left.Slope*t.run-1)
			m.rightSlope = append(m.rightSlope, s.Right.Slope*t.run-1)
			m.leftM = append(m.leftM, s.Left.HeightM-leftHigh)
			m.rightM = append(m.rightM, s.Right.HeightM-rightHigh)
			m.areaShare = append(m.areaShare, s.AreaM2/(depth*(t.bedM+depth*t.run))-1)
		}
	}
	return m
}

// worst returns the value farthest from zero, without its sign.
func worst(of ...[]float64) float64 {
	w := 0.0
	for _, values := range of {
		for _, v := range values {
			if !(math.Abs(v) <= w) {
				w = math.Abs(v)
			}
		}
	}
	return w
}

// middle returns the median, NaN of nothing.
func middle(values []float64) float64 {
	if len(values) == 0 {
		return math.NaN()
	}
	s := slices.Clone(values)
	slices.Sort(s)
	return (s[len(s)/2] + s[(len(s)-1)/2]) / 2
}

// widthLimit is one cell or 5 % of a width, m.
func widthLimit(cellM, widthM float64) float64 { return max(cellM, 0.05*widthM) }

func TestTrenchesOfKnownShape(t *testing.T) {
	// Trapezoids and Vs without noise: every section that is resolved is right, and where bed and banks are a few cells
	// each nearly all are resolved. share is the least share, by trials on these grids.
	tests := []struct {
		cellM, bedM, run, depthM float64
		share                    float64
	}{
		{0.5, 2, 1, 0.5, 1}, {0.5, 2, 1, 1, 1}, {0.5, 2, 1, 1.5, 1},
		{0.5, 2, 1.5, 0.5, 1}, {0.5, 2, 1.5, 1, 1}, {0.5, 2, 1.5, 1.5, 1},
		{1, 2, 1, 1, 0.7}, {1, 2, 1, 1.5, 1}, {1, 2, 1.5, 1, 1}, {1, 2, 1.5, 1.5, 1}, // a bed of two cells
		{1, 3, 1, 1, 1}, {1, 4, 1, 1.4, 1}, {1, 2.5, 1, 0.5, 0}, // the last beside a slope: the lower bank 0.25 m high and 0.25 cells long
		{1, 2, 1, 0.5, 0}, {1, 2, 1.5, 0.5, 0}, // three cells at the top: said, or right
		{2, 2, 1, 0.5, 0}, {2, 2, 1, 1, 0}, {2, 2, 1.5, 1.5, 0}, // too coarse: said, or right
		{2, 6, 1.5, 1.5, 0.7}, {2, 8, 2, 1.5, 1},
		{0.5, 0, 1, 1.5, 0.2}, {0.5, 0, 1.5, 1.5, 0.7}, {0.5, 0, 1.5, 1, 0.4}, {0.5, 0, 2, 1.5, 0.7}, // Vs: the share in which the tip lies near a centre
		{1, 0, 1, 1.5, 0}, {1, 0, 1.5, 1.5, 0}, {1, 0, 2, 1.5, 0}, {2, 0, 1, 1.5, 0}, {2, 0, 1.5, 1.5, 0},
	}
	for _, tt := range tests {
		for _, way := range ways {
			name := fmt.Sprintf("cells %v m, bed %v m, 1 : %v, %v m deep, %s", tt.cellM, tt.bedM, tt.run, tt.depthM, way.name)
			drawn := trench{bedM: tt.bedM, run: tt.run, depthM: tt.depthM, cross: way.cross, deg: way.deg, radiusM: way.radiusM}
			m := drawn.measured(tt.cellM, 0)
			resolved := len(m.depthM)
			share := tt.share
			if way.cross > 0 && tt.cellM == 2 {
				share = 0 // the lower bank is no longer than a cell
			}
			if m.taken < 36 || float64(resolved) < share*float64(m.taken) {
				t.Errorf("%s: %d of %d sections resolved: %v", name, resolved, m.taken, m.why)
			}
			left, _ := drawn.topsM()
			spans := (left - tt.bedM/2) / tt.cellM // cells that the shorter bank spans
			limit := 0.1
			if spans < 2 {
				limit = max(limit, 0.15*way.cross/0.2*tt.cellM) // the top may be off by more than half a cell, and the slope there with it
			}
			if w := worst(m.depthM); !(w <= limit) {
				t.Errorf("%s: depth off by %.3f m, allowed %.2f", name, w, limit)
			}
			if w := middle(m.depthM); math.Abs(w) > 0.1 && tt.cellM < 2 {
				t.Errorf("%s: median depth off by %+.3f m", name, w)
			}
			if w, limit := worst(m.topM), 1.1*widthLimit(tt.cellM, tt.bedM+2*tt.depthM*tt.run); !(w <= limit) { // 1.06 cells at worst, in a bend
				t.Errorf("%s: top width off by %.2f m, allowed %.2f", name, w, limit)
			}
			if w := math.Abs(middle(m.topM)); w > widthLimit(tt.cellM, tt.bedM+2*tt.depthM*tt.run) {
				t.Errorf("%s: median top width off by %.2f m", name, w)
			}
			if w := math.Abs(middle(m.bedM)); w > widthLimit(tt.cellM, tt.bedM) {
				t.Errorf("%s: median bed width off by %.2f m", name, w)
			}
			if w, limit := worst(m.bedM), 1.1*widthLimit(tt.cellM, tt.bedM); !(w <= limit) { // 1.09 cells at worst, in a bend
				t.Errorf("%s: bed width off by %.2f m, allowed %.2f", name, w, limit)
			}
			if spans >= 3 {
				if w := worst(m.leftSlope, m.rightSlope); !(w <= 0.1) {
					t.Errorf("%s: slope of a bank off by %.0f %%", name, 100*w)
				}
				if w := worst(m.leftM, m.rightM); !(w <= 0.1) {
					t.Errorf("%s: height of a bank off by %.2f m", name, w)
				}
			}
			if resolved > 0 && tt.share == 1 && way.cross == 0 {
				if w := math.Abs(middle(m.areaShare)); !(w <= 0.15) { // a cell more or less of width is as much
					t.Errorf("%s: area off by %.0f %%", name, 100*w)
				}
			}
		}
	}
}

func TestWallsOfKnownShape(t *testing.T) {
	// Rectangular trenches. A wall may stand anywhere between two centres, so a single section may be a cell and a half off and
	// the median one cell; beside a slope of 0.2 the ground at the wall is then off by 0.2 of up to half a cell.
	for _, tt := range []struct{ cellM, bedM, depthM float64 }{
		{0.5, 3.2, 0.5}, {0.5, 3.2, 1}, {0.5, 4.1, 1.5}, {1, 4.2, 1}, {1, 4.2, 1.5}, {1, 6.3, 0.5}, {2, 9, 1.5},
	} {
		for _, way := range ways {
			name := fmt.Sprintf("cells %v m, %v m wide, %v m deep, %s", tt.cellM, tt.bedM, tt.depthM, way.name)
			if way.cross > 0 && tt.depthM < 1 {
				continue // the lower wall may be no higher than 0.1 m
			}
			m := trench{bedM: tt.bedM, depthM: tt.depthM, cross: way.cross, deg: way.deg, radiusM: way.radiusM}.measured(tt.cellM, 0)
			if len(m.depthM) < m.taken*9/10 && !(way.cross > 0 && tt.cellM == 2) { // there the lower wall is 0.6 m high and looks 2 m long
				t.Errorf("%s: %d of %d sections resolved: %v", name, len(m.depthM), m.taken, m.why)
			}
			if w := worst(m.depthM); !(w <= max(0.1, way.cross*tt.cellM)) {
				t.Errorf("%s: depth off by %.3f m", name, w)
			}
			if w := math.Abs(middle(m.depthM)); !(w <= 0.1) {
				t.Errorf("%s: median depth off by %.3f m", name, w)
			}
			for what, off := range map[string][]float64{"top": m.topM, "bed": m.bedM} {
				limit := widthLimit(tt.cellM, tt.bedM)
				if w := worst(off); !(w <= 1.5*limit) {
					t.Errorf("%s: %s width off by %.2f m", name, what, w)
				}
				if w := math.Abs(middle(off)); !(w <= limit) {
					t.Errorf("%s: median %s width off by %.2f m", name, what, w)
				}
			}
		}
	}
}

func TestNoisyTrenches(t *testing.T) {
	// The median of the sections of a trench whose cells err by 0.05 m keeps the limits of a clean one. With 0.10 m it
	// keeps those of width; depth stays within 0.15 m, on the low side: see the log.
	tests := []struct{ cellM, bedM, run, depthM float64 }{
		{0.5, 2, 1, 0.5}, {0.5, 2, 1, 1}, {0.5, 2, 1, 1.5}, {0.5, 2, 1.5, 0.5}, {0.5, 2, 1.5, 1}, {0.5, 2, 1.5, 1.5},
		{1, 2, 1, 1}, {1, 2, 1, 1.5}, {1, 2, 1.5, 1}, {1, 2, 1.5, 1.5}, {1, 4, 1, 1.4}, {1, 3, 1, 0.7}, {0.5, 0, 1, 1.5}, {0.5, 0, 1.5, 1.5},
	}
	for _, noise := range []struct{ errorM, depthM float64 }{{0.05, 0.1}, {0.10, 0.15}} {
		deepest := 0.0
		for _, tt := range tests {
			for _, way := range ways[:3] {
				name := fmt.Sprintf("error %v m, cells %v m, bed %v m, 1 : %v, %v m deep, %s", noise.errorM, tt.cellM, tt.bedM, tt.run, tt.depthM, way.name)
				m := trench{bedM: tt.bedM, run: tt.run, depthM: tt.depthM, deg: way.deg}.measured(tt.cellM, noise.errorM)
				if len(m.depthM) < m.taken/3 {
					t.Errorf("%s: %d of %d sections resolved: %v", name, len(m.depthM), m.taken, m.why)
				}
				d := middle(m.depthM)
				if math.Abs(d) > math.Abs(deepest) {
					deepest = d
				}
				if !(math.Abs(d) <= noise.depthM) {
					t.Errorf("%s: median depth off by %+.3f m", name, d)
				}
				if w := middle(m.topM); !(math.Abs(w) <= widthLimit(tt.cellM, tt.bedM+2*tt.depthM*tt.run)) {
					t.Errorf("%s: median top width off by %+.2f m", name, w)
				}
				if w := middle(m.bedM); !(math.Abs(w) <= widthLimit(tt.cellM, tt.bedM)) {
					t.Errorf("%s: median bed width off by %+.2f m", name, w)
				}
				if tt.depthM*tt.run/tt.cellM >= 3 {
					for _, slopes := range [][]float64{m.leftSlope, m.rightSlope} {
						if w := middle(slopes); !(math.Abs(w) <= noise.errorM*2) { // 10 % at 0.05 m, 20 % at 0.10 m
							t.Errorf("%s: median slope of a bank off by %+.0f %%", name, 100*w)
						}
					}
				}
			}
		}
		t.Logf("error %v m: the median depth is off by %+.3f m at most", noise.errorM, deepest)
	}
}

func TestFitOfASection(t *testing.T) {
	// Bed 4, banks 1 : 1.5, 1.5 m deep on cells of 0.5 m: the fitted trapezoid is the trench.
	g, p := trench{bedM: 4, run: 1.5, depthM: 1.5, shift: 0.3}.draw(0.5, 0, 1)
	for _, s := range Sections(g, p, reach) {
		f := s.Fit
		if math.Abs(f.BedWidthM-4) > 0.25 || math.Abs(f.SideSlope-1.5) > 0.1 || math.Abs(f.DepthM-1.5) > 0.05 || f.ResidualM > 0.05 { // a quarter of a cell in the widths, twice that over twice the depth in the slope
			t.Errorf("station %v: fit %+v", s.StationM, f)
		}
		if got := s.BedM - (100 - fallAlong*(drawnM/2-s.StationM) - 1.5); math.Abs(got) > 0.02 {
			t.Errorf("station %v: bed off by %.3f m", s.StationM, got)
		}
	}
	// Unequal banks of 1 : 1 and 1 : 2.5 cannot be met by equal ones: the residual shows it.
	two := func(x float64) float64 { return min(0, -1.5+max(0, -x-2)/1+max(0, x-2)/2.5) }
	g, p = land(0.5, 0, 1, two)
	for _, s := range Sections(g, p, reach) {
		if !s.Resolved || s.Fit.ResidualM < 0.1 || math.Abs(s.Fit.SideSlope-1.75) > 0.15 {
			t.Errorf("station %v, %s: unequal banks fitted with %+v", s.StationM, s.Why, s.Fit)
		}
	}
}

func TestSectionLiesAcrossTheLine(t *testing.T) {
	// Flow to the south-east at 30° from south: right, looking downstream, is west-south-west.
	g, p := trench{bedM: 3, run: 1, depthM: 1, deg: 30}.draw(1, 0, 1)
	sections := Sections(g, p, SectionConfig{SpacingM: 5, ReachM: 10})
	if len(sections) != 10 {
		t.Fatalf("%d sections over 50 m, want 10", len(sections))
	}
	sin, cos := math.Sincos(math.Pi / 6)
	for i, s := range sections {
		if math.Abs(s.StationM-(2.5+5*float64(i))) > 1e-9 || math.Abs(s.DX+cos) > 1e-9 || math.Abs(s.DY+sin) > 1e-9 { // rounding only
			t.Errorf("section %d at %v m along (%v, %v)", i, s.StationM, s.DX, s.DY)
		}
		if s.FirstM != -10 || s.StepM != 0.5 || len(s.MM) != 41 {
			t.Errorf("section %d: %d samples from %v every %v m", i, len(s.MM), s.FirstM, s.StepM)
		}
		for k, z := range s.MM {
			at := s.FirstM + float64(k)*s.StepM
			want, _ := g.Sample(s.X+at*s.DX, s.Y+at*s.DY)
			if math.Abs(float64(z)/1000-want) > 0.001 { // to the millimetre, rounded either way
				t.Fatalf("section %d: %v mm at %v m, the grid has %v m", i, z, at, want)
			}
		}
	}
}

func TestLineOffTheThalweg(t *testing.T) {
	// The line lies 1.7 m beside a trench of 2 m: X and Y are on the bed, and offsets count from there.
	g, p := trench{bedM: 2, run: 1, depthM: 1.2}.draw(1, 0, 1)
	middleX := p.Stations[0].X
	for i := range p.Stations {
		p.Stations[i].X += 1.7
	}
	sections := Sections(g, p, reach)
	for _, s := range sections {
		if !s.Resolved || math.Abs(s.X-middleX) > 1 || math.Abs(s.DepthM-1.2) > 0.1 {
			t.Errorf("station %v: thalweg %.2f m off the middle, depth %v: %s", s.StationM, s.X-middleX, s.DepthM, s.Why)
		}
		if s.MM[len(s.MM)/2] != slices.Min(s.MM) {
			t.Errorf("station %v: the middle sample is not on the bed", s.StationM)
		}
	}
	if len(sections) == 0 {
		t.Error("no sections")
	}
}

// allKnown reports whether a section holds no NaN.
func allKnown(s *Section) bool {
	for _, v := range []float64{
		s.BedM, s.BedWidthM, s.TopWidthM, s.DepthM, s.AreaM2, s.Left.ToeM, s.Left.TopM, s.Left.HeightM, s.Left.Slope,
		s.Right.ToeM, s.Right.TopM, s.Right.HeightM, s.Right.Slope, s.Fit.BedWidthM, s.Fit.SideSlope, s.Fit.DepthM, s.Fit.ResidualM,
	} {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return false
		}
	}
	return true
}

// check reports what must hold of any section.
func (s *Section) check() error {
	for _, z := range []float64{s.StationM, s.X, s.Y, s.DX, s.DY} {
		if math.IsNaN(z) {
			return fmt.Errorf("placed at NaN: %+v", *s)
		}
	}
	switch {
	case s.Resolved != (s.Why == ""):
		return fmt.Errorf("resolved %v, why %q", s.Resolved, s.Why)
	case len(s.MM)%2 != 1 || s.StepM <= 0 || s.FirstM != -s.StepM*float64(len(s.MM)/2):
		return fmt.Errorf("%d samples from %v every %v", len(s.MM), s.FirstM, s.StepM)
	case math.Abs(math.Hypot(s.DX, s.DY)-1) > 1e-9:
		return fmt.Errorf("direction %v, %v", s.DX, s.DY)
	case s.Resolved && !allKnown(s):
		return fmt.Errorf("resolved with NaN: %+v", *s)
	case s.MM[len(s.MM)/2] == raster.VoidMM && !math.IsNaN(s.BedM):
		return fmt.Errorf("a bed on a void: %+v", *s)
	}
	if !(s.DepthM > 0) {
		if s.Resolved && (s.DepthM != 0 || s.TopWidthM != 0 || s.Left != (Bank{}) || s.Right != (Bank{})) {
			return fmt.Errorf("no depth, and yet %+v", *s)
		}
		return nil
	}
	if !(s.BedWidthM >= 0 && s.BedWidthM <= s.TopWidthM) || s.AreaM2 < 0 {
		return fmt.Errorf("bed %v, top %v, area %v", s.BedWidthM, s.TopWidthM, s.AreaM2)
	}
	if !(s.Left.TopM < s.Left.ToeM && s.Left.ToeM <= s.Right.ToeM && s.Right.ToeM < s.Right.TopM) {
		return fmt.Errorf("offsets of banks do not ascend: %+v %+v", s.Left, s.Right)
	}
	if s.DepthM != min(s.Left.HeightM, s.Right.HeightM) && math.Abs(s.DepthM-min(s.Left.HeightM, s.Right.HeightM)) > 1e-9 {
		return fmt.Errorf("depth %v, banks %v and %v", s.DepthM, s.Left.HeightM, s.Right.HeightM)
	}
	if !(s.Left.Slope > 0 && s.Right.Slope > 0) {
		return fmt.Errorf("slopes %v and %v", s.Left.Slope, s.Right.Slope)
	}
	return nil
}
