package report

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"strings"
	"text/tabwriter"

	"siltstep/cmd/internal/units"
	"siltstep/geojson"
	"siltstep/hydro/channel"
	"siltstep/hydro/erosion"

	"github.com/paulmach/orb"
)

// When the two measures of depth count as agreeing. Source: our own choices; banks are seldom
// level with the land around, which the second measure takes.
const (
	agreeM     = 0.15 // m, half of the depth that counts as incised
	agreeShare = 0.25 // of the mean depth
)

const (
	mostHeadcuts   = 12 // headcuts listed
	degreeDecimals = 6  // of a place to go to: 0.1 m
)

// An evidence is what WriteEvidence writes from.
type evidence struct {
	Record
	units.System
	at      int // drainage
	d       *channel.Drainage
	j       erosion.Judgement
	deepest *channel.Section
	places  []orb.Point // of deepest, or of the deepest station where there is none; then of the headcuts
}

// WriteEvidence writes what the severity of one drainage rests on, line by line: parts with
// limits, scores and weights, where the deepest section and the headcuts are, how much of it
// the elevation model shows, and what was not judged. i is its place in the network. Errors:
// the projector failed; w failed.
func WriteEvidence(w io.Writer, r Record, i int, system units.System) error {
	e := evidence{Record: r, System: system, at: i, d: &r.Plan.Network.Drainages[i], j: r.judgement(i)}
	if i < len(r.Plan.Sections) {
		e.deepest = Deepest(r.Plan.Sections[i])
	}
	if err := e.project(); err != nil {
		return fmt.Errorf("evidence of %s: %w", e.d.ID, err)
	}
	var out bytes.Buffer
	paragraph(&out, "", e.verdict())
	out.WriteByte('\n')
	e.parts(&out)
	out.WriteByte('\n')
	for _, line := range [][2]string{
		{"Deepest", e.deepestText()},
		{"Depth", e.depthText()},
		{"Sections", e.sectionsText()},
		{"Two ways", e.agreementText()},
		{"Headcuts", e.headcutsText()},
		{"Catchment", e.catchmentText()},
		{"Rank", e.rankText()},
		{"Not judged", e.notJudged()},
	} {
		if line[1] != "" {
			paragraph(&out, fmt.Sprintf("  %-12s", line[0]), line[1])
		}
		if line[0] == "Headcuts" {
			e.listHeadcuts(&out)
		}
	}
	_, err := w.Write(out.Bytes())
	return err
}

// project finds the places to go to, in one batch.
func (e *evidence) project() (err error) {
	var at []orb.Point
	if e.deepest != nil {
		at = append(at, orb.Point{e.deepest.X, e.deepest.Y})
	} else if s := e.deepestStation(); s != nil {
		at = append(at, orb.Point{s.X, s.Y})
	} else {
		at = append(at, orb.Point{e.d.Profile.Stations[0].X, e.d.Profile.Stations[0].Y})
	}
	for _, h := range e.j.Headcuts {
		at = append(at, orb.Point{h.X, h.Y})
	}
	e.places, err = e.ToLonLat.Project(at)
	return err
}

// deepestStation returns the station where the bed lies lowest below the land; nil where that
// is known nowhere.
func (e *evidence) deepestStation() *channel.Station {
	var found *channel.Station
	deepest := math.Inf(-1)
	for k, m := range e.j.Depths.IncisionM {
		if m > deepest {
			found, deepest = &e.d.Profile.Stations[k], m
		}
	}
	return found
}

func (e *evidence) verdict() string {
	s := e.j.Severity
	if s.Class == "" {
		return fmt.Sprintf("%s has no severity: its depth is known over %s of its length, and at least %s is needed. See below why, and go and look.",
			e.d.ID, percent(e.j.Depths.KnownShare), percent(erosion.MinKnownShare))
	}
	return fmt.Sprintf("%s is classed %s: %s. Severity %s of 100, this project's judgement; rank %d of %d.",
		e.d.ID, s.Class, e.meaning(), number(s.Total, 0), s.Rank, e.rankedCount())
}

