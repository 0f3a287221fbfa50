package storm

import (
	"cmp"
	"fmt"
	"math"
	"slices"
)

// Pattern is how a depth of rain falls within its duration.
type Pattern string

// The patterns. Types I to III are the 24-hour storms of the United States national handbook:
// use them only where they are asked for. Source: SCS1986.
const (
	PatternUniform    Pattern = "uniform"
	PatternTriangular Pattern = "triangular"
	PatternNested     Pattern = "nested"
	PatternI          Pattern = "I"
	PatternIA         Pattern = "IA"
	PatternII         Pattern = "II"
	PatternIII        Pattern = "III"
)

var patterns = []Pattern{PatternUniform, PatternTriangular, PatternNested, PatternI, PatternIA, PatternII, PatternIII}

// day tells whether the pattern is one of the 24-hour storm types.
func (p Pattern) day() bool { return slices.Contains(patterns[3:], p) }

// Distribution is the share of a 24-hour rain that has fallen by each hour.
type Distribution struct {
	Type  Pattern   // PatternI, PatternIA, PatternII or PatternIII
	Hours []float64 // from 0 to 24, rising
	Share []float64 // from 0 to 1, never falling
}

// typeIIJump is the least share of a type II storm between 11.5 and 12 hours: 0.38 in print. A
// smoother table with 0.601 at noon circulates under that name and gives half the peak.
const typeIIJump = 0.3

// Validate returns the first fault: sizes, ends other than 0 and 1, hours that do not rise, shares
// that fall, and a table called type II that lacks the burst before noon.
func (d Distribution) Validate() error {
	n := len(d.Hours)
	if !d.Type.day() {
		return fmt.Errorf("storm type %q is not known; give one of %v", d.Type, patterns[3:])
	}
	if n < 2 || len(d.Share) != n || d.Hours[0] != 0 || d.Share[0] != 0 || d.Hours[n-1] != dayH || d.Share[n-1] != 1 {
		return fmt.Errorf("storm type %s: it must run from 0 at 0 h to 1 at 24 h, with a share for each hour", d.Type)
	}
	for i := 1; i < n; i++ {
		if !(d.Hours[i] > d.Hours[i-1]) || !(d.Share[i] >= d.Share[i-1]) {
			return fmt.Errorf("storm type %s: hours must rise and shares must not fall; see hour %g", d.Type, d.Hours[i])
		}
	}
	if jump := d.at(12) - d.at(11.5); d.Type == PatternII && jump < typeIIJump {
		return fmt.Errorf("this is not a type II storm: only %.3g of the rain falls from 11.5 to 12 h, and type II has 0.38; find the table of the national handbook", jump)
	}
	return nil
}

// at returns the share fallen by an hour, on straight lines between the rows.
func (d Distribution) at(hour float64) float64 {
	i, exact := slices.BinarySearch(d.Hours, hour)
	if exact {
		return d.Share[i]
	}
	i = min(max(i, 1), len(d.Hours)-1)
	return d.Share[i-1] + (d.Share[i]-d.Share[i-1])*(hour-d.Hours[i-1])/(d.Hours[i]-d.Hours[i-1])
}

// steepestStepS returns the length of the row with the most intense rain, in s: finer than that
// the peak of the storm is not known.
func (d Distribution) steepestStepS() float64 {
	step, most := 0.0, 0.0
	for i := 1; i < len(d.Hours); i++ {
		h := d.Hours[i] - d.Hours[i-1]
		if rate := (d.Share[i] - d.Share[i-1]) / h; rate > most {
			step, most = h*hourS, rate
		}
	}
	return math.Round(step)
}

// Storm returns a day of rain with depthMM in steps of stepS seconds, which must divide 24 h.
func (d Distribution) Storm(depthMM, stepS float64) (Hyetograph, error) {
	if err := d.Validate(); err != nil {
		return Hyetograph{}, err
	}
	return shaped(depthMM, dayH, stepS, func(share float64) float64 { return d.at(share * dayH) })
}

// dayRow is one hour of the four storm types: I, IA, II, III.
type dayRow struct{ hour, i, ia, ii, iii float64 }

// dayRows hold the cumulative shares. Source: SCS1986 as in Chow, Maidment and Mays 1988,
// chapter 14, all from memory; type III at 8, 8.5 and 9 h read in AustinDrainage.
var dayRows = []dayRow{
	{0, 0, 0, 0, 0}, {2, .035, .050, .022, .020}, {4, .076, .116, .048, .043}, {6, .125, .206, .080, .072},
	{7, .156, .268, .098, .089}, {8, .194, .425, .120, .1140}, {8.5, .219, .480, .133, .1284}, {9, .254, .520, .147, .1458},
	{9.5, .303, .550, .163, .167}, {9.75, .362, .564, .172, .178}, {10, .515, .577, .181, .189}, {10.5, .583, .601, .204, .216},
	{11, .624, .624, .235, .250}, {11.5, .654, .645, .2830, .298}, {11.75, .669, .655, math.NaN(), .339}, {12, .682, .664, .6630, .500},
	{12.5, .706, .683, .7350, .702}, {13, .727, .701, .772, .751}, {13.5, .748, .719, .799, .785}, {14, .767, .736, .820, .811},
	{16, .830, .800, .880, .886}, {20, .926, .906, .952, .957}, {24, 1, 1, 1, 1},
}

// Rows that only one type has. Type II by tenths of an hour, from memory: its coarse row at 11.75 h
// would take a tenth off the burst. Type III by five minutes, read in AustinDrainage.
var (
	fineII  = [][2]float64{{11.6, .3068}, {11.7, .3544}, {11.8, .4308}, {11.9, .5679}, {12.1, .6820}, {12.2, .6986}, {12.3, .7130}, {12.4, .7252}}
	fineIII = [][2]float64{{1, .0100}, {8 + 5./60, .1163}, {8 + 55./60, .1427}, {9 + 20./60, .1589}, {16 + 10./60, .8903}, {16.5, .8984}, {17, .9095}, {17 + 25./60, .9178}}
)

// DayStorm returns the distribution of a 24-hour storm type. The peak of types I and III is known
// by quarter hours, that of IA by half hours or more, that of II by tenths of an hour. All values
// are from memory but a part of type III.
func DayStorm(p Pattern) (Distribution, error) {
	var rows [][2]float64
	for _, r := range dayRows {
		share := map[Pattern]float64{PatternI: r.i, PatternIA: r.ia, PatternII: r.ii, PatternIII: r.iii}
		if v, ok := share[p]; ok && !math.IsNaN(v) {
			rows = append(rows, [2]float64{r.hour, v})
		}
	}
	switch p {
	case PatternII:
		rows = append(rows, fineII...)
	case PatternIII:
		rows = append(rows, fineIII...)
	}
	slices.SortFunc(rows, func(a, b [2]float64) int { return cmp.Compare(a[0], b[0]) })
	d := Distribution{Type: p}
	for _, r := range rows {
		d.Hours, d.Share = append(d.Hours, r[0]), append(d.Share, r[1])
	}
	return d, d.Validate()
}
