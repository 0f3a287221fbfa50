package storm

import (
	"fmt"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"
)

// from says where an expected value comes from.
type from string

const (
	read      from = "read"      // in the source or an excerpt of it
	secondary from = "secondary" // in a copy, a lecture or a re-telling of the source
	memory    from = "memory"    // recalled, not seen in print
	computed  from = "computed"  // by hand from the formula and the inputs beside it
)

// compared counts the values compared, by where they come from.
var compared = map[from]int{}

// check compares a value with one from outside; tolerance is absolute, in the unit of the value.
func check(t *testing.T, source from, what string, got, want, tolerance float64) {
	t.Helper()
	compared[source]++
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s: %.6g, want %.6g within %.2g (%s)", what, got, want, tolerance, source)
	}
}

// TestMain tells, with -v, how many outside values were compared.
func TestMain(m *testing.M) {
	code := m.Run()
	if testing.Verbose() {
		fmt.Printf("values compared: read %d, secondary %d, memory %d, computed %d\n", compared[read], compared[secondary], compared[memory], compared[computed])
	}
	os.Exit(code)
}

// numbers reads numbers parted by spaces or any of the marks given; "-" is NaN.
func numbers(t *testing.T, text, marks string) []float64 {
	t.Helper()
	var out []float64
	for _, word := range strings.FieldsFunc(text, func(r rune) bool { return r == ' ' || strings.ContainsRune(marks, r) }) {
		v, err := strconv.ParseFloat(word, 64)
		if word == "-" {
			v, err = math.NaN(), nil
		}
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, v)
	}
	return out
}

// must fails the test on an error.
func must[T any](t *testing.T) func(v T, err error) T {
	return func(v T, err error) T {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
}

// refused fails the test where an error is missing or lacks the words.
func refused(t *testing.T, what string, err error, words ...string) {
	t.Helper()
	if err == nil {
		t.Errorf("%s: no error", what)
		return
	}
	for _, w := range words {
		if !strings.Contains(err.Error(), w) {
			t.Errorf("%s: error %q does not say %q", what, err, w)
		}
	}
}

// rules returns the rules of notes.
func rules(notes []Note) (out []Rule) {
	for _, n := range notes {
		out = append(out, n.Rule)
	}
	return out
}
