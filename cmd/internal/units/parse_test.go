package units

import (
	"errors"
	"math"
	"strings"
	"testing"
	"unicode/utf8"
)

func TestParse(t *testing.T) {
	// Expected values by hand from the exact definitions; the tolerance is zero because a
	// quantity is rounded once.
	rows := []struct {
		name  string
		parse func(string) (float64, error)
		text  string
		want  float64
	}{
		{"metre", ParseLength, "0.6 m", 0.6},
		{"foot: 2 x 0.3048", ParseLength, "2 ft", 0.6096},
		{"foot, 15 in: 15 x 0.0254", ParseLength, "15 in", 0.381},
		{"millimetre", ParseLength, "600 mm", 0.6},
		{"centimetre", ParseLength, "60cm", 0.6},
		{"kilometre", ParseLength, "1.2 km", 1200},
		{"yard: 3 x 0.3048", ParseLength, "1 yd", 0.9144},
		{"mile: 5280 x 0.3048", ParseLength, "1 mi", 1609.344},
		{"survey foot: 3937 of them are 1200 m", ParseLength, "3937 us-ft", 1200},
		{"no blank, plus sign", ParseLength, "+0.6m", 0.6},
		{"blanks around", ParseLength, "  30   m\t", 30},
		{"no-break space", ParseLength, "30\u00a0m", 30},
		{"leading point", ParseLength, ".5 m", 0.5},
		{"trailing point", ParseLength, "5. m", 5},
		{"exponent", ParseLength, "1e3 mm", 1},
		{"nothing is a length", ParseLength, "0 m", 0},
		{"hectare", ParseArea, "0.25 ha", 2500},
		{"acre: 10 x 43560 x 0.09290304", ParseArea, "10 ac", 40468.564224},
		{"square foot", ParseArea, "100 ft2", 9.290304},
		{"square foot, superscript", ParseArea, "100 ft²", 9.290304},
		{"square metre", ParseArea, "2500 m2", 2500},
		{"square kilometre", ParseArea, "1 km²", 1e6},
		{"percent", ParseSlope, "8 %", 0.08},
		{"percent, no blank", ParseSlope, "12.5%", 0.125},
		{"rise over run", ParseSlope, "0.08 m/m", 0.08},
		{"rise over run in feet", ParseSlope, "0.08 ft/ft", 0.08},
		{"rainfall", ParseRainfallRate, "25 mm/h", 25},
		{"rainfall in inches: 25.4 mm", ParseRainfallRate, "1 in/h", 25.4},
		{"flow", ParseFlow, "0.9 m3/s", 0.9},
		{"flow in litres", ParseFlow, "900 l/s", 0.9},
		{"flow in cubic feet: 0.3048 cubed", ParseFlow, "1 cfs", 0.028316846592},
		{"velocity", ParseVelocity, "2m/s", 2},
		{"velocity in feet", ParseVelocity, "5 ft/s", 1.524},
		{"yield", ParseYield, "1.5 m3/ha", 1.5},
		{"yield in cubic yards an acre: 0.9144 cubed over 0.40468564224", ParseYield, "1 yd3/ac", 0.764554857984 / 0.40468564224},
		{"tonne", ParseMass, "1 t", 1},
		{"kilogram", ParseMass, "80 kg", 0.08},
		{"pound: 0.45359237 kg", ParseMass, "100 lb", 0.045359237},
		{"US ton: 2,000 pounds", ParseMass, "1 us-ton", 0.90718474},
		{"density", ParseDensity, "1.4 t/m3", 1.4},
		{"density in kilograms", ParseDensity, "1350 kg/m³", 1.35},
		{"density in pounds a cubic foot: 0.45359237 kg over 0.028316846592 m³", ParseDensity, "1 lb/ft3", 453592370. / 28316846592},
		{"return period", ParseYears, "10 yr", 10},
		{"hours bare", ParseHours, "24", 24},
		{"hours", ParseHours, "24 h", 24},
		{"minutes", ParseHours, "30 min", 0.5},
		{"number", ParseNumber, "0.5", 0.5},
		{"side slope", ParseSideSlope, "1.5:1", 1.5},
		{"side slope, blanks", ParseSideSlope, "3 : 2", 1.5},
		{"upright", ParseSideSlope, "0:1", 0},
	}
	for _, r := range rows {
		t.Run(r.name, func(t *testing.T) {
			got, err := r.parse(r.text)
			if err != nil || got != r.want {
				t.Errorf("%q gives %v, %v; want %v", r.text, got, err, r.want)
			}
		})
	}
}

