package storm

import (
	"errors"
	"fmt"
	"math"
	"slices"
)

// ExtrapolationFactor is how far below its shortest duration a table or curve is read, with a
// note. Source: our own choice.
const ExtrapolationFactor = 2.0

// intensityRise is the share by which an intensity may rise with duration, for the rounding of
// printed tables. Source: our own choice.
const intensityRise = 0.02

// Rain is rainfall as a person has it. Give one of Table, Curve and Measured, or DepthMM and
// IntensityMMH, one or both.
type Rain struct {
	Table        *Table      // depths by duration and return period
	Curve        *Curve      // an intensity curve of one return period
	Measured     *Hyetograph // one storm as it fell
	DepthMM      float64     // depth over the hours of the request, mm; 0: not given
	IntensityMMH float64     // intensity over the time of concentration, mm/h, for the rational method; 0: not given
}

// given counts the ways in which rain was given.
func (r Rain) given() int {
	n := 0
	for _, is := range []bool{r.Table != nil, r.Curve != nil, r.Measured != nil, r.DepthMM != 0 || r.IntensityMMH != 0} {
		if is {
			n++
		}
	}
	return n
}

// Validate returns every fault of the rainfall, joined. No rainfall at all is no fault.
func (r Rain) Validate() error {
	faults := []error{
		given("rain depth", r.DepthMM, 0, math.MaxFloat64, "mm"),
		given("rain intensity", r.IntensityMMH, 0, math.MaxFloat64, "mm/h"),
	}
	if r.given() > 1 {
		faults = append(faults, errors.New("rainfall was given in more than one way; give one of a table, a curve, a measured storm, or a single depth or intensity"))
	}
	if r.Table != nil {
		faults = append(faults, r.Table.Validate())
	}
	if r.Curve != nil {
		faults = append(faults, r.Curve.Validate())
	}
	if r.Measured != nil {
		faults = append(faults, r.Measured.Validate())
	}
	return errors.Join(faults...)
}

// Table holds rain depths by duration and return period.
type Table struct {
	DurationsMin    []float64   // minutes, rising
	ReturnPeriodsYr []float64   // years, rising
	DepthsMM        [][]float64 // mm, a row a duration, a column a return period; over 0
}

// Validate returns the first fault of the table: sizes that do not fit, values that are not
// positive, depths that fall with duration or with return period, intensities that rise with
// duration by more than rounding (2 %). Each is a misread unit or a slip of the pen.
func (t Table) Validate() error {
	_, err := t.fault()
	return err
}

// fault returns the first fault and the row it is in; -1 for the table as a whole.
func (t Table) fault() (row int, err error) {
	if len(t.DurationsMin) == 0 || len(t.ReturnPeriodsYr) == 0 {
		return -1, errors.New("rain table: no duration or no return period in it")
	}
	if len(t.DepthsMM) != len(t.DurationsMin) {
		return -1, fmt.Errorf("rain table: %d rows of depths for %d durations", len(t.DepthsMM), len(t.DurationsMin))
	}
	for c, yr := range t.ReturnPeriodsYr {
		if err := within("rain table: return period", yr, 1, 100_000, "yr"); err != nil {
			return -1, err
		}
		if c > 0 && !(yr > t.ReturnPeriodsYr[c-1]) {
			return -1, fmt.Errorf("rain table: return period %g yr follows %g yr; put them in rising order", yr, t.ReturnPeriodsYr[c-1])
		}
	}
	for r := range t.DurationsMin {
		if err := t.rowFault(r); err != nil {
			return r, err
		}
	}
	return -1, nil
}

