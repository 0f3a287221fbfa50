package storm

import (
	"fmt"
	"math"
	"slices"
)

// Lining is what a kind of bed or bank can bear. NaN where the source gives no figure.
type Lining struct {
	Name                          string
	ShearLowPa, ShearHighPa       float64 // permissible shear, Pa
	VelocityLowMS, VelocityHighMS float64 // permissible velocity, m/s
	Roughness                     float64 // Manning's n that goes with the velocity; NaN where none
	Evidence                      Evidence
	Source                        string // key of hydro.Source
}

// liningRow is a row as printed: lb/ft² and ft/s, low to high.
type liningRow struct {
	name                                           string
	shearLow, shearHigh, velocityLow, velocityHigh float64
}

// fischenich holds permissible shear and velocity. Source: Fischenich2001, every row from memory; its
// summary was read: soils below 0.25 lb/ft², plants 0.5 to 4, bioengineering 0.5 to 8, hard armour to 13.
var fischenich = []liningRow{
	{"fine colloidal sand", .02, .03, 1.5, 1.5},
	{"sandy loam", .03, .04, 1.75, 1.75},
	{"alluvial silt, silty loam", .045, .05, 1.75, 2.25},
	{"firm loam", .075, .075, 2.5, 2.5},
	{"fine gravel", .075, .075, 2.5, 2.5},
	{"stiff clay", .26, .26, 3, 4.5},
	{"alluvial silt, colloidal", .26, .26, 3.75, 3.75},
	{"graded loam to cobbles", .38, .38, 3.75, 3.75},
	{"graded silts to cobbles", .43, .43, 4, 4},
	{"shale, hardpan", .67, .67, 6, 6},
	{"gravel 1 in", .33, .33, 2.5, 5},
	{"gravel 2 in", .67, .67, 3, 6},
	{"cobble 6 in", 2.0, 2.0, 4, 7.5},
	{"cobble 12 in", 4.0, 4.0, 5.5, 12},
	{"class A turf", 3.7, 3.7, 6, 8},
	{"class B turf", 2.1, 2.1, 4, 7},
	{"class C turf", 1.0, 1.0, 3.5, 3.5},
	{"long native grass", 1.2, 1.7, 4, 6},
	{"short native or bunch grass", .7, .95, 3, 4},
	{"reed", .1, .6, math.NaN(), math.NaN()},
	{"hardwood plantings", .41, 2.5, math.NaN(), math.NaN()},
	{"live fascine", 1.25, 3.1, 6, 8},
	{"willow stakes", 2.1, 3.1, 3, 10},
	{"brush mattress, new", .4, 4.1, 4, 4},
	{"brush mattress, grown", 3.9, 8.2, 12, 12},
	{"riprap 6 in", 2.5, 2.5, 5, 10},
	{"riprap 9 in", 3.8, 3.8, 7, 11},
	{"riprap 12 in", 5.1, 5.1, 10, 13},
	{"riprap 18 in", 7.6, 7.6, 12, 16},
	{"riprap 24 in", 10.1, 10.1, 14, 18},
	{"gabion", 10, 10, 14, 19},
}

// canalRow is a soil of old straight canals no deeper than 3 ft: n, velocity in ft/s and shear in
// lb/ft² with clear water, then with water that carries silt.
type canalRow struct {
	name                                    string
	n, clear, clearShear, silty, siltyShear float64
}

// fortierScobey holds the permissible velocities of canals. Source: FortierScobey1926, every row from memory.
var fortierScobey = []canalRow{
	{"fine sand", .020, 1.50, .027, 2.50, .075},
	{"sandy loam", .020, 1.75, .037, 2.50, .075},
	{"silt loam", .020, 2.00, .048, 3.00, .11},
	{"alluvial silt, non-colloidal", .020, 2.00, .048, 3.50, .15},
	{"firm loam", .020, 2.50, .075, 3.50, .15},
	{"stiff clay", .025, 3.75, .26, 5.00, .46},
	{"alluvial silt, colloidal", .025, 3.75, .26, 5.00, .46},
	{"shale, hardpan", .025, 6.00, .67, 6.00, .67},
	{"fine gravel", .020, 2.50, .075, 5.00, .32},
	{"graded loam to cobbles", .030, 3.75, .38, 5.00, .66},
	{"graded silt to cobbles", .030, 4.00, .43, 5.50, .80},
	{"coarse gravel", .025, 4.00, .30, 6.00, .67},
	{"cobbles", .035, 5.00, .91, 5.50, 1.10},
}

