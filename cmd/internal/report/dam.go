package report

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"strings"
	"text/tabwriter"

	"siltstep/cmd/internal/units"
	"siltstep/hydro/checkdam"
)

// WriteDam writes one sized dam for a person to read, in the units of the system: what fails first, the numbers, what must be
// known beside them, cautions. Error: w failed.
func WriteDam(w io.Writer, d checkdam.Design, system units.System) error {
	var out bytes.Buffer
	fmt.Fprintf(&out, "One %s check dam: a planning aid, not an engineered design. Walk the site.\n", d.Request.Kind)
	if !d.Buildable {
		out.WriteString("\nDO NOT BUILD THIS DAM\n")
		writeNotes(&out, d, true, system)
	}
	out.WriteByte('\n')
	rows := tabwriter.NewWriter(&out, 0, 0, 2, ' ', 0)
	for _, row := range damRows(d, system) {
		fmt.Fprintf(rows, "  %s\t%s\n", row[0], row[1])
	}
	rows.Flush()
	out.WriteString("\nTo know beside the numbers\n")
	writeNotes(&out, d, false, system)
	out.WriteString("\nCautions\n")
	for _, c := range Cautions(system) {
		paragraph(&out, "  - ", c)
	}
	writeSources(&out, damSources(d))
	_, err := w.Write(out.Bytes())
	return err
}

// writeNotes writes the notes that fail, or the others. Who gave neither catchment nor yield did not ask how long the dam takes to fill.
func writeNotes(out *bytes.Buffer, d checkdam.Design, fail bool, s units.System) {
	unasked := d.Request.CatchmentM2 == 0 && d.Request.Yield == (checkdam.Yield{})
	for _, n := range d.Notes {
		if n.Fail == fail && !(unasked && n.Rule == checkdam.RuleYield) {
			paragraph(out, "  - ", n.Says.Say(shown(s)))
		}
	}
}

// damRows lists what is known of a dam, a name and a text each; a name that stays empty goes on with the one before.
func damRows(d checkdam.Design, s units.System) [][2]string {
	r, m := d.Request, func(v float64) string { return s.Length(v, 2) }
	rows := [][2]string{{"Height", m(r.HeightM) + " from the bed to the notch sill"}}
	if d.Notch != nil {
		rows = append(rows, [2]string{"", m(d.TopM) + " from the bed to the top of the wings; the banks are " + m(r.Section.BankHeightM())})
	}
	rows = append(rows, [2]string{"Spacing", fmt.Sprintf("%s axis to axis on the level, %s along the bed of %s (%s)",
		s.Length(d.Spacing.HorizontalM, 1), s.Length(d.Spacing.AlongSlopeM, 1), s.Slope(r.Slope, 1), d.Spacing.Rule)})
	if d.Dams > 0 {
		rows = append(rows, [2]string{"Dams", fmt.Sprintf("%d for %s of channel", d.Dams, s.Length(r.ReachM, 1))})
	}
	rows = append(rows, [2]string{"Body", fmt.Sprintf("crest %s thick along the flow, %s from bank to bank", m(r.CrestWidthM), s.Length(d.CrestM, 1))},
		[2]string{"", fmt.Sprintf("faces %s upstream, %s downstream: %s long at its base", faceText(r.FaceUp), faceText(r.FaceDown), s.Length(d.Body.LengthM(r.HeightM), 1))})
	rows = append(rows, notchRows(d, s)...)
	rows = append(rows, stoneRows(d, s)...)
	rows = append(rows, [2]string{"Key", fmt.Sprintf("%s into the bed, %s into each bank", m(d.Found.KeyBedM), m(d.Found.KeyBankM))},
		[2]string{"Apron", fmt.Sprintf("%s long, %s wide, %s thick, below the dam", s.Length(d.Found.ApronLengthM, 1), s.Length(d.Found.ApronWidthM, 1), m(d.Found.ApronThickM))})
	return append(append(rows, rockRows(d, s)...), storageRows(d, s)...)
}

// faceText shows a face, horizontal to vertical.
func faceText(run float64) string {
	if run == 0 {
		return "upright"
	}
	return fmt.Sprintf("%g:1", run)
}

// madeForPeak is the capacity over the peak up to which a notch is said to be made for it.
const madeForPeak = 1.005

