package cli

import (
	"bytes"
	"context"
	"encoding/json"
	"io"
	"math"
	"os"
	"path/filepath"
	"reflect"
	"regexp"
	"strings"
	"testing"
)

// run runs a command line and returns exit code, output and message.
func run(t *testing.T, line ...string) (code int, out, message string) {
	t.Helper()
	var stdout, stderr bytes.Buffer
	code = Run(context.Background(), append([]string{"siltstep"}, line...), nil, &stdout, &stderr)
	return code, stdout.String(), stderr.String()
}

// plainDam is a dam of 0.6 m in a 2 m bed at 6 %.
const plainDam = "--height=0.6m --slope=6% --bed-width=2m --side-slope=1:1 --bank-height=1.5m"

func TestSizeRefusesWrongInput(t *testing.T) {
	dir := t.TempDir()
	empty, odd, comma := filepath.Join(dir, "empty.csv"), filepath.Join(dir, "odd.csv"), filepath.Join(dir, "comma.csv")
	for path, text := range map[string]string{empty: "", odd: "offset_m,ground_m\n0,1\n2,0\n1,1\n", comma: "offset_m,ground_m\n0,1,5\n2,0\n3,1\n"} {
		if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	for _, c := range []struct{ line, want string }{
		{"", "--height is missing"},
		{"--height 0.6m", "--slope is missing"},
		{"--height 0.6m --slope 6%", "--bed-width, --side-slope, --bank-height missing"},
		{"--height 0.6m --slope 6% --bed-width 2m --side-slope 1:1", "--bank-height missing"},
		{plainDam + " --height 0.6", "--height is given twice"},
		{"--height 0.6 --slope 6% --bed-width 2m --side-slope 1:1 --bank-height 1.5m", "the unit is missing"},
		{"--height 6kg --slope 6% --bed-width 2m --side-slope 1:1 --bank-height 1.5m", `"kg" is not a unit of length`},
		{"--height=-0.6m --slope 6% --bed-width 2m --side-slope 1:1 --bank-height 1.5m", "not negative"},
		{"--height 0m --slope 6% --bed-width 2m --side-slope 1:1 --bank-height 1.5m", "dam height 0 m; allowed is"},
		{"--height 0.6m --slope 6 --bed-width 2m --side-slope 1:1 --bank-height 1.5m", "the unit is missing"},
		{"--height 0.6m --slope 0% --bed-width 2m --side-slope 1:1 --bank-height 1.5m", "bed slope 0"},
		{"--height 0.6m --slope 600% --bed-width 2m --side-slope 1:1 --bank-height 1.5m", "bed slope 6"},
		{"--height 0.6m --slope 6% --bed-width 2m --side-slope 1 --bank-height 1.5m", "horizontal : vertical"},
		{"--height 0.6m --slope 6% --bed-width 2m --side-slope 1:1 --bank-height 0m", "bank height 0 m"},
		{"--height 0.6m --slope 6% --bed-width 5km --side-slope 1:1 --bank-height 1.5m", "bed width 5000"},
		{plainDam + " --kind mud", "--kind mud: not known"},
		{plainDam + " --kind loos-rock", "did you mean loose-rock?"},
		{plainDam + " --spacing-rule half", "--spacing-rule half: not known"},
		{plainDam + " --spacing-rule heede --deposit-ratio 0.5", "leave one out"},
		{plainDam + " --deposit-ratio 0.9", "deposit ratio 0.9; allowed is 0 to 0.7"},
		{plainDam + " --peak 0.9", "the unit is missing"},
		{plainDam + " --peak 0m3/s", "more than 0"},
		{plainDam + " --peak 90000m3/s", "storm peak 90000"},
		{plainDam + " --notch-shape round", "--notch-shape round"},
		{plainDam + " --peak 1cfs --notch-shape rectangular --notch-side 1:1", "a rectangular notch has none"},
		{plainDam + " --notch-width 0m", "more than 0"},
		{plainDam + " --velocity fast", "a velocity is a number"},
		{plainDam + " --sediment-yield 3m3/ha", "two values are wanted"},
		{plainDam + " --sediment-yield 3m3/ha,1m3/ha", "the lower first"},
		{plainDam + " --format xml", "it is text or json"},
		{plainDam + " dem.tif", "size takes no files, got dem.tif; give quantities as flags, as in siltstep size --height 0.6m"},
		{plainDam + " --section " + odd, "not both"},
		{"--height 0.6m --slope 6% --section " + filepath.Join(dir, "none.csv"), "no such file"},
		{"--height 0.6m --slope 6% --section " + empty, "names no columns"},
		{"--height 0.6m --slope 6% --section " + odd, "lies left of the one before"},
		{"--height 0.6m --slope 6% --section " + comma, "3 columns; the header names 2; write decimals with a point"},
		{plainDam + " --hight 1m", "did you mean --height?"},
	} {
		code, out, message := run(t, append([]string{"size"}, strings.Fields(c.line)...)...)
		if code != ExitRequest || out != "" || !strings.Contains(message, c.want) || !strings.HasPrefix(message, "siltstep: ") {
			t.Errorf("size %s\nexit %d, output %q, message %q; want %q", c.line, code, out, message, c.want)
		}
	}
}

// The same dam in feet and in metres gives the same JSON, to the rounding of a thousandth of a foot.
func TestSizeInFeetAndMetres(t *testing.T) {
	decode := func(line string) (v any) {
		code, out, message := run(t, append([]string{"size", "--format=json"}, strings.Fields(line)...)...)
		if code != ExitDone {
			t.Fatal(message)
		}
		if err := json.Unmarshal([]byte(out), &v); err != nil {
			t.Fatal(err)
		}
		return v
	}
	metric := decode("--height 0.6096m --slope 6% --bed-width 1.8288m --side-slope 1:1 --bank-height 1.524m --peak 0.84950539776m3/s --length 30.48m --catchment 2.02342821ha --sediment-yield 1m3/ha,2m3/ha")
	feet := decode("--height 2ft --slope 0.06ft/ft --bed-width 6ft --side-slope 1:1 --bank-height 5ft --peak 30cfs --length 100ft --catchment 5ac --sediment-yield 1m3/ha,2m3/ha")
	if !reflect.DeepEqual(metric, feet) {
		t.Errorf("metric %v\nfeet   %v", metric, feet)
	}
}

// What a person reads in US units holds no metric quantity, whatever is to be said.
func TestSizeInUSUnitsIsAllUS(t *testing.T) {
	metric := regexp.MustCompile(`\d (m|ha|m²|m³|m/s|m³/s|m²/s|t|kg|mm|cm)\b`)
	for _, more := range []string{
		"", "--peak 30cfs", "--peak 300cfs", "--peak 30cfs --face-down 2:1", "--peak 30cfs --notch-width 10ft", "--peak 30cfs --notch-width 20ft", "--kind log --peak 30cfs",
		"--kind brush --peak 30cfs", "--kind gabion --peak 30cfs", "--kind one-rock --peak 30cfs", "--catchment 6ac --sediment-yield 1yd3/ac,2yd3/ac", "--catchment 60ac",
		"--length 400ft --deposit-ratio 0.5", "--spacing-rule heede", "--peak 30cfs --crest-width 1ft", "--peak 1cfs", "--engineer --peak 30cfs --catchment 60ac",
	} {
		_, out, message := run(t, append([]string{"--units=us", "size", "--height=3.5ft", "--slope=19%", "--bed-width=6ft", "--side-slope=1:1", "--bank-height=5ft"}, strings.Fields(more)...)...)
		out, _, _ = strings.Cut(out, "\nSources\n") // publications are quoted in their own units
		if found := metric.FindString(out); found != "" || message != "" {
			t.Errorf("%s: %q, %s in\n%s", more, found, message, out)
		}
	}
}

// Every number is finite or null, and the parts add up.
func TestSizeJSON(t *testing.T) {
	_, out, _ := run(t, append([]string{"size", "--format=json", "--peak=0.9m3/s", "--length=120m"}, strings.Fields(plainDam)...)...)
	var d struct {
		SpacingM float64 `json:"spacing_m"`
		Dams     int
		Notch    struct {
			WidthM      float64 `json:"width_m"`
			CapacityM3s float64 `json:"capacity_m3s"`
		}
		Stone []struct {
			Method string
			D50M   *float64 `json:"d50_m"`
		}
		Rock struct {
			BodyM3  float64 `json:"body_m3"`
			KeyM3   float64 `json:"key_m3"`
			ApronM3 float64 `json:"apron_m3"`
			TotalM3 float64 `json:"total_m3"`
		}
		PondM3 float64 `json:"pond_m3"`
	}
	if err := json.Unmarshal([]byte(out), &d); err != nil {
		t.Fatal(err)
	}
	if d.SpacingM != 10 || d.Dams != 12 || d.Notch.WidthM != 2 || d.Notch.CapacityM3s < 0.9 || len(d.Stone) != 3 || d.PondM3 != 7.2 {
		t.Errorf("%+v", d)
	}
	if sum := d.Rock.BodyM3 + d.Rock.KeyM3 + d.Rock.ApronM3; math.Abs(sum-d.Rock.TotalM3) > 2e-6 {
		t.Errorf("rock %+v adds up to %g", d.Rock, sum)
	}
}

func TestSizeText(t *testing.T) {
	words := strings.Fields(plainDam)
	for _, c := range []struct {
		more string
		want []string
	}{
		{"--peak 0.9m3/s", []string{"planning aid", "10.0 m axis to axis", "Notch", "isbash", "Walk every site", "recalled"}},
		{"", []string{"not sized: no peak is given", "none is assumed"}},
		{"--peak 9m3/s", []string{"DO NOT BUILD THIS DAM", "banks of 1.50 m cannot hold"}},
		{"--catchment 9ha", []string{"DO NOT BUILD THIS DAM", "9.0 ha drain to the dam"}},
		{"--peak 0.9m3/s --face-down 2:1", []string{"steeper than 2.5:1", "not in range"}},
		{"--kind log", []string{"of logs of 0.20 m", "log check dam", "faces upright upstream", "all for the apron"}},
		{"--peak 0.9m3/s --notch-side 0:1", []string{"rectangular, 2.00 m wide"}},
		{"--peak 0.02m3/s", []string{"the least that is built; it could pass", "times the peak of 0.020 m³/s"}},
		{"--peak 0.9m3/s --notch-width 4m", []string{"DO NOT BUILD THIS DAM", "cut into the banks"}},
		{"--kind log --peak 2m3/s", []string{"DO NOT BUILD THIS DAM", "too much water for it"}},
		{"--units us --peak 0.9m3/s", []string{"32.8 ft axis to axis", "made for the peak of 31.8 cfs", "US tons (2,000 lb)"}},
	} {
		code, out, message := run(t, append(append([]string{"size"}, words...), strings.Fields(c.more)...)...)
		if code != ExitDone {
			t.Errorf("%s: exit %d, %s", c.more, code, message)
		}
		for _, want := range c.want {
			if !strings.Contains(strings.Join(strings.Fields(out), " "), want) {
				t.Errorf("%s: no %q in\n%s", c.more, want, out)
			}
		}
	}
	// Who asked neither for catchment nor yield is not told that the years to fill are missing; who gave one is told of the other.
	_, out, _ := run(t, append([]string{"size"}, words...)...)
	if strings.Contains(out, "Years until full") {
		t.Error(out)
	}
	if _, out, _ = run(t, append([]string{"size", "--catchment=1ha"}, words...)...); !strings.Contains(out, "they need a sediment yield.") {
		t.Error(out)
	}
	if code := Run(context.Background(), append([]string{"siltstep", "size", "--quiet"}, words...), nil, io.Discard, io.Discard); code != ExitDone {
		t.Errorf("quiet: exit %d", code)
	}
}
