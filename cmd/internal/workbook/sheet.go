package workbook

import (
	"strings"
	"unicode/utf8"

	"siltstep/geojson"

	"github.com/xuri/excelize/v2"
)

// Widths of columns, in letters. Source: our own choice, so that a sheet fits a screen.
const (
	leastWidth = 9
	mostWidth  = 60
	nameMargin = 4 // for the arrow of the filter
)

// A sheet is a table with its columns.
type sheet struct {
	name   string
	fields []geojson.Field
	rows   [][]any // values, or formulas with the value that they have now
}

// A formula is a cell that computes itself.
type formula struct {
	text string
	now  any // number or text; nil for an empty one
}

// column returns the place of a column by its name, from 1; it panics where there is none.
func (s *sheet) column(name string) int {
	for i, f := range s.fields {
		if f.Name == name {
			return i + 1
		}
	}
	panic("workbook: no column " + name + " in " + s.name)
}

// write adds a sheet to a workbook: a frozen header, a filter, widths, and numbers in the form of their column.
func (s *sheet) write(book *excelize.File, look looks) error {
	if _, err := book.NewSheet(s.name); err != nil {
		return err
	}
	if err := book.AutoFilter(s.name, s.filterRange(), nil); err != nil {
		return err
	}
	out, err := book.NewStreamWriter(s.name)
	if err != nil {
		return err
	}
	for i := range s.fields {
		if err := out.SetColWidth(i+1, i+1, s.width(i)); err != nil {
			return err
		}
	}
	if err := out.SetPanes(&excelize.Panes{Freeze: true, XSplit: 1, YSplit: 1, TopLeftCell: "B2", ActivePane: "bottomRight"}); err != nil {
		return err
	}
	header := make([]any, len(s.fields))
	for i, f := range s.fields {
		header[i] = excelize.Cell{Value: f.Name, StyleID: look.header}
	}
	if err := out.SetRow("A1", header); err != nil {
		return err
	}
	for k, row := range s.rows {
		cells := make([]any, len(row))
		for i, v := range row {
			cells[i] = s.cell(i, v, look)
		}
		if err := out.SetRow(cellName(1, k+2), cells); err != nil {
			return err
		}
	}
	return out.Flush()
}

// cell returns a value in the form of its column; nil for what is not known.
func (s *sheet) cell(i int, v any, look looks) any {
	style := look.of(s.fields[i], s.width(i))
	if f, ok := v.(formula); ok {
		return excelize.Cell{Value: f.now, Formula: f.text, StyleID: style}
	}
	if v == nil {
		return nil
	}
	return excelize.Cell{Value: v, StyleID: style}
}

// width returns how wide a column is, in letters.
func (s *sheet) width(i int) float64 {
	w := max(leastWidth, utf8.RuneCountInString(s.fields[i].Name)+nameMargin)
	if s.fields[i].Type == geojson.Text {
		for _, row := range s.rows {
			if text, ok := row[i].(string); ok {
				w = max(w, utf8.RuneCountInString(text)+1)
			}
		}
	}
	return float64(min(w, mostWidth))
}

// looks are the forms of cells by what they hold.
type looks struct {
	header  int
	text    int
	long    int
	whole   int
	decimal map[int]int // by digits after the point
}

func newLooks(book *excelize.File) (l looks, err error) {
	style := func(s excelize.Style) (id int) {
		if err == nil {
			id, err = book.NewStyle(&s)
		}
		return id
	}
	top := &excelize.Alignment{Vertical: "top"}
	wrapped := &excelize.Alignment{Vertical: "top", WrapText: true}
	l.header = style(excelize.Style{Font: &excelize.Font{Bold: true}, Alignment: top, Border: []excelize.Border{{Type: "bottom", Color: "000000", Style: 2}}})
	l.text, l.long = style(excelize.Style{Alignment: top}), style(excelize.Style{Alignment: wrapped})
	whole := "0"
	l.whole = style(excelize.Style{Alignment: top, CustomNumFmt: &whole})
	l.decimal = map[int]int{}
	for digits := 1; digits <= geojson.DegreeDecimals; digits++ {
		form := "0." + strings.Repeat("0", digits)
		l.decimal[digits] = style(excelize.Style{Alignment: top, CustomNumFmt: &form})
	}
	return l, err
}

// of returns the form of a column of a given width.
func (l looks) of(f geojson.Field, width float64) int {
	switch f.Type {
	case geojson.Real:
		return l.decimal[max(f.Decimals, 1)]
	case geojson.Int:
		return l.whole
	case geojson.Text:
		if width == mostWidth {
			return l.long
		}
	}
	return l.text
}

// filterRange returns the cells that a filter covers, header included.
func (s *sheet) filterRange() string {
	return "A1:" + cellName(len(s.fields), len(s.rows)+1)
}

// cellName returns the name of a cell by column and row, both from 1.
func cellName(column, row int) string {
	name, err := excelize.CoordinatesToCellName(column, row)
	if err != nil {
		panic("workbook: " + err.Error())
	}
	return name
}
