package cli

import (
	"io"
	"math"

	"siltstep/cmd/internal/chart"
	"siltstep/cmd/internal/report"
	"siltstep/hydro/channel"
	"siltstep/hydro/checkdam"
	"siltstep/raster"
)

// damTables lists the sections at the dams of a drainage as tables. A dam without a design has none: no cross-section near it shows
// bed and banks.
func (w planWriter) damTables(i int) (files []textFile) {
	for _, s := range w.damSections(i) {
		files = append(files, textFile{"sections/" + s.Site.ID + ".csv", func(to io.Writer) error {
			return report.WriteDamSection(to, s.Ground, s.Body())
		}})
	}
	return files
}

// damDrawings lists the drawings of the same sections.
func (w planWriter) damDrawings(i int) (files []textFile) {
	for _, s := range w.damSections(i) {
		files = append(files, textFile{"sections/" + s.Site.ID + ".svg", func(to io.Writer) error { return chart.WriteDamSection(to, s, w.units) }})
	}
	return files
}

// damSections returns the dams of a drainage that have a design, each in its section.
func (w planWriter) damSections(i int) (all []chart.DamSection) {
	plan := w.record.Plan
	for k, site := range w.sites(i) {
		dam := plan.Designs[i][k].Dam
		if dam == nil {
			continue
		}
		s := chart.DamSection{Site: site, Dam: dam, Ground: dam.Request.Section.Points(), AwayM: math.NaN()}
		for n := range s.Ground {
			s.Ground[n].LevelM += site.BedM
		}
		if read := sectionOf(plan.Sections[i], dam.Request.Section, site.StationM); read != nil {
			s.Ground, s.AwayM = groundOf(read, site.BedM), read.StationM-site.StationM
		}
		all = append(all, s)
	}
	return all
}

// sectionOf returns the cross-section that the section of a dam was made from, which reaches further: the nearest of those with the
// same tops of the banks; nil where there is none.
func sectionOf(sections []channel.Section, of checkdam.Section, stationM float64) (nearest *channel.Section) {
	points := of.Points()
	leftM, rightM := points[0].OffsetM, points[len(points)-1].OffsetM
	for i := range sections {
		s := &sections[i]
		if s.Resolved && s.Left.TopM == leftM && s.Right.TopM == rightM && (nearest == nil || math.Abs(s.StationM-stationM) < math.Abs(nearest.StationM-stationM)) {
			nearest = s
		}
	}
	return nearest
}

// groundOf returns the ground of a cross-section, raised or lowered as a whole so that its bed is at a level; NaN where there is no data.
func groundOf(s *channel.Section, bedM float64) []checkdam.Point {
	ground := make([]checkdam.Point, len(s.MM))
	for i, mm := range s.MM {
		ground[i] = checkdam.Point{OffsetM: s.FirstM + float64(i)*s.StepM, LevelM: float64(mm)/1000 - s.BedM + bedM}
		if mm == raster.VoidMM {
			ground[i].LevelM = math.NaN()
		}
	}
	return ground
}
