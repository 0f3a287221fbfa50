package cli

import (
	"testing"

	"github.com/paulmach/orb"
)

func TestParseLonLat(t *testing.T) {
	for _, row := range []struct {
		text string
		want orb.Point
		ok   bool
	}{
		{"-105.2,36.4", orb.Point{-105.2, 36.4}, true},
		{" -105.2 , 36.4 ", orb.Point{-105.2, 36.4}, true},
		{"180,-90", orb.Point{180, -90}, true},
		{"", orb.Point{}, false},
		{"-105.2", orb.Point{}, false},
		{"-105.2,36.4,1600", orb.Point{}, false},
		{"36.4,-105.2", orb.Point{}, false}, // latitude first
		{"181,0", orb.Point{}, false},
		{"NaN,0", orb.Point{}, false},
		{"0,Inf", orb.Point{}, false},
	} {
		got, err := parseLonLat(row.text)
		if (err == nil) != row.ok || got != row.want {
			t.Errorf("%q: %v, %v", row.text, got, err)
		}
	}
}
