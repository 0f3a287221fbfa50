package storm

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"math"
	"reflect"
	"strings"
	"testing"
)

// One table in four units, several separators and ways of writing a duration: by hand, 60 mm/h over 10 min is 10 mm and
// 1.2 in over 1 h is 30.48 mm.
func TestReadTable(t *testing.T) {
	for _, row := range []struct {
		name, text string
		want       Table
	}{
		{"depths in mm", "unit, mm\nduration, 2 yr, 10 yr\n10 min, 10, 16\n1 h, 30, 48\n1 d, 50, 80\n",
			Table{[]float64{10, 60, 1440}, []float64{2, 10}, [][]float64{{10, 16}, {30, 48}, {50, 80}}}},
		{"intensities in mm/h", "# gauge at the ranch\n\nduration, 2 yr, 10 yr\nunit, mm/h\n10 min, 60, 96\n60 min, 30, 48\n",
			Table{[]float64{10, 60}, []float64{2, 10}, [][]float64{{10, 16}, {30, 48}}}},
		{"inches, hyphens and colons", "\ufeffUnit,in\r\nDuration,2-yr,10-YR\r\n10-min:,0.4,0.64\r\n1-hr:,1.2,1.92\r\n",
			Table{[]float64{10, 60}, []float64{2, 10}, [][]float64{{10.16, 16.256}, {30.48, 48.768}}}},
		{"inches an hour, semicolons", "unit; in/h\nduration; 100 years\n30 minutes; 2\n2 hours; 1\n",
			Table{[]float64{30, 120}, []float64{100}, [][]float64{{25.4}, {50.8}}}},
		{"tabs, empty cells at the end", "unit\tmm\t\t\nduration\t5 yr\t\t\n5 min\t7\t\t\n",
			Table{[]float64{5}, []float64{5}, [][]float64{{7}}}},
	} {
		got, err := ReadTable(strings.NewReader(row.text))
		if err != nil {
			t.Errorf("%s: %v", row.name, err)
			continue
		}
		for r := range got.DepthsMM {
			for c := range got.DepthsMM[r] {
				check(t, computed, row.name, got.DepthsMM[r][c], row.want.DepthsMM[r][c], 1e-9)
				row.want.DepthsMM[r][c] = got.DepthsMM[r][c]
			}
		}
		if !reflect.DeepEqual(got, row.want) {
			t.Errorf("%s: %v, want %v", row.name, got, row.want)
		}
	}
}

func TestReadTableRefuses(t *testing.T) {
	const head = "unit, mm\nduration, 2 yr, 10 yr\n"
	for _, row := range []struct{ name, text, words string }{
		{"empty", "", "no line of return periods"},
		{"no unit", "duration, 2 yr\n5 min, 6\n", "unit, mm"},
		{"unknown unit", "unit, cm\n", "line 1: unit \"cm\""},
		{"two units", "unit, mm\nunit, in\n", "line 2"},
		{"no rows", head, "no rows"},
		{"no head", "unit, mm\n5 min, 6, 7\n", "line 2"},
		{"two heads", head + "duration, 2 yr\n", "line 3"},
		{"bare return period", "unit, mm\nduration, 2, 10\n", "line 2: column 2: \"2\""},
		{"bare duration", head + "5, 6, 7\n", "line 3: \"5\" is no duration"},
		{"m is metres or months", head + "5 m, 6, 7\n", "line 3: \"5 m\" is no duration"},
		{"cell missing", head + "5 min, 6\n", "line 3: 1 values for 2"},
		{"cell empty", head + "5 min, , 7\n", "line 3: column 2: the cell is empty"},
		{"unit in a cell", head + "5 min, 6 mm, 7\n", "line 3: column 2: \"6 mm\""},
		{"decimal comma", "unit; mm\nduration; 2 yr\n5 min; 6,5\n", "line 3: column 2: \"6,5\""},
		{"negative", head + "5 min, -6, 7\n", "line 3"},
		{"not a number", head + "5 min, NaN, 7\n", "line 3"},
		{"endless", head + "5 min, Inf, 7\n", "line 3"},
		{"not decimal", head + "5 min, 0x10, 17\n", "line 3: column 2: \"0x10\""},
		{"zero", head + "5 min, 0, 7\n", "line 3: rain table, 5 min, 2 yr"},
		{"falls with return period", head + "# odd\n5 min, 8, 7\n", "line 4: rain table, 5 min: the depth falls"},
		{"falls with duration", head + "5 min, 6, 7\n10 min, 5, 9\n", "line 4: rain table, 2 yr: the depth falls"},
		{"intensities called depths", head + "5 min, 72, 90\n10 min, 60, 80\n", "are these intensities"},
		{"depths called intensities", "unit, mm/h\nduration, 2 yr\n5 min, 6\n10 min, 9\n", "are these depths"},
		{"durations out of order", head + "10 min, 6, 7\n5 min, 8, 9\n", "line 4: rain table: duration"},
		{"zero duration", head + "0 min, 6, 7\n", "line 3: rain table: duration"},
		{"return periods out of order", "unit, mm\nduration, 10 yr, 2 yr\n5 min, 6, 7\n", "rising order"},
		{"quotation marks", head + "\"5 min, 6, 7\n", "plain cells"},
		{"too long", strings.Repeat("# a comment without end\n", 60_000), "over 1048576 bytes"},
	} {
		_, err := ReadTable(strings.NewReader(row.text))
		refused(t, row.name, err, row.words)
	}
}

