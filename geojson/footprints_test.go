package geojson

import (
	"bytes"
	"errors"
	"math"
	"strings"
	"testing"

	"siltstep/hydro"
	"siltstep/hydro/channel"
	"siltstep/raster/rastertest"

	"github.com/paulmach/orb"
	orbjson "github.com/paulmach/orb/geojson"
	"github.com/paulmach/orb/planar"
)

// besideRoad is the small plan with a section across each dam, which lies east and west, and a road 20 m to the east.
func besideRoad(t testing.TB) *hydro.Plan {
	t.Helper()
	p := smallPlan(t)
	p.Sections = [][]channel.Section{{{StationM: 2, DX: -1}, {StationM: 6, DX: -1}}, nil, nil, nil}
	p.Config.Effect = hydro.EffectConfig{MarginM: 3, AccessM: 3, StockpileM: 5}
	p.Config.Siting.Features.Roads = []orb.LineString{{{500024.5, 3999900}, {500024.5, 4000100}}}
	return p
}

func TestFootprintsAndEffects(t *testing.T) {
	p := besideRoad(t)
	read := map[string]*orbjson.FeatureCollection{}
	for _, layer := range []func(*hydro.Plan, Projector) (Collection, error){Footprints, Effects} {
		c, err := layer(p, degrees)
		if err != nil {
			t.Fatal(err)
		}
		var b bytes.Buffer
		if err := Write(&b, c); err != nil {
			t.Fatal(err)
		}
		rastertest.Golden(t, "testdata/"+c.Layer.Name+".geojson", b.String())
		if read[c.Layer.Name], err = orbjson.UnmarshalFeatureCollection(b.Bytes()); err != nil {
			t.Fatal(err)
		}
	}
	footprints, effects := read["footprints"].Features, read["effects"].Features
	if len(footprints) != 1 || len(effects) != 3 { // the second dam has no design
		t.Fatalf("%d footprints, %d effects", len(footprints), len(effects))
	}
	rock := math.Round(100*p.Designs[0][0].Dam.Rock.TotalM3) / 100
	if f := footprints[0].Properties; f["id"] != "D01-01" || f["series"] != 1.0 || f["fill_m3"] != rock || f["pond_m2"] != nil {
		t.Errorf("got %v; want %g m³", f, rock)
	}
	for i, part := range []string{"works", "access", "stockpile"} {
		if e := effects[i].Properties; e["part"] != part || e["dam"] != "D01-01" || e["drainage"] != "D01" {
			t.Errorf("piece %d: %v", i, e)
		}
	}
	for _, f := range append(footprints, effects...) {
		ring := f.Geometry.(orb.Polygon)[0]
		area, _ := f.Properties["footprint_m2"].(float64)
		if f.Properties["footprint_m2"] == nil {
			area = f.Properties["area_m2"].(float64)
		}
		// 1e-5 degrees a metre; corners are rounded to 0.01 m, over a rim of up to 45 m.
		if got := planar.Area(ring) * 1e10; ring.Orientation() != orb.CCW || math.Abs(got-area) > 0.25 {
			t.Errorf("%v: %g m², ring of %g m², orientation %v", f.Properties, area, got, ring.Orientation())
		}
	}
}

func TestEffectsWithoutRoads(t *testing.T) {
	p := besideRoad(t)
	p.Config.Siting.Features.Roads = nil
	c, err := Effects(p, degrees)
	if err != nil || len(c.Features) != 1 || c.Features[0].Values[2] != "works" {
		t.Errorf("got %+v, %v", c.Features, err)
	}
}

func TestFootprintsNameWhatCannotBeProjected(t *testing.T) {
	broken := func([]orb.Point) ([]orb.Point, error) { return nil, errors.New("no grid") }
	if _, err := Footprints(besideRoad(t), broken); err == nil || !strings.HasPrefix(err.Error(), "footprint of D01-01: ") {
		t.Errorf("got %v", err)
	}
	if _, err := Effects(besideRoad(t), broken); err == nil || !strings.HasPrefix(err.Error(), "works of D01-01: ") {
		t.Errorf("got %v", err)
	}
}

func TestFootprintLayersAreComplete(t *testing.T) {
	for _, l := range []Layer{FootprintsLayer(), EffectsLayer()} {
		for _, f := range l.Fields {
			if f.Meaning == "" || (f.Type == Real) != (f.Unit != "") || f.Type == Real && f.Decimals < 1 {
				t.Errorf("%s.%s: meaning, unit or decimals are missing: %+v", l.Name, f.Name, f)
			}
		}
	}
}
