package cli

import (
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"github.com/paulmach/orb"

	"siltstep/cmd/internal/cards"
	"siltstep/cmd/internal/facts"
	"siltstep/cmd/internal/field"
	"siltstep/cmd/internal/funder"
	"siltstep/cmd/internal/page"
	"siltstep/cmd/internal/report"
	"siltstep/cmd/internal/settings"
	"siltstep/cmd/internal/units"
	"siltstep/cmd/internal/workbook"
	"siltstep/raster/gdal"
)

// An audience is whom files are made for.
type audience string

// The audiences.
const (
	forPlanner audience = "planner"
	forCrew    audience = "crew"
	forFunder  audience = "funder"
)

var audiences = []audience{forPlanner, forCrew, forFunder}

// A handover is what is made of a finished plan for those who work with it: all of it from the files of the plan, so that
// no two say different things.
type handover struct {
	plan   *facts.Folder
	config settings.Settings // of which handover and funding alone are read
	hidden []string          // layers whose places are left out
	units  units.System
	toGrid func([]orb.Point) ([]orb.Point, error) // longitude and latitude to the grid
}

// openHandover reads the plan in a folder back. free ends its use.
func openHandover(dir string, system units.System) (h *handover, free func(), err error) {
	plan, err := facts.Read(dir)
	if err != nil {
		return nil, nil, request(err)
	}
	wkt, err := gdal.LayerCRS(filepath.Join(dir, "plan.gpkg"))
	if err != nil {
		return nil, nil, err
	}
	h = &handover{plan: plan, units: system}
	if h.config, err = settingsOfPlan(plan); err != nil {
		return nil, nil, requestf("%s: its settings cannot be read: %w; make the plan anew", dir, err)
	}
	h.toGrid, free = gdal.Projector("EPSG:4326", wkt)
	return h, free, nil
}

// settingsOfPlan reads the settings of the handover back from a plan.
func settingsOfPlan(plan *facts.Folder) (settings.Settings, error) {
	var text strings.Builder
	section := ""
	for _, s := range plan.Settings {
		of, key, ok := strings.Cut(s.Key, ".")
		if !ok || of != "handover" && of != "funding" {
			continue
		}
		if of != section {
			fmt.Fprintf(&text, "%s:\n", of)
			section = of
		}
		value := s.Value
		if !strings.HasPrefix(value, "[") && !strings.HasPrefix(value, `"`) {
			value = fmt.Sprintf("%q", value)
		}
		fmt.Fprintf(&text, "  %s: %s\n", key, value)
	}
	return settings.Parse("plan.json", []byte(text.String()))
}

// share leaves out the places of the private layers.
func (h *handover) share() {
	h.hidden = facts.Hidden(h.config.Handover.Private)
	h.plan = facts.Share(h.plan, h.config.Handover.Private)
}

// title returns the name of the land, or that of the first elevation file.
func (h *handover) title() string {
	if h.config.Handover.Title != "" {
		return h.config.Handover.Title
	}
	for _, in := range h.plan.Inputs {
		if in.Role == "elevation" {
			return titleOf([]string{in.File})
		}
	}
	return ""
}

// files lists what an audience gets.
func (h *handover) files(whom audience) []textFile {
	switch whom {
	case forPlanner:
		return []textFile{
			{"report.html", h.writePage},
			{"plan.xlsx", func(to io.Writer) error { return workbook.Write(to, h.plan) }},
		}
	case forCrew:
		names := field.Options{System: h.units, Title: h.title()}
		return []textFile{
			{"cards.pdf", func(to io.Writer) error {
				return cards.Write(to, h.plan, cards.Options{System: h.units, Paper: h.config.Handover.Paper, Title: h.title(), ToGrid: h.toGrid})
			}},
			{"sites.gpx", func(to io.Writer) error { return field.WriteGPX(to, h.plan, names) }},
			{"sites.kml", func(to io.Writer) error { return field.WriteKML(to, h.plan, names) }},
			{"sites.csv", func(to io.Writer) error { return field.WriteSites(to, h.plan) }},
			{"stakeout.csv", func(to io.Writer) error { return field.WriteStakeout(to, h.plan) }},
		}
	}
	return []textFile{
		{"summary.md", func(to io.Writer) error { return funder.WriteMarkdown(to, h.plan, h.funderOptions()) }},
		{"summary.html", func(to io.Writer) error { return funder.WriteHTML(to, h.plan, h.funderOptions()) }},
	}
}

// writePage writes the report page, with the relief of the plan where it shows no hidden channel.
func (h *handover) writePage(to io.Writer) error {
	var shade []byte
	if len(h.hidden) == 0 {
		var err error
		if shade, err = os.ReadFile(filepath.Join(h.plan.Dir, "hillshade.png")); err != nil {
			return fmt.Errorf("the relief of the map: %w", err)
		}
	}
	return page.Write(to, h.plan, page.Options{Title: h.title(), Hillshade: shade, ToGrid: h.toGrid})
}

// funderOptions returns what goes into the summary beside the plan. What cannot be read is left out, and the text says so.
func (h *handover) funderOptions() funder.Options {
	f := h.config.Funding
	opt := funder.Options{System: h.units, Title: h.title(), HidePlaces: len(h.hidden) > 0,
		Match: funder.Match{Share: f.MatchShare, Base: funder.Base(f.MatchBase), Federal: f.Federal}}
	if len(h.hidden) > 0 {
		return opt
	}
	opt.MapSVG, _ = os.ReadFile(filepath.Join(h.plan.Dir, "map.svg"))
	opt.Works, _ = funder.ReadWorks(h.plan.Dir)
	return opt
}

// handOver writes everything for everybody into the folder of a plan whose other files are written.
func (w planWriter) handOver(ctx context.Context) error {
	if err := w.out.write("plan.schema.json", report.WritePlanSchema); err != nil {
		return err
	}
	h, free, err := openHandover(w.out.stage, w.units)
	if err != nil {
		return fmt.Errorf("reading the plan back: %w", err)
	}
	defer free()
	_, err = h.write(ctx, w.out, audiences)
	return err
}

// write writes the files of some audiences and returns their names.
func (h *handover) write(ctx context.Context, out *folder, whom []audience) (names []string, err error) {
	for _, reader := range whom {
		for _, file := range h.files(reader) {
			if err := ctx.Err(); err != nil {
				return nil, err
			}
			if err := out.write(file.name, file.fill); err != nil {
				return nil, err
			}
			names = append(names, file.name)
		}
	}
	return names, nil
}
