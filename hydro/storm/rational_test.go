package storm

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func TestRational(t *testing.T) {
	for _, row := range []struct {
		name                    string
		source                  from
		c, mmh, m2, m3s, within float64
	}{
		{"80 ha, 45.48 mm/h of excess, Ponce1989, printed", read, 1, 45.48, 80e4, 10.11, .006},
		{"the same by hand", computed, 1, 45.48, 80e4, 10.107, .0006},
		{"5 ha, C 0.35, 75 mm/h", computed, .35, 75, 5e4, .3646, .00006},
		{"1 acre, 1 in/h is 1.008 ft³/s, state manual", secondary, 1, 25.4, acreM2, 1.008 * cubicFootM3, .0005 * cubicFootM3},
	} {
		check(t, row.source, row.name, must[float64](t)(RationalM3s(row.c, row.mmh, row.m2)), row.m3s, row.within)
	}
}

func TestPartialArea(t *testing.T) {
	// By hand: the whole, 10 ha at 0.3 and 40 mm/h, gives 0.333; a bare hectare at 0.9 and 150 mm/h 0.375 m³/s.
	got, err := PartialAreaM3s([]Part{{10e4, .3, 40}, {1e4, .9, 150}})
	if err != nil {
		t.Fatal(err)
	}
	check(t, computed, "largest part", got, .375, 1e-9)
	_, err = PartialAreaM3s(nil)
	refused(t, "no parts", err, "fast parts")
}

func TestRationalRefuses(t *testing.T) {
	for _, row := range [][3]float64{{1.1, 50, 1e4}, {-.1, 50, 1e4}, {math.NaN(), 50, 1e4}, {.5, -1, 1e4}, {.5, math.NaN(), 1e4}, {.5, math.Inf(1), 1e4}, {.5, 50, 0}, {.5, 50, math.NaN()}, {.5, 1e308, 1e300}} {
		got, err := RationalM3s(row[0], row[1], row[2])
		refused(t, "rational", err)
		if !math.IsNaN(got) {
			t.Errorf("%v gives %g beside its error", row, got)
		}
	}
}

// AASHTODrainage, additive table for rural land, low to high (memory).
func TestRuralCoefficient(t *testing.T) {
	rows := map[string]string{
		"relief":       ".28-.35 .20-.28 .14-.20 .08-.14",
		"infiltration": ".12-.16 .08-.12 .06-.08 .04-.06",
		"cover":        ".12-.16 .08-.12 .06-.08 .04-.06",
		"storage":      ".10-.12 .08-.10 .06-.08 .04-.06",
	}
	for part, text := range rows {
		want := numbers(t, text, "-")
		for i, level := range levels {
			at := map[string]string{"relief": "low", "infiltration": "low", "cover": "low", "storage": "low"}
			base, _, _ := RuralCoefficient("low", "low", "low", "low")
			at[part] = level
			got, note, err := RuralCoefficient(at["relief"], at["infiltration"], at["cover"], at["storage"])
			if err != nil || !note.Recalled {
				t.Fatal(err, note)
			}
			low := numbers(t, rows[part], "-")
			check(t, memory, part+" "+level+", low end", got.Low-base.Low+low[6], want[2*i], 1e-9)
			check(t, memory, part+" "+level+", high end", got.High-base.High+low[7], want[2*i+1], 1e-9)
		}
	}
	least, _, _ := RuralCoefficient("low", "low", "low", "low")
	most, _, _ := RuralCoefficient("extreme", "extreme", "extreme", "extreme")
	check(t, computed, "least sum", least.Low, .20, 1e-9)
	check(t, computed, "greatest sum", most.High, .79, 1e-9)
	_, _, err := RuralCoefficient("low", "low", "none", "low")
	refused(t, "level", err, "cover", "extreme, high, normal, low")
}

// AASHTODrainage, pasture and range by slope (memory).
func TestPastureCoefficient(t *testing.T) {
	for _, row := range []struct {
		slope             float64
		sandy, loam, clay float64
	}{{.03, .10, .30, .40}, {.05, .10, .30, .40}, {.08, .16, .36, .55}, {.2, .22, .42, .60}} {
		for soil, want := range map[string]float64{"sandy": row.sandy, "loam": row.loam, "clay": row.clay} {
			got, note, err := PastureCoefficient(soil, row.slope)
			if err != nil || !note.Recalled {
				t.Fatal(err, note)
			}
			check(t, memory, soil, got, want, 0)
		}
	}
	_, _, err := PastureCoefficient("loam", .31)
	refused(t, "steep pasture", err, "slope")
	_, _, err = PastureCoefficient("peat", .1)
	refused(t, "soil", err, "sandy, loam or clay")
}

// Many state manuals (memory).
func TestFrequencyFactor(t *testing.T) {
	for yr, want := range map[float64]float64{2: 1, 10: 1, 25: 1.1, 50: 1.2, 100: 1.25, 500: 1.25, 0: 1} {
		check(t, memory, "frequency factor", FrequencyFactor(yr), want, 1e-12)
	}
	rapid.Check(t, func(t *rapid.T) {
		yr := rapid.Float64Range(0, 1000).Draw(t, "years")
		more := rapid.Float64Range(yr, 2000).Draw(t, "more years")
		if FrequencyFactor(more) < FrequencyFactor(yr) {
			t.Fatal("the factor falls as storms get rarer")
		}
	})
}
