package cli

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"math"
	"os"
	"strconv"
	"strings"

	"siltstep/cmd/internal/settings"
	"siltstep/cmd/internal/units"
	"siltstep/hydro"
	"siltstep/hydro/storm"
)

// loadRain reads a table of rain from a file.
func loadRain(path string) (*storm.Table, error) {
	file, err := os.Open(path)
	if err != nil {
		return nil, requestf("rain table: %w", err)
	}
	defer file.Close()
	table, err := storm.ReadTable(file)
	if err != nil {
		return nil, tableFault(path, err)
	}
	return &table, nil
}

// tableFault names the file of a table, with the line where the error begins with one.
func tableFault(path string, err error) error {
	var line int
	if n, scan := fmt.Sscanf(err.Error(), "line %d: ", &line); n == 1 && scan == nil {
		_, text, _ := strings.Cut(err.Error(), ": ")
		return requestf("%s:%d: %s", path, line, text)
	}
	return requestf("%s: %w", path, err)
}

// designStorm returns the storm of the settings with its table read. What the table lacks is the fault of the key that asks
// for it.
func designStorm(cfg settings.Settings) (hydro.Storm, error) {
	var table *storm.Table
	if path := cfg.Files.Path(cfg.Files.Rain); path != "" {
		file, err := os.Open(path)
		if err != nil {
			return hydro.Storm{}, request(cfg.Fault("rain.table", "the table cannot be read: "+osFault(err).Error()))
		}
		file.Close()
		if table, err = loadRain(path); err != nil {
			return hydro.Storm{}, err
		}
		if err := fits(cfg, *table); err != nil {
			return hydro.Storm{}, request(err)
		}
	}
	s, err := cfg.DesignStorm(table)
	return s, request(err)
}

// fits tells whether a table holds the return period and the hours that the settings ask for.
func fits(cfg settings.Settings, table storm.Table) error {
	const minutesAnHour = 60
	key := "rain.return_period"
	if cfg.Storm.ReturnPeriodYr == 0 {
		key = "rain.table"
	}
	longest := table.DurationsMin[len(table.DurationsMin)-1]
	if _, _, err := table.DepthMM(longest, cfg.Storm.ReturnPeriodYr); err != nil {
		return cfg.Fault(key, err.Error())
	}
	if h := cfg.Storm.HoursH; h > 0 {
		if _, _, err := table.DepthMM(h*minutesAnHour, cfg.Storm.ReturnPeriodYr); err != nil {
			return cfg.Fault("rain.hours", err.Error())
		}
	}
	return nil
}

// osFault returns what is wrong with a file, without its name.
func osFault(err error) error {
	var at *fs.PathError
	if errors.As(err, &at) {
		return at.Err
	}
	return err
}

// loadMeasured reads a storm as it fell from a file.
func loadMeasured(path string) (*storm.Hyetograph, error) {
	file, err := os.Open(path)
	if err != nil {
		return nil, requestf("measured rain: %w", err)
	}
	defer file.Close()
	const most = 8 << 20 // bytes; more than the longest storm that is taken
	rain, err := readMeasured(io.LimitReader(file, most))
	if err == nil {
		err = rain.Validate()
	}
	if err != nil {
		return nil, requestf("%s: %w", path, err)
	}
	return &rain, nil
}

// errMeasuredColumns says what a file of measured rain must hold.
var errMeasuredColumns = errors.New("the first row must read minutes,rain_mm (or minutes,rain_in): the end of each step in minutes from the beginning, and the rain that fell in it")

// readMeasured reads rain by step from CSV. Steps must be equal.
func readMeasured(r io.Reader) (storm.Hyetograph, error) {
	rows := csv.NewReader(r)
	rows.FieldsPerRecord, rows.TrimLeadingSpace = 2, true
	header, err := rows.Read()
	if err != nil {
		return storm.Hyetograph{}, errMeasuredColumns
	}
	unitMM := map[string]float64{"rain_mm": 1, "rain_in": units.InchMM}[strings.ToLower(strings.TrimSpace(header[1]))]
	if strings.ToLower(strings.TrimSpace(strings.TrimPrefix(header[0], "\ufeff"))) != "minutes" || unitMM == 0 {
		return storm.Hyetograph{}, errMeasuredColumns
	}
	var out storm.Hyetograph
	for {
		row, err := rows.Read()
		if errors.Is(err, io.EOF) {
			return out, nil
		}
		if err != nil {
			return out, fmt.Errorf("not a table of two columns: %w", err)
		}
		line, _ := rows.FieldPos(0)
		var at [2]float64
		for i, text := range row {
			if at[i], err = strconv.ParseFloat(strings.TrimSpace(text), 64); err != nil || math.IsNaN(at[i]) || math.IsInf(at[i], 0) {
				return out, fmt.Errorf("line %d: %s is no number; write decimals with a point", line, units.Shown(text))
			}
		}
		out.DepthMM = append(out.DepthMM, at[1]*unitMM)
		if n := float64(len(out.DepthMM)); n == 1 {
			out.StepS = at[0] * 60
		} else if math.Abs(at[0]*60-n*out.StepS) > 1e-6*n*out.StepS {
			return out, fmt.Errorf("line %d: %g minutes, and steps of %g minutes as at the beginning lead to %g: make all steps equal", line, at[0], out.StepS/60, n*out.StepS/60)
		}
	}
}

// curveOf reads a rain curve i = a/(t + b)^c from "a,b,c,longest": mm/h and minutes.
func curveOf(text string) (*storm.Curve, error) {
	parts := strings.Split(text, ",")
	if len(parts) != 4 {
		return nil, requestf("--rain-curve %s: four numbers are wanted, a,b,c and the longest duration in minutes it was fitted to, for i = a/(t + b)^c with i in mm/h and t in minutes", text)
	}
	var v [4]float64
	for i, part := range parts {
		var err error
		if v[i], err = units.ParseNumber(part); err != nil {
			return nil, requestf("--rain-curve: %w", err)
		}
	}
	return &storm.Curve{A: v[0], B: v[1], C: v[2], LongestMin: v[3]}, nil
}
