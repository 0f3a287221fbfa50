package storm

import (
	"math"
	"strings"
	"testing"
)

// same compares a value that may be NaN on both sides.
func same(t *testing.T, source from, what string, got, want float64) {
	t.Helper()
	if math.IsNaN(want) && math.IsNaN(got) {
		return
	}
	check(t, source, what, got, want, 1e-9)
}

// Name: shear in lb/ft², velocity in ft/s, low to high (Fischenich2001, rows memory).
func TestLinings(t *testing.T) {
	text := `fine colloidal sand: .02 .03 1.5 1.5
sandy loam: .03 .04 1.75 1.75
alluvial silt, silty loam: .045 .05 1.75 2.25
firm loam: .075 .075 2.5 2.5
fine gravel: .075 .075 2.5 2.5
stiff clay: .26 .26 3 4.5
alluvial silt, colloidal: .26 .26 3.75 3.75
graded loam to cobbles: .38 .38 3.75 3.75
graded silts to cobbles: .43 .43 4 4
shale, hardpan: .67 .67 6 6
gravel 1 in: .33 .33 2.5 5
gravel 2 in: .67 .67 3 6
cobble 6 in: 2 2 4 7.5
cobble 12 in: 4 4 5.5 12
class A turf: 3.7 3.7 6 8
class B turf: 2.1 2.1 4 7
class C turf: 1 1 3.5 3.5
long native grass: 1.2 1.7 4 6
short native or bunch grass: .7 .95 3 4
reed: .1 .6 - -
hardwood plantings: .41 2.5 - -
live fascine: 1.25 3.1 6 8
willow stakes: 2.1 3.1 3 10
brush mattress, new: .4 4.1 4 4
brush mattress, grown: 3.9 8.2 12 12
riprap 6 in: 2.5 2.5 5 10
riprap 9 in: 3.8 3.8 7 11
riprap 12 in: 5.1 5.1 10 13
riprap 18 in: 7.6 7.6 12 16
riprap 24 in: 10.1 10.1 14 18
gabion: 10 10 14 19`
	lines := strings.Split(text, "\n")
	for _, line := range lines {
		name, row, _ := strings.Cut(line, ": ")
		v := numbers(t, row, "")
		l, note, err := LiningOf(name)
		if err != nil || !note.Recalled || l.Evidence != EvidenceRecalled || l.Source != "Fischenich2001" {
			t.Fatal(name, err, note)
		}
		same(t, memory, name, l.ShearLowPa/47.88025898, v[0])
		same(t, memory, name, l.ShearHighPa/47.88025898, v[1])
		same(t, memory, name, l.VelocityLowMS/.3048, v[2])
		same(t, memory, name, l.VelocityHighMS/.3048, v[3])
	}
	if len(lines) != len(Linings()) {
		t.Errorf("%d rows tested of %d", len(lines), len(Linings()))
	}
	// Its summary (read): soils below 0.25 lb/ft², hard armour below 13.
	for _, l := range Linings() {
		if l.ShearHighPa > 13*poundFootPa || !(l.ShearLowPa > 0 && l.ShearLowPa <= l.ShearHighPa) || l.VelocityLowMS > l.VelocityHighMS {
			t.Errorf("%+v", l)
		}
	}
	_, _, err := LiningOf("mud")
	refused(t, "lining", err, "mud", "gabion")
}

// Name: n; clear water ft/s, lb/ft²; silty water ft/s, lb/ft² (FortierScobey1926, memory).
func TestCanalLinings(t *testing.T) {
	text := `fine sand: .020 1.50 .027 2.50 .075
sandy loam: .020 1.75 .037 2.50 .075
silt loam: .020 2.00 .048 3.00 .11
alluvial silt, non-colloidal: .020 2.00 .048 3.50 .15
firm loam: .020 2.50 .075 3.50 .15
stiff clay: .025 3.75 .26 5.00 .46
alluvial silt, colloidal: .025 3.75 .26 5.00 .46
shale, hardpan: .025 6.00 .67 6.00 .67
fine gravel: .020 2.50 .075 5.00 .32
graded loam to cobbles: .030 3.75 .38 5.00 .66
graded silt to cobbles: .030 4.00 .43 5.50 .80
coarse gravel: .025 4.00 .30 6.00 .67
cobbles: .035 5.00 .91 5.50 1.10`
	for i, line := range strings.Split(text, "\n") {
		name, row, _ := strings.Cut(line, ": ")
		l, v := CanalLinings()[i], numbers(t, row, "")
		if l.Name != name || l.Evidence != EvidenceRecalled {
			t.Fatalf("row %d is %+v", i, l)
		}
		same(t, memory, name, l.Roughness, v[0])
		same(t, memory, name, l.VelocityLowMS/.3048, v[1])
		same(t, memory, name, l.ShearLowPa/47.88025898, v[2])
		same(t, memory, name, l.VelocityHighMS/.3048, v[3])
		same(t, memory, name, l.ShearHighPa/47.88025898, v[4])
	}
	if len(CanalLinings()) != 13 {
		t.Error("rows are missing in the test")
	}
}

