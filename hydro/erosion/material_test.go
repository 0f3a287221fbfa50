package erosion

import (
	"math"
	"testing"
)

// Rows of Fortier and Scobey 1926 and Fischenich 2001, from memory, pounds a square foot to pascals by hand.
func TestPermissible(t *testing.T) {
	tests := []struct {
		name string
		want float64 // Pa
	}{
		{"fine-sand", 0.9576}, // 0.02 · 47.88
		{"stiff-clay", 12.4488},
		{"cobbles", 43.5708},
		{"long-grass", 57.456},
	}
	for _, tt := range tests {
		if got := permissiblePa(tt.name); math.Abs(got-tt.want) > 1e-9 { // rounding only
			t.Errorf("%s: got %g Pa, want %g", tt.name, got, tt.want)
		}
	}
	for _, name := range []string{"", "Stiff-clay", "granite"} {
		if got := permissiblePa(name); !math.IsNaN(got) {
			t.Errorf("%q: got %g Pa, want NaN", name, got)
		}
	}
}

func TestMaterialsInOrder(t *testing.T) {
	all := Materials()
	seen := map[string]bool{}
	for i, m := range all {
		if m.Name == "" || m.Source == "" || seen[m.Name] || !(m.PermissiblePa > 0) {
			t.Errorf("row %d: %+v", i, m)
		}
		if i > 0 && m.PermissiblePa < all[i-1].PermissiblePa {
			t.Errorf("%s bears less than %s before it", m.Name, all[i-1].Name)
		}
		seen[m.Name] = true
	}
	all[0].Name = "changed"
	if Materials()[0].Name == "changed" {
		t.Error("a change to the list reached the package")
	}
}
