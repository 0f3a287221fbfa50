package cards

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"siltstep/cmd/internal/facts"
	"siltstep/cmd/internal/units"

	"pgregory.net/rapid"
)

func TestTapeTo(t *testing.T) {
	f := drawnPlan(2, 3)
	d, err := newDocument(f, Options{})
	if err != nil {
		t.Fatal(err)
	}
	second := d.runs[0] // D02, which runs into D01
	upper := run{Series: facts.Series{ID: "D02-S2", Drainage: "D02", Number: 2}, dams: []facts.Site{second.dams[2]}}
	upper.dams[0].Series, upper.dams[0].SpacingDownM, upper.dams[0].RiseFromBelowM = 2, unknown, unknown
	fallen := run{Series: second.Series, dams: []facts.Site{second.dams[0], second.dams[1]}}
	fallen.dams[1].RiseFromBelowM = -0.07
	for _, row := range []struct {
		name string
		r    run
		i    int
		want string
	}{
		{"from the dam below", second, 1, "8.0 m upstream of D02-01, level distance; 0.48 m higher."},
		// Station 20 m at 6 %: 1.20 m above the lower end.
		{"the lowest from the confluence", second, 0, "20.0 m upstream of the lower end of D02, its confluence with D01, level distance along the channel; 1.20 m higher."},
		{"the lowest where a line ends", d.runs[1], 0, "20.0 m upstream of the lower end of D01, where its line ends on the map, level distance along the channel; 1.20 m higher."},
		// The plan's nearest dam below station 36 m stands at 28 m: 8 m and 0.48 m.
		{"the lowest of a series above another", upper, 0, "8.0 m upstream of D02-02, the nearest dam of the series below, level distance; 0.48 m higher."},
		{"a bed that falls", fallen, 1, "8.0 m upstream of D02-01, level distance; 0.07 m lower."},
	} {
		t.Run(row.name, func(t *testing.T) {
			if got := d.tapeTo(row.r, row.i).near; got != row.want {
				t.Errorf("%s\nwant %s", got, row.want)
			}
		})
	}
	if got := d.tapeTo(second, 2).lines[0]; !strings.HasPrefix(got, "From D02-01, the lowest dam of the series: 16.0 m along the channel; 0.96 m higher") {
		t.Error(got)
	}
}

func TestDistancesAddUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var r run
		at := 10.0
		for k := range rapid.IntRange(2, 60).Draw(t, "dams") {
			far := float64(rapid.IntRange(200, 3000).Draw(t, "distance, cm")) / 100
			at += far
			s := facts.Site{ID: fmt.Sprint(k), Series: 1, StationM: facts.Num(at), SpacingDownM: facts.Num(far)}
			if k == 0 {
				s.SpacingDownM = unknown
			}
			r.dams = append(r.dams, s)
		}
		for _, system := range []units.System{units.Metric, units.US} {
			d := &document{system: system}
			long := float64(r.dams[len(r.dams)-1].StationM - r.dams[0].StationM)
			if sum := d.tapeSumM(r, d.tapeDecimals(r)); math.Abs(sum-long) > 0.01*long {
				t.Fatalf("%s: distances add up to %g m of %g m", system, sum, long)
			}
			if fault := d.tapeFault(r); fault != "" {
				t.Fatal(fault)
			}
		}
	})
}

func TestDistancesThatDisagree(t *testing.T) {
	f := drawnPlan(1, 3)
	f.Sites[2].SpacingDownM = 9 // stations say 8 m
	d, err := newDocument(f, Options{})
	if err != nil {
		t.Fatal(err)
	}
	if got, want := d.tapeFault(d.runs[0]), "add up to 17.0 m and its stations to 16.0 m"; !strings.Contains(got, want) {
		t.Errorf("%q does not say %q", got, want)
	}
}

func TestRunsOf(t *testing.T) {
	f := drawnPlan(3, 2)
	f.Series[2].LeftOut, f.Series[2].BuildOrder = true, 1
	f.Series = append(f.Series[:0], f.Series[0], f.Series[2]) // D02 is in no series of the plan
	f.Sites[0], f.Sites[1] = f.Sites[1], f.Sites[0]
	var got []string
	for _, r := range runsOf(f) {
		got = append(got, r.ID+" "+r.place()+" "+r.idsText())
	}
	want := []string{"D01-S1 3 D01-01, D01-02", "D03-S1 left out D03-01, D03-02", "D02-S1 not set D02-01, D02-02"}
	if strings.Join(got, "; ") != strings.Join(want, "; ") {
		t.Errorf("%q, want %q", got, want)
	}
}
