package settings

import "testing"

func TestEdits(t *testing.T) {
	for _, row := range []struct {
		a, b string
		want int
	}{
		{"", "", 0}, {"plan", "plan", 0}, {"plan", "", 4}, {"", "plan", 4},
		{"plam", "plan", 1}, {"pan", "plan", 1}, {"uot", "out", 2}, {"kitten", "sitting", 3},
	} {
		if got := edits(row.a, row.b); got != row.want {
			t.Errorf("%q to %q: %d, want %d", row.a, row.b, got, row.want)
		}
	}
}
