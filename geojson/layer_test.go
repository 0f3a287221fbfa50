package geojson

import (
	"bytes"
	"errors"
	"fmt"
	"math"
	"regexp"
	"slices"
	"strings"
	"testing"

	"siltstep/hydro"

	"siltstep/raster/rastertest"

	"github.com/paulmach/orb"
	orbjson "github.com/paulmach/orb/geojson"
	"github.com/paulmach/orb/planar"
)

func TestLayersAgainstGoldens(t *testing.T) {
	for name, text := range layers(t, smallPlan(t), degrees) {
		rastertest.Golden(t, "testdata/"+name+".geojson", string(text))
	}
}

// Property names as published in README and documents; a change here breaks users' forms.
func TestPropertyNames(t *testing.T) {
	want := map[string]string{
		"sites": "id drainage series number station_m bed_m notch_sill_m dam_top_m effective_height_m slope catchment_ha bed_width_m bank_to_bank_m " +
			"bank_height_m crest_length_m crest_width_m spacing_down_m rise_from_below_m spacing_up_m storm_hours return_period_yr peak_m3s notch_width_m " +
			"notch_depth_m stone_d50_m rock_m3 rock_t apron_length_m key_bed_m key_bank_m pond_m3 sediment_m3 fill_years_low fill_years_high " +
			"person_days cost confidence cautions road_m haul barrows",
		"drainages": "id order length_m drop_m slope catchment_ha truncated severity severity_class incision_mean_m incision_max_m headcuts peak_m3s " +
			"eligible_m treated_m dams rock_t pond_m3 sediment_m3 cost",
		"reaches":     "drainage from_station_m to_station_m verdict reasons",
		"catchments":  "id catchment_ha truncated",
		"headcuts":    "id drainage station_m height_m catchment_ha cause",
		"depressions": "id kind cause depth_m length_m area_m2 volume_m3 drainage note",
	}
	key := regexp.MustCompile(`"([a-z0-9_]+)":`)
	for name, text := range layers(t, smallPlan(t), degrees) {
		first := bytes.Split(text, []byte("\n"))[1]
		properties, _, _ := bytes.Cut(first[bytes.Index(first, []byte(`"properties":{`))+14:], []byte(`},"geometry"`))
		var got []string
		for _, m := range key.FindAllSubmatch(properties, -1) {
			got = append(got, string(m[1]))
		}
		if strings.Join(got, " ") != want[name] {
			t.Errorf("%s: %v\nwant %s", name, got, want[name])
		}
	}
}

func TestSchemaIsComplete(t *testing.T) {
	unit := regexp.MustCompile(`_(m3s|m3|m2|m|ha|t|yr|hours)$`)
	units := map[string]string{"m3s": "m³/s", "m3": "m³", "m2": "m²", "m": "m", "ha": "ha", "t": "t", "yr": "yr", "hours": "h"}
	for _, l := range Schema() {
		var names []string
		for _, f := range l.Fields {
			names = append(names, f.Name)
			if f.Meaning == "" || (f.Type == Real) != (f.Unit != "") || f.Type == Real && f.Decimals < 1 {
				t.Errorf("%s.%s: meaning, unit or decimals are missing: %+v", l.Name, f.Name, f)
			}
			if m := unit.FindStringSubmatch(f.Name); m != nil && f.Unit != units[m[1]] {
				t.Errorf("%s.%s: unit %q does not fit the name", l.Name, f.Name, f.Unit)
			}
		}
		slices.Sort(names)
		if len(slices.Compact(names)) != len(l.Fields) {
			t.Errorf("%s has a field twice", l.Name)
		}
	}
}

