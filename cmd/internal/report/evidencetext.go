package report

import (
	"bytes"
	"cmp"
	"fmt"
	"math"
	"regexp"
	"slices"
	"strings"

	"siltstep/geojson"
	"siltstep/hydro/erosion"
)

func (e *evidence) deepestText() string {
	if s := e.deepest; s != nil && !(s.DepthM > 0) {
		return "No cross-section shows banks: where they are resolved, the bed lies level with the land beside it."
	}
	if s := e.deepest; s != nil {
		return fmt.Sprintf("The bed lies %s below the lower bank at station %s (%s). There it is %s wide, and the banks stand %s apart: the left %s high at %s, the right %s at %s.",
			e.Length(s.DepthM, depthDecimals), e.Length(s.StationM, lengthDecimals), placeText(e.places[0]), e.Length(s.BedWidthM, lengthDecimals), e.Length(s.TopWidthM, lengthDecimals),
			e.Length(s.Left.HeightM, depthDecimals), steepness(s.Left.Slope), e.Length(s.Right.HeightM, depthDecimals), steepness(s.Right.Slope))
	}
	if s := e.deepestStation(); s != nil {
		return fmt.Sprintf("The bed lies %s below the land around it at station %s (%s). No cross-section is resolved, so banks are not known.",
			e.Length(e.j.Depths.MaxM, depthDecimals), e.Length(s.StationM, lengthDecimals), placeText(e.places[0]))
	}
	return "How deep it lies can be told nowhere."
}

// steepness returns the slope of a bank, rise over run, in degrees.
func steepness(riseOverRun float64) string {
	if math.IsNaN(riseOverRun) {
		return "an unknown slope"
	}
	return fmt.Sprintf("%.0f°", math.Atan(riseOverRun)*180/math.Pi)
}

func (e *evidence) depthText() string {
	d := e.j.Depths
	if math.IsNaN(d.MeanM) {
		return ""
	}
	return fmt.Sprintf("Known over %s of its %s; %s of that is %s deep or deeper. Mean %s, most %s.", percent(d.KnownShare), e.Length(e.d.Profile.LengthM(), lengthDecimals),
		percent(d.IncisedShare), e.Length(e.Plan.Config.Erosion.IncisedM, depthDecimals), e.Length(d.MeanM, depthDecimals), e.Length(d.MaxM, depthDecimals))
}

// mostReasons is how many reasons are told why sections are not resolved.
const mostReasons = 3

// sectionsText says how many sections are resolved, and why the others are not.
func (e *evidence) sectionsText() string {
	if e.at >= len(e.Plan.Sections) || len(e.Plan.Sections[e.at]) == 0 {
		return "No cross-section was taken."
	}
	resolved, all := 0, e.Plan.Sections[e.at]
	var others []string
	for _, s := range all {
		if s.Resolved {
			resolved++
		} else {
			others = append(others, strings.TrimSuffix(s.Why, "."))
		}
	}
	text := fmt.Sprintf("%d of %d cross-sections are resolved (cells of %s).", resolved, len(all), e.Length(e.Plan.Grid.Transform.CellM, 2))
	if len(others) > 0 {
		text += " Of the others, " + strings.Join(alike(others), "; ") + "."
	}
	return text
}

// figure matches a number in a sentence.
var figure = regexp.MustCompile(`[0-9]+(\.[0-9]+)?`)

// alike counts sentences that differ in numbers alone, the most frequent first, and gives the first of each.
func alike(texts []string) []string {
	type group struct {
		first string
		n     int
	}
	at := map[string]int{}
	var groups []group
	for _, text := range texts {
		key := figure.ReplaceAllString(text, "#")
		if _, ok := at[key]; !ok {
			at[key] = len(groups)
			groups = append(groups, group{first: text})
		}
		groups[at[key]].n++
	}
	slices.SortStableFunc(groups, func(a, b group) int { return cmp.Compare(b.n, a.n) })
	var out []string
	rest := 0
	for i, g := range groups {
		switch {
		case i >= mostReasons:
			rest += g.n
		case g.n == 1:
			out = append(out, "1: "+g.first)
		default:
			out = append(out, fmt.Sprintf("%d such as: %s", g.n, g.first))
		}
	}
	if rest > 0 {
		out = append(out, fmt.Sprintf("%d for other reasons", rest))
	}
	return out
}

func (e *evidence) agreementText() string {
	d := e.j.Depths
	if math.IsNaN(d.DisagreeM) {
		return "Depth was measured in one way at most, so nothing confirms it. Measure it on the ground."
	}
	text := fmt.Sprintf("Depth below the banks of the sections, and below the land within %s with the form of the valley taken out, differ by %s in the median: ",
		e.Length(e.Plan.Config.Erosion.WindowM, 0), e.Length(d.DisagreeM, depthDecimals))
	if d.DisagreeM <= max(agreeM, agreeShare*d.MeanM) {
		return text + "they agree."
	}
	return text + "they do not agree. Look at the sections and the profile, and measure on the ground."
}