func notchRows(d checkdam.Design, s units.System) [][2]string {
	n := d.Notch
	if n == nil {
		return [][2]string{{"Notch", "not sized: no peak is given"}}
	}
	form := fmt.Sprintf("%s, %s wide at the sill", n.Shape, s.Length(n.WidthM, 2))
	switch n.Shape {
	case checkdam.Trapezoidal:
		form += fmt.Sprintf(", sides %g:1", n.SideSlope)
	case checkdam.Parabolic:
		form = fmt.Sprintf("%s, %s wide at the top", n.Shape, s.Length(n.WidthM, 2))
	}
	peak := flowText(d.Request.PeakM3s, s)
	holds := "made for the peak of " + peak
	if more := n.CapacityM3s / d.Request.PeakM3s; more > madeForPeak {
		holds = fmt.Sprintf("the least that is built; it could pass %s, %.1f times the peak of %s", flowText(n.CapacityM3s, s), more, peak)
	}
	form += fmt.Sprintf(", %s deep", s.Length(n.DepthM, 2))
	if section := d.Request.Section; section.Measured() {
		form += fmt.Sprintf("; its middle at %s of the measured section", s.Length(section.BedMiddleM(), 2))
	}
	return [][2]string{
		{"Notch", form},
		{"", fmt.Sprintf("%s: %s of water over the sill, and %s freeboard", holds, s.Length(n.HeadM, 2), s.Length(n.FreeboardM, 2))},
	}
}

func stoneRows(d checkdam.Design, s units.System) (rows [][2]string) {
	switch {
	case !d.Limits.Rock:
		return nil
	case d.Stones == nil:
		return [][2]string{{"Stone", "not sized: no peak is given"}}
	case math.IsNaN(d.StoneM):
		rows = [][2]string{{"Stone", "not known: no method is inside its range"}}
	default:
		rows = [][2]string{{"Stone", fmt.Sprintf("%s median, half of the stones larger: the largest of the methods in range", stoneText(d.StoneM, s))}}
	}
	for _, stone := range d.Stones {
		verdict := "in range"
		if !stone.Valid {
			verdict = "not in range"
		}
		rows = append(rows, [2]string{"", fmt.Sprintf("%s: %s, %s: %s", stone.Method, stoneText(stone.WithFactorM, s), verdict, stone.Note.Say(shown(s)))})
	}
	return rows
}

func rockRows(d checkdam.Design, s units.System) [][2]string {
	r := d.Rock
	v := func(m3 float64) string { return s.Volume(m3, 2) }
	var items []string
	for _, item := range d.Items {
		items = append(items, itemText(item, s))
	}
	var rows [][2]string
	if len(items) > 0 {
		rows = append(rows, [2]string{"Bring", strings.Join(items, "; ")})
	}
	parts := fmt.Sprintf("%s in place, all for the apron", v(r.TotalM3))
	if d.Limits.Rock {
		parts = fmt.Sprintf("%s in place: body %s, keys %s, apron %s", v(r.TotalM3), v(r.BodyM3), v(r.KeyM3), v(r.ApronM3))
	}
	return append(rows,
		[2]string{"Rock", parts},
		[2]string{"", fmt.Sprintf("%s in place with %.0f %% voids; order %s, %.0f %% more", s.Mass(r.Tonnes, 1), 100*d.Request.Voids, s.Mass(r.OrderTonnes, 1), 100*d.Request.Waste)})
}

func storageRows(d checkdam.Design, s units.System) [][2]string {
	st := d.Storage
	rows := [][2]string{
		{"Pond", fmt.Sprintf("%s over %s, from the axis up to where the bed reaches the sill", s.Volume(st.PondM3, 1), s.Length(st.PondLengthM, 1))},
		{"Silt", fmt.Sprintf("%s over %s when full; the dam itself takes %s of it", s.Volume(st.SedimentM3, 1), s.Length(st.WedgeLengthM, 1), s.Volume(st.BodyM3, 1))},
	}
	if !math.IsNaN(st.FillYearsLow) {
		rows = append(rows, [2]string{"", fmt.Sprintf("full in %.2g to %.2g years, or in one large storm", st.FillYearsLow, st.FillYearsHigh)})
	}
	return rows
}
