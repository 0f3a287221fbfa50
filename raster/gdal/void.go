package gdal

import (
	"fmt"
	"math"
	"slices"
)

// No dry land lies outside this range: the shore of the Dead Sea is at about -430 m, the
// highest summit at 8849 m (general knowledge). A value beyond it that is also one of the
// well-known marks is a void; a mark inside it, 0 or a small negative, is a height.
const (
	lowestLandMM  = -500_000.0
	highestLandMM = 9_000_000.0
	deepestSeaMM  = -11_500_000.0 // sea floor; the deepest lies near 10,900 m (general knowledge)
)

// voidMarks are the values by which programs commonly mark voids without saying so
// (common practice): all nines, and the ends of the number types.
var voidMarks = []float64{-9999, -99999, -999999, -32768, -32767, -2147483648, -2147483647, 32767, 65535, 9999, 99999, 999999}

// hugeMark is the size above which a number is no height in any unit: marks such as
// ±3.4e38, 1.7e38, 1e32 and 1e30 all lie above it.
const hugeMark = 1e29

// isVoidMark reports whether a raw value outside the range of land is a well-known mark.
func isVoidMark(raw float64) bool {
	return math.Abs(raw) >= hugeMark || slices.Contains(voidMarks, raw)
}

// tally counts voids that no file declares, by raw value.
type tally struct {
	value []float64
	count []int
	nan   int
}

func (t *tally) add(raw float64, n int) {
	if k := slices.Index(t.value, raw); k >= 0 {
		t.count[k] += n
		return
	}
	t.value, t.count = append(t.value, raw), append(t.count, n)
}

// merge adds another count; the order of values does not depend on who counted first.
func (t *tally) merge(o tally) {
	t.nan += o.nan
	for k, raw := range o.value {
		t.add(raw, o.count[k])
	}
}

// sentences says which undeclared values were taken as voids, lowest first.
func (t *tally) sentences() []string {
	var out []string
	order := slices.Clone(t.value)
	slices.Sort(order)
	for _, raw := range order {
		out = append(out, fmt.Sprintf("%d cells hold %g, which the file does not declare as void: taken as void, because no land lies there.",
			t.count[slices.Index(t.value, raw)], raw))
	}
	if t.nan > 0 {
		out = append(out, fmt.Sprintf("%d cells hold no number (NaN or infinity): taken as void.", t.nan))
	}
	return out
}

// conversion turns raw values of one file into millimetres.
type conversion struct {
	path          string
	scale, offset float64
	num, den      float64 // of the height unit
}

// row converts a row of raw values into dst, leaving dst as it is where the cell is void
// or where dst already holds a height. mask is nil where every cell is valid, else 0 marks
// a void. col and line are the place of the first value in the file, for messages.
func (c *conversion) row(dst, raw []float64, mask []byte, col, line int, t *tally) error {
	for i, v := range raw {
		if mask != nil && mask[i] == 0 {
			continue
		}
		mm := (float64(v*c.scale) + c.offset) * c.num / c.den
		if !(mm >= lowestLandMM && mm <= highestLandMM) {
			void, err := c.unlikely(v, mm, col+i, line, t)
			if err != nil {
				return err
			}
			if void {
				continue
			}
		}
		if dst[i] != dst[i] {
			dst[i] = mm
		}
	}
	return nil
}

// unlikely judges a value outside the range of land.
func (c *conversion) unlikely(raw, mm float64, col, line int, t *tally) (void bool, err error) {
	switch {
	case math.IsNaN(mm) || math.IsInf(raw, 0):
		t.nan++
		return true, nil
	case isVoidMark(raw):
		t.add(raw, 1)
		return true, nil
	case mm > highestLandMM, mm < deepestSeaMM:
		return false, wrong("%s: column %d, row %d holds %g, which is no height (%g m): give the right --elevation-unit, or declare it as nodata, for instance with gdal_translate -a_nodata %g",
			c.path, col, line, raw, mm/1000, raw)
	}
	return false, nil
}
