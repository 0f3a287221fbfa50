package cards

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"

	"siltstep/cmd/internal/facts"
	"siltstep/cmd/internal/units"
)

// notKnown stands for a figure that the plan does not have.
const notKnown = "not known"

var unknown = facts.Num(math.NaN())

// shown returns a figure in the unit of a scale.
func shown(x facts.Num, c units.Scale, decimals int) string {
	if !x.Known() {
		return notKnown
	}
	return c.Text(float64(x), decimals)
}

// length shows metres.
func (d *document) length(x facts.Num, decimals int) string {
	return shown(x, d.system.LengthScale(), decimals)
}

// bare shows metres in the unit of length, two decimals, without its name.
func (d *document) bare(x facts.Num) string {
	return strings.TrimSuffix(d.length(x, 2), " "+d.system.LengthScale().Unit)
}

// stone shows a size of stone: metres, or inches.
func (d *document) stone(x facts.Num) string {
	if d.system == units.US {
		return shown(x, units.Scale{Unit: "in", One: units.InchMM / 1000}, 1)
	}
	return shown(x, d.system.LengthScale(), 3)
}

// flow shows m³/s, or cfs.
func (d *document) flow(x facts.Num) string {
	decimals := 3
	if d.system == units.US {
		decimals = 2
	}
	return shown(x, d.system.FlowScale(), decimals)
}

// rock shows a volume in place and the weight to order.
func (d *document) rock(m3, t facts.Num) string {
	return shown(m3, d.system.VolumeScale(), 2) + " in place; " + shown(t, d.system.MassScale(), 2) + " to order"
}

// land shows hectares, or acres.
func (d *document) land(ha facts.Num) string {
	return shown(ha*units.HectareM2, d.system.AreaScale(), 2)
}

// count shows a whole number.
func count(x facts.Num) string {
	if !x.Known() {
		return notKnown
	}
	return strconv.FormatFloat(float64(x), 'f', -1, 64)
}

// measure is a figure with a metric unit inside a sentence of the plan.
var measure = regexp.MustCompile(`(\d+(?:\.\d+)?) (m³/s|m²/s|m/s|m³|mm/h|mm|m|ha|t)([^\p{L}\d²³/]|$)`)

// sentence puts the figures of a sentence of the plan, which are metric, into the system of the document. They were rounded when the
// sentence was written, so that those with two decimals and more get one less in a smaller unit: 0.67 m reads 2.2 ft. What would read 0 gets more.
func (d *document) sentence(words string) string {
	if d.system != units.US {
		return words
	}
	scales := map[string]units.Scale{
		"m": d.system.LengthScale(), "ha": d.system.AreaScale(), "m³": d.system.VolumeScale(), "m³/s": d.system.FlowScale(), "t": d.system.MassScale(),
		"mm/h": d.system.RainfallScale(), "mm": {Unit: "in", One: units.InchMM}, "m/s": {Unit: "ft/s", One: units.FootM}, "m²/s": {Unit: "ft²/s", One: units.FootM * units.FootM},
	}
	return measure.ReplaceAllStringFunc(words, func(found string) string {
		part := measure.FindStringSubmatch(found)
		x, err := strconv.ParseFloat(part[1], 64)
		if err != nil {
			return found
		}
		scale, decimals := scales[part[2]], decimalsOf(part[1])
		if part[2] == "ha" {
			x *= units.HectareM2
		}
		switch part[2] {
		case "mm", "mm/h":
			decimals++
		case "m", "ha", "m/s", "m³/s", "m²/s":
			if decimals > 1 {
				decimals--
			}
		}
		for x > 0 && scale.Value(x) < math.Pow(10, -float64(decimals)) {
			decimals++
		}
		return scale.Text(x, decimals) + part[3]
	})
}

// decimalsOf counts the digits after the point.
func decimalsOf(number string) int {
	for i, c := range number {
		if c == '.' {
			return len(number) - i - 1
		}
	}
	return 0
}

// plural words a number of things.
func plural(n int, one string) string {
	if n == 1 {
		return "1 " + one
	}
	if one == "series" {
		return fmt.Sprintf("%d series", n)
	}
	return fmt.Sprintf("%d %ss", n, one)
}
