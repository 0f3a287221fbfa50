package geojson

import (
	"fmt"
	"math"
	"testing"

	"siltstep/hydro"
)

func TestHaulValues(t *testing.T) {
	rows := []struct {
		name string
		haul hydro.Haul
		want string
	}{
		{"by hand", hydro.Haul{RoadM: 50, Class: hydro.HaulHand, Barrows: 31}, `{"road_m":50.0,"haul":"hand","barrows":31}`},
		{"by machine, no barrow given", hydro.Haul{RoadM: 301.04, Class: hydro.HaulMachine}, `{"road_m":301.0,"haul":"machine","barrows":null}`},
		{"on the road", hydro.Haul{Class: hydro.HaulHand}, `{"road_m":0.0,"haul":"hand","barrows":null}`},
		{"nothing given", hydro.Haul{RoadM: math.NaN()}, `{"road_m":null,"haul":null,"barrows":null}`},
	}
	for _, r := range rows {
		named := map[string]any{}
		addHaul(named, r.haul)
		l := Layer{Fields: haulFields()}
		if got := string(AppendProperties(nil, l.Fields, inOrder(l, named))); got != r.want {
			t.Errorf("%s: %s, want %s", r.name, got, r.want)
		}
	}
	if limit := fmt.Sprintf("hand to %d m", int(hydro.HandHaulM)); haulFields()[1].Meaning[:len(limit)] != limit {
		t.Errorf("the limit of the field is not %s", limit)
	}
}
