package gdal

import (
	"context"
	"errors"
	"strings"
	"testing"
)

// Heights above any summit or below any sea floor are a wrong unit: centimetres read as metres, say.
func TestHeightsOfNoLand(t *testing.T) {
	for _, z := range []float64{164_000, 9_001, -11_501} {
		s := sample{z: func(int, int) float64 { return z }}
		d, err := Open(context.Background(), Request{Paths: []string{s.write(t, temp(t, "a.tif"))}})
		ok(t, err)
		if _, err := d.Read(context.Background(), nil); !errors.Is(err, ErrInput) || !strings.Contains(err.Error(), "which is no height") {
			t.Errorf("%g m: %v", z, err)
		}
	}
}
