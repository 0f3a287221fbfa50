package facts

import (
	"encoding/json"
	"fmt"
	"math"
	"reflect"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"
)

// A territory draws places of one layer from ranges that no other number of the plan falls into: whatever number of these ranges shows up
// tells a place of the layer.
type territory struct {
	t     *rapid.T
	layer int // its place in Layers
}

func (r territory) draw(from, width float64) float64 {
	hundredths := rapid.IntRange(1, int(width*100)-1).Draw(r.t, "hundredths")
	return from + float64(hundredths)/100
}

func (r territory) lon() float64     { return -110 - float64(r.layer) - r.draw(0, 0.9) }
func (r territory) lat() float64     { return 30 + float64(r.layer) + r.draw(0, 0.9) }
func (r territory) station() float64 { return 10_000*float64(1+r.layer) + r.draw(0, 900) }
func (r territory) height() float64  { return 2_000 + 100*float64(r.layer) + r.draw(0, 90) }
func (r territory) place() Place {
	return Place{Num(r.lon()), Num(r.lat()), Num(500_000 + 10_000*float64(r.layer) + r.draw(0, 9_000)), Num(4_100_000 + 10_000*float64(r.layer) + r.draw(0, 9_000))}
}

// tells reports whether a number falls into a range of the layer.
func (r territory) tells(x float64) bool {
	i := float64(r.layer)
	for _, low := range []float64{10_000 * (1 + i), 2_000 + 100*i, 500_000 + 10_000*i, 4_100_000 + 10_000*i} {
		width := map[bool]float64{true: 90, false: 9_000}[low < 10_000]
		if x > low && x < low+width {
			return true
		}
	}
	return x > 30+i && x < 31+i || x < -110-i && x > -111-i
}

// remark draws a text about a place, with a sentence that tells it and one that does not.
func (r territory) remark() string {
	told := rapid.SampledFrom([]string{
		fmt.Sprintf("A step of 0.6 m lies at station %.1f m", r.station()),
		fmt.Sprintf("C01 at x %.1f m was cut 2.08 m deep", r.place().XM),
		fmt.Sprintf("The bed is at %.2f m", r.height()),
		fmt.Sprintf("Go to %.7f, %.7f", r.lat(), r.lon()),
	}).Draw(r.t, "told")
	return told + rapid.SampledFrom([]string{"; ", ". "}).Draw(r.t, "end") + plain
}

const plain = "Walk there before anything is built."

// drawFolder draws a plan of two drainages: D01 carries a dam, a headcut and a depression, D02 nothing.
func drawFolder(t *rapid.T) *Folder {
	of := func(layer string) territory { return territory{t, slices.Index(Layers(), layer)} }
	dams, cuts, pits, lines := of("dams"), of("headcuts"), of("depressions"), of("drainages")
	line := func(r territory) orb.LineString { return orb.LineString{{r.lon(), r.lat()}, {r.lon(), r.lat()}} }
	polygon := func(r territory) orb.Geometry { return orb.Polygon{orb.Ring(line(r))} }
	station := func(along, at territory, dam string) Station {
		return Station{Place: along.place(), StationM: at.station(), GroundM: at.height(), BedM: at.height(), CatchmentHa: at.station(), DamID: dam, NotchSillM: math.NaN(), DepositM: math.NaN()}
	}
	f := &Folder{Plan: Plan{
		Cautions:  []Text{{"This is a planning aid."}},
		Drainages: []Drainage{{ID: "D01", PropertyShare: Num(of("limits").station())}, {ID: "D02", PropertyShare: 1}},
		Sites: []Site{{ID: "D01-01", Drainage: "D01", StationM: Num(dams.station()), BedM: Num(dams.height()), NotchSillM: Num(dams.height()), DamTopM: Num(dams.height()), WedgeEndM: Num(dams.station()),
			CatchmentHa: Num(dams.station()), SpacingUpM: Num(dams.station()), SpacingDownM: Num(dams.station()), RiseFromBelowM: Num(dams.station()), RockT: 6.9, Cautions: dams.remark(), Place: dams.place()}},
		Designs:     []Design{{ID: "D01-01", Notes: cuts.remark(), Missing: dams.remark()}},
		Series:      []Series{{ID: "D01-S1", Drainage: "D01", FromStationM: Num(dams.station()), ToStationM: Num(dams.station()), TreatedM: 23.76, Before: cuts.remark()}},
		Checks:      []Check{{"D01-01", 1, dams.remark()}, {"D01-01", 2, fmt.Sprintf("At station %.1f m", dams.station())}},
		Weaknesses:  []Weakness{{"D01-01", "toe", 0.3, cuts.remark()}},
		Changes:     []Change{{ID: "D01-01", Kind: "moved", Text: dams.remark(), Note: "by the old oak"}},
		Headcuts:    []Headcut{{ID: "H01", Drainage: "D01", StationM: Num(cuts.station()), CatchmentHa: Num(cuts.station()), HeightM: 1.36, Place: cuts.place()}},
		Depressions: []Depression{{ID: "C01", Drainage: "D01", DepthM: 2.08, Note: pits.remark(), Place: pits.place()}},
		Reaches: []Reach{
			{Drainage: "D01", FromStationM: Num(dams.station()), ToStationM: Num(cuts.station()), Verdict: "eligible", Notes: dams.remark()},
			{Drainage: "D02", FromStationM: Num(of("limits").station()), Verdict: "not eligible", Reasons: of("limits").remark()},
		},
		Findings: []Finding{
			{Rule: "cuts", Subject: "D01", Text: pits.remark(), Lon: Num(pits.lon()), Lat: Num(pits.lat())},
			{Rule: "property-line", Subject: "D01", Text: of("limits").remark()},
			{Rule: "cuts", Text: "Places that hold water back: 42, 27.0 m³ in all."},
			{Rule: "standing-water", Subject: "D02", Text: fmt.Sprintf("Water stands at station %.1f m", pits.station())},
		},
	}}
	f.Lines = map[string]orb.LineString{"D01": line(lines), "D02": line(lines)}
	f.ReachLines = []orb.LineString{line(lines), line(lines)}
	f.Catchments = map[string]orb.Geometry{"D01": polygon(of("catchments")), "D02": polygon(of("catchments"))}
	f.Limits = map[string][]orb.Geometry{"property": {polygon(of("limits"))}}
	f.Profiles = map[string]Profile{"D01": {station(lines, dams, "D01-01"), station(lines, cuts, ""), station(lines, pits, "")}, "D02": {station(lines, lines, "")}}
	f.Sections = map[string]Section{"D01-01": {{0, dams.height(), dams.height()}}}
	return f
}

