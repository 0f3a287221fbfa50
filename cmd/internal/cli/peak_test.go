package cli

import (
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// rainTable is an invented table.
const rainTable = "unit, mm\nduration, 2 yr, 10 yr, 25 yr\n5 min, 6.1, 9.8, 12.2\n15 min, 11, 17.5, 22\n1 h, 18.0, 28.5, 35.1\n24 h, 40, 62, 76\n"

func write(t *testing.T, name, text string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

type peakResult struct {
	RunoffMM *float64 `json:"runoff_mm"`
	TcMin    *float64 `json:"time_of_concentration_min"`
	Methods  []struct {
		Method  string
		PeakM3s *float64 `json:"peak_m3s"`
		Valid   bool
		Note    string
	}
	Chosen   *string
	Low      *float64 `json:"low_m3s"`
	High     *float64 `json:"high_m3s"`
	Findings []struct{ Rule, Text string }
}

func peakOf(t *testing.T, line string) peakResult {
	t.Helper()
	code, out, message := run(t, append([]string{"peak", "--format=json"}, strings.Fields(line)...)...)
	if code != ExitDone {
		t.Fatalf("peak %s: %s", line, message)
	}
	var r peakResult
	if err := json.Unmarshal([]byte(out), &r); err != nil {
		t.Fatal(err)
	}
	return r
}

func value(p *float64) float64 {
	if p == nil {
		return math.NaN()
	}
	return *p
}

// C 0.35, 75 mm/h, 5 ha: 0.35·75·5/360 = 0.3646 m³/s, by hand. The handbook's example of 6 in on curve number 75 is 3.28 in of
// runoff, and with 250 acres, 1.53 h and type II 345 cfs, or 0.87 of it with 1 % of ponds (SCS 1986, example 4-1, from memory).
func TestPeakWorkedExamples(t *testing.T) {
	r := peakOf(t, "--catchment 5ha --runoff-coefficient 0.35 --intensity 75mm/h")
	if m := r.Methods[0]; m.Method != "rational" || math.Abs(value(m.PeakM3s)-0.3646) > 5e-5 || !m.Valid || *r.Chosen != "rational" {
		t.Errorf("rational: %+v", m)
	}
	const cfs = 0.028316846592
	for ponds, want := range map[string]float64{"": 345, " --pond-and-swamp-share 1%": 345 * 0.87} {
		r = peakOf(t, "--catchment 250ac --curve-number 75 --rain-depth 6in --rain-hours 24 --storm-type II --time-of-concentration 1.53h"+ponds)
		if mm := value(r.RunoffMM); math.Abs(mm/25.4-3.28) > 0.005 {
			t.Errorf("runoff %g in", mm/25.4)
		}
		if got := value(r.Methods[1].PeakM3s) / cfs; math.Abs(got/want-1) > 0.01 {
			t.Errorf("graphical%s: %.1f cfs, want %.0f", ponds, got, want)
		}
		if value(r.Low) > value(r.High) || value(r.TcMin) < 91 {
			t.Errorf("%+v", r)
		}
	}
}

// A table gives all three methods something; without rain every peak is null and a finding says what is needed.
func TestPeakFromATable(t *testing.T) {
	rain := write(t, "rain.csv", rainTable)
	r := peakOf(t, "--catchment 5ha --runoff-coefficient 0.4 --curve-number 80 --rain "+rain+" --return-period 10 --rain-hours 24 --flow-length 400m --flow-slope 5%")
	valid := 0
	for _, m := range r.Methods {
		if m.Valid {
			valid++
		}
	}
	if valid < 2 || r.Chosen == nil || !(value(r.High) >= value(r.Low)) {
		t.Errorf("%+v", r)
	}
	dry := peakOf(t, "--catchment 5ha --runoff-coefficient 0.4 --curve-number 80 --flow-length 400m --flow-slope 5%")
	if dry.Chosen != nil || dry.High != nil || dry.RunoffMM != nil {
		t.Errorf("without rain: %+v", dry)
	}
	said := false
	for _, f := range dry.Findings {
		said = said || strings.Contains(f.Text, "none is assumed")
	}
	if !said {
		t.Errorf("findings %+v", dry.Findings)
	}
}

// The same storm in feet and inches and in metres.
func TestPeakInBothUnits(t *testing.T) {
	metric := peakOf(t, "--catchment 101171.4056m2 --curve-number 75 --rain-depth 152.4mm --rain-hours 24 --storm-type II --flow-length 304.8m --flow-slope 5%")
	us := peakOf(t, "--catchment 25ac --curve-number 75 --rain-depth 6in --rain-hours 24 --storm-type II --flow-length 1000ft --flow-slope 0.05ft/ft")
	for i := range metric.Methods {
		a, b := value(metric.Methods[i].PeakM3s), value(us.Methods[i].PeakM3s)
		if math.Abs(a-b) > 1e-5 {
			t.Errorf("%s: %g and %g m³/s", us.Methods[i].Method, a, b)
		}
	}
}

// Two patches weigh their runoff by area, which is more than the runoff of their mean curve number. 4 ha at 60 and 1 ha at 95 under 2 in, by
// hand: S 6.667 in, (2 − 1.333)²/(2 + 5.333) = 0.0606 in; S 0.5263 in, (2 − 0.1053)²/(2 + 0.4211) = 1.4828 in; (4·0.0606 + 1.4828)/5 = 0.3450 in.
func TestPeakOfPatches(t *testing.T) {
	r := peakOf(t, "--catchment 5ha --patches 4ha:60,1ha:95 --rain-depth 2in --rain-hours 24 --storm-type II --time-of-concentration 12min")
	if in := value(r.RunoffMM) / 25.4; math.Abs(in-0.3450) > 0.0005 {
		t.Errorf("runoff %.4f in", in)
	}
	whole := peakOf(t, "--catchment 5ha --curve-number 67 --rain-depth 2in --rain-hours 24 --storm-type II --time-of-concentration 12min")
	if value(r.RunoffMM) <= value(whole.RunoffMM) {
		t.Errorf("patches give %g mm, their mean number %g", value(r.RunoffMM), value(whole.RunoffMM))
	}
}

func TestPeakMeasuredRain(t *testing.T) {
	path := write(t, "storm.csv", "minutes,rain_in\n5,0.1\n10,0.6\n15,0.3\n20,0\n")
	r := peakOf(t, "--catchment 5ha --curve-number 90 --measured-rain "+path+" --time-of-concentration 12min")
	if m := r.Methods[2]; !m.Valid || !(value(m.PeakM3s) > 0) {
		t.Errorf("%+v", m)
	}
}

func TestPeakRefusesWrongInput(t *testing.T) {
	rain := write(t, "rain.csv", rainTable)
	noUnit := write(t, "nounit.csv", "duration, 2 yr\n5 min, 6\n")
	falling := write(t, "falling.csv", "unit, mm\nduration, 2 yr\n5 min, 6\n10 min, 4\n")
	uneven := write(t, "uneven.csv", "minutes,rain_mm\n5,1\n12,2\n")
	for _, c := range []struct{ line, want string }{
		{"", "--catchment is missing"},
		{"--catchment 5", "the unit is missing"},
		{"--catchment 0ha", "more than 0"},
		{"--catchment 5kg", "not a unit of area"},
		{"--catchment 5ha --runoff-coefficient 1.4", "runoff coefficient is 1.4"},
		{"--catchment 5ha --runoff-coefficient 35%", "without a unit"},
		{"--catchment 5ha --curve-number 120", "curve number is 120"},
		{"--catchment 5ha --intensity 75mm", "rainfall rate"},
		{"--catchment 5ha --rain-depth 60mm", "without its duration"},
		{"--catchment 5ha --rain-depth 60mm --rain-hours 6 --storm-type II", "24-hour storm"},
		{"--catchment 5ha --rain-depth 60mm --rain-hours 24 --storm-type V", "is not known"},
		{"--catchment 5ha --rain-depth 60mm --rain-hours 24 --rain " + rain, "more than one way"},
		{"--catchment 5ha --rain none.csv", "no such file"},
		{"--catchment 5ha --rain " + noUnit, "no unit is stated"},
		{"--catchment 5ha --rain " + falling, "falling.csv:4: "},
		{"--catchment 5ha --rain " + rain, "say which one"},
		{"--catchment 5ha --rain " + rain + " --return-period 100", "nothing is read beyond"},
		{"--catchment 5ha --rain " + rain + " --return-period 0", "more than 0"},
		{"--catchment 5ha --rain-curve 1000,8", "four numbers"},
		{"--catchment 5ha --rain-curve a,b,c,60", "without a unit"},
		{"--catchment 5ha --measured-rain " + uneven, "line 3"},
		{"--catchment 5ha --measured-rain " + rain, "the first row must read"},
		{"--catchment 5ha --time-of-concentration 1.5d", "not a unit"},
		{"--catchment 5ha --time-of-concentration 1h --flow-length 100m", "give the time, or the path"},
		{"--catchment 5ha --flow-slope 5%", "without a flow length"},
		{"--catchment 5ha --flow-length 100m --flow-slope 5", "the unit is missing"},
		{"--catchment 5ha --cover pasture", "needs --soil-group"},
		{"--catchment 5ha --cover moss --soil-group C", "not in the table"},
		{"--catchment 5ha --cover pasture --condition lush --soil-group C", "condition"},
		{"--catchment 5ha --soil-group C", "name the cover"},
		{"--catchment 5ha --cover pasture --condition fair --soil-group C --curve-number 80", "give one or the other"},
		{"--catchment 5ha --wetness soaked", "antecedent condition"},
		{"--catchment 5ha --method guess", "method \"guess\""},
		{"--catchment 5ha --method rational", "needs a runoff coefficient"},
		{"--catchment 5ha --peak-factor 900", "peak factor"},
		{"--catchment 5ha --patches 2ha", "area and its curve number"},
		{"--catchment 5ha --patches 2ha:120", "curve number is 120"},
		{"--catchment 5ha --patches 2:80", "the unit is missing"},
		{"--catchment 5ha --patches 2ha:80 --curve-number 70", "one or the other"},
		{"--catchment 5ha dem.tif", "takes no files"},
		{"--catchmnt 5ha", "did you mean --catchment?"},
	} {
		code, out, message := run(t, append([]string{"peak"}, strings.Fields(c.line)...)...)
		if code != ExitRequest || out != "" || !strings.Contains(message, c.want) {
			t.Errorf("peak %s\nexit %d, output %q, message %q; want %q", c.line, code, out, message, c.want)
		}
	}
}

func FuzzReadMeasured(f *testing.F) {
	f.Add("minutes,rain_mm\n5,1\n10,2.5\n")
	f.Add("minutes,rain_in\n1e-300,1e300\n")
	f.Fuzz(func(t *testing.T, text string) {
		rain, err := readMeasured(strings.NewReader(text))
		if err != nil || rain.Validate() != nil {
			return
		}
		if total := rain.TotalMM(); !(total > 0 && total < math.Inf(1)) {
			t.Errorf("%g mm from %q", total, text)
		}
	})
}
