package facts

import (
	"fmt"
	"regexp"
	"strings"
	"unicode"
)

// textLeftOut stands where an empty text would read as if nothing were to say.
const textLeftOut = "Left out with the exact places."

// hideTexts leaves out of every text what tells a place.
func (f *Folder) hideTexts() {
	f.Sites = each(f.Sites, func(s *Site) { s.Cautions = withoutFigures(s.Cautions) })
	f.Designs = each(f.Designs, func(d *Design) {
		d.Notes = withoutFigures(d.Notes)
		if d.Missing != "" {
			d.Missing = orLeftOut(withoutFigures(d.Missing))
		}
	})
	f.Series = each(f.Series, func(s *Series) {
		if s.Before != "" {
			s.Before = orLeftOut(withoutFigures(s.Before))
		}
	})
	f.Reaches = each(f.Reaches, func(r *Reach) { r.Reasons, r.Notes = withoutFigures(r.Reasons), withoutFigures(r.Notes) })
	f.Depressions = each(f.Depressions, func(d *Depression) { d.Note = withoutFigures(d.Note) })
	f.Changes = each(f.Changes, func(c *Change) { c.Text, c.Note = textLeftOut, "" })
	f.hideChecks()
	f.hideFindings()
}

func orLeftOut(text string) string {
	if text == "" {
		return textLeftOut
	}
	return text
}

// hideChecks drops the checks and weaknesses of which nothing is left.
func (f *Folder) hideChecks() {
	var checks []Check
	for _, c := range f.Checks {
		if c.Text = withoutFigures(c.Text); c.Text != "" {
			checks = append(checks, c)
		}
	}
	var weaknesses []Weakness
	for _, w := range f.Weaknesses {
		if w.Text = withoutFigures(w.Text); w.Text != "" {
			weaknesses = append(weaknesses, w)
		}
	}
	f.Checks, f.Weaknesses = checks, weaknesses
}

// placed matches what tells a place in a finding about the plan as a whole.
var placed = regexp.MustCompile(`(?i)\bstations?\b|\b[xy] -?[0-9]|\blongitude\b|\blatitude\b|°|[0-9]\.[0-9]{4}`)

// hideFindings drops the findings of which nothing is left, and says how many they are.
func (f *Folder) hideFindings() {
	var findings []Finding
	for _, one := range f.Findings {
		one.Lon, one.Lat = unknown, unknown
		if one.Subject != "" || placed.MatchString(one.Text) {
			one.Text = withoutFigures(one.Text)
		}
		if one.Text != "" {
			findings = append(findings, one)
		}
	}
	if n := len(f.Findings) - len(findings); n > 0 {
		findings = append(findings, Finding{Rule: "places-left-out", Text: fmt.Sprintf("Findings that tell a place were left out: %d. They are in the whole plan.", n), Lon: unknown, Lat: unknown})
	}
	f.Findings = findings
}

// sentence matches a text up to a full stop or semicolon before a blank, or to its end.
var sentence = regexp.MustCompile(`(?:[^.;]|[.;]\S)+[.;]*\s*`)

// withoutFigures returns the sentences of a text that hold no digit, and so neither a distance, a position nor an id.
func withoutFigures(text string) string {
	var kept strings.Builder
	for _, one := range sentence.FindAllString(text, -1) {
		if !strings.ContainsFunc(one, unicode.IsNumber) {
			kept.WriteString(one)
		}
	}
	return strings.TrimRight(kept.String(), "; \n")
}
