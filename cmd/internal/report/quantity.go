package report

import (
	"fmt"

	"siltstep/cmd/internal/units"
	"siltstep/hydro/checkdam"
)

// US units of single quantities, in SI.
const (
	unitFlowFt2S = units.FootM * units.FootM // ft²/s, which is a cfs a foot of width, in m²/s
	poundKg      = units.ShortTonT * 1000 / 2000
	mmPerM       = 1000
)

// shown words the quantities of a remark in the units of the system.
func shown(s units.System) func(checkdam.Quantity) string {
	if s != units.US {
		return checkdam.Quantity.String
	}
	return func(q checkdam.Quantity) string {
		switch q.Of {
		case checkdam.OfLength:
			return s.Length(q.SI, q.Decimals)
		case checkdam.OfStone:
			return stoneText(q.SI, s)
		case checkdam.OfLand:
			return s.Area(q.SI, q.Decimals)
		case checkdam.OfVolume:
			return s.Volume(q.SI, q.Decimals)
		case checkdam.OfFlow:
			return s.Flow(q.SI, q.Decimals)
		case checkdam.OfUnitFlow:
			return fmt.Sprintf("%.2f cfs a foot of width", q.SI/unitFlowFt2S)
		case checkdam.OfVelocity:
			return fmt.Sprintf("%.1f ft/s", q.SI/units.FootM)
		case checkdam.OfWeight:
			return fmt.Sprintf("%.0f lb", q.SI/poundKg)
		}
		panic(fmt.Sprintf("report: measure %d has no US unit", q.Of))
	}
}

// stoneText shows a size of stone in m or in inches; NotKnown for NaN.
func stoneText(m float64, s units.System) string {
	if s == units.US {
		return units.Scale{Unit: "in", One: units.InchMM / mmPerM}.Text(m, 1)
	}
	return s.Length(m, 2)
}

// itemText shows what to bring to a site.
func itemText(item checkdam.Item, s units.System) string {
	name := item.Name.Say(shown(s))
	switch item.Unit {
	case "m":
		return s.Length(item.Quantity, 1) + " of " + name
	case "m³":
		return s.Volume(item.Quantity, 1) + " of " + name
	}
	return fmt.Sprintf("%.0f %s", item.Quantity, name)
}
