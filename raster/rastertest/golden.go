package rastertest

import (
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// Update is the flag -update of every test binary that imports this package: golden files
// are written anew and not compared. Read the diff before committing it.
var Update = flag.Bool("update", false, "write golden files anew instead of comparing")

// Golden compares a text with the golden file at path and reports the first line that
// differs. Under -update it writes the file, and its folder, instead. Golden files are
// text with LF line ends; CR LF in got is a difference.
func Golden(t testing.TB, path, got string) {
	t.Helper()
	if *Update {
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatalf("%v; run the test with -update to write it", err)
		return
	}
	if line, g, w := firstDifference(got, string(want)); line > 0 {
		t.Errorf("%s:%d: got %q, golden has %q; if the change is meant, run the test with -update", path, line, g, w)
	}
}

// firstDifference returns the number, from 1, of the first line in which two texts differ,
// and both lines; 0 where the texts are equal. A text that ends early has "(end)" there.
func firstDifference(got, want string) (line int, g, w string) {
	if got == want {
		return 0, "", ""
	}
	gs, ws := strings.Split(got, "\n"), strings.Split(want, "\n")
	at := func(lines []string, i int) string {
		if i < len(lines) {
			return lines[i]
		}
		return "(end)"
	}
	for i := range max(len(gs), len(ws)) {
		if i >= len(gs) || i >= len(ws) || gs[i] != ws[i] {
			return i + 1, at(gs, i), at(ws, i)
		}
	}
	panic("rastertest: unequal texts without a line that differs")
}
