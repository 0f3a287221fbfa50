package cli

import (
	"math"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"siltstep/hydro/flow"
	"siltstep/raster/gdal"
)

func TestAmount(t *testing.T) {
	for _, row := range []struct {
		value any
		want  float64
		fault string
	}{
		{12.5, 12.5, ""}, {" 3 ", 3, ""}, {nil, 0, "is missing"}, {"", 0, `"" is no number`}, {"many", 0, `"many" is no number`}, {true, 0, "true is no number"},
		{0.0, 0, "0 is not a number above 0"}, {-1.0, 0, "-1 is not"}, {math.NaN(), 0, "NaN is not"}, {"inf", 0, "+Inf is not"},
	} {
		got, fault := amount(row.value)
		if got != row.want || (fault == "") != (row.fault == "") || !strings.HasPrefix(fault, row.fault) {
			t.Errorf("%v: %v, %q; want %v, %q", row.value, got, fault, row.want, row.fault)
		}
	}
}

func TestTruth(t *testing.T) {
	for _, row := range []struct {
		value       any
		want, fault bool
	}{
		{nil, false, false}, {true, true, false}, {false, false, false}, {1.0, true, false}, {0.0, false, false}, {2.0, false, true},
		{"TRUE", true, false}, {" yes ", true, false}, {"", false, false}, {"no", false, false}, {"maybe", false, true}, {[]any{}, false, true},
	} {
		if got, fault := truth(row.value); got != row.want || (fault != "") != row.fault {
			t.Errorf("%v: %v, %q; want %v, fault %v", row.value, got, fault, row.want, row.fault)
		}
	}
}

func TestDeclaredShapes(t *testing.T) {
	line := func(m float64) orb.LineString { return orb.LineString{{0, 0}, {m, 0}} }
	square := orb.Polygon{{{0, 0}, {1, 0}, {1, 1}, {0, 0}}}
	one := func(g orb.Geometry) []gdal.Shape { return []gdal.Shape{{Name: "feature 1", Geometry: g}} }
	rows := []struct {
		name   string
		take   func(*flow.Features, string, []gdal.Shape) error
		shapes []gdal.Shape
		says   string // part of the fault; empty for none
		roads, culverts, ponds,
		playas, inflows int
	}{
		{"roads of several parts", takeRoads, one(orb.MultiLineString{line(5), line(9)}), "", 2, 0, 0, 0, 0},
		{"a road outlined", takeRoads, one(square), "f: holds no lines", 0, 0, 0, 0, 0},
		{"a road without a shape", takeRoads, one(nil), "f: holds no lines", 0, 0, 0, 0, 0},
		{"culvert points", takeCulverts, one(orb.MultiPoint{{1, 1}, {2, 2}}), "", 0, 2, 0, 0, 0},
		{"culvert of 60 m", takeCulverts, one(line(60)), "", 0, 1, 0, 0, 0},
		{"culvert of 60.1 m", takeCulverts, one(line(60.1)), "f: feature 1: the culvert is 60.1 m long, and the most is 60 m", 0, 0, 0, 0, 0},
		{"no culverts", takeCulverts, nil, "f: holds no points or lines", 0, 0, 0, 0, 0},
		{"pond and playa", takeStockPonds, []gdal.Shape{{Geometry: square}, {Geometry: orb.MultiPolygon{square, square}, Attributes: map[string]any{"ends_flow": true}}}, "", 0, 0, 1, 2, 0},
		{"ponds as points", takeStockPonds, one(orb.Point{1, 1}), "f: holds no polygons", 0, 0, 0, 0, 0},
		{"inflow", takeInflows, []gdal.Shape{{Geometry: orb.Point{1, 1}, Attributes: map[string]any{"catchment_ha": 2.0}}}, "", 0, 0, 0, 0, 1},
		{"inflow of two places", takeInflows, one(orb.MultiPoint{{1, 1}, {2, 2}}), "f: feature 1: an inflow is one point", 0, 0, 0, 0, 0},
		{"no inflow", takeInflows, nil, "f: holds no points", 0, 0, 0, 0, 0},
	}
	for _, r := range rows {
		t.Run(r.name, func(t *testing.T) {
			var all flow.Features
			err := r.take(&all, "f", r.shapes)
			if r.says != "" {
				if err == nil || !strings.Contains(err.Error(), r.says) {
					t.Errorf("error %v, want %q", err, r.says)
				}
				return
			}
			got := [5]int{len(all.Roads), len(all.Culverts), len(all.StockPonds), len(all.Playas), len(all.Inflows)}
			if want := [5]int{r.roads, r.culverts, r.ponds, r.playas, r.inflows}; err != nil || got != want {
				t.Errorf("error %v; roads, culverts, ponds, playas, inflows %v, want %v", err, got, want)
			}
			if r.inflows > 0 && all.Inflows[0].CatchmentM2 != 20_000 {
				t.Errorf("2 ha are %g m²", all.Inflows[0].CatchmentM2)
			}
		})
	}
}