func TestParseRefuses(t *testing.T) {
	const length = "a length is a number with mm, cm, m, km, in, ft, yd, mi or us-ft, such as 0.6 m"
	rows := []struct {
		name  string
		parse func(string) (float64, error)
		text  string
		want  string
	}{
		{"no unit", ParseLength, "0.6", "0.6; the unit is missing; " + length},
		{"another dimension", ParseLength, "0.6 ha", `0.6 ha; "ha" is not a unit of length; ` + length},
		{"upper case", ParseLength, "2 FT", `2 FT; "FT" is not a unit of length; ` + length},
		{"no number", ParseLength, "m", "m; " + length},
		{"empty", ParseLength, "", `""; ` + length},
		{"negative", ParseLength, "-1 m", "-1 m; a length is not negative"},
		{"not a number", ParseLength, "NaN m", "NaN m; " + length},
		{"infinite", ParseLength, "Inf m", "Inf m; " + length},
		{"overflow", ParseLength, "1e999 m", "1e999 m; the number is too large"},
		{"overflow in the unit", ParseLength, "1e308 km", "1e308 km; the number is too large"},
		{"decimal comma", ParseLength, "0,6 m", "0,6 m; write decimals with a point and thousands without a separator; " + length},
		{"hexadecimal", ParseLength, "0x10 m", `0x10 m; "x10 m" is not a unit of length; ` + length},
		{"underscore", ParseLength, "1_000 m", `1_000 m; "_000 m" is not a unit of length; ` + length},
		{"two points", ParseLength, "1.2.3 m", `1.2.3 m; ".3 m" is not a unit of length; ` + length},
		{"length for area", ParseArea, "50 m", `50 m; "m" is not a unit of area; an area is a number with m2, ha, km2, ft2 or ac, such as 0.25 ha`},
		{"bare slope", ParseSlope, "0.08", "0.08; the unit is missing; a slope is a number with %, m/m or ft/ft, such as 8 %"},
		{"depth for rate", ParseRainfallRate, "25 mm", `25 mm; "mm" is not a unit of rainfall rate; a rainfall rate is a number with mm/h or in/h, such as 25 mm/h`},
		{"ton, of which there are several", ParseMass, "1 ton", `1 ton; "ton" is not a unit of weight; a weight is a number with t, kg, lb or us-ton, such as 1 t`},
		{"weight for density", ParseDensity, "1.4 t", `1.4 t; "t" is not a unit of density; a density is a number with t/m3, kg/m3 or lb/ft3, such as 1.4 t/m3`},
		{"no years", ParseYears, "0 yr", "0 yr; a number of years is more than 0"},
		{"no hours", ParseHours, "0", "0; a number of hours is more than 0"},
		{"unit on a number", ParseNumber, "0.5 m", "0.5 m; a number without a unit is wanted, such as 0.5"},
		{"side slope without colon", ParseSideSlope, "1.5", "1.5; a side slope is horizontal : vertical, such as 1.5:1"},
		{"flat side slope", ParseSideSlope, "1:0", "1:0; a side slope is horizontal : vertical, such as 1.5:1"},
		{"negative side slope", ParseSideSlope, "-1:1", "-1:1; a side slope is horizontal : vertical, such as 1.5:1"},
	}
	for _, r := range rows {
		t.Run(r.name, func(t *testing.T) {
			got, err := r.parse(r.text)
			var typed *Error
			if !errors.As(err, &typed) || err.Error() != r.want || got != 0 {
				t.Errorf("%q gives %v, %v\nwant 0, %v", r.text, got, err, r.want)
			}
		})
	}
}

func TestShown(t *testing.T) {
	rows := []struct{ name, text, want string }{
		{"plain", "0.6 m", "0.6 m"},
		{"superscript", "5 m²", "5 m²"},
		{"empty", "", `""`},
		{"line break", "a\nb", `"a\nb"`},
		{"escape code", "\x1b[31m", `"\x1b[31m"`},
		{"not UTF-8", "\xff", `"\xff"`},
		{"blank at the end", "m ", `"m "`},
		{"50 letters are cut at 40", strings.Repeat("x", 50), strings.Repeat("x", 40) + "…"},
	}
	for _, r := range rows {
		t.Run(r.name, func(t *testing.T) {
			if got := Shown(r.text); got != r.want {
				t.Errorf("got %s, want %s", got, r.want)
			}
		})
	}
}

// pairs are the quantities that can be written back.
var pairs = []struct {
	name  string
	parse func(string) (float64, error)
	text  func(float64) string
}{
	{"length", ParseLength, LengthText},
	{"area", ParseArea, AreaText},
	{"slope", ParseSlope, SlopeText},
	{"number", ParseNumber, NumberText},
	{"rain", ParseRainDepth, RainDepthText},
	{"rainfall rate", ParseRainfallRate, RainfallRateText},
	{"yield", ParseYield, YieldText},
	{"weight", ParseMass, MassText},
	{"density", ParseDensity, DensityText},
	{"side slope", ParseSideSlope, SideSlopeText},
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{"0.6 m", "2 ft", "8 %", "10 ac", "0.25 ha", "25 mm/h", "1 in/h", "10 yr", "24", "1.5:1",
		"1e308 km", "-0 m", "+.e5", "1e-400 m", "5e-324 mm", "0,6 m", "\xff", "1 m²", "", ":", "0x1p-2 m", "1e+ m", "7.3 us-ft"} {
		f.Add(s)
	}
	others := []func(string) (float64, error){ParseRainfallRate, ParseFlow, ParseVelocity, ParseYield, ParseYears, ParseHours, ParseSideSlope}
	f.Fuzz(func(t *testing.T, s string) {
		for _, p := range pairs {
			x, err := p.parse(s)
			check(t, p.name, s, x, err)
			if err != nil {
				continue
			}
			text := p.text(x)
			if back, err := p.parse(text); err != nil || back != x {
				t.Errorf("%s: %q is %v, written %q, read back as %v, %v", p.name, s, x, text, back, err)
			}
		}
		for _, parse := range others {
			x, err := parse(s)
			check(t, "other", s, x, err)
		}
	})
}

// check holds what is true of every quantity: finite and not negative, or 0 with an error
// of one printable line.
func check(t *testing.T, name, s string, x float64, err error) {
	t.Helper()
	if math.IsNaN(x) || math.IsInf(x, 0) || math.Signbit(x) {
		t.Errorf("%s: %q gives %v", name, s, x)
	}
	if err == nil {
		return
	}
	if x != 0 {
		t.Errorf("%s: %q gives %v beside the error %v", name, s, x, err)
	}
	if !utf8.ValidString(err.Error()) || strings.ContainsFunc(err.Error(), unprintable) {
		t.Errorf("%s: %q gives a message that does not print: %q", name, s, err.Error())
	}
}
