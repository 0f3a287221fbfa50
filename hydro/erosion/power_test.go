package erosion

import (
	"math"
	"testing"

	"siltstep/hydro/channel"

	"pgregory.net/rapid"
)

// US units in SI: exact but for the pound a square foot, as usually rounded.
const (
	ft  = 0.3048
	cfs = ft * ft * ft
)

func off(got, want, share float64) bool { return !(math.Abs(got-want) <= share*math.Abs(want)) }

func TestNormalDepth(t *testing.T) {
	tests := []struct {
		name           string
		t              channel.Trapezoid
		flowM3s, s, n  float64
		wantM, percent float64
	}{
		// Engineer's calculation for a channel in Albemarle County, Virginia, 2022: 18 cfs in 4 ft of bed with 2:1 banks runs
		// 0.7778 ft deep. It has Manning's 1.486, of which 1/0.3048^(1/3) is 1.48592.
		{"published trapezoid", channel.Trapezoid{BedWidthM: 4 * ft, SideSlope: 2}, 18 * cfs, 0.02, 0.035, 0.7778 * ft, 0.02},
		// Ponce, open-channel examinations: depths given, flows 32.91 and 26.23 printed with factors cut; 32.921 and 26.233 by hand.
		{"published rectangle 6 m", channel.Trapezoid{BedWidthM: 6}, 32.921, 0.0025, 0.015, 1.6, 0.02},
		{"published rectangle 5 m", channel.Trapezoid{BedWidthM: 5}, 26.233, 0.003, 0.015, 1.5, 0.02},
		// Our arithmetic for a gully with a pointed bed, sides 2 and 1.667 to 1: Q(0.5) = 0.93179 and depth(0.1) = 0.21651.
		// The mean side here leaves 0.07 % of the wetted length out.
		{"V", channel.Trapezoid{SideSlope: 11.0 / 6}, 0.93179, 0.05, 0.04, 0.5, 0.05},
		{"V, less water", channel.Trapezoid{SideSlope: 11.0 / 6}, 0.1, 0.05, 0.04, 0.21651, 0.05},
	}
	for _, tt := range tests {
		if got := normal(tt.t, tt.flowM3s, tt.s, tt.n); off(got.depthM, tt.wantM, tt.percent/100) {
			t.Errorf("%s: got %g m, want %g", tt.name, got.depthM, tt.wantM)
		}
	}
}

// The published trapezoid: T 7.1113 ft, A 4.3213 ft², P 7.4786 ft, greatest shear 0.9707 and mean 0.7211 lb/ft² (engineer's
// calculation, Albemarle County, Virginia, 2022); 62.4·18·0.02/7.1113 = 3.159 lb/ft/s = 46.10 W/m² by hand. Within 0.1 %: 62.4
// lb/ft³ is 9802 N/m³, not 9810.
func TestShearAndPower(t *testing.T) {
	const slope = 0.02
	s := normal(channel.Trapezoid{BedWidthM: 4 * ft, SideSlope: 2}, 18*cfs, slope, 0.035)
	for name, v := range map[string][2]float64{
		"top width, ft":          {s.topM / ft, 7.1113},
		"area, ft²":              {s.areaM2 / (ft * ft), 4.3213},
		"wetted length, ft":      {s.wettedM / ft, 7.4786},
		"greatest shear, lb/ft²": {s.bedShearPa(slope) / paPerPoundFoot2, 0.9707},
		"mean shear, lb/ft²":     {waterNm3 * s.areaM2 / s.wettedM * slope / paPerPoundFoot2, 0.7211},
		"power over width, W/m²": {s.unitPowerWm2(18*cfs, slope), 46.10},
		"velocity, ft/s":         {18 / (s.areaM2 / (ft * ft)), 4.1654},
		"shear times velocity":   {waterNm3 * slope * 18 * cfs / s.wettedM, s.unitPowerWm2(18*cfs, slope) * s.topM / s.wettedM},
	} {
		if off(v[0], v[1], 0.001) {
			t.Errorf("%s: got %g, want %g", name, v[0], v[1])
		}
	}
}

// By our arithmetic for the gully with a pointed bed at 0.5 m: 249.3 W/m² over the top width.
func TestPowerOverTopWidth(t *testing.T) {
	s := normal(channel.Trapezoid{SideSlope: 11.0 / 6}, 0.93179, 0.05, 0.04)
	if got := s.unitPowerWm2(0.93179, 0.05); off(got, 249.3, 0.001) {
		t.Errorf("got %g W/m², want 249.3", got)
	}
}