func (e *evidence) headcutsText() string {
	height := 0.0
	for _, h := range e.j.Headcuts {
		if h.Cause == erosion.CauseHeadcut {
			height += h.HeightM
		}
	}
	heads, steps := geojson.CountHeadcuts(e.j.Headcuts), len(e.j.Headcuts)
	least := e.Length(e.Plan.Config.Erosion.HeadcutM, depthDecimals)
	text := fmt.Sprintf("%s of at least %s, clear of the noise of the survey; %s high in all.", counted(heads, "headcut"), least, e.Length(height, depthDecimals))
	switch {
	case steps == 0:
		return "No step of at least " + least + " stands clear of the noise of the survey."
	case steps > heads:
		text += fmt.Sprintf(" %s more at roads or stock ponds, which do not count.", counted(steps-heads, "step"))
	}
	return text
}

// counted returns a number of things, "1 step" or "2 steps".
func counted(n int, thing string) string {
	if n != 1 {
		thing += "s"
	}
	return fmt.Sprintf("%d %s", n, thing)
}

// listHeadcuts writes the headcuts from the lower end upstream.
func (e *evidence) listHeadcuts(out *bytes.Buffer) {
	first := 1
	for _, j := range e.Plan.Erosion[:min(e.at, len(e.Plan.Erosion))] {
		first += len(j.Headcuts)
	}
	list := e.j.Headcuts
	for k, h := range list[:min(len(list), mostHeadcuts)] {
		paragraph(out, strings.Repeat(" ", 14)+"- ", fmt.Sprintf("%s: %s high at station %s (%s), %s above it%s", geojson.HeadcutID(first+k), e.Length(h.HeightM, depthDecimals),
			e.Length(h.StationM, lengthDecimals), placeText(e.places[1+k]), e.Area(h.CatchmentM2, areaDecimals), atCause(h.Cause)))
	}
	if more := len(list) - mostHeadcuts; more > 0 {
		fmt.Fprintf(out, "%sand %d more in headcuts.geojson\n", strings.Repeat(" ", 14), more)
	}
}

func atCause(c erosion.Cause) string {
	switch c {
	case erosion.CauseRoad:
		return ", at a road: look at the culvert first"
	case erosion.CauseDam:
		return ", at a stock pond: look at its dam and spillway first"
	}
	return ""
}

func (e *evidence) catchmentText() string {
	text := fmt.Sprintf("%s drain to its lower end; bed slope %s over %s.", e.Area(e.d.CatchmentM2, areaDecimals),
		e.Slope(e.d.Profile.DropM()/e.d.Profile.LengthM(), percentDecimals), e.Length(e.d.Profile.LengthM(), lengthDecimals))
	if e.d.Truncated {
		text = "At least " + text + " Water enters over the edge of the data, so its storms are larger than this land makes them."
	}
	if e.PropertyShare != nil {
		text += fmt.Sprintf(" %s of its length lies inside the property.", percent(e.PropertyShare[e.at]))
	}
	return text
}

// firmShare is the share of draws from which a place among the first ten is called firm. Source: our own choice.
const firmShare = 0.9

func (e *evidence) rankText() string {
	s := e.j.Severity
	if s.Rank == 0 {
		return ""
	}
	if e.rankedCount() <= erosion.SteadyFirst {
		return fmt.Sprintf("No more than %d drainages are ranked, so how firm the rank is cannot be told: compare the severities.", erosion.SteadyFirst)
	}
	text := fmt.Sprintf("Among the first %d in %s of %d draws in which weights and heights were varied.", erosion.SteadyFirst, percent(s.Steady), erosion.SteadyDraws)
	switch {
	case s.Steady >= firmShare:
		return text + " That is firm."
	case s.Steady <= 1-firmShare:
		return text + " That it is not one of them is firm."
	}
	return text + " That hangs on the weights and the survey: compare it with its neighbours in the table."
}

// notJudged says what the verdict leaves out.
func (e *evidence) notJudged() string {
	var text []string
	for _, p := range e.j.Severity.Parts {
		if math.IsNaN(p.Score) && p.Weight > 0 {
			text = append(text, partNeeds(p.Name))
		}
	}
	return strings.Join(append(text, "Soil, rock, cover, grazing and what was built since the survey.",
		"One survey shows how far the drainage has cut, not how fast it goes on: look for fresh walls, bare roots and undercut banks, or compare with an earlier survey."), " ")
}

// partNeeds says what a part that was not judged would need.
func partNeeds(name string) string {
	switch name {
	case "incision", "incised-length":
		return "Its " + partTitle(name) + ": the depth is known nowhere."
	case "shear":
		return "Shear on the bed: it needs a storm, the material of the bed, and cross-sections with banks."
	case "bank-slope":
		return "The slope of its banks: no cross-section shows them, or they are narrower than a cell, and how steep they are the cells cannot tell."
	}
	return "Its " + partTitle(name) + "."
}
