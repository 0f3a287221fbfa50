package cli

import (
	"strings"
	"testing"

	"siltstep/hydro/checkdam"
)

func TestReadSection(t *testing.T) {
	for _, c := range []struct {
		name, text string
		want       []checkdam.Point
		fault      string
	}{
		{"metres, more columns, a gap", "offset_m,ground_m,dam_m\n-1,1.5,\n0,,\n1.5,0,0.6\n3,1.5,\n", []checkdam.Point{{OffsetM: -1, LevelM: 1.5}, {OffsetM: 1.5}, {OffsetM: 3, LevelM: 1.5}}, ""},
		{"feet, turned round", "\ufeffGround_ft, Offset_ft\n5,0\n0,10\n5,20\n", []checkdam.Point{{LevelM: 1.524}, {OffsetM: 3.048}, {OffsetM: 6.096, LevelM: 1.524}}, ""},
		{"feet and metres mixed", "offset_m,ground_ft\n0,1\n", nil, "names no columns"},
		{"no header", "0,1\n1,0\n2,1\n", nil, "names no columns"},
		{"empty", "", nil, "names no columns"},
		{"a comma for a point", "offset_m,ground_m\n0,1\n\"1,5\",0\n", nil, "line 3: 1,5 is no number"},
		{"a short row", "offset_m,ground_m\n0,1\n7\n", nil, "line 3: 1 columns"},
		{"a quote left open", "offset_m,ground_m\n0,\"1\n", nil, "not a CSV table"},
	} {
		got, err := readSection(strings.NewReader(c.text))
		if c.fault != "" {
			if err == nil || !strings.Contains(err.Error(), c.fault) {
				t.Errorf("%s: %v, want %q", c.name, err, c.fault)
			}
			continue
		}
		if err != nil || len(got) != len(c.want) {
			t.Errorf("%s: %v, error %v", c.name, got, err)
			continue
		}
		for i := range got {
			if d := got[i].OffsetM - c.want[i].OffsetM; d > 1e-12 || d < -1e-12 || got[i].LevelM-c.want[i].LevelM > 1e-12 || c.want[i].LevelM-got[i].LevelM > 1e-12 {
				t.Errorf("%s: point %d is %v, want %v", c.name, i+1, got[i], c.want[i])
			}
		}
	}
}

// Whatever is read, a section either is refused or has a finite body.
func FuzzReadSection(f *testing.F) {
	f.Add("offset_m,ground_m\n0,1.5\n1,0\n3,0\n4,1.5\n")
	f.Add("offset_ft,ground_ft\n0,5\n5,0\n5,0\n10,5\n")
	f.Add("offset_m,ground_m\n0,1e308\n1,-1e308\n2,NaN\n")
	f.Fuzz(func(t *testing.T, text string) {
		points, err := readSection(strings.NewReader(text))
		if err != nil {
			return
		}
		s, err := checkdam.NewSection(points)
		if err != nil {
			return
		}
		body := checkdam.Body{CrestWidthM: 0.5, FaceUp: 1.5, FaceDown: 3}
		crest := []checkdam.Point{{OffsetM: -1000, LevelM: 0.6}, {OffsetM: 1000, LevelM: 0.6}}
		if v := body.VolumeM3(s, crest); !(v >= 0 && v < 1e12) {
			t.Errorf("body of %g m³ over %v", v, points)
		}
		if w := s.BedWidthM(); !(w >= 0 && w <= 2000) {
			t.Errorf("bed of %g m over %v", w, points)
		}
	})
}
