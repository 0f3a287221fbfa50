package cli

import (
	"io"

	"siltstep/cmd/internal/chart"
	"siltstep/cmd/internal/report"
	"siltstep/hydro/channel"
	"siltstep/hydro/erosion"
	"siltstep/hydro/siting"
)

// drainageTables lists the tables of one drainage: its profile, where that has two stations
// or more, and its cross-sections, where there are any.
func (w planWriter) drainageTables(i int) (files []textFile) {
	plan, d := w.record.Plan, &w.record.Plan.Network.Drainages[i]
	if len(d.Profile.Stations) >= 2 {
		files = append(files, textFile{"profiles/" + d.ID + ".csv", func(to io.Writer) error {
			return report.WriteProfile(to, d.Profile, plan.Erosion[i].Depths, w.sites(i), plan.Config.Siting.DepositRatio, w.record.ToLonLat)
		}})
	}
	if sections := plan.Sections[i]; len(sections) > 0 {
		files = append(files, textFile{"sections/" + d.ID + ".csv", func(to io.Writer) error { return report.WriteSections(to, sections) }})
	}
	return append(files, w.damTables(i)...)
}

// drainageDrawings lists the drawings of one drainage: its profile, and the deepest of its
// resolved cross-sections, where that has banks.
func (w planWriter) drainageDrawings(i int) (files []textFile) {
	plan, d := w.record.Plan, &w.record.Plan.Network.Drainages[i]
	if len(d.Profile.Stations) >= 2 {
		drawn := profileOf(d, plan.Erosion[i])
		drawn.Sites, drawn.DepositRatio = w.sites(i), plan.Config.Siting.DepositRatio
		files = append(files, textFile{"profiles/" + d.ID + ".svg", func(to io.Writer) error { return chart.WriteProfile(to, drawn, w.units) }})
	}
	if section := report.Deepest(plan.Sections[i]); section != nil && section.DepthM > 0 {
		files = append(files, textFile{"sections/" + d.ID + ".svg", func(to io.Writer) error {
			return chart.WriteSection(to, *section, d.ID+", deepest cross-section", w.units)
		}})
	}
	return append(files, w.damDrawings(i)...)
}

// sites returns the dams of a drainage; none where none were looked for.
func (w planWriter) sites(i int) []siting.Site {
	if w.record.ScreenedOnly() {
		return nil
	}
	return w.record.Plan.Layouts[i].Sites
}

// profileOf returns the profile of a drainage to draw, without dams.
func profileOf(d *channel.Drainage, j erosion.Judgement) chart.Profile {
	return chart.Profile{Title: d.ID, Stations: d.Profile.Stations, Truncated: d.Truncated,
		IncisionM: j.Depths.IncisionM, TopHatM: j.Depths.TopHatM, Headcuts: j.Headcuts}
}
