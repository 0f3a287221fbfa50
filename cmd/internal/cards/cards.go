package cards

import (
	"fmt"
	"io"

	"siltstep/cmd/internal/facts"
	"siltstep/cmd/internal/units"

	"github.com/paulmach/orb"
)

// Options say how the cards look.
type Options struct {
	System units.System
	Paper  string                                 // "a4" or "letter"; empty is "a4"
	Title  string                                 // of the land; "Check-dam plan" where empty
	ToGrid func([]orb.Point) ([]orb.Point, error) // longitude and latitude to metres of the grid, for drainages without a profile; nil leaves these out of the maps
}

// Write writes cover and cards as PDF. A plan without dams gives a cover that says so. Errors: the paper is not known, a place cannot be
// turned into metres of the grid, w failed.
func Write(w io.Writer, f *facts.Folder, opt Options) error {
	d, err := newDocument(f, opt)
	if err != nil {
		return fmt.Errorf("crew cards: %w", err)
	}
	d.cover()
	n := 0
	for _, r := range d.runs {
		for i := range r.dams {
			n++
			d.card(r, i, n)
		}
	}
	if err := d.pdf.Output(w); err != nil {
		return fmt.Errorf("crew cards: %w", err)
	}
	return nil
}

// A document is the paper on which a plan is drawn.
type document struct {
	*sheet
	f      *facts.Folder
	opt    Options
	system units.System
	runs   []run
	dams   int
	lines  []channel // of drainages, grid metres
	faces  faces
}

func newDocument(f *facts.Folder, opt Options) (*document, error) {
	if opt.Title == "" {
		opt.Title = "Check-dam plan"
	}
	s, err := newSheet(opt.Paper, opt.Title)
	if err != nil {
		return nil, err
	}
	lines, err := channels(f, opt.ToGrid)
	if err != nil {
		return nil, err
	}
	d := &document{sheet: s, f: f, opt: opt, system: opt.System, runs: runsOf(f), lines: lines, faces: facesOf(f)}
	for _, r := range d.runs {
		d.dams += len(r.dams)
	}
	return d, nil
}
