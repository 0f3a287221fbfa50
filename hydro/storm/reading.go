package storm

import (
	"errors"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
)

// Limits of a rain table in a file.
const (
	maxTableBytes = 1 << 20
	maxTableRows  = 500
	maxTableCols  = 100
)

// ReadTable reads a rain table from comma-separated text (semicolons or tabs do as well):
//
//	unit, mm
//	duration, 2 yr, 10 yr, 25 yr
//	5 min, 6.1, 9.8, 12.2
//	1 h, 18.0, 28.5, 35.1
//
// The unit line is required: mm or in for depths, mm/h or in/h for intensities, which become depths
// over their duration. Durations are in min, h or d, return periods in yr. Lines that begin with #
// and empty lines are skipped. An error names the line and what to write there; the table returned
// without one is valid.
func ReadTable(r io.Reader) (Table, error) {
	text, err := io.ReadAll(io.LimitReader(r, maxTableBytes+1))
	if err != nil {
		return Table{}, fmt.Errorf("rain table: %w", err)
	}
	if len(text) > maxTableBytes {
		return Table{}, fmt.Errorf("rain table: the file is over %d bytes; is it a table of durations and return periods?", maxTableBytes)
	}
	sheet, err := readSheet(strings.TrimPrefix(string(text), "\ufeff"))
	if err != nil {
		return Table{}, err
	}
	if row, err := sheet.table.fault(); err != nil {
		if row >= 0 {
			return Table{}, fmt.Errorf("line %d: %w", sheet.lines[row], err)
		}
		return Table{}, err
	}
	return sheet.table, nil
}

// A tableSheet is a rain table on its way in.
type tableSheet struct {
	table  Table
	lines  []int // line of each row of the table
	unit   rainUnit
	header bool // the return periods were read
}

func readSheet(text string) (*tableSheet, error) {
	parts := separator(text)
	s := &tableSheet{}
	line := 0
	for text := range strings.Lines(text) {
		line++
		if text = strings.TrimSpace(text); text == "" || text[0] == '#' {
			continue
		}
		row, err := cells(text, parts)
		if err == nil {
			err = s.take(line, row)
		}
		if err != nil {
			return nil, fmt.Errorf("line %d: %w", line, err)
		}
	}
	switch {
	case !s.header:
		return nil, errors.New("rain table: no line of return periods; write one like: duration, 2 yr, 10 yr")
	case s.unit.mm == 0:
		return nil, errors.New("rain table: no unit is stated; write a line like: unit, mm (or mm/h, in, in/h)")
	case len(s.lines) == 0:
		return nil, errors.New("rain table: no rows of rain; write lines like: 10 min, 8.2, 13.0")
	}
	for r, minutes := range s.table.DurationsMin {
		for c := range s.table.DepthsMM[r] {
			s.table.DepthsMM[r][c] *= s.unit.mm
			if s.unit.perHour {
				s.table.DepthsMM[r][c] *= minutes / 60
			}
		}
	}
	return s, nil
}

// separator returns what parts the cells of the first line that is not a comment.
func separator(text string) rune {
	for line := range strings.Lines(text) {
		if line = strings.TrimSpace(line); line == "" || line[0] == '#' {
			continue
		}
		for _, r := range ";\t" {
			if strings.ContainsRune(line, r) {
				return r
			}
		}
		break
	}
	return ','
}

// cells returns the cells of a line without space around them, without a pair of quotation marks around them, and without empty cells at
// the end.
func cells(line string, parts rune) ([]string, error) {
	out := strings.Split(line, string(parts))
	for i, cell := range out {
		cell = strings.TrimSpace(cell)
		if n := len(cell); n > 1 && cell[0] == '"' && cell[n-1] == '"' {
			cell = strings.TrimSpace(cell[1 : n-1])
		}
		if strings.Contains(cell, `"`) {
			return nil, errors.New("a quotation mark is left open; write plain cells between separators")
		}
		out[i] = cell
	}
	for len(out) > 0 && out[len(out)-1] == "" {
		out = out[:len(out)-1]
	}
	return out, nil
}

