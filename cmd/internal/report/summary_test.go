package report

import (
	"bytes"
	"math"
	"math/rand/v2"
	"strconv"
	"testing"

	"siltstep/geojson"
	"siltstep/hydro"
	"siltstep/hydro/checkdam"
)

// cents reads a column with two decimals as whole hundredths.
func cents(t *testing.T, text string) int64 {
	t.Helper()
	x, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatal(err)
	}
	return int64(math.Round(100 * x))
}

// Drainages are the sum of their dams and the row for all is the sum of the drainages, to the last digit shown.
func TestSummaryAddsUp(t *testing.T) {
	rng := rand.New(rand.NewPCG(8, 9))
	p, site := small(), small().Layouts[0].Sites[0]
	columns := []string{"rock_t", "pond_m3", "sediment_m3", "cost"}
	var wants [2]map[string]int64
	for i := range p.Designs {
		p.Designs[i], p.Layouts[i].Sites = nil, nil
		wants[i] = map[string]int64{}
		for range 500 {
			draw := func() float64 { return 20 * rng.Float64() }
			dam := checkdam.Design{Rock: checkdam.Rock{TotalM3: draw(), OrderTonnes: draw()}, Storage: checkdam.Storage{PondM3: draw(), SedimentM3: draw()}, Buildable: true}
			d := hydro.Design{Dam: &dam, PersonDays: draw(), Cost: draw()}
			p.Designs[i], p.Layouts[i].Sites = append(p.Designs[i], d), append(p.Layouts[i].Sites, site)
			for k, x := range []float64{dam.Rock.OrderTonnes, dam.Storage.PondM3, dam.Storage.SedimentM3, d.Cost} {
				wants[i][columns[k]] += cents(t, string(geojson.AppendReal(nil, x, 2, ""))) // the dam as its own table shows it
			}
		}
	}
	var b bytes.Buffer
	if err := WriteSummary(&b, p); err != nil {
		t.Fatal(err)
	}
	_, rows := read(t, b.String())
	for _, name := range columns {
		for i, want := range wants {
			if got := cents(t, rows[i][name]); got != want[name] {
				t.Errorf("%s: %s is %d hundredths, its dams are %d", rows[i]["id"], name, got, want[name])
			}
		}
		if got, want := cents(t, rows[2][name]), wants[0][name]+wants[1][name]; got != want {
			t.Errorf("all: %s is %d hundredths, the drainages are %d", name, got, want)
		}
	}
}

func TestSummaryColumnsOfQuantities(t *testing.T) {
	fields := withQuantities(geojson.DrainagesLayer().Fields)
	seen := map[string]bool{}
	for _, f := range fields {
		if seen[f.Name] || f.Meaning == "" {
			t.Errorf("column %s comes twice, or is not described", f.Name)
		}
		seen[f.Name] = true
	}
	p := small()
	row := allRow(geojson.Layer{Fields: fields}, p)
	for i, f := range fields {
		switch f.Name {
		case "rock_m3":
			if want := hydro.QuantitiesOf(p.Designs[0]).RockM3; row[i] != want || want == 0 {
				t.Errorf("rock_m3 %v, want %v", row[i], want)
			}
		case "person_days":
			if row[i] != 3.5 {
				t.Errorf("person_days %v, want 3.5", row[i])
			}
		case "undesigned":
			if row[i] != 1 {
				t.Errorf("undesigned %v, want 1", row[i])
			}
		}
	}
	if !seen["rock_m3"] || !seen["sediment_low_m3"] || !seen["person_days"] || !seen["undesigned"] {
		t.Errorf("columns %v", seen)
	}
}
