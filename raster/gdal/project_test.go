package gdal

import (
	"errors"
	"fmt"
	"math"
	"os/exec"
	"strings"
	"testing"

	"github.com/paulmach/orb"
)

// outside runs one of PROJ's or GDAL's own programs on points and returns what it prints.
func outside(t *testing.T, points []orb.Point, program string, args ...string) []orb.Point {
	t.Helper()
	path, err := exec.LookPath(program)
	if err != nil {
		t.Skipf("NOT CHECKED AGAINST THE OUTSIDE: %s is not installed (apt-get install proj-bin gdal-bin)", program)
	}
	var in strings.Builder
	for _, p := range points {
		fmt.Fprintf(&in, "%.12f %.12f\n", p[0], p[1])
	}
	cmd := exec.Command(path, args...)
	cmd.Stdin = strings.NewReader(in.String())
	out, err := cmd.Output()
	ok(t, err)
	var got []orb.Point
	for line := range strings.Lines(string(out)) {
		var p orb.Point
		if _, err := fmt.Sscan(line, &p[0], &p[1]); err != nil {
			t.Fatalf("%s printed %q: %v", program, line, err)
		}
		got = append(got, p)
	}
	if len(got) != len(points) {
		t.Fatalf("%s gave %d points for %d", program, len(got), len(points))
	}
	return got
}

func TestPositionsAgainstOutsidePrograms(t *testing.T) {
	spread := func(x, y, step float64) (pts []orb.Point) {
		for i := range 7 {
			for k := range 7 {
				pts = append(pts, orb.Point{x + float64(i)*step + 0.123, y + float64(k)*step - 0.456})
			}
		}
		return pts
	}
	tests := []struct {
		crs string
		pts []orb.Point
	}{
		{"EPSG:32613", spread(250000, 3900000, 71000)},
		{"EPSG:32755", spread(250000, 6000000, 71000)},
		{"EPSG:3067", spread(250000, 7000000, 71000)},
		{"EPSG:26913", spread(250000, 4300000, 51000)},
	}
	for _, test := range tests {
		t.Run(test.crs, func(t *testing.T) {
			points, free := Projector(test.crs, lonLat)
			defer free()
			got, err := points(test.pts)
			ok(t, err)
			// cs2cs prints latitude first for EPSG:4326.
			cs := outside(t, test.pts, "cs2cs", "-f", "%.11f", test.crs, "EPSG:4326")
			gt := outside(t, test.pts, "gdaltransform", "-s_srs", test.crs, "-t_srs", "EPSG:4326", "-output_xy")
			back, freeBack := Projector(lonLat, test.crs)
			defer freeBack()
			home, err := back(got)
			ok(t, err)
			for i, p := range got {
				const tolerance = 1e-7 // degrees, 1 cm
				if math.Abs(p[0]-cs[i][1]) > tolerance || math.Abs(p[1]-cs[i][0]) > tolerance {
					t.Errorf("%v: cs2cs says %v", p, cs[i])
				}
				if math.Abs(p[0]-gt[i][0]) > tolerance || math.Abs(p[1]-gt[i][1]) > tolerance {
					t.Errorf("%v: gdaltransform says %v", p, gt[i])
				}
				if d := math.Hypot(home[i][0]-test.pts[i][0], home[i][1]-test.pts[i][1]); d > 1e-6 { // m
					t.Errorf("%v comes back %g m off", test.pts[i], d)
				}
			}
		})
	}
}

func TestModelProjectsItsOwnGrid(t *testing.T) {
	d := open(t, sample{}.write(t, temp(t, "a.tif")))
	to, free := d.ToLonLat()
	defer free()
	from, freeFrom := d.FromLonLat()
	defer freeFrom()
	// On the central meridian of zone 13 the longitude is exactly -105.
	pts, err := to([]orb.Point{{500000, 4000000}})
	ok(t, err)
	if math.Abs(pts[0][0]+105) > 1e-12 || pts[0][1] < 36 || pts[0][1] > 36.3 {
		t.Errorf("%v; want -105 and about 36.1", pts[0])
	}
	home, err := from(pts)
	ok(t, err)
	if math.Hypot(home[0][0]-500000, home[0][1]-4000000) > 1e-6 {
		t.Errorf("%v", home[0])
	}
	if none, err := to(nil); none != nil || err != nil {
		t.Errorf("%v, %v for no points", none, err)
	}
}

