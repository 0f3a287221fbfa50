package report

import (
	"bytes"
	"math"
	"strings"
	"testing"

	"siltstep/cmd/internal/units"
	"siltstep/hydro"
	"siltstep/hydro/checkdam"
	"siltstep/hydro/storm"
)

func TestSourcesOfAText(t *testing.T) {
	section, err := checkdam.TrapezoidSection(2, 1, 1.5)
	if err != nil {
		t.Fatal(err)
	}
	dam, err := checkdam.Size(checkdam.Request{Kind: checkdam.LooseRock, HeightM: 0.6, Slope: 0.06, Section: section, FaceUp: math.NaN(), FaceDown: math.NaN(), PeakM3s: 0.9, Rule: checkdam.Heede})
	if err != nil {
		t.Fatal(err)
	}
	ask := storm.Request{CatchmentM2: 50_000, RunoffCoefficient: 0.35, Rain: storm.Rain{IntensityMMH: 75}}
	peak, err := storm.Peaks(ask)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name      string
		write     func(*bytes.Buffer) error
		has, lack []string
	}{
		{"dam", func(b *bytes.Buffer) error { return WriteDam(b, dam, units.Metric) }, []string{"HeedeMufich1973: ", "Robinson1998: ", "Isbash1936: ", "Heede1976: "}, []string{"SCS1986", "Chow1959"}},
		{"peak", func(b *bytes.Buffer) error { return WritePeak(b, ask, peak, units.Metric) }, []string{"Ponce1989: ", "Genereux2003: "}, []string{"SCS1986", "Isbash1936"}},
	} {
		var out bytes.Buffer
		if err := c.write(&out); err != nil {
			t.Fatal(err)
		}
		_, list, found := strings.Cut(out.String(), "\nSources\n")
		for _, key := range c.has {
			if n := strings.Count(list, "- "+key); !found || n != 1 {
				t.Errorf("%s: %s is listed %d times in %q", c.name, key, n, list)
			}
		}
		for _, key := range c.lack {
			if strings.Contains(list, key) {
				t.Errorf("%s: %s is listed", c.name, key)
			}
		}
	}
}

// Every key that a text may name is a source.
func TestMethodSourcesAreSources(t *testing.T) {
	known := map[string]bool{}
	for _, s := range hydro.Sources() {
		known[s.Key] = true
	}
	for method, keys := range methodSources {
		for _, key := range keys {
			if !known[key] {
				t.Errorf("%s: %s is no source", method, key)
			}
		}
	}
}