// Linings returns permissible shear and velocity by kind of bed or bank (Fischenich2001). All values are
// recalled from memory; all hold for short floods, and less for long ones.
func Linings() []Lining {
	var out []Lining
	for _, r := range fischenich {
		out = append(out, Lining{r.name, r.shearLow * poundFootPa, r.shearHigh * poundFootPa, r.velocityLow * footM, r.velocityHigh * footM, math.NaN(), EvidenceRecalled, "Fischenich2001"})
	}
	return out
}

// CanalLinings returns permissible shear and velocity of soils in old straight canals no deeper than 0.9 m
// (FortierScobey1926): the low value with clear water, the high one with water that carries silt. All
// values are recalled from memory.
func CanalLinings() []Lining {
	var out []Lining
	for _, r := range fortierScobey {
		out = append(out, Lining{r.name, r.clearShear * poundFootPa, r.siltyShear * poundFootPa, r.clear * footM, r.silty * footM, r.n, EvidenceRecalled, "FortierScobey1926"})
	}
	return out
}

// LiningOf returns a row of Linings by name, and a note of how well it is known.
func LiningOf(name string) (Lining, Note, error) {
	rows := Linings()
	i := slices.IndexFunc(rows, func(l Lining) bool { return l.Name == name })
	if i < 0 {
		var names []string
		for _, l := range rows {
			names = append(names, l.Name)
		}
		return Lining{}, Note{}, fmt.Errorf("lining %q is not in the table; give one of %q", name, names)
	}
	l := rows[i]
	return l, Note{Rule: RuleHandbook, Got: l.ShearLowPa, Limit: math.NaN(), Source: l.Source, Recalled: true,
		Text: fmt.Sprintf("%s bears %.3g to %.3g Pa: %s.", l.Name, l.ShearLowPa, l.ShearHighPa, recalledText)}, nil
}

// scourDepthsFt are the depths of scourRows in feet.
var scourDepthsFt = []float64{1.3, 3.3, 6.6, 9.8}

// scourRow is the mean velocity in ft/s that does not scour a bed, by depth.
type scourRow struct {
	name string
	fts  [4]float64
}

// scourRows is from coarse to fine. Source: Keown1977, as a federal river manual prints it in its table 3.5,
// seen in a copy.
var scourRows = []scourRow{
	{"large cobble", [4]float64{11.8, 13.4, 15.4, 16.4}}, {"small cobble", [4]float64{7.5, 8.9, 10.2, 11.2}},
	{"very coarse gravel", [4]float64{5.2, 6.2, 7.2, 8.2}}, {"coarse gravel", [4]float64{4.1, 4.7, 5.4, 6.1}},
	{"medium gravel", [4]float64{3.3, 3.7, 4.1, 4.6}}, {"fine gravel", [4]float64{2.6, 3.0, 3.3, 3.8}},
	{"very fine gravel", [4]float64{2.2, 2.5, 2.8, 3.1}}, {"very coarse sand", [4]float64{1.8, 2.1, 2.4, 2.7}},
	{"coarse sand", [4]float64{1.5, 1.8, 2.1, 2.3}}, {"medium sand", [4]float64{1.2, 1.5, 1.8, 2.0}},
	{"fine sand", [4]float64{.98, 1.3, 1.6, 1.8}}, {"heavy sandy loam", [4]float64{3.3, 3.9, 4.6, 4.9}},
	{"light sandy loam", [4]float64{3.1, 3.9, 4.6, 4.9}}, {"loess", [4]float64{2.6, 3.3, 3.9, 4.3}},
}

// NonScourVelocityMS returns the mean velocity in m/s that does not scour a bed material at a depth in m,
// interpolated. Deeper than 3 m counts as 3 m, which is on the safe side; the table does not reach to
// shallower than 0.4 m, which is an error. Source: Keown1977, in a copy.
func NonScourVelocityMS(material string, depthM float64) (float64, error) {
	if err := within("depth", depthM, scourDepthsFt[0]*footM*(1-1e-9), 1000, "m"); err != nil {
		return math.NaN(), err
	}
	var names []string
	for _, r := range scourRows {
		if r.name != material {
			names = append(names, r.name)
			continue
		}
		ft := min(depthM/footM, scourDepthsFt[3])
		i := 1
		for i < 3 && ft > scourDepthsFt[i] {
			i++
		}
		share := (ft - scourDepthsFt[i-1]) / (scourDepthsFt[i] - scourDepthsFt[i-1])
		return (r.fts[i-1] + share*(r.fts[i]-r.fts[i-1])) * footM, nil
	}
	return math.NaN(), fmt.Errorf("bed material %q is not in the table; give one of %q", material, names)
}