func TestShapes(t *testing.T) {
	p := smallPlan(t)
	read := map[string]*orbjson.FeatureCollection{}
	for name, text := range layers(t, p, degrees) {
		fc, err := orbjson.UnmarshalFeatureCollection(text)
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		read[name] = fc
		if bytes.Contains(text, []byte(`"crs"`)) || bytes.Contains(text, []byte("\r")) {
			t.Errorf("%s: a crs member or CR", name)
		}
	}
	// D04 has one cell and so no line, but it has a catchment; its reach has no length.
	for name, want := range map[string]int{"sites": 2, "drainages": 3, "reaches": 4, "catchments": 4, "headcuts": 2, "depressions": 3} {
		if got := len(read[name].Features); got != want {
			t.Errorf("%s: %d features, want %d", name, got, want)
		}
	}
	trunk := read["drainages"].Features[0].Geometry.(orb.LineString)
	if trunk[0][1] <= trunk[len(trunk)-1][1] {
		t.Errorf("the drainage does not run downstream (south): %v", trunk)
	}
	upper, lower := read["reaches"].Features[1].Geometry.(orb.LineString), read["reaches"].Features[0].Geometry.(orb.LineString)
	if !upper[len(upper)-1].Equal(lower[0]) {
		t.Errorf("reaches do not meet at station 1.25: %v, %v", upper, lower)
	}
	// Rows run south from 4000000, station 0 is the centre of row 11: y = 4000000 − 11.5 + 1.25.
	if want := 36 - 10.25e-5; math.Abs(lower[0][1]-want) > 1e-9 {
		t.Errorf("station 1.25 at latitude %.7f, want %.7f", lower[0][1], want)
	}
	for i, want := range []float64{9*12 - 0.5, 3.5, 3.5, 3.5} { // cells minus half a cell for the one ring
		f := read["catchments"].Features[i]
		poly, ok := f.Geometry.(orb.Polygon)
		if !ok || len(poly) != 1 || poly[0].Orientation() != orb.CCW || !poly[0].Closed() {
			t.Fatalf("catchment %v is not one closed anticlockwise ring", f.Properties["id"])
		}
		if got := planar.Area(poly) / 1e-10; math.Abs(got-want) > 0.05 { // 7 decimals are 0.01 of a metre here
			t.Errorf("catchment %v: %.2f m², want %.1f", f.Properties["id"], got, want)
		}
	}
}

// A map with south up turns every ring over; the files must not.
func TestRingsRunAnticlockwiseWhateverTheProjection(t *testing.T) {
	flipped := func(points []orb.Point) ([]orb.Point, error) {
		out, err := degrees(points)
		for i := range out {
			out[i][1] = -out[i][1]
		}
		return out, err
	}
	c, err := Catchments(smallPlan(t), flipped)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range c.Features {
		if r := f.Geometry.(orb.Polygon)[0]; r.Orientation() != orb.CCW {
			t.Errorf("ring runs clockwise: %v", r)
		}
	}
}

func TestEmptyPlan(t *testing.T) {
	p := smallPlan(t)
	p.Network.Drainages, p.Layouts, p.Erosion, p.Depressions, p.Designs = nil, nil, nil, nil, nil
	for name, text := range layers(t, p, degrees) {
		want := `{"type":"FeatureCollection","name":"` + name + `","features":[` + "\n]}\n"
		if string(text) != want {
			t.Errorf("%s: %q, want %q", name, text, want)
		}
	}
}

func TestWithoutLayoutsDamFieldsAreNull(t *testing.T) {
	p := smallPlan(t)
	p.Layouts = nil
	values := DrainageValues(p, 0)
	for i, f := range DrainagesLayer().Fields {
		if dams := f.Name == "eligible_m" || f.Name == "treated_m" || f.Name == "dams"; dams && values[i] != nil {
			t.Errorf("%s is %v, want nil", f.Name, values[i])
		}
	}
}

// What the storm and the design fill, and what stays null: without a section all but the peak, without a design all.
func TestDesignFillsSites(t *testing.T) {
	p := smallPlan(t)
	of := func(k int) map[string]any {
		m := map[string]any{}
		for i, f := range SitesLayer().Fields {
			v := SiteValues(p, 0, k)[i]
			if x, ok := v.(float64); ok && math.IsNaN(x) {
				v = nil
			}
			m[f.Name] = v
		}
		return m
	}
	names := strings.Fields("dam_top_m crest_length_m crest_width_m notch_width_m notch_depth_m stone_d50_m rock_m3 rock_t apron_length_m key_bed_m key_bank_m pond_m3 sediment_m3 fill_years_low fill_years_high person_days cost")
	for _, name := range append(names, "peak_m3s", "storm_hours", "return_period_yr") {
		if of(0)[name] == nil {
			t.Errorf("%s is null at a dam that is designed", name)
		}
		if isNull := of(1)[name] == nil; isNull != slices.Contains(names, name) {
			t.Errorf("%s without a section: null %v", name, isNull)
		}
	}
	if top, want := of(0)["dam_top_m"].(float64), 9.5+p.Designs[0][0].Dam.Notch.DepthM; top != want {
		t.Errorf("top %g, want sill and notch, %g", top, want)
	}
	// Of two dams one is known, so the sums are those of that one.
	for i, f := range DrainagesLayer().Fields {
		if f.Name == "rock_t" && DrainageValues(p, 0)[i] != hydro.QuantitiesOf(p.Designs[0]).RockT {
			t.Errorf("rock of D01 is %v", DrainageValues(p, 0)[i])
		}
		if f.Name == "cost" && DrainageValues(p, 0)[i] != 250. {
			t.Errorf("cost of D01 is %v, want 250", DrainageValues(p, 0)[i])
		}
	}
	p.Designs = nil
	for _, name := range names {
		if of(0)[name] != nil {
			t.Errorf("%s is %v without designs", name, of(0)[name])
		}
	}
}