// The depth carries the flow asked for, by Manning's formula as written.
func TestNormalCarries(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		shape := channel.Trapezoid{BedWidthM: rapid.Float64Range(0, 20).Draw(t, "bed"), SideSlope: rapid.Float64Range(0.05, 10).Draw(t, "side")}
		q := rapid.Float64Range(1e-4, 500).Draw(t, "flow")
		slope, n := rapid.Float64Range(leastSlope, 0.5).Draw(t, "slope"), rapid.Float64Range(0.01, 0.3).Draw(t, "n")
		s := normal(shape, q, slope, n)
		if got := s.areaM2 * math.Pow(s.areaM2/s.wettedM, 2.0/3) * math.Sqrt(slope) / n; off(got, q, 1e-6) {
			t.Fatalf("%g m deep: carries %g m³/s of %g", s.depthM, got, q)
		}
		if more := normal(shape, 1.1*q, slope, n); more.depthM <= s.depthM {
			t.Fatalf("more water is no deeper: %g and %g m", s.depthM, more.depthM)
		}
	})
}

func TestNormalOddInput(t *testing.T) {
	plain := channel.Trapezoid{BedWidthM: 1, SideSlope: 1}
	tests := []struct {
		name    string
		t       channel.Trapezoid
		q, s, n float64
		want    float64
	}{
		{"no flow", plain, 0, 0.02, 0.04, 0},
		{"negative flow", plain, -1, 0.02, 0.04, untold},
		{"flow unknown", plain, untold, 0.02, 0.04, untold},
		{"endless flow", plain, math.Inf(1), 0.02, 0.04, untold},
		{"level", plain, 1, 0, 0.04, untold},
		{"slope unknown", plain, 1, untold, 0.04, untold},
		{"no shape", channel.Trapezoid{}, 1, 0.02, 0.04, untold},
		{"shape unknown", channel.Trapezoid{BedWidthM: untold, SideSlope: untold}, 1, 0.02, 0.04, untold},
		{"a hair wide", channel.Trapezoid{BedWidthM: 1e-12}, 1, 0.02, 0.04, untold},
	}
	for _, tt := range tests {
		if got := normal(tt.t, tt.q, tt.s, tt.n).depthM; !near(got, tt.want) {
			t.Errorf("%s: got %g m, want %g", tt.name, got, tt.want)
		}
	}
	if got := normal(channel.Trapezoid{SideSlope: 1}, 0, 0.02, 0.04).unitPowerWm2(0, 0.02); got != 0 {
		t.Errorf("dry V: got %g W/m², want 0", got)
	}
}

func TestPowerAtWithoutStorm(t *testing.T) {
	d := metreByMetre(3)
	d.Profile.Stations[1].CatchmentM2 = 100_000
	d.Profile.Stations[2].Slope = untold
	p := PowerAt(d, nil, Depths{}, nil, Defaults())
	want := []float64{0.05, 0.05 * 2.3988329190194904, untold} // 10^0.38
	for i, w := range want {
		if !near(p.SlopeArea[i], w) {
			t.Errorf("slope-area at station %d: got %g, want %g", i, p.SlopeArea[i], w)
		}
	}
	if p.PeakM3s != nil || p.ShearPa != nil || p.UnitPowerWm2 != nil || !math.IsNaN(p.ShearRatio) || !math.IsNaN(p.PermissiblePa) {
		t.Errorf("without a storm: %+v", p)
	}
}