// shown returns all that a folder holds as a text.
func shown(t interface{ Fatal(...any) }, f *Folder) string {
	text, err := json.Marshal(f.Plan)
	if err != nil {
		t.Fatal(err)
	}
	return fmt.Sprint(string(text), f.Lines, f.ReachLines, f.Catchments, f.Limits, f.Profiles, f.Sections)
}

var anyNumber = regexp.MustCompile(`-?[0-9]+(?:\.[0-9]+)?(?:e[+-]?[0-9]+)?`)

// No number of a private place is left, nor one that it could be worked out from, and the plan that was given stays whole.
func TestShareTellsNoPrivatePlace(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := drawFolder(t)
		before := shown(t, f)
		private := rapid.SliceOfNDistinct(rapid.SampledFrom(Layers()), 1, len(Layers()), rapid.ID[string]).Draw(t, "private")
		text := shown(t, Share(f, private))
		for _, layer := range Hidden(private) {
			r := territory{t, slices.Index(Layers(), layer)}
			for _, number := range anyNumber.FindAllString(text, -1) {
				if x, err := strconv.ParseFloat(number, 64); err != nil || r.tells(x) {
					t.Fatalf("private %v: %s tells a place of %s in\n%s", private, number, layer, text)
				}
			}
		}
		if private[0] != "catchments" && strings.Contains(text, "old oak") {
			t.Fatal("a place in words is left")
		}
		if shown(t, f) != before {
			t.Fatal("the plan itself was changed")
		}
	})
}

// Measures, and what tells no place, stay.
func TestShareKeepsMeasures(t *testing.T) {
	f := rapid.Custom(drawFolder).Example(1)
	s := Share(f, []string{"dams"})
	if len(s.Cautions) != 2 || s.Cautions[0].Text != "A version to share: exact places were left out of dams and footprints, and so were the stations, profiles and remarks "+
		"that would give them away. Nothing can be staked out from it: ask whoever made the plan for the whole of it." || s.Cautions[1] != f.Cautions[0] {
		t.Errorf("cautions %v", s.Cautions)
	}
	if s.Sites[0].RockT != 6.9 || s.Series[0].TreatedM != 23.76 || s.Sites[0].Cautions != plain || s.Series[0].Before != plain {
		t.Errorf("%+v", s.Sites[0])
	}
	if !reflect.DeepEqual(s.Headcuts, f.Headcuts) || !reflect.DeepEqual(s.Lines, f.Lines) || len(s.Limits) != 1 || s.Profiles["D02"] == nil {
		t.Error("what is not private is gone")
	}
	if s.Profiles["D01"] != nil || len(s.Reaches) != 1 || len(s.ReachLines) != 1 || !slices.Equal(s.ReachLines[0], f.ReachLines[1]) {
		t.Errorf("a profile or piece along dams is left, or lines do not fit their pieces: %+v", s.Reaches)
	}
	last := s.Findings[len(s.Findings)-1]
	if len(s.Findings) != 4 || s.Findings[2].Text != f.Findings[2].Text || last.Text != "Findings that tell a place were left out: 1. They are in the whole plan." {
		t.Errorf("findings %+v", s.Findings)
	}
	if len(s.Checks) != 1 || s.Checks[0].Text != plain {
		t.Errorf("checks %+v", s.Checks)
	}
	if all := Share(f, nil); shown(t, all) != shown(t, f) {
		t.Error("nothing is private, and something was left out")
	}
}

func TestHidden(t *testing.T) {
	for _, row := range []struct{ private, want string }{
		{"", ""}, {"headcuts", "headcuts"}, {"footprints", "dams footprints"}, {"limits dams", "dams footprints limits"},
		{"drainages", "dams headcuts drainages catchments depressions footprints"},
	} {
		if got := strings.Join(Hidden(strings.Fields(row.private)), " "); got != row.want {
			t.Errorf("%s: %s, want %s", row.private, got, row.want)
		}
	}
	defer func() {
		if recover() == nil {
			t.Error("a layer that is none is taken")
		}
	}()
	Hidden([]string{"roads"})
}

func TestWithoutFigures(t *testing.T) {
	for _, row := range []struct{ text, want string }{
		{"", ""}, {"Walk there", "Walk there"}, {"6.5 m upstream", ""},
		{"Level the sill, 6.5 m upstream. Walk there; station 3 m; key the wings.", "Walk there; key the wings."},
		{"Walk there; ½ m off", "Walk there"},
	} {
		if got := withoutFigures(row.text); got != row.want {
			t.Errorf("%q: %q, want %q", row.text, got, row.want)
		}
	}
}
