package cli

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"os"
	"strconv"
	"strings"

	"siltstep/cmd/internal/units"
	"siltstep/hydro/checkdam"
)

// maxSectionBytes is the largest file taken for a cross-section. Own choice: some hundred thousand points.
const maxSectionBytes = 4 << 20

// loadSection reads a cross-section from a file.
func loadSection(path string) (checkdam.Section, error) {
	file, err := os.Open(path)
	if err != nil {
		return checkdam.Section{}, requestf("--section: %w", err)
	}
	defer file.Close()
	points, err := readSection(io.LimitReader(file, maxSectionBytes))
	if err != nil {
		return checkdam.Section{}, requestf("%s: %w", path, err)
	}
	s, err := checkdam.NewSection(points)
	if err != nil {
		return checkdam.Section{}, requestf("%s: %w", path, err)
	}
	return s, nil
}

// errSectionColumns says what a section file must hold.
var errSectionColumns = errors.New("the first row names no columns offset_m and ground_m, nor offset_ft and ground_ft: offsets from left to right looking downstream, and levels")

// readSection reads points from CSV with a header; other columns are passed over, as are rows without a level.
func readSection(r io.Reader) ([]checkdam.Point, error) {
	rows := csv.NewReader(r)
	rows.FieldsPerRecord = -1
	rows.TrimLeadingSpace = true
	header, err := rows.Read()
	if err != nil {
		return nil, errSectionColumns
	}
	offset, ground, unitM := sectionColumns(header)
	if offset < 0 || ground < 0 {
		return nil, errSectionColumns
	}
	var points []checkdam.Point
	for {
		row, err := rows.Read()
		if errors.Is(err, io.EOF) {
			return points, nil
		}
		if err != nil {
			return nil, fmt.Errorf("not a CSV table: %w", err)
		}
		line, _ := rows.FieldPos(0)
		if max(offset, ground) >= len(row) || len(row) > len(header) {
			return nil, fmt.Errorf("line %d: %d columns; the header names %d; write decimals with a point", line, len(row), len(header))
		}
		if strings.TrimSpace(row[ground]) == "" {
			continue
		}
		var at [2]float64
		for i, text := range []string{row[offset], row[ground]} {
			if at[i], err = strconv.ParseFloat(strings.TrimSpace(text), 64); err != nil {
				return nil, fmt.Errorf("line %d: %s is no number; write decimals with a point", line, units.Shown(text))
			}
		}
		points = append(points, checkdam.Point{OffsetM: at[0] * unitM, LevelM: at[1] * unitM})
	}
}

// sectionColumns finds the columns of offset and level, and their unit in metres; -1 where one is missing.
func sectionColumns(header []string) (offset, ground int, unitM float64) {
	for _, unit := range []struct {
		name string
		m    float64
	}{{"m", 1}, {"ft", units.FootM}} {
		offset, ground = -1, -1
		for i, name := range header {
			switch strings.ToLower(strings.TrimSpace(strings.TrimPrefix(name, "\ufeff"))) {
			case "offset_" + unit.name:
				offset = i
			case "ground_" + unit.name:
				ground = i
			}
		}
		if offset >= 0 && ground >= 0 {
			return offset, ground, unit.m
		}
	}
	return -1, -1, 1
}