func TestPowerAtStorm(t *testing.T) {
	d := metreByMetre(31)
	st := d.Profile.Stations
	for i := range st {
		st[i].Slope = 0.02
	}
	st[2].Slope, st[3].Slope, st[4].NoBed = 0, untold, true
	wide := cut(0, 1)
	wide.Fit = channel.Trapezoid{BedWidthM: 4 * ft, SideSlope: 2, DepthM: 1}
	bare := cut(20, 0) // no banks
	bare.Fit = channel.Trapezoid{BedWidthM: 1, SideSlope: 1}
	sections := []channel.Section{wide, cut(5, 1), cut(10, 1), cut(15, 1), bare}
	cfg := Defaults()
	cfg.Roughness, cfg.Material = 0.035, "firm-loam"
	peaks := level(31, 18*cfs)
	peaks[7], peaks[8] = untold, 0
	depths := Measure(d, sections, level(31, untold), cfg)
	p := PowerAt(d, sections, depths, peaks, cfg)

	if off(p.ShearPa[0], 0.9707*paPerPoundFoot2, 0.001) || off(p.UnitPowerWm2[0], 46.10, 0.001) { // as in TestShearAndPower
		t.Errorf("in the published trapezoid: %g Pa and %g W/m²", p.ShearPa[0], p.UnitPowerWm2[0])
	}
	narrow := normal(cut(5, 1).Fit, 18*cfs, 0.02, 0.035).bedShearPa(0.02)
	floor := normal(wide.Fit, 18*cfs, 0.0005, 0.035).bedShearPa(0.0005)
	for i, want := range map[int]float64{
		1: p.ShearPa[0], 2: floor, 3: untold, 4: untold, // nearest to the first; level bed; no slope; no bed
		5: narrow, 7: untold, 8: 0, 12: narrow, // peak unknown; dry
		19: untold, 21: untold, 30: untold, // nearest to a section without banks; beyond the last section
	} {
		if !near(p.ShearPa[i], want) {
			t.Errorf("shear at %d m: got %g Pa, want %g", i, p.ShearPa[i], want)
		}
		if math.IsNaN(p.UnitPowerWm2[i]) != math.IsNaN(want) {
			t.Errorf("power at %d m: %g W/m² beside shear %g", i, p.UnitPowerWm2[i], want)
		}
	}
	if want := narrow / (0.075 * 47.88); !near(p.ShearRatio, want) { // narrow is in nine tenths and more
		t.Errorf("shear ratio %g, want %g", p.ShearRatio, want)
	}
	peaks[0] = 1
	if p.PeakM3s[0] != 18*cfs {
		t.Error("a change to the peaks reached the result")
	}
}

func TestPercentile(t *testing.T) {
	tests := []struct {
		values []float64
		want   float64
	}{
		{[]float64{10, 1, 2, 3, 4, 5, 6, 7, 8, 9}, 9},
		{[]float64{1, untold, 2}, 2},
		{[]float64{3}, 3},
		{[]float64{untold}, untold},
		{nil, untold},
	}
	for _, tt := range tests {
		if got := percentile(tt.values, 0.9); !near(got, tt.want) {
			t.Errorf("%g: got %g, want %g", tt.values, got, tt.want)
		}
	}
}

// Catchment k(L−x)^h with L 1000, k 0.5, h 1.8, and a bed in balance: steepness 20, foot at 100 m. By integration
// chi = (1/k)^θ·(L^p − (L−x)^p)/p with p = 1 − hθ, z = 100 + 20·chi.
func TestChi(t *testing.T) {
	const length, k, h, theta = 1000.0, 0.5, 1.8, 0.45
	var x, area []float64
	for i := range 901 {
		x = append(x, float64(i))
		area = append(area, k*math.Pow(length-float64(i), h))
	}
	chi := Chi(x, area, theta, 1)
	tests := []struct {
		at           int
		chi, z, fall float64
	}{
		{0, 0, 100, 20 / math.Pow(area[0], theta)},
		{100, 0.529422, 110.5884, 0.110550},
		{500, 3.296134, 165.9227, 0.177962},
		{900, 9.465360, 289.3072, 0.655380},
	}
	for _, tt := range tests {
		if math.Abs(chi[tt.at]-tt.chi) > 2.3e-5 { // error of the trapezoid rule at 1 m near the head, 2.2e-5, and the last digit
			t.Errorf("chi at %d m: got %.6f, want %.6f", tt.at, chi[tt.at], tt.chi)
		}
		if z := 100 + 20*chi[tt.at]; math.Abs(z-tt.z) > 6e-4 { // 20 times as much
			t.Errorf("bed at %d m: got %.4f, want %.4f", tt.at, z, tt.z)
		}
		if got := Steepness(tt.fall, area[tt.at], theta); off(got, 20, 1e-4) { // six digits of the slope
			t.Errorf("steepness at %d m: got %g, want 20", tt.at, got)
		}
	}
}

func TestChiOddInput(t *testing.T) {
	if got := Chi(nil, nil, 0.45, 1); len(got) != 0 {
		t.Errorf("no places: got %g", got)
	}
	if got := Chi([]float64{0, 1}, []float64{1, 0}, 0.45, 1); got[0] != 0 || !math.IsInf(got[1], 1) {
		t.Errorf("no catchment: got %g, want 0 and infinity", got)
	}
	defer func() {
		if recover() == nil {
			t.Error("two places, one area: want a panic")
		}
	}()
	Chi([]float64{0, 1}, []float64{1}, 0.45, 1)
}
