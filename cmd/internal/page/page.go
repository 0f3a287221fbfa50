package page

import (
	"encoding/json"
	"errors"
	"fmt"
	"html/template"
	"io"

	"siltstep/cmd/internal/facts"

	"github.com/paulmach/orb"
)

// Options say what the page shows beside the plan.
type Options struct {
	Title     string                                 // of the land; "Check-dam plan" where empty
	Hillshade []byte                                 // picture of the relief over exactly the grid, PNG; the map has none where empty
	ToGrid    func([]orb.Point) ([]orb.Point, error) // longitude and latitude to metres of the grid; must not be nil
}

// Write writes the page. Errors: the relief is no PNG, a place cannot be turned into metres of the grid, w failed. It panics without ToGrid.
func Write(w io.Writer, f *facts.Folder, opt Options) error {
	if opt.ToGrid == nil {
		panic("page: no ToGrid")
	}
	if opt.Title == "" {
		opt.Title = "Check-dam plan"
	}
	data, err := newData(f, opt)
	if err != nil {
		return fmt.Errorf("report page: %w", err)
	}
	text, err := json.Marshal(data)
	if err != nil {
		return fmt.Errorf("report page: %w", err)
	}
	script, err := scriptText()
	if err != nil {
		return err
	}
	style, err := styleText()
	if err != nil {
		return err
	}
	sheet, err := template.ParseFS(assets, "assets/page.html")
	if err != nil {
		return err
	}
	view := view{
		Folder: f, Title: opt.Title,
		Policy: policy(script, style), Script: template.JS(script), Style: template.CSS(style), Data: template.JS(text),
	}
	if err := sheet.Execute(w, view); err != nil {
		return fmt.Errorf("report page: %w", err)
	}
	return nil
}

// A view is what the sheet is filled with.
type view struct {
	*facts.Folder
	Title, Policy string
	Script        template.JS
	Style         template.CSS
	Data          template.JS // JSON, with < and > escaped
}

// errOutside says that a projection gave no usable place.
var errOutside = errors.New("a place lies outside the area of the grid's coordinate system")
