package hydro

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// keysCited returns the keys listed after "Keys of hydro.Source:" in a package comment.
func keysCited(t *testing.T, file string) []string {
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	_, list, found := strings.Cut(string(text), "Keys of hydro.Source:")
	if !found {
		return nil
	}
	list, _, _ = strings.Cut(list, "\npackage ")
	list, _, ended := strings.Cut(list, ".")
	if !ended {
		t.Errorf("%s: the list of keys does not end in a full stop", file)
	}
	return regexp.MustCompile(`[A-Za-z0-9]+`).FindAllString(list, -1)
}

func TestEveryKeyCitedIsASource(t *testing.T) {
	known := map[string]bool{}
	for _, s := range Sources() {
		if known[s.Key] || s.Text == "" {
			t.Errorf("source %q is listed twice or has no text", s.Key)
		}
		known[s.Key] = true
	}
	files, err := filepath.Glob("*/doc.go")
	if err != nil || len(files) < 3 {
		t.Fatalf("package comments found: %v, %v", files, err)
	}
	cited := map[string]bool{}
	for _, file := range files {
		for _, key := range keysCited(t, file) {
			cited[key] = true
			if !known[key] {
				t.Errorf("%s cites %s, which is no source", file, key)
			}
		}
	}
	for key := range known {
		if !cited[key] {
			t.Errorf("source %s is cited by no package", key)
		}
	}
}

func TestSourcesAreSortedAndACopy(t *testing.T) {
	if !slices.IsSortedFunc(Sources(), func(a, b Source) int { return strings.Compare(a.Key, b.Key) }) {
		t.Error("sources are not in the order of their keys")
	}
	Sources()[0].Key = "changed"
	if Sources()[0].Key == "changed" {
		t.Error("a caller can change the list")
	}
}
