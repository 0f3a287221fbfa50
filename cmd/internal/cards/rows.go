package cards

import (
	"fmt"
	"strconv"

	"siltstep/cmd/internal/facts"
)

// rows returns the figures of a dam, each with its name.
func (d *document) rows(r run, s facts.Site) [][2]string {
	design := d.f.Design(s.ID)
	m := func(x facts.Num) string { return d.length(x, 2) }
	rows := [][2]string{
		{"Height", m(s.EffectiveHeightM) + " from bed to notch sill"},
		{"Notch", m(s.NotchWidthM) + " wide at its sill, " + m(s.NotchDepthM) + " deep" + notchForm(design)},
		{"Top of the wings", m(s.DamTopM-s.BedM) + " above the bed"},
		{"Elevations", "bed " + d.bare(s.BedM) + ", sill " + d.bare(s.NotchSillM) + ", top " + m(s.DamTopM)},
		{"Crest", m(s.CrestLengthM) + " long, " + m(s.CrestWidthM) + " thick along the flow"},
		{"Faces", d.faces.text()},
		{"Key", m(s.KeyBedM) + " into the bed, " + m(s.KeyBankM) + " into each bank"},
		{"Apron", m(s.ApronLengthM) + " long below the dam"},
		{"Stone", "D50 " + d.stone(s.StoneD50M) + ": half of the stones larger"},
		{"Rock", d.rock(s.RockM3, s.RockT)},
		{"Loads", loadsText(r)},
		{"Channel", "bed " + m(s.BedWidthM) + " wide, " + m(s.BankToBankM) + " bank to bank, lower bank " + m(s.BankHeightM) + " high"},
		{"Storm peak", d.flow(s.PeakM3s) + stormText(s)},
		{"Notch can pass", capacityText(d, design)},
		{d.landName(), d.land(s.CatchmentHa) + "; bed slope " + shown(s.Slope, d.system.SlopeScale(), 1)},
		{"Confidence", confidenceText(s) + ", of the elevation model here"},
	}
	return rows
}

// landName names the land that drains to a dam in the words of the system.
func (d *document) landName() string {
	if d.system.String() == "us" {
		return "Drainage area"
	}
	return "Catchment"
}

// notchForm words the shape of a notch.
func notchForm(design *facts.Design) string {
	if design == nil || design.NotchShape == "" {
		return ""
	}
	form := ", " + design.NotchShape
	if design.NotchSideSlope.Known() && design.NotchSideSlope > 0 {
		form += ", sides " + faceText(float64(design.NotchSideSlope))
	}
	return form
}

// loadsText says how many loads the series takes; the plan counts them by series.
func loadsText(r run) string {
	if !r.Loads.Known() {
		return notKnown + ": the plan counts none"
	}
	return fmt.Sprintf("%s for the whole series %s", count(r.Loads), r.ID)
}

// stormText words the storm of a peak.
func stormText(s facts.Site) string {
	if !s.PeakM3s.Known() || !s.ReturnPeriodYr.Known() || !s.StormHours.Known() {
		return ""
	}
	number := func(x facts.Num) string { return strconv.FormatFloat(float64(x), 'g', 4, 64) }
	return " (" + number(s.ReturnPeriodYr) + "-year storm of " + number(s.StormHours) + " h)"
}

func capacityText(d *document, design *facts.Design) string {
	if design == nil {
		return notKnown
	}
	words := d.flow(design.CapacityM3s)
	if design.FreeboardM.Known() {
		words += " with " + d.length(design.FreeboardM, 2) + " freeboard"
	}
	return words
}

func confidenceText(s facts.Site) string {
	if s.Confidence == "" {
		return "not judged"
	}
	return s.Confidence
}
