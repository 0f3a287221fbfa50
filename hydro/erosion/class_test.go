package erosion

import "testing"

func TestClassOf(t *testing.T) {
	// Below 20 sound, to 40 watch, to 60 eroding, above severe.
	for _, row := range []struct {
		total float64
		want  Class
	}{
		{0, Sound}, {19.999, Sound}, {20, Watch}, {40, Watch}, {40.001, Eroding}, {60, Eroding}, {60.001, Severe}, {100, Severe}, {null, ""},
	} {
		if got := ClassOf(row.total); got != row.want {
			t.Errorf("%g is %q, want %q", row.total, got, row.want)
		}
	}
}
