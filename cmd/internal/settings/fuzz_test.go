package settings

import (
	"errors"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"
)

// FuzzParse holds that no text makes Parse panic, that every error is marked and printable,
// and that what is read can be printed and read again.
func FuzzParse(f *testing.F) {
	var all strings.Builder
	if err := Print(&all, Defaults()); err != nil {
		f.Fatal(err)
	}
	for _, s := range []string{
		all.String(), "", "---\n", "dams: {height: 0.6 m, slope: [2 %, 20 %]}", "dams:\n  height: 2 ft\n  engineer: true\n",
		"rain: {table: rain.csv, return_period: 10 yr, hours: 24}\nrunoff: {cover: pasture, condition: poor, soil_group: B}",
		"rain: {curve: [1200, 10, 0.8, 120 min], hours: 2}\nrunoff: {coefficient: 0.4, method: rational}", "rain: {depth: 2.4 in, hours: 24, pattern: II}\nrunoff: {curve_number: 80}",
		"rain: {intensity: 3 in/h}", "stone: {gravity: 2.5, voids: 0.4}\nsediment: {yield: [0.5 m3/ha, 3 m3/ha]}\nprices: {currency: €, rock: 45, day: 200, days_per_m3: 1}",
		"handover: {title: 'A: #b', paper: letter, private: [headcuts, dams]}\nfunding: {match_share: 40 %, match_base: total, federal: 6e4}",
		"dams: {notch_shape: parabolic, face_up: 2:1, crest_width: 3 ft}", "runoff: {wetness: average, abstraction_ratio: 0.2}",
		"dams: {catchment: [1 ac, 10 ac], deposit_ratio: 0.5}", "flow: {edge: closed}\nchannels: {start_area: 3 ac, min_length: 7 us-ft}",
		"dams: &a {height: *a}", "<<: *x", "? a\n: b", "a: |\n  b", "!!map {dams: 1}", "%YAML 1.2\n---\n{}", "- - - 1", "dams: [", "\"\\u0000\": 1",
		"dams:\n- 1\n  height: 2", "{dams}: 1", "[a]: 1", ": 1", "dams: {? height : 1 m}", "dams: {,}", "'", "*", "&", "\r", "a:\r\rb:",
	} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		cfg, err := Parse("plan.yaml", data)
		if err == nil {
			readBack(t, cfg)
			return
		}
		if !errors.Is(err, ErrInput) {
			t.Errorf("not marked: %v", err)
		}
		for line := range strings.SplitSeq(err.Error(), "\n") {
			if !strings.HasPrefix(line, "plan.yaml:") {
				t.Errorf("without its file: %q", line)
			}
			if !utf8.ValidString(line) || strings.ContainsFunc(line, func(r rune) bool { return !unicode.IsPrint(r) }) {
				t.Errorf("does not print: %q", line)
			}
		}
	})
}

func FuzzEdits(f *testing.F) {
	f.Add("height", "hieght")
	f.Add("", "edge")
	f.Fuzz(func(t *testing.T, a, b string) {
		d := edits(a, b)
		if d != edits(b, a) || d > max(len(a), len(b)) || d < len(a)-len(b) || d < len(b)-len(a) || (d == 0) != (a == b) {
			t.Errorf("%q to %q takes %d edits", a, b, d)
		}
	})
}
