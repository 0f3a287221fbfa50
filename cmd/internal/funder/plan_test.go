package funder

import (
	"encoding/json"
	"math"
	"os"
	"slices"
	"strings"
	"testing"

	"siltstep/cmd/internal/facts"
	"siltstep/cmd/internal/units"
)

// A drawn is the invented plan of testdata, as facts and as plain JSON: two treated drainages, three series, 48 dams, 600.46 m.
type drawn struct {
	folder *facts.Folder
	raw    map[string]any
}

func invented(t *testing.T) drawn {
	t.Helper()
	text, err := os.ReadFile("testdata/plan.json")
	if err != nil {
		t.Fatal(err)
	}
	d := drawn{folder: &facts.Folder{}}
	if err := json.Unmarshal(text, &d.folder.Plan); err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(text, &d.raw); err != nil {
		t.Fatal(err)
	}
	return d
}

var inventedWorks = &Works{FootprintM2: 1042.75, PondM2: 640.5, FillM3: 73.4, ByDrainage: map[string]facts.Num{"D01": 655.25, "D02": 387.5}}

// at reads a place such as "series.D01-S1.rock_m3" from the plain JSON.
func (d drawn) at(t *testing.T, place string) float64 {
	t.Helper()
	part := strings.Split(place, ".")
	fail := func() float64 {
		t.Errorf("no %s in plan.json", place)
		return math.NaN()
	}
	number := func(x any) float64 {
		v, ok := x.(float64)
		if !ok {
			return fail()
		}
		return v
	}
	switch part[0] {
	case "none":
		return 0
	case "totals", "grid":
		return number(d.raw[part[0]].(map[string]any)[part[1]])
	case "works":
		switch part[1] {
		case "footprint_m2":
			return float64(inventedWorks.FootprintM2)
		case "pond_m2":
			return float64(inventedWorks.PondM2)
		case "fill_m3":
			return float64(inventedWorks.FillM3)
		}
		return float64(inventedWorks.ByDrainage[part[1]])
	case "confidence":
		n := 0
		for _, s := range d.raw["sites"].([]any) {
			if s.(map[string]any)["confidence"] == part[1] {
				n++
			}
		}
		return float64(n)
	}
	for _, one := range d.raw[part[0]].([]any) {
		row := one.(map[string]any)
		switch {
		case part[0] == "filling":
			if row["id"] == part[1] && row["years"] == map[string]float64{"1": 1, "10": 10}[part[2]] {
				return number(row[part[3]])
			}
		case row["id"] == part[1] || row["id"] == nil && row["drainage"] == part[1]:
			return number(row[part[2]])
		}
	}
	return fail()
}

// oneOf holds the SI value of each unit, written out. Source: 1 ft = 0.3048 m, 1 lb = 0.45359237 kg, exact by definition; 1 ac = 43,560 ft².
var oneOf = map[string]float64{
	"": 1, "m": 1, "ft": 0.3048, "m³": 1, "yd³": 0.764554857984, "t": 1, "US tons (2,000 lb)": 0.90718474, "%": 0.01, "°": 1, "USD": 1,
	"ha": 10000, "ac": 4046.8564224,
}

// texts lists all that a document prints, in order.
func texts(d document) (list []string) {
	list = append(list, d.title)
	for _, s := range d.sections {
		list = append(list, s.title)
		for _, b := range s.blocks {
			list = append(list, b.text, b.figure)
			list = append(list, b.list...)
			if b.table != nil {
				list = append(list, b.table.caption)
				list = append(list, b.table.head...)
				for _, row := range b.table.rows {
					list = append(list, row...)
				}
			}
		}
	}
	return slices.DeleteFunc(list, func(s string) bool { return s == "" })
}

func options() []Options {
	return []Options{
		{},
		{System: units.US, Works: inventedWorks, Match: Match{Share: 0.4, Base: OfTotal, InKind: 1000}},
		{System: units.US, Match: Match{Share: 0.4, Base: OfFederal, Federal: 36000}, HidePlaces: true},
	}
}

// blank forgets what many a plan does not know.
func blank(f *facts.Folder) {
	no := facts.Num(math.NaN())
	f.Loads, f.Filling, f.Series, f.Settings = nil, nil, nil, nil
	f.Totals.Cost, f.Totals.SedimentM3, f.Totals.PersonDays, f.Totals.Currency = no, no, no, ""
	for i := range f.Drainages {
		f.Drainages[i].Cost, f.Drainages[i].SedimentM3 = no, no
	}
}