// written returns a table as text that ReadTable takes.
func written(table Table) string {
	var b bytes.Buffer
	w := csv.NewWriter(&b)
	_ = w.Write([]string{"unit", "mm"})
	head := []string{"duration"}
	for _, yr := range table.ReturnPeriodsYr {
		head = append(head, fmt.Sprintf("%.17f yr", yr))
	}
	_ = w.Write(head)
	for r, minutes := range table.DurationsMin {
		row := []string{fmt.Sprintf("%.17f min", minutes)}
		for _, mm := range table.DepthsMM[r] {
			row = append(row, fmt.Sprint(mm))
		}
		_ = w.Write(row)
	}
	w.Flush()
	return b.String()
}

// Whatever is read without an error is a good table, gives finite depths between its ends, and is read again
// as the same from its own text.
func FuzzReadTable(f *testing.F) {
	f.Add("unit, mm\nduration, 2 yr, 10 yr\n10 min, 10, 16\n1 h, 30, 48\n")
	f.Add("# x\nunit; in/h\nduration; 100 years\n30-min:; 2\n2 hours; 1\n")
	f.Add("unit\tin\nduration\t1 yr\n1 d\t.5\n")
	f.Add("duration, 2 yr\n5 min, 1e400\nunit, mm")
	f.Add("unit, mm\nduration, 2 yr\n\"5 min\", 1\n")
	f.Fuzz(func(t *testing.T, text string) {
		table, err := ReadTable(strings.NewReader(text))
		if err != nil {
			if !strings.Contains(err.Error(), "rain table") && !strings.Contains(err.Error(), "line ") {
				t.Fatalf("error %q does not say where", err)
			}
			return
		}
		if err := table.Validate(); err != nil {
			t.Fatalf("read without an error, yet: %v", err)
		}
		last := len(table.DurationsMin) - 1
		for _, minutes := range []float64{table.DurationsMin[0], math.Sqrt(table.DurationsMin[0]) * math.Sqrt(table.DurationsMin[last]), table.DurationsMin[last]} {
			mm, _, err := table.DepthMM(minutes, table.ReturnPeriodsYr[0])
			if err != nil || !(mm > 0 && mm <= math.MaxFloat64) {
				t.Fatalf("%g mm in %g min: %v", mm, minutes, err)
			}
		}
		again, err := ReadTable(strings.NewReader(written(table)))
		if err != nil {
			if strings.Contains(err.Error(), "bytes") || strings.Contains(err.Error(), "rising") {
				t.Skip("numbers of the text are too long or too close")
			}
			t.Fatalf("its own text is refused: %v", err)
		}
		if len(again.DepthsMM) != len(table.DepthsMM) || !reflect.DeepEqual(again.DepthsMM, table.DepthsMM) {
			t.Fatalf("read again as %v, was %v", again, table)
		}
	})
}