func (t Table) rowFault(r int) error {
	minutes, row := t.DurationsMin[r], t.DepthsMM[r]
	if err := above("rain table: duration", minutes, "min"); err != nil {
		return err
	}
	if len(row) != len(t.ReturnPeriodsYr) {
		return fmt.Errorf("rain table, %g min: %d values for %d return periods", minutes, len(row), len(t.ReturnPeriodsYr))
	}
	if r > 0 && !(minutes > t.DurationsMin[r-1]) {
		return fmt.Errorf("rain table: duration %g min follows %g min; put them in rising order", minutes, t.DurationsMin[r-1])
	}
	for c, mm := range row {
		if err := above(fmt.Sprintf("rain table, %g min, %g yr: depth", minutes, t.ReturnPeriodsYr[c]), mm, "mm"); err != nil {
			return err
		}
		if c > 0 && mm < row[c-1] {
			return fmt.Errorf("rain table, %g min: the depth falls from %.4g to %.4g mm as the return period rises to %g yr; check the row", minutes, row[c-1], mm, t.ReturnPeriodsYr[c])
		}
		if r == 0 {
			continue
		}
		beforeMin, before := t.DurationsMin[r-1], t.DepthsMM[r-1][c]
		if mm < before {
			return fmt.Errorf("rain table, %g yr: the depth falls from %.4g mm in %g min to %.4g mm in %g min; are these intensities (mm/h, in/h)?", t.ReturnPeriodsYr[c], before, beforeMin, mm, minutes)
		}
		if mm/minutes > before/beforeMin*(1+intensityRise) {
			return fmt.Errorf("rain table, %g yr: the intensity rises from %.4g mm/h over %g min to %.4g mm/h over %g min; are these depths (mm, in)?", t.ReturnPeriodsYr[c], before/beforeMin*60, beforeMin, mm/minutes*60, minutes)
		}
	}
	return nil
}

// DepthMM returns the depth in mm that falls in so many minutes once in so many years,
// interpolated in the logarithms of depth, duration and return period. A return period of 0 reads
// a table of a single column. Down to half the shortest duration the first two rows are carried
// on, with a note; any other value outside the table is an error.
func (t Table) DepthMM(minutes, yr float64) (float64, []Note, error) {
	if err := errors.Join(t.Validate(), above("duration", minutes, "min")); err != nil {
		return math.NaN(), nil, err
	}
	depths, err := t.column(yr)
	if err != nil {
		return math.NaN(), nil, err
	}
	shortest, longest := t.DurationsMin[0], t.DurationsMin[len(t.DurationsMin)-1]
	switch {
	case minutes > longest*(1+1e-9):
		return math.NaN(), nil, fmt.Errorf("rain of %.4g min is asked for and the table ends at %g min; add longer durations or ask for a shorter storm", minutes, longest)
	case minutes < shortest*(1-1e-9) && (minutes < shortest/ExtrapolationFactor*(1-1e-9) || len(depths) == 1):
		return math.NaN(), nil, fmt.Errorf("rain of %.4g min is asked for and the table begins at %g min; add shorter durations", minutes, shortest)
	}
	var notes []Note
	if minutes < shortest*(1-1e-9) {
		notes = append(notes, belowShortest(minutes, shortest))
	}
	return logLog(t.DurationsMin, depths, minutes), notes, nil
}

func belowShortest(minutes, shortest float64) Note {
	return Note{Rule: RuleRain, Got: minutes, Limit: shortest,
		Text: fmt.Sprintf("Rain of %.3g min is carried on from the shortest duration given, %.3g min: add shorter durations if you can.", minutes, shortest)}
}

// column returns the depths of every duration at one return period.
func (t Table) column(yr float64) ([]float64, error) {
	periods := t.ReturnPeriodsYr
	if yr == 0 && len(periods) == 1 {
		yr = periods[0]
	}
	first, last := periods[0], periods[len(periods)-1]
	switch {
	case yr == 0:
		return nil, fmt.Errorf("the rain table has return periods of %g to %g yr; say which one", first, last)
	case !(yr >= first && yr <= last):
		return nil, fmt.Errorf("return period %g yr; the rain table has %g to %g yr, and nothing is read beyond them", yr, first, last)
	}
	out := make([]float64, len(t.DepthsMM))
	for r, row := range t.DepthsMM {
		out[r] = logLog(periods, row, yr)
	}
	return out, nil
}

// logLog interpolates y at x on straight lines between the logarithms of points; xs rises, all
// are over 0. Outside xs the first or last line is carried on.
func logLog(xs, ys []float64, x float64) float64 {
	if len(xs) == 1 {
		return ys[0]
	}
	i, exact := slices.BinarySearch(xs, x)
	if exact {
		return ys[i]
	}
	i = min(max(i, 1), len(xs)-1)
	share := math.Log(x/xs[i-1]) / math.Log(xs[i]/xs[i-1])
	return ys[i-1] * math.Exp(share*math.Log(ys[i]/ys[i-1]))
}
