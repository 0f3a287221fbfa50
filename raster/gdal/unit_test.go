package gdal

import (
	"context"
	"math"
	"strings"
	"testing"

	"github.com/airbusgeo/godal"

	"siltstep/raster"
)

func TestFeetBecomeMetresOnce(t *testing.T) {
	// 5387.1391 ft is 1642 m (5387.1391 x 0.3048 = 1641.99999768); 5387.128325 survey feet
	// are 1642 m (5387.128325 x 1200/3937 = 1641.9999974).
	const (
		international = 5387.1391
		survey        = 5387.128325
	)
	tests := []struct {
		name  string
		z     float64
		crs   string
		unit  string
		flag  string
		scale float64
		want  int32
		from  string
	}{
		{"band in feet", international, "EPSG:32613", "ft", "", 0, 1642000, "the band"},
		{"band in survey feet", survey, "EPSG:32613", "US survey foot", "", 0, 1642000, "the band"},
		{"band in metres", 1642, "EPSG:32613", "metre", "", 0, 1642000, "the band"},
		{"band in centimetres", 164200, "EPSG:32613", "cm", "", 0, 1642000, "the band"},
		{"system in feet", international, "EPSG:32613+8228", "", "", 0, 1642000, "the coordinate system"},
		{"system in survey feet", survey, "EPSG:32613+6360", "", "", 0, 1642000, "the coordinate system"},
		{"system in metres", 1642, "EPSG:32613+5703", "", "", 0, 1642000, "the coordinate system"},
		{"flag feet", international, "EPSG:32613", "", "ft", 0, 1642000, "--elevation-unit"},
		{"flag survey feet", survey, "EPSG:32613", "", "us-ft", 0, 1642000, "--elevation-unit"},
		{"flag metres on a foot grid", 1642, "EPSG:2231", "", "m", 0, 1642000, "--elevation-unit"},
		{"flag agrees with the band", international, "EPSG:32613", "ft", "ft", 0, 1642000, "the band"},
		{"nothing said, metre grid", 1642, "EPSG:32613", "", "", 0, 1642000, "the map unit ("},
		{"nothing said, degrees", 1642, "EPSG:4326", "", "", 0, 1642000, "the map unit ("},
		{"degrees, system in feet", international, "EPSG:4326+8228", "", "", 0, 1642000, "the coordinate system"},
		{"survey feet both ways", survey, "EPSG:2231+6360", "", "", 0, 1642000, "the coordinate system"},
		{"scale and feet", international * 10, "EPSG:32613", "ft", "", 0.1, 1642000, "the band"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			s := sample{crs: test.crs, unit: test.unit, scale: test.scale, kind: godal.Float64, z: func(int, int) float64 { return test.z }}
			if strings.HasPrefix(test.crs, "EPSG:4326") {
				s.geo = [6]float64{-105, thirdArcsecond, 0, 40, 0, -thirdArcsecond}
			}
			if strings.HasPrefix(test.crs, "EPSG:2231") {
				s.geo = [6]float64{3000000, 3, 0, 1500000, 0, -3}
			}
			d, err := Open(context.Background(), Request{Paths: []string{s.write(t, temp(t, "a.tif"))}, ElevationUnit: test.flag})
			ok(t, err)
			g := read(t, d)
			for _, z := range g.MM {
				if z != raster.VoidMM && z != test.want {
					t.Fatalf("%d mm; want %d", z, test.want)
				}
			}
			if got := d.Info().HeightUnitFrom; !strings.HasPrefix(got, test.from) {
				t.Errorf("unit from %q; want %q", got, test.from)
			}
		})
	}
}

func TestSurveyFootIsExact(t *testing.T) {
	// 3937 survey feet are 1200 m by definition, so 27559 ft are 8400 m.
	s := sample{unit: "US survey foot", z: func(col, _ int) float64 { return []float64{3937, 27559, -3937}[col%3] }}
	g := read(t, open(t, s.write(t, temp(t, "a.tif"))))
	if g.MM[0] != 1200000 || g.MM[1] != 8400000 || g.MM[2] != -1200000 {
		t.Errorf("%v; want 1200000, 8400000, -1200000", g.MM[:3])
	}
	if got := surveyFoot.metres(); math.Abs(got-1200.0/3937) > 1e-17 {
		t.Errorf("a survey foot is %.17g m", got)
	}
}

func TestUnitsThatAreRefused(t *testing.T) {
	foot := [6]float64{3000000, 3, 0, 1500000, 0, -3}
	tests := []struct {
		name string
		s    sample
		flag string
		says []string
	}{
		{"foot grid, nothing said", sample{crs: "EPSG:2231", geo: foot}, "", []string{"US survey foot", "--elevation-unit"}},
		{"flag against the band", sample{unit: "ft"}, "m", []string{"--elevation-unit m contradicts the band", `"ft"`}},
		{"flag against the system", sample{crs: "EPSG:32613+6360"}, "ft", []string{"contradicts the coordinate system", "us-ft"}},
		{"unknown flag", sample{}, "yards", []string{`"yards" is not known`, "m, ft or us-ft"}},
		{"unknown band unit", sample{unit: "cubits"}, "", []string{`"cubits"`, "--elevation-unit"}},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			got := fails(t, Request{Paths: []string{test.s.write(t, temp(t, "a.tif"))}, ElevationUnit: test.flag})
			for _, text := range test.says {
				if !strings.Contains(got, text) {
					t.Errorf("%q does not say %q", got, text)
				}
			}
		})
	}
	t.Run("band against the system", func(t *testing.T) {
		c := crs{heightM: 0.3048006096, heightName: "US survey foot"}
		if _, _, err := chooseUnit("a.tif", c, "metre", ""); err == nil || !strings.Contains(err.Error(), "--elevation-unit") {
			t.Errorf("%v", err)
		}
		u, from, err := chooseUnit("a.tif", c, "metre", "us-ft")
		if err != nil || u != surveyFoot || !strings.Contains(from, "disagree") {
			t.Errorf("%v from %q, %v; want the flag to settle it", u, from, err)
		}
	})
	t.Run("unknown band unit, settled by the flag", func(t *testing.T) {
		path := sample{unit: "cubits", z: func(int, int) float64 { return 10 }}.write(t, temp(t, "a.tif"))
		d, err := Open(context.Background(), Request{Paths: []string{path}, ElevationUnit: "ft"})
		ok(t, err)
		if g := read(t, d); g.MM[0] != 3048 {
			t.Errorf("%d mm; want 3048", g.MM[0])
		}
	})
}
