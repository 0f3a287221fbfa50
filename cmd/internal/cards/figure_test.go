package cards

import (
	"math"
	"testing"

	"siltstep/cmd/internal/facts"
	"siltstep/cmd/internal/units"
)

func TestSentence(t *testing.T) {
	us := &document{system: units.US}
	for _, row := range []struct{ name, metric, want string }{
		{"a length", "A confluence lies 5.3 m away.", "A confluence lies 17.4 ft away."},                                    // 17.39
		{"centimetres", "The banks of 0.67 m end.", "The banks of 2.2 ft end."},                                             // 2.198
		{"one that is small", "lies 0.01 m below", "lies 0.03 ft below"},                                                    // 0.0328
		{"land", "The catchment is 2.98 ha: best below 2.00 ha", "The catchment is 7.4 ac: best below 4.9 ac"},              // 7.364, 4.942
		{"at the end", "It is 4 m", "It is 13 ft"},                                                                          // 13.12
		{"a flow, a volume and a weight", "0.21 m³/s, 16.4 m³ and 12.5 t", "7.4 cfs, 21.5 yd³ and 13.8 US tons (2,000 lb)"}, // 7.416, 21.45, 13.78
		{"rain", "Runoff is 14 mm.", "Runoff is 0.6 in."},                                                                   // 0.551
		{"no figure of a unit", "D15-07 at 8.2 % and 3:1, 2 minutes", "D15-07 at 8.2 % and 3:1, 2 minutes"},
		{"two side by side", "0.30 m, 0.60 m", "1.0 ft, 2.0 ft"}, // 0.984, 1.969
	} {
		t.Run(row.name, func(t *testing.T) {
			if got := us.sentence(row.metric); got != row.want {
				t.Errorf("%q, want %q", got, row.want)
			}
			if got := (&document{}).sentence(row.metric); got != row.metric {
				t.Errorf("metric: %q", got)
			}
		})
	}
}

func TestFacesOf(t *testing.T) {
	for _, row := range []struct {
		name, kind, up, down, want string
	}{
		{"usual for loose rock", "loose-rock", "usual", "usual", "1.5:1 upstream, 3:1 downstream"}, // doc of checkdam.Limits
		{"given", "loose-rock", "2:1", "0:1", "2:1 upstream, upright downstream"},
		{"not in the plan", "", "", "", "not known upstream, not known downstream"},
	} {
		t.Run(row.name, func(t *testing.T) {
			f := &facts.Folder{}
			f.Settings = []facts.Setting{{Key: "dams.kind", Value: row.kind}, {Key: "dams.face_up", Value: row.up}, {Key: "dams.face_down", Value: row.down}}
			if got := facesOf(f).text(); got != row.want {
				t.Errorf("%q, want %q", got, row.want)
			}
		})
	}
}

func TestFitShowsAll(t *testing.T) {
	for _, row := range []struct {
		name                string
		from, to, low, high float64
		exaggeration        float64
	}{
		// 80 mm for 10 m is 8 mm a metre; 1 m high in 40 mm could be drawn 5 times.
		{"a low dam", 0, 10, 100, 101, 5},
		// 8 mm a metre and 10 m high: 80 mm, twice the room; the scale is halved.
		{"as high as wide", 0, 10, 100, 110, 1},
	} {
		t.Run(row.name, func(t *testing.T) {
			f := fit(5, 7, 80, 40, row.from, row.to, row.low, row.high)
			if f.exaggeration != row.exaggeration {
				t.Errorf("heights %g times, want %g", f.exaggeration, row.exaggeration)
			}
			for _, p := range []spot{f.at(row.from, row.low), f.at(row.to, row.high)} {
				if p.X < 5-1e-9 || p.X > 85+1e-9 || p.Y < 7-1e-9 || p.Y > 47+1e-9 {
					t.Errorf("%v lies outside", p)
				}
			}
		})
	}
	c := curve{}
	c.add(0, 1)
	c.add(2, 3)
	if got := c.heightAt(0.5); got != 1.5 { // a quarter of the way from 1 to 3
		t.Errorf("height %g, want 1.5", got)
	}
	if !math.IsNaN(c.heightAt(2.1)) {
		t.Error("a height beyond the end")
	}
}

func TestNiceStep(t *testing.T) {
	for most, want := range map[float64]float64{7: 5, 4.99: 2, 1: 1, 199: 100, 0.3: 0.2} {
		if got := niceStep(most); math.Abs(got-want) > 1e-12 {
			t.Errorf("at most %g: %g, want %g", most, got, want)
		}
	}
}