func TestWithoutAJudgementErosionIsNull(t *testing.T) {
	p := smallPlan(t)
	nulls := func(i int) (names []string) {
		for k, f := range DrainagesLayer().Fields {
			if strings.HasPrefix(f.Name, "severity") || strings.HasPrefix(f.Name, "incision") || f.Name == "headcuts" {
				if v, ok := DrainageValues(p, i)[k].(float64); DrainageValues(p, i)[k] == nil || ok && math.IsNaN(v) {
					names = append(names, f.Name)
				}
			}
		}
		return names
	}
	if got := nulls(0); len(got) > 0 {
		t.Errorf("D01 is judged, but %v are empty", got)
	}
	// Of D02 nothing is known but that no headcut was found.
	if got, want := nulls(1), []string{"severity", "severity_class", "incision_mean_m", "incision_max_m"}; !slices.Equal(got, want) {
		t.Errorf("D02: %v are empty, want %v", got, want)
	}
	p.Erosion = nil
	if got := nulls(0); len(got) != 5 {
		t.Errorf("without a judgement %v are empty, want all five", got)
	}
}

// Values of smallPlan: bank to bank is 4 x (1 + 0.1 k), known at stations 0 to 10 of 0 to 11.
func TestAtStation(t *testing.T) {
	p := smallPlan(t)
	profile, width := p.Network.Drainages[0].Profile, p.Erosion[0].Depths.BankToBankM
	for _, tt := range []struct {
		name           string
		values         []float64
		stationM, want float64
	}{
		{"at the lower end", width, 0, 4},
		{"at a station", width, 6, 6.4},
		{"between two", width, 6.25, 6.5},
		{"at the last that is known", width, 10, 8},
		{"beside one that is not", width, 10.5, math.NaN()},
		{"at one that is not", width, 11, math.NaN()},
		{"below the lower end", width, -0.1, math.NaN()},
		{"above the upper end", width, 11.1, math.NaN()},
		{"nothing measured", nil, 6, math.NaN()},
		{"no station", width, math.NaN(), math.NaN()},
	} {
		got := AtStation(profile, tt.values, tt.stationM)
		if math.IsNaN(got) != math.IsNaN(tt.want) || math.Abs(got-tt.want) > 1e-9 {
			t.Errorf("%s: %g, want %g", tt.name, got, tt.want)
		}
	}
}

func TestFaultsAreErrors(t *testing.T) {
	p := smallPlan(t)
	failed := errors.New("point outside the projection")
	for _, tt := range []struct {
		name string
		to   Projector
		says string
	}{
		{"projector fails", func([]orb.Point) ([]orb.Point, error) { return nil, failed }, "point outside the projection"},
		{"projector loses positions", func(in []orb.Point) ([]orb.Point, error) { return in[1:], nil }, "positions in"},
		{"metres passed on as degrees", func(in []orb.Point) ([]orb.Point, error) { return in, nil }, "is not longitude, latitude"},
		{"a position could not be projected", func(in []orb.Point) ([]orb.Point, error) {
			out, _ := degrees(in)
			out[0] = orb.Point{math.Inf(1), math.Inf(1)}
			return out, nil
		}, "is not longitude, latitude"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			c, err := Drainages(p, tt.to)
			if err == nil {
				err = Write(&bytes.Buffer{}, c)
			}
			if err == nil || !strings.Contains(err.Error(), tt.says) {
				t.Errorf("error %v, want one that says %q", err, tt.says)
			}
		})
	}
	p.Flow = nil
	if _, err := Catchments(p, degrees); err == nil {
		t.Error("catchments without flow: no error")
	}
	for name, g := range map[string]orb.Geometry{
		"line of one": orb.LineString{{1, 1}},
		"open ring":   orb.Polygon{{{0, 0}, {1, 0}, {1, 1}, {0, 1}}},
	} {
		if err := Write(&bytes.Buffer{}, Collection{Features: []Feature{{Geometry: g}}}); err == nil {
			t.Errorf("%s: no error", name)
		}
	}
}

func ExampleAppendReal() {
	for _, v := range []float64{2, -0.0004, 1.23456, math.NaN()} {
		fmt.Printf("%s ", AppendReal(nil, v, 3, "null"))
	}
	fmt.Printf("%s\n", AppendReal(nil, 7, 0, "null"))
	// Output: 2.000 0.000 1.235 null 7.0
}
