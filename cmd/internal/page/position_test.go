package page

import (
	"math"
	"math/rand/v2"
	"testing"

	"siltstep/cmd/internal/facts"
	"siltstep/raster/gdal"

	"github.com/paulmach/orb"
)

// at returns degrees of a place of the grid as the page works them out, by the plain sum.
func (p position) at(u, v float64) orb.Point {
	var lon, lat float64
	for i := range powers {
		for j := range powers {
			term := math.Pow(u, float64(i)) * math.Pow(v, float64(j))
			lon += p.Lon[powers*i+j] * term
			lat += p.Lat[powers*i+j] * term
		}
	}
	return orb.Point{lon, lat}
}

func TestPositionFollowsTheProjection(t *testing.T) {
	rows := []struct {
		name  string
		grid  facts.Grid
		crs   string
		start orb.Point
	}{
		{"ranch of 2 by 1.5 km", facts.Grid{Cols: 2000, Rows: 1500, CellM: 1, WestM: 548000, NorthM: 4126000}, "EPSG:32613", orb.Point{-104.45, 37.27}},
		{"50 by 50 km at the edge of a zone, far north", facts.Grid{Cols: 10000, Rows: 10000, CellM: 5, WestM: 680000, NorthM: 6700000}, "EPSG:32613", orb.Point{-101.5, 60.2}},
		{"southern half, one row", facts.Grid{Cols: 3000, Rows: 1, CellM: 1, WestM: 300000, NorthM: 6200000}, "EPSG:32755", orb.Point{144.8, -34.3}},
	}
	for _, r := range rows {
		t.Run(r.name, func(t *testing.T) {
			toGrid, free := gdal.Projector("EPSG:4326", r.crs)
			defer free()
			toDegrees, freeToo := gdal.Projector(r.crs, "EPSG:4326")
			defer freeToo()
			fit, err := fitPosition(r.grid, r.start, toGrid)
			if err != nil {
				t.Fatal(err)
			}
			o := originOf(r.grid)
			random := rand.New(rand.NewPCG(1, 2))
			for range 200 {
				u, v := 2*random.Float64()-1, 2*random.Float64()-1
				place := orb.Point{o.westM + (1+u)/2*float64(r.grid.Cols)*o.cellM, o.southM + (1+v)/2*float64(r.grid.Rows)*o.cellM}
				want, err := toDegrees([]orb.Point{place})
				if err != nil {
					t.Fatal(err)
				}
				got := fit.at(u, v)
				if off := math.Max(math.Abs(got[0]-want[0][0]), math.Abs(got[1]-want[0][1])); off > 1e-6 { // degrees, the last decimal that the page shows
					t.Fatalf("%v gives %v, want %v: %.1e degrees off", place, got, want[0], off)
				}
			}
		})
	}
}
