package workbook

import (
	"fmt"
	"io"

	"siltstep/cmd/internal/facts"

	"github.com/xuri/excelize/v2"
)

// pinnedDate is what a workbook says of when it was made, so that the same plan gives the same bytes.
const pinnedDate = "2000-01-01T00:00:00Z"

// Write writes plan.xlsx. Errors: w failed, or a text is longer than a cell can hold.
func Write(w io.Writer, f *facts.Folder) error {
	if err := write(w, f); err != nil {
		return fmt.Errorf("plan.xlsx: %w", err)
	}
	return nil
}

func write(w io.Writer, f *facts.Folder) error {
	sheets, err := sheetsOf(f)
	if err != nil {
		return err
	}
	book := excelize.NewFile()
	defer book.Close() // nothing is left to lose
	book.SetZipWriter(newArchive)
	look, err := newLooks(book)
	if err != nil {
		return err
	}
	if err := book.SetSheetName(book.GetSheetName(0), sheets[0].name); err != nil {
		return err
	}
	for _, s := range sheets {
		if err := s.write(book, look); err != nil {
			return fmt.Errorf("sheet %s: %w", s.name, err)
		}
	}
	who := f.Program.Name + " " + f.Program.Version
	if err := book.SetDocProps(&excelize.DocProperties{Title: "Check-dam plan", Creator: who, LastModifiedBy: who, Created: pinnedDate, Modified: pinnedDate}); err != nil {
		return err
	}
	if err := book.SetAppProps(&excelize.AppProperties{Application: f.Program.Name}); err != nil {
		return err
	}
	return book.Write(w)
}

// sheetsOf returns the sheets of a workbook in their order.
func sheetsOf(f *facts.Folder) (sheets []*sheet, err error) {
	add := func(s *sheet, fault error) {
		if err == nil {
			err = fault
		}
		sheets = append(sheets, s)
	}
	dams, err := damSheet(f)
	if err != nil {
		return nil, err
	}
	add(cautionSheet(f), nil)
	add(dams, nil)
	add(sheetOf("Drainages", "drainages", f.Drainages))
	add(sheetOf("Series", "series", f.Series))
	add(quantitySheet(f, dams), nil)
	add(sheetOf("Scenarios", "scenarios", f.Scenarios))
	add(sheetOf("Findings", "findings", f.Findings))
	add(sheetOf("Settings", "settings", f.Settings))
	add(sheetOf("Sources", "sources", f.Sources))
	if err != nil {
		return nil, err
	}
	return append(sheets, dictionarySheet(sheets)), nil
}
