package funder

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"siltstep/cmd/internal/units"
)

// Every number that comes from the plan is what plan.json says, converted by constants of this test and rounded as printed.
func TestEachNumberIsThatOfThePlan(t *testing.T) {
	p := invented(t)
	for _, opt := range options() {
		_, g, err := build(p.folder, opt, false)
		if err != nil {
			t.Fatal(err)
		}
		if len(g.notes) < 150 {
			t.Fatalf("%d numbers noted, too few to be all", len(g.notes))
		}
		for _, n := range g.notes {
			var si float64
			for place := range strings.SplitSeq(n.from, "+") {
				si += p.at(t, place)
			}
			one, ok := oneOf[n.unit]
			if !ok {
				t.Fatalf("unit %q of %s", n.unit, n.from)
			}
			if strings.HasSuffix(n.from, "_ha") { // hectares in the plan, shown as land
				si *= 10000
			}
			want := strconv.FormatFloat(si/one, 'f', n.decimals, 64)
			if got := strings.ReplaceAll(n.shown, ",", ""); got != want {
				t.Errorf("%s printed as %s %s, want %s", n.from, n.shown, n.unit, want)
			}
		}
	}
}

// constants are numbers that the text has of itself: units, laws, examples, years of papers, codes of practices.
var constants = regexp.MustCompile(`US tons? \(2,000 lb\)|A US ton is 2,000 lb|HUC12|0 to 100|100 %|14,400 beside 36,000 is 40 % of the federal money, but 28\.6 %|section (319|40[14])|at least 40 %|66\.460|\(practice (410|584)\)|others 201[46]|Heede 1977|WGS 84|^\d+ yr$`)

func TestNoNumberIsFromElsewhere(t *testing.T) {
	p := invented(t)
	marks := regexp.MustCompile(markOpen + "[^" + markShut + "]*" + markShut)
	for _, opt := range options() {
		d, _, err := build(p.folder, opt, true)
		if err != nil {
			t.Fatal(err)
		}
		plain, _, err := build(p.folder, opt, false)
		if err != nil {
			t.Fatal(err)
		}
		bare := texts(plain)
		for i, text := range texts(d) {
			if got := strings.NewReplacer(markOpen, "", markShut, "").Replace(text); got != bare[i] {
				t.Errorf("marked %q, plain %q", got, bare[i])
			}
			left := constants.ReplaceAllString(marks.ReplaceAllString(text, ""), "")
			left = strings.ReplaceAll(left, "m³", "")
			if strings.ContainsAny(left, "0123456789") {
				t.Errorf("a number that is no fact: %q", left)
			}
		}
	}
}

func TestDecimalsLetRowsAdd(t *testing.T) {
	foot := units.US.LengthScale()
	rows := func(list ...float64) (v []value) {
		for _, x := range list {
			v = append(v, value{si: x})
		}
		return v
	}
	table := []struct {
		name   string
		c      units.Scale
		rows   []value
		total  float64
		places int
		adds   bool
	}{
		{"whole metres add: 100 + 200", units.Metric.LengthScale(), rows(100, 200), 300, 0, true},
		// 0.4 + 0.4 = 0.8: in whole metres 0 + 0 and 1, with one decimal 0.4 + 0.4 and 0.8
		{"whole metres do not", units.Metric.LengthScale(), rows(0.4, 0.4), 0.8, 1, true},
		// 321.03 + 333.56 + 347.87 + 414.83 + 533.17 ft = 1950.46: whole feet 321 + 334 + 348 + 415 + 533 = 1951, not 1950
		{"whole feet do not", foot, rows(97.85, 101.67, 106.03, 126.44, 162.51), 594.5, 1, true},
		{"a total that is none", units.Metric.LengthScale(), rows(1, 2), 5, 0, false},
		{"money has cents", units.Scale{Unit: "USD", One: 1}, rows(1, 2), 3, 2, true},
	}
	for _, r := range table {
		t.Run(r.name, func(t *testing.T) {
			if places, adds := placesThatAdd(r.c, r.rows, r.total); places != r.places || adds != r.adds {
				t.Errorf("%d, %v; want %d, %v", places, adds, r.places, r.adds)
			}
		})
	}
}

// In each table with a total and rows of drainages the printed numbers add up.
func TestPrintedRowsAddToThePrintedTotal(t *testing.T) {
	p := invented(t)
	for _, opt := range options()[:2] {
		d, _, err := build(p.folder, opt, false)
		if err != nil {
			t.Fatal(err)
		}
		sums := 0
		for _, s := range d.sections {
			for _, b := range s.blocks {
				if b.table == nil || !b.table.total || s.title == "Match" {
					continue
				}
				last := len(b.table.rows) - 1
				for col := b.table.left; col < len(b.table.head); col++ {
					want, err := strconv.ParseFloat(strings.ReplaceAll(b.table.rows[last][col], ",", ""), 64)
					if err != nil {
						continue // no sum in this column
					}
					var sum float64
					for _, row := range b.table.rows[:last] {
						x, err := strconv.ParseFloat(strings.ReplaceAll(row[col], ",", ""), 64)
						if err == nil {
							sum += x
						}
					}
					if diff := sum - want; diff > 1e-6 || diff < -1e-6 { // decimals of the machine
						t.Errorf("%s, %s: rows add to %v, total %v", b.table.caption, b.table.head[col], sum, want)
					}
					sums++
				}
			}
		}
		if sums < 15 {
			t.Errorf("only %d columns with a total", sums)
		}
	}
}

// Where a table has a quantity in two units side by side, they are the same quantity within what rounding takes.
func TestColumnsOfTwoUnitsAgree(t *testing.T) {
	p := invented(t)
	d, _, err := build(p.folder, options()[1], false)
	if err != nil {
		t.Fatal(err)
	}
	pairs := 0
	for _, s := range d.sections {
		for _, b := range s.blocks {
			if b.table == nil {
				continue
			}
			for col := 1; col < len(b.table.head); col++ {
				nameA, a, okA := strings.Cut(b.table.head[col-1], ", ")
				nameB, c, okB := strings.Cut(b.table.head[col], ", ")
				oneA, knownA := oneOf[a]
				oneB, knownB := oneOf[c]
				if !okA || !okB || nameA != nameB || !knownA || !knownB {
					continue
				}
				for _, row := range b.table.rows {
					x, offX, errX := printed(row[col-1])
					y, offY, errY := printed(row[col])
					if errX != nil || errY != nil {
						continue
					}
					pairs++
					if diff := x*oneA - y*oneB; math.Abs(diff) > (offX*oneA+offY*oneB)*1.001 {
						t.Errorf("%s: %s %s is not %s %s", b.table.caption, row[col-1], a, row[col], c)
					}
				}
			}
		}
	}
	if pairs < 30 {
		t.Errorf("only %d pairs", pairs)
	}
}

// printed reads a number as it is printed, and half of its last digit.
func printed(text string) (x, off float64, err error) {
	x, err = strconv.ParseFloat(strings.ReplaceAll(text, ",", ""), 64)
	_, after, _ := strings.Cut(text, ".")
	return x, 0.5 * math.Pow10(-len(after)), err
}

func TestGrouped(t *testing.T) {
	for _, r := range []struct {
		x      float64
		places int
		want   string
	}{{0, 0, "0"}, {999.6, 0, "1,000"}, {1234567.891, 2, "1,234,567.89"}, {-0.2, 0, "0"}, {-1234.5, 1, "-1,234.5"}, {100, 0, "100"}} {
		if got := grouped(r.x, r.places); got != r.want {
			t.Errorf("%v: %s, want %s", r.x, got, r.want)
		}
	}
}
