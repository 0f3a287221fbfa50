package rastertest_test

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"siltstep/raster/rastertest"
)

// spy is a testing.TB that keeps what Golden reports instead of failing.
type spy struct {
	testing.TB
	said string
}

func (s *spy) Helper()                           {}
func (s *spy) Errorf(format string, args ...any) { s.said += fmt.Sprintf(format, args...) }
func (s *spy) Fatalf(format string, args ...any) { s.said += fmt.Sprintf(format, args...) }

// setUpdate sets the flag for one test and puts it back.
func setUpdate(t *testing.T, on bool) {
	was := *rastertest.Update
	t.Cleanup(func() { *rastertest.Update = was })
	*rastertest.Update = on
}

func TestGoldenCompares(t *testing.T) {
	path := filepath.Join(t.TempDir(), "case.golden")
	if err := os.WriteFile(path, []byte("one\ntwo\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	setUpdate(t, false)
	tests := []struct{ name, got, said string }{
		{"equal", "one\ntwo\n", ""},
		{"second line", "one\ntoo\n", `:2: got "too", golden has "two"`},
		{"short", "one\n", `:2: got "", golden has "two"`},
		{"longer", "one\ntwo\n\n", `:4: got "", golden has "(end)"`},
		{"line ends", "one\r\ntwo\r\n", `:1: got "one\r"`},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			s := &spy{TB: t}
			rastertest.Golden(s, path, tt.got)
			if (tt.said == "") != (s.said == "") || !strings.Contains(s.said, tt.said) {
				t.Errorf("said %q, want %q in it", s.said, tt.said)
			}
		})
	}
}

func TestGoldenMissing(t *testing.T) {
	setUpdate(t, false)
	s := &spy{TB: t}
	rastertest.Golden(s, filepath.Join(t.TempDir(), "none.golden"), "text")
	if !strings.Contains(s.said, "-update") {
		t.Errorf("said %q, want it to name -update", s.said)
	}
}

func TestGoldenUpdate(t *testing.T) {
	path := filepath.Join(t.TempDir(), "new", "case.golden")
	setUpdate(t, true)
	rastertest.Golden(t, path, "fresh\n")
	if b, err := os.ReadFile(path); err != nil || string(b) != "fresh\n" {
		t.Errorf("got %q, %v; want the text written", b, err)
	}
	setUpdate(t, false)
	rastertest.Golden(t, path, "fresh\n")
}
