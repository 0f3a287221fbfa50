package page

import (
	"reflect"
	"testing"

	"github.com/paulmach/orb"
)

// same takes degrees for metres, so that the numbers in the rows can be followed.
func same(at []orb.Point) ([]orb.Point, error) { return at, nil }

func TestLimits(t *testing.T) {
	square := orb.Ring{{10, 20}, {12, 20}, {12, 21.5}, {10, 20}}
	packed := []int{100, 200, 20, 0, 0, 15, -20, -15} // decimetres, each less the one before
	rows := []struct {
		name  string
		shape orb.Geometry
		want  limit
	}{
		{"point", orb.Point{1.04, 2}, limit{Places: [][]int{{10, 20}}}},
		{"points", orb.MultiPoint{{1, 2}, {3, 4}}, limit{Places: [][]int{{10, 20}, {30, 40}}}},
		{"line", orb.LineString{{0, 0}, {1, -0.5}}, limit{Lines: [][]int{{0, 0, 10, -5}}}},
		{"lines", orb.MultiLineString{{{0, 0}, {1, 0}}, {{5, 5}, {5, 6}}}, limit{Lines: [][]int{{0, 0, 10, 0}, {50, 50, 0, 10}}}},
		{"polygon with a hole", orb.Polygon{square, square}, limit{Areas: [][]int{packed, packed}}},
		{"polygons", orb.MultiPolygon{{square}, {square}}, limit{Areas: [][]int{packed, packed}}},
		{"collection", orb.Collection{orb.Point{1, 2}, orb.Polygon{square}}, limit{Places: [][]int{{10, 20}}, Areas: [][]int{packed}}},
	}
	for _, r := range rows {
		t.Run(r.name, func(t *testing.T) {
			r.want.Kind = "road"
			got, err := origin{cellM: 1}.limits(map[string][]orb.Geometry{"road": {r.shape}}, same)
			if err != nil || !reflect.DeepEqual(got, []limit{r.want}) {
				t.Errorf("got %v, %v; want %v", got, err, r.want)
			}
		})
	}
}

// The outline of a catchment loses corners that lie within three quarters of a cell of the straight line.
func TestCatchments(t *testing.T) {
	stairs := orb.Polygon{{{0, 0}, {40, 0}, {40, 0.5}, {80, 0.5}, {80, 60}, {0, 60}, {0, 0}}}
	got, err := origin{cellM: 1}.catchments(map[string]orb.Geometry{"D01": stairs}, same)
	want := map[string][][]int{"D01": {{0, 0, 800, 5, 0, 595, -800, 0, 0, -600}}}
	if err != nil || !reflect.DeepEqual(got, want) {
		t.Errorf("got %v, %v; want %v", got, err, want)
	}
}