// take reads one line.
func (s *tableSheet) take(line int, row []string) error {
	switch {
	case len(row) == 0:
		return nil
	case strings.EqualFold(row[0], "unit"):
		return s.takeUnit(row)
	case strings.EqualFold(row[0], "duration"):
		return s.takeHeader(row)
	case !s.header:
		return fmt.Errorf("%q comes before the return periods; begin with a line like: duration, 2 yr, 10 yr", row[0])
	case len(row)-1 != len(s.table.ReturnPeriodsYr):
		return fmt.Errorf("%d values for %d return periods; give one for each", len(row)-1, len(s.table.ReturnPeriodsYr))
	case len(s.lines) == maxTableRows:
		return fmt.Errorf("more than %d durations; leave some out", maxTableRows)
	}
	minutes, err := duration(row[0])
	if err != nil {
		return err
	}
	values := make([]float64, len(row)-1)
	for i, cell := range row[1:] {
		if values[i], err = number(cell); err != nil {
			return fmt.Errorf("column %d: %w", i+2, err)
		}
	}
	s.table.DurationsMin = append(s.table.DurationsMin, minutes)
	s.table.DepthsMM = append(s.table.DepthsMM, values)
	s.lines = append(s.lines, line)
	return nil
}

func (s *tableSheet) takeUnit(row []string) error {
	if len(row) != 2 || s.unit.mm != 0 {
		return errors.New("write one line with one unit, like: unit, mm/h")
	}
	u, ok := rainUnits[strings.ToLower(strings.ReplaceAll(row[1], " ", ""))]
	if !ok {
		return fmt.Errorf("unit %q is not known; write mm, mm/h, in or in/h", row[1])
	}
	s.unit = u
	return nil
}

func (s *tableSheet) takeHeader(row []string) error {
	if s.header || len(row) < 2 || len(row) > maxTableCols {
		return fmt.Errorf("write one line with 1 to %d return periods, like: duration, 2 yr, 10 yr", maxTableCols)
	}
	for i, cell := range row[1:] {
		yr, unit, err := quantity(cell)
		if err != nil || !yearUnits[unit] {
			return fmt.Errorf("column %d: %q is no return period; write it like: 10 yr", i+2, cell)
		}
		s.table.ReturnPeriodsYr = append(s.table.ReturnPeriodsYr, yr)
	}
	s.header = true
	return nil
}

// rainUnit is a unit of depth or of intensity.
type rainUnit struct {
	mm      float64 // mm, or mm/h, in one of it
	perHour bool
}

var rainUnits = map[string]rainUnit{
	"mm": {1, false}, "mm/h": {1, true}, "mm/hr": {1, true},
	"in": {inchMM, false}, "inch": {inchMM, false}, "inches": {inchMM, false},
	"in/h": {inchMM, true}, "in/hr": {inchMM, true}, "inches/hour": {inchMM, true},
}

// minuteUnits are minutes in a unit of duration. A bare m is refused: it may be metres or months.
var minuteUnits = map[string]float64{
	"min": 1, "minute": 1, "minutes": 1, "h": 60, "hr": 60, "hrs": 60, "hour": 60, "hours": 60, "d": 1440, "day": 1440, "days": 1440,
}

var yearUnits = map[string]bool{"yr": true, "yrs": true, "year": true, "years": true, "a": true}

// duration reads "5 min", "5-min:", "1 h", "2 d" as minutes.
func duration(cell string) (float64, error) {
	n, unit, err := quantity(cell)
	factor, ok := minuteUnits[unit]
	if err != nil || !ok {
		return 0, fmt.Errorf("%q is no duration; write a number with min, h or d, like: 10 min", cell)
	}
	return n * factor, nil
}

// quantity parts a number from its unit; a hyphen between them and a colon after them do no harm.
func quantity(cell string) (float64, string, error) {
	cell = strings.TrimSuffix(strings.TrimSpace(cell), ":")
	end := strings.IndexFunc(cell, func(r rune) bool { return (r < '0' || r > '9') && r != '.' })
	if end < 0 {
		end = len(cell)
	}
	n, err := number(cell[:end])
	return n, strings.ToLower(strings.TrimLeft(cell[end:], " -")), err
}

// number reads a plain finite number, not negative.
func number(cell string) (float64, error) {
	n, err := strconv.ParseFloat(cell, 64)
	switch {
	case cell == "":
		return 0, errors.New("the cell is empty; give a number")
	case err != nil || strings.Trim(cell, "0123456789.eE+-") != "" || math.IsNaN(n) || math.IsInf(n, 0) || n < 0:
		return 0, fmt.Errorf("%q is not a plain number; write digits with a decimal point and no unit", cell)
	}
	return n, nil
}