func TestPointsOutside(t *testing.T) {
	points, free := Projector("EPSG:4326", "EPSG:32613")
	defer free()
	_, err := points([]orb.Point{{-105, 40}, {75, 0}, {math.Inf(1), 0}})
	if !errors.Is(err, ErrInput) || !strings.Contains(err.Error(), "outside the area") {
		t.Errorf("%v", err)
	}
	unknown, free := Projector("EPSG:999999", "EPSG:32613")
	defer free()
	if _, err := unknown([]orb.Point{{0, 0}}); !errors.Is(err, ErrInput) {
		t.Errorf("%v", err)
	}
}

func TestZones(t *testing.T) {
	// The last rows are the exceptions of southern Norway and Svalbard.
	tests := []struct {
		lon, lat float64
		zone     int
		south    bool
	}{
		{-105, 40, 13, false}, {-108.0001, 40, 12, false}, {-108, 40, 13, false}, {-180, 10, 1, false}, {180, 10, 1, false},
		{179.9, -10, 60, true}, {147, -35, 55, true}, {255, 40, 13, false}, {0, 0, 31, false},
		{4, 60, 32, false}, {2.9, 60, 31, false}, {4, 64, 31, false}, {4, 55.9, 31, false},
		{8.9, 78, 31, false}, {9, 78, 33, false}, {20.9, 78, 33, false}, {21, 78, 35, false}, {33, 78, 37, false}, {41.9, 78, 37, false}, {42, 78, 38, false},
	}
	for _, row := range tests {
		zone, south, err := utmZone(row.lon, row.lat)
		if err != nil || zone != row.zone || south != row.south {
			t.Errorf("%g, %g: zone %d, south %v, %v; want %d, %v", row.lon, row.lat, zone, south, err, row.zone, row.south)
		}
	}
	for _, lat := range []float64{84.1, -80.1, math.NaN()} {
		if _, _, err := utmZone(0, lat); !errors.Is(err, ErrInput) {
			t.Errorf("latitude %g: %v", lat, err)
		}
	}
}

func TestWrittenZoneEqualsTheRegisteredOne(t *testing.T) {
	// Zones written out by hand give the same positions as the registry's own.
	for _, row := range []struct {
		base, want string
		zone       int
		south      bool
		at         orb.Point
	}{
		{"EPSG:6318", "EPSG:6342", 13, false, orb.Point{-104.2, 39.3}},
		{"EPSG:4283", "EPSG:28355", 55, true, orb.Point{147.4, -35.2}},
		{"EPSG:4326", "EPSG:32613", 13, false, orb.Point{-104.2, 39.3}},
		{"EPSG:4269", "EPSG:26913", 13, false, orb.Point{-104.2, 39.3}},
		{"EPSG:4258", "EPSG:25835", 35, false, orb.Point{26.1, 61.2}},
	} {
		c, err := parseCRS(row.base)
		ok(t, err)
		one, free := Projector(row.base, utmText(c, row.zone, row.south))
		two, freeTwo := Projector(row.base, row.want)
		a, err := one([]orb.Point{row.at})
		ok(t, err)
		b, err := two([]orb.Point{row.at})
		ok(t, err)
		free()
		freeTwo()
		if math.Hypot(a[0][0]-b[0][0], a[0][1]-b[0][1]) > 1e-6 { // m
			t.Errorf("%s: %v; want %v", row.base, a, b)
		}
		if name, _ := CRSName(utmText(c, row.zone, row.south)); name == "" {
			t.Errorf("%s: the zone has no name", row.base)
		}
	}
}
