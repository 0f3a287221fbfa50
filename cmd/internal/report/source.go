package report

import (
	"bytes"
	"slices"
	"strings"

	"siltstep/hydro"
	"siltstep/hydro/checkdam"
	"siltstep/hydro/storm"
)

// writeSources lists the publications behind a text, each once, by key.
func writeSources(out *bytes.Buffer, keys []string) {
	out.WriteString("\nSources\n")
	for _, s := range hydro.Sources() {
		if slices.Contains(keys, s.Key) {
			paragraph(out, "  - ", s.Key+": "+s.Text)
		}
	}
}

// damSources returns the keys behind a sized dam: of its kind, the spacing, notch, keys and apron, stone, and what was noted.
func damSources(d checkdam.Design) []string {
	keys := []string{d.Limits.HeightSource, d.Limits.WidthSource, d.Limits.BestSource, "Heede1976", "IndianaCheckDam"}
	switch d.Spacing.Rule {
	case checkdam.Heede:
		keys = append(keys, "HeedeMufich1973")
	default:
		keys = append(keys, "EPACheckDam")
	}
	for _, s := range d.Stones {
		keys = append(keys, s.Source)
	}
	for _, n := range d.Notes {
		keys = append(keys, n.Source)
	}
	return keys
}

// methodSources names what each method of the storm peak rests on.
var methodSources = map[storm.Method][]string{
	storm.MethodRational:       {"Ponce1989", "Thompson2007"},
	storm.MethodGraphical:      {"SCS1986"},
	storm.MethodUnitHydrograph: {"NRCSNEH630", "NWSUnitHydrograph", "SCS1986"},
}

// peakSources returns the keys behind a storm peak: of the methods that gave one, and of what was noted.
func peakSources(r storm.Result) []string {
	var keys []string
	for _, m := range r.Methods {
		if m.PeakM3s > 0 {
			keys = append(keys, methodSources[m.Method]...)
		}
	}
	for _, n := range r.Findings {
		keys = append(keys, n.Source)
	}
	return keys
}

// planSources returns the keys behind a plan: of its findings, the designs of its dams and the peaks at them.
func planSources(p *hydro.Plan) []string {
	var keys []string
	for _, f := range p.Findings {
		keys = append(keys, f.Source)
	}
	for _, designs := range p.Designs {
		for _, d := range designs {
			for _, m := range d.Methods {
				if m.PeakM3s > 0 {
					keys = append(keys, methodSources[m.Method]...)
				}
			}
			if d.Dam != nil {
				keys = append(keys, damSources(*d.Dam)...)
			}
		}
	}
	return keys
}

// sourceLine names the sources of a plan, each once; file is where they stand in full.
func sourceLine(keys []string, file string) string {
	var used []string
	for _, s := range hydro.Sources() {
		if slices.Contains(keys, s.Key) {
			used = append(used, s.Key)
		}
	}
	if len(used) == 0 {
		return "The sources of methods and numbers stand in " + file + "."
	}
	return "Sources, in full in " + file + ": " + strings.Join(used, ", ") + "."
}
