package demo

import (
	"bytes"
	"encoding/json"
	"errors"
	"math"
	"reflect"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/geojson"
)

// degrees is a made-up projection: a millionth of a degree a metre.
func degrees(x, y float64) (lon, lat float64, err error) {
	return (x-westM)*1e-6 - 104, (y-northM)*1e-6 + 37, nil
}

func TestLayersParse(t *testing.T) {
	r, err := made[0].once()
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name  string
		write func(Projector) ([]byte, error)
		want  orb.Geometry
	}{
		{"property", r.PropertyGeoJSON, r.Property},
		{"road", r.RoadGeoJSON, r.Road},
		{"stock pond", r.StockPondGeoJSON, r.Truth.StockPond.Water},
	} {
		t.Run(c.name, func(t *testing.T) {
			data, err := c.write(degrees)
			if err != nil {
				t.Fatal(err)
			}
			layer, err := geojson.UnmarshalFeatureCollection(data)
			if err != nil {
				t.Fatal(err)
			}
			if len(layer.Features) != 1 || layer.Features[0].Geometry.GeoJSONType() != c.want.GeoJSONType() {
				t.Fatalf("got %s", data)
			}
			got := layer.Features[0].Geometry.Bound()
			lon, lat, _ := degrees(c.want.Bound().Min[0], c.want.Bound().Min[1])
			// 1e-7 degrees: seven decimals are written.
			if math.Abs(got.Min[0]-lon) > 1e-7 || math.Abs(got.Min[1]-lat) > 1e-7 {
				t.Errorf("corner at %v; want %.7f, %.7f", got.Min, lon, lat)
			}
			broken := errors.New("no projection")
			if _, err := c.write(func(x, y float64) (float64, float64, error) { return 0, 0, broken }); !errors.Is(err, broken) {
				t.Errorf("got %v; want the projector's error", err)
			}
		})
	}
}

func TestTruthRoundTrip(t *testing.T) {
	r, err := made[0].once()
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	if err := r.Truth.WriteJSON(&b); err != nil {
		t.Fatal(err)
	}
	var back Truth
	if err := json.Unmarshal(b.Bytes(), &back); err != nil {
		t.Fatal(err)
	}
	if !reflect.DeepEqual(back, r.Truth) {
		t.Error("the truth read back differs")
	}
	full := errors.New("disk full")
	if err := r.Truth.WriteJSON(failing{full}); !errors.Is(err, full) {
		t.Errorf("got %v; want the writer's error", err)
	}
}

type failing struct{ err error }

func (f failing) Write([]byte) (int, error) { return 0, f.err }
