package funder

import (
	"fmt"
	"math"
	"os"
	"path/filepath"

	"github.com/paulmach/orb/geojson"

	"siltstep/cmd/internal/facts"
)

// Works are areas and fill of the dams of a drainage, or of all.
type Works struct {
	FootprintM2 facts.Num            // ground under body, keys and apron
	PondM2      facts.Num            // water when every pond stands at its sill
	FillM3      facts.Num            // rock in place
	ByDrainage  map[string]facts.Num // footprint in m², by drainage
}

// ReadWorks sums footprints.geojson in the folder of a plan. A sum with a part that is not known is NaN. Errors: the file is not there or
// damaged.
func ReadWorks(dir string) (*Works, error) {
	path := filepath.Join(dir, "footprints.geojson")
	text, err := os.ReadFile(path)
	if err != nil {
		return nil, err
	}
	layer, err := geojson.UnmarshalFeatureCollection(text)
	if err != nil {
		return nil, fmt.Errorf("%s: damaged: %w", path, err)
	}
	w := &Works{ByDrainage: map[string]facts.Num{}}
	for _, one := range layer.Features {
		area := property(one, "footprint_m2")
		w.FootprintM2 += area
		w.PondM2 += property(one, "pond_m2")
		w.FillM3 += property(one, "fill_m3")
		w.ByDrainage[one.Properties.MustString("drainage", "")] += area
	}
	return w, nil
}

// property returns a number; NaN where it is not known.
func property(f *geojson.Feature, name string) facts.Num {
	x, ok := f.Properties[name].(float64)
	if !ok {
		return facts.Num(math.NaN())
	}
	return facts.Num(x)
}
