package report

import (
	"bytes"
	"math"
	"strings"
	"testing"

	"siltstep/cmd/internal/units"
	"siltstep/hydro"
	"siltstep/hydro/checkdam"
)

// shallow is the design of a dam of 0.6 m between banks of 0.65 m, which have no room for a notch.
func shallow(t *testing.T) hydro.Design {
	t.Helper()
	section, err := checkdam.TrapezoidSection(2, 1, 0.65)
	if err != nil {
		t.Fatal(err)
	}
	d := sized()
	r := d.Dam.Request
	r.Section = section
	dam, err := checkdam.Size(r)
	if err != nil {
		t.Fatal(err)
	}
	d.Dam = &dam
	return d
}

func TestWorksAreTold(t *testing.T) {
	nan := math.NaN()
	rows := []struct {
		name   string
		change func(*hydro.Plan)
		says   []string
		not    []string
	}{
		{"all is there", func(p *hydro.Plan) { p.Designs[0][1] = sized(); p.Totals.Undesigned = 0 },
			[]string{"Storm      once in 10 years, 24 h long\n", "Peaks      0.34 m³/s at 2 dams\n", "Work       3.5 person-days", "Cost       512 USD", "by up to 2.0 times"},
			[]string{"DO NOT BUILD", "Not designed", "FAIL", "No stone size"}},
		{"banks too low", func(p *hydro.Plan) { p.Designs[0][1] = shallow(t) }, []string{"DO NOT BUILD 1 dam as designed: D01-02.", "The sums above hold them, with "}, nil},
		{"no section", func(*hydro.Plan) {}, []string{"Not designed, and in none of these sums: 1 dam"}, nil},
		// The notch carries the peak of 0.34 m³/s that it is made for: 0.34/0.68 is 50 %.
		{"a lower method was named", func(p *hydro.Plan) { p.Designs[0][0].HighM3s = 0.68 }, []string{"FAIL: a notch carries only 50 % of the highest valid peak"}, nil},
		{"no stone method in range", func(p *hydro.Plan) { p.Designs[0][0].Dam.StoneM = nan }, []string{"No stone size for 1 dam"}, nil},
		{"no rain", func(p *hydro.Plan) {
			for k := range p.Designs[0] {
				d := &p.Designs[0][k]
				d.PeakM3s, d.LowM3s, d.HighM3s = nan, nan, nan
			}
			p.Designs[0][0].Dam.Notch = nil
		}, []string{"Storm     none known, so no notch and no stone size", "No peak is known at 1 dam: their rock ends at the sill"}, []string{"Peaks", "no peak is exact"}},
		{"no prices", func(p *hydro.Plan) { p.Totals.PersonDays, p.Totals.Cost = nan, nan }, nil, []string{"Work", "Cost"}},
		{"an intensity alone", func(p *hydro.Plan) { p.Config.Storm = hydro.Storm{} }, []string{"Storm      as given\n"}, nil},
		{"without designs", func(p *hydro.Plan) { p.Designs = nil }, []string{"Dams      2 in 1 series\n"}, []string{"Storm", "Rock", "DO NOT BUILD"}},
	}
	for _, r := range rows {
		t.Run(r.name, func(t *testing.T) {
			rec := record()
			r.change(rec.Plan)
			var b bytes.Buffer
			if err := WriteTerminal(&b, rec, units.Metric); err != nil {
				t.Fatal(err)
			}
			head, _, _ := strings.Cut(b.String(), "Drainages with dams")
			flat := func(s string) string { return strings.Join(strings.Fields(s), " ") }
			for _, s := range r.says {
				if !strings.Contains(flat(head), flat(s)) {
					t.Errorf("does not say %q:\n%s", s, head)
				}
			}
			for _, s := range r.not {
				if strings.Contains(head, s) {
					t.Errorf("says %q:\n%s", s, head)
				}
			}
		})
	}
}

// The sums of plan.json count a dam that cannot be built, and the row of a dam without a section says what is missing.
func TestDesignRows(t *testing.T) {
	p := small()
	p.Designs[0][0] = shallow(t)
	rows := designRows(p)
	if len(rows) != 2 || len(rows[0]) != len(designTable().Fields) || len(rows[1]) != len(designTable().Fields) {
		t.Fatalf("rows %v", rows)
	}
	column := func(name string) int {
		for i, f := range designTable().Fields {
			if f.Name == name {
				return i
			}
		}
		t.Fatalf("no column %s", name)
		return -1
	}
	if rows[0][column("buildable")] != false || !strings.Contains(rows[0][column("notes")].(string), "banks of 0.65 m") {
		t.Errorf("a dam between low banks: %v", rows[0])
	}
	if rows[1][column("buildable")] != nil || rows[1][column("body_m3")] != nil || rows[1][column("missing")] != unsized().Why {
		t.Errorf("a dam without a section: %v", rows[1])
	}
	if got, all := unbuildableOf(p, 0), allRow(summaryTable(), p); got != 1 || all[len(all)-2] != 1 {
		t.Errorf("summary: %v dams of D01 cannot be built and %v in all, want 1 and 1", got, all[len(all)-2])
	}
	values := totalValues(p)
	if got := values[len(values)-1]; got != 1 {
		t.Errorf("%v dams cannot be built, want 1", got)
	}
}

// A dam whose peak is not known has neither notch nor stone: that it can be built is not said, that it cannot is.
func TestBuildableWithoutAPeak(t *testing.T) {
	dam := *sized().Dam
	for buildable, want := range map[bool]any{true: nil, false: false} {
		dam.Notch, dam.Buildable = nil, buildable
		if got := designRow("D01-01", hydro.Design{Dam: &dam})[6]; got != want {
			t.Errorf("buildable %v without a notch reads %v, want %v", buildable, got, want)
		}
	}
}

func TestSomeOf(t *testing.T) {
	if got := someOf(strings.Fields("a b c d e f g h")); got != "a, b, c, d, e, f and 2 more" {
		t.Errorf("got %q", got)
	}
	if got := someOf(strings.Fields("a b")); got != "a, b" {
		t.Errorf("got %q", got)
	}
}
