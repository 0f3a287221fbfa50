package funder

import (
	"io"

	"siltstep/cmd/internal/facts"
)

// build makes the document of a plan.
func build(f *facts.Folder, opt Options, marked bool) (document, *figures, error) {
	if err := opt.Match.check(); err != nil {
		return document{}, nil, err
	}
	if err := checkFilling(f.Filling); err != nil {
		return document{}, nil, err
	}
	if err := checkMap(opt.MapSVG); err != nil {
		return document{}, nil, err
	}
	g := newFigures(f, opt, marked)
	d := document{title: opt.Title}
	if d.title == "" {
		d.title = "Check dams: summary for a funder"
	}
	for _, part := range []func() section{g.cautions, g.narrative, g.place, g.need, g.goals, g.treatment, g.sediment, g.erosion, g.land, g.budget, g.match, g.schedule,
		g.monitoring, g.practices, g.permits, g.upkeep, g.doubts, g.unsaid, g.assumptions, g.sources, g.landowner} {
		d.sections = append(d.sections, part())
	}
	return d, g, nil
}

// WriteMarkdown writes the summary as Markdown with tables. Errors: the match is not usable, the map is no plain SVG, the plan has a dam fuller
// than full, w failed.
func WriteMarkdown(w io.Writer, f *facts.Folder, opt Options) error {
	d, _, err := build(f, opt, false)
	if err != nil {
		return err
	}
	file := opt.MapFile
	if file == "" {
		file = "map.svg"
	}
	_, err = io.WriteString(w, markdown(d, file))
	return err
}

// WriteHTML writes the summary as one HTML file that loads nothing, runs nothing and prints. Errors are those of WriteMarkdown.
func WriteHTML(w io.Writer, f *facts.Folder, opt Options) error {
	d, _, err := build(f, opt, false)
	if err != nil {
		return err
	}
	return writePage(w, d, opt.MapSVG)
}