// ft/s at 1.3, 3.3, 6.6 and 9.8 ft (Keown1977 as a federal manual prints it, in a copy).
func TestNonScourVelocity(t *testing.T) {
	for name, row := range map[string]string{
		"large cobble": "11.8/13.4/15.4/16.4", "small cobble": "7.5/8.9/10.2/11.2", "very coarse gravel": "5.2/6.2/7.2/8.2", "coarse gravel": "4.1/4.7/5.4/6.1",
		"medium gravel": "3.3/3.7/4.1/4.6", "fine gravel": "2.6/3.0/3.3/3.8", "very fine gravel": "2.2/2.5/2.8/3.1", "very coarse sand": "1.8/2.1/2.4/2.7",
		"coarse sand": "1.5/1.8/2.1/2.3", "medium sand": "1.2/1.5/1.8/2.0", "fine sand": ".98/1.3/1.6/1.8",
		"heavy sandy loam": "3.3/3.9/4.6/4.9", "light sandy loam": "3.1/3.9/4.6/4.9", "loess": "2.6/3.3/3.9/4.3",
	} {
		for i, want := range numbers(t, row, "/") {
			check(t, secondary, name, must[float64](t)(NonScourVelocityMS(name, scourDepthsFt[i]*.3048))/.3048, want, 1e-9)
		}
	}
	check(t, computed, "halfway, 2.3 ft", must[float64](t)(NonScourVelocityMS("loess", 2.3*footM))/footM, 2.95, 1e-9)
	check(t, computed, "deep", must[float64](t)(NonScourVelocityMS("loess", 9))/footM, 4.3, 1e-9)
	_, err := NonScourVelocityMS("loess", .2)
	refused(t, "shallow", err, "depth")
	_, err = NonScourVelocityMS("slate", 1)
	refused(t, "material", err, "loess")
}

// Least, normal, greatest n (Chow1959, in copies; the rest memory; steep channels Yochum2014, read).
func TestChannelRoughness(t *testing.T) {
	text := `secondary .025 .030 .033
secondary .030 .035 .040
secondary .033 .040 .045
secondary .035 .045 .050
secondary .040 .048 .055
secondary .045 .050 .060
secondary .050 .070 .080
secondary .075 .100 .150
secondary .030 .040 .050
secondary .040 .050 .070
secondary .025 .030 .035
secondary .030 .035 .050
secondary .035 .050 .070
recalled .016 - .025
recalled .022 - .033
recalled .05 - .12
recalled .04 - .08
recalled .035 - .050
recalled .025 - .035
recalled .045 - .08
recalled .03 - .12
read .048 - .30
read .057 - .96`
	rows := ChannelRoughness()
	for i, line := range strings.Split(text, "\n") {
		evidence, row, _ := strings.Cut(line, " ")
		v, r := numbers(t, row, ""), rows[i]
		source := map[string]from{"secondary": secondary, "recalled": memory, "read": read}[evidence]
		if string(r.Evidence) != evidence {
			t.Errorf("%s is %s", r.Name, r.Evidence)
		}
		same(t, source, r.Name, r.Low, v[0])
		same(t, source, r.Name, r.Normal, v[1])
		same(t, source, r.Name, r.High, v[2])
	}
	if len(rows) != 23 {
		t.Errorf("%d rows", len(rows))
	}
}

// By hand: R 1 ft and slope 0.02 give 0.39 × 0.02^0.38 = 0.0882; in metres 0.32 × 0.02^0.38 × 0.3048^-0.16 = 0.0875.
func TestSteepRoughness(t *testing.T) {
	n, note, err := JarrettRoughness(.02, footM)
	if err != nil || !note.Recalled || strings.Contains(note.Text, "outside") {
		t.Fatal(err, note)
	}
	check(t, memory, "n in feet", n, .39*math.Pow(.02, .38), .001)
	_, note, _ = JarrettRoughness(.06, footM)
	if !strings.Contains(note.Text, "outside") {
		t.Errorf("a slope of 6 %% is in the data: %s", note.Text)
	}
	_, _, err = JarrettRoughness(0, 1)
	refused(t, "slope", err, "slope")
}

// The metric 0.319 and the 0.262 of feet are one formula (HEC15, read): 2 ft over stone of 0.5 ft.
func TestRiprapRoughness(t *testing.T) {
	check(t, read, "n", RiprapRoughness(2*footM, .5*footM), .262*math.Pow(2, 1./6)/(2.25+5.23*math.Log10(4)), .0002)
	for _, ratio := range []float64{1.4, 186, 0, math.NaN()} {
		if n := RiprapRoughness(ratio*.1, .1); !math.IsNaN(n) {
			t.Errorf("depth over stone of %g gives %g", ratio, n)
		}
	}
}

// By hand: the greatest of every part with the greatest meander, (0.028 + 0.020 + 0.015 + 0.060 + 0.100) × 1.3, and clean
// straight earth (Chow1959, in a copy).
func TestCowanParts(t *testing.T) {
	most := CowanParts{.028, .020, .015, .060, .100, 1.3}
	check(t, secondary, "most", must[float64](t)(most.Roughness()), .2899, 1e-9)
	check(t, secondary, "least", must[float64](t)(CowanParts{Base: .020, Meander: 1}.Roughness()), .020, 1e-12)
	for words, change := range map[string]func(*CowanParts){
		"base": func(c *CowanParts) { c.Base = .05 }, "irregular": func(c *CowanParts) { c.Irregularity = .03 }, "varying": func(c *CowanParts) { c.Variation = .02 },
		"obstructions": func(c *CowanParts) { c.Obstruction = .07 }, "vegetation": func(c *CowanParts) { c.Vegetation = -.1 }, "meander": func(c *CowanParts) { c.Meander = 0 },
	} {
		c := most
		change(&c)
		_, err := c.Roughness()
		refused(t, words, err, words)
	}
}
