package report

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"text/tabwriter"

	"siltstep/cmd/internal/units"
	"siltstep/hydro/storm"
)

// WritePeak writes the storm peak of one catchment for a person to read: every method, the one chosen, the spread, what must be
// known beside them. Error: w failed.
func WritePeak(w io.Writer, q storm.Request, r storm.Result, system units.System) error {
	var out bytes.Buffer
	out.WriteString("Storm peak of one catchment: a planning aid, not an engineered design.\n\n")
	rows := tabwriter.NewWriter(&out, 0, 0, 2, ' ', 0)
	fmt.Fprintf(rows, "  Catchment\t%s\n", system.Area(q.CatchmentM2, 2))
	if !math.IsNaN(r.RainMM) {
		fmt.Fprintf(rows, "  Rain\t%s\n", depthText(r.RainMM, system))
	}
	if !math.IsNaN(r.RunoffMM) {
		fmt.Fprintf(rows, "  Runoff\t%s\n", depthText(r.RunoffMM, system))
	}
	if !math.IsNaN(r.TimeOfConcentrationS) {
		fmt.Fprintf(rows, "  Time of concentration\t%.1f min\n", r.TimeOfConcentrationS/60)
	}
	rows.Flush()
	out.WriteString("\nPeak by method\n")
	for _, m := range r.Methods {
		verdict := "in its range"
		switch {
		case math.IsNaN(m.PeakM3s):
			verdict = "not computed"
		case !m.Valid:
			verdict = "NOT in its range"
		case m.Method == r.Chosen:
			verdict += ", chosen"
		}
		paragraph(&out, "  - ", fmt.Sprintf("%s: %s, %s. Range: %s. %s", m.Method, flowText(m.PeakM3s, system), verdict, m.Range, m.Note))
	}
	out.WriteByte('\n')
	if math.IsNaN(r.PeakM3s) {
		out.WriteString("  No peak: see what is missing.\n")
	} else {
		spread := "no other method is in its range"
		if validMethods(r) > 1 {
			spread = fmt.Sprintf("valid methods give %s to %s", flowText(r.LowM3s, system), flowText(r.HighM3s, system))
		}
		fmt.Fprintf(&out, "  Design peak %s, by the %s method; %s.\n", flowText(r.PeakM3s, system), r.Chosen, spread)
	}
	out.WriteString("\nTo know beside the numbers\n")
	for _, n := range r.Findings {
		paragraph(&out, "  - ", n.Text)
	}
	out.WriteString("\nCautions\n")
	for _, c := range Cautions(system) {
		paragraph(&out, "  - ", c)
	}
	writeSources(&out, peakSources(r))
	_, err := w.Write(out.Bytes())
	return err
}

// validMethods counts the methods that are inside their range.
func validMethods(r storm.Result) (count int) {
	for _, m := range r.Methods {
		if m.Valid && !math.IsNaN(m.PeakM3s) {
			count++
		}
	}
	return count
}

// flowText shows a peak to two or three figures: more would be false.
func flowText(m3s float64, system units.System) string {
	decimals := 3
	switch shown := system.FlowScale().Value(m3s); {
	case shown >= 100:
		decimals = 0
	case shown >= 10:
		decimals = 1
	case shown >= 0.1:
		decimals = 2
	}
	return system.Flow(m3s, decimals)
}

// depthText shows a depth of rain in mm or in.
func depthText(mm float64, system units.System) string {
	if system == units.US {
		return fmt.Sprintf("%.2f in", mm/units.InchMM)
	}
	return fmt.Sprintf("%.1f mm", mm)
}

type peakJSON struct {
	RainMM               nullable     `json:"rain_mm"`
	RunoffMM             nullable     `json:"runoff_mm"`
	RunoffDryMM          nullable     `json:"runoff_dry_mm"`
	RunoffWetMM          nullable     `json:"runoff_wet_mm"`
	TimeOfConcentrationM nullable     `json:"time_of_concentration_min"`
	Methods              []methodJSON `json:"methods"`
	Chosen               *string      `json:"chosen"`
	PeakM3s              nullable     `json:"peak_m3s"`
	LowM3s               nullable     `json:"low_m3s"`
	HighM3s              nullable     `json:"high_m3s"`

	Findings []findingJSON `json:"findings"`
}

type methodJSON struct {
	Method   string   `json:"method"`
	PeakM3s  nullable `json:"peak_m3s"`
	Valid    bool     `json:"valid"`
	Range    string   `json:"range"`
	Note     string   `json:"note"`
	Recalled bool     `json:"recalled"`
}

// WritePeakJSON writes the storm peak of one catchment for a program: SI, null for what was not computed. Error: w failed.
func WritePeakJSON(w io.Writer, r storm.Result) error {
	out := peakJSON{RainMM: nullable(r.RainMM), RunoffMM: nullable(r.RunoffMM), RunoffDryMM: nullable(r.RunoffDryMM), RunoffWetMM: nullable(r.RunoffWetMM),
		TimeOfConcentrationM: nullable(r.TimeOfConcentrationS / 60), Chosen: textOrNull(string(r.Chosen)),
		PeakM3s: nullable(r.PeakM3s), LowM3s: nullable(r.LowM3s), HighM3s: nullable(r.HighM3s), Findings: []findingJSON{}}
	for _, m := range r.Methods {
		out.Methods = append(out.Methods, methodJSON{string(m.Method), nullable(m.PeakM3s), m.Valid, m.Range, m.Note, m.Recalled})
	}
	for _, n := range r.Findings {
		out.Findings = append(out.Findings, findingJSON{string(n.Rule), false, nullable(n.Got), nullable(n.Limit), n.Text, textOrNull(n.Source), n.Recalled})
	}
	return writeJSON(w, out)
}