// cutPieceM is the incised length from which a sound drainage is said to have pieces that are cut, m. Source: our own choice.
const cutPieceM = 10

// meaning says what the class asks for. What the mean over a sound drainage hides is told.
func (e *evidence) meaning() string {
	switch e.j.Severity.Class {
	case erosion.Severe:
		return "it has cut far into the land; walk it first"
	case erosion.Eroding:
		return "it has cut into the land and may go on; walk it"
	case erosion.Watch:
		if m := e.j.Severity.WornM; m > 0 {
			return fmt.Sprintf("as a whole it is in good shape, but one piece of %s is cut; look at that piece on its own", e.Length(m, 0))
		}
		return "it has cut into the land in places or a little; walk it after the worse ones, and again after storms"
	}
	d, heads := e.j.Depths, geojson.CountHeadcuts(e.j.Headcuts)
	if cutM := d.IncisedShare * d.KnownShare * e.d.Profile.LengthM(); heads > 0 || cutM >= cutPieceM {
		return fmt.Sprintf("as a whole it is in good shape, but %s of it is cut, with %s; look at that piece on its own", e.Length(cutM, 0), counted(heads, "headcut"))
	}
	return "it is in good shape, and nothing found calls for work in the channel"
}

func (e *evidence) rankedCount() int {
	n := 0
	for _, j := range e.Plan.Erosion {
		if j.Severity.Rank > 0 {
			n++
		}
	}
	return n
}

// parts writes the table of parts, and what rescaling did.
func (e *evidence) parts(out *bytes.Buffer) {
	s := e.j.Severity
	known := knownWeight(s)
	rows := tabwriter.NewWriter(out, 0, 0, 2, ' ', tabwriter.AlignRight)
	fmt.Fprint(rows, "part\tmeasured\t0 to 100 points at\tscore\tweight\tpoints\tshare\t\n")
	all := 0.0
	for _, p := range s.Parts {
		all += p.Weight
		scale := scaleOf(e.Plan.Config.Erosion, p.Name)
		value := "not judged"
		adds := points(p, s)
		if !math.IsNaN(p.Value) {
			value = e.value(p.Value, p.Unit)
		}
		fmt.Fprintf(rows, "%s\t%s\t%s\t%s\t%s\t%s\t%s\t\n", partTitle(p.Name), value, e.limits(scale, p.Unit),
			number(p.Score, 0), number(p.Weight, 0), number(adds, 1), percent(shareOf(adds, s.Total)))
	}
	rows.Flush()
	if known > 0 && known < all {
		paragraph(out, "  ", fmt.Sprintf("What was judged weighs %s of %s, so each of its weights counts %.2f times.", number(known, 0), number(all, 0), all/known))
	}
}

// shareOf returns part over whole; NaN where the whole is nothing.
func shareOf(part, whole float64) float64 {
	if whole == 0 {
		return math.NaN()
	}
	return part / whole
}

// limits returns the values that give 0 and 100 points, the unit once.
func (e *evidence) limits(s erosion.Scale, unit string) string {
	zero, _, _ := strings.Cut(e.value(s.Zero, unit), " ")
	return zero + " to " + e.value(s.Full, unit)
}

// value returns the value of a part in the units of the system.
func (e *evidence) value(v float64, unit string) string {
	switch unit {
	case "m":
		return e.Length(v, depthDecimals)
	case "m/100 m": // the same number in feet
		u := e.LengthScale().Unit
		return fmt.Sprintf("%s %s/100 %s", number(v, depthDecimals), u, u)
	}
	return number(v, depthDecimals)
}

// partTitle names a part of a severity for people.
func partTitle(name string) string { return strings.ReplaceAll(name, "-", " ") }

func placeText(p orb.Point) string {
	return fmt.Sprintf("longitude %s, latitude %s", geojson.AppendReal(nil, p[0], degreeDecimals, ""), geojson.AppendReal(nil, p[1], degreeDecimals, ""))
}
