package hydro

import (
	"errors"

	"siltstep/hydro/siting"

	"github.com/paulmach/orb"
)

// EffectConfig is how far the work reaches beyond the dams themselves.
type EffectConfig struct {
	MarginM    float64 // around a dam, m, 0 to 100; default 3
	AccessM    float64 // width of the strip from a dam to the nearest road, m, 0 to 100; default 3; 0 leaves it out
	StockpileM float64 // side of the square beside the road where rock is dumped, m, 0 to 100; default 5; 0 leaves it out
}

// MostEffectM is the greatest of the distances of EffectConfig, m. Source: our own choice.
const MostEffectM = 100.0

// usualEffect returns the settings used where the user gives none. Source: our own choice; a small tracked carrier is under
// 2 m wide.
func usualEffect() EffectConfig { return EffectConfig{MarginM: 3, AccessM: 3, StockpileM: 5} }

// validate returns every fault, joined.
func (c EffectConfig) validate() error {
	return errors.Join(
		inRange("margin around dams", c.MarginM, 0, MostEffectM, "m"),
		inRange("width of access", c.AccessM, 0, MostEffectM, "m"),
		inRange("side of stockpiles", c.StockpileM, 0, MostEffectM, "m"),
	)
}

// EffectPart is what a piece of ground is used for.
type EffectPart string

// The parts.
const (
	EffectWorks     EffectPart = "works"     // the dam with its margin
	EffectAccess    EffectPart = "access"    // the way to the nearest road
	EffectStockpile EffectPart = "stockpile" // rock beside the road
)

// Effect is a piece of the ground that the work on a dam disturbs.
type Effect struct {
	Part   EffectPart
	Ring   orb.Ring // closed, anticlockwise, map coordinates, m
	AreaM2 float64  // within Ring, to the hundredth
}

// Effects returns the ground that the work on dam k of drainage i disturbs: the dam with Config.Effect.MarginM on all sides, and
// where roads are given a strip from the edge of that straight to the nearest one, whatever lies between, and a square for rock
// where it begins. Pieces of a dam, and those of neighbours, may lie over each other. None where the dam has no design,
// or stands already. A plan that sited no dams has no such dam, and this panics.
func (p *Plan) Effects(i, k int) []Effect {
	f, ok := p.Footprint(i, k)
	if !ok || p.Layouts[i].Sites[k].Edit == siting.Built {
		return nil
	}
	c := p.Config.Effect
	works := f.plan.widened(c.MarginM)
	out := []Effect{effect(EffectWorks, works.bounds())}
	h := p.Haul(i, k)
	if !(h.RoadM > 0) {
		return out
	}
	dx, dy := (works.x-h.Road[0])/h.RoadM, (works.y-h.Road[1])/h.RoadM // from the road to the dam
	if wayM := h.RoadM - works.exitM(-dx, -dy); c.AccessM > 0 && wayM > 0 {
		out = append(out, effect(EffectAccess, strip(h.Road, dx, dy, 0, wayM, c.AccessM)))
	}
	if half := c.StockpileM / 2; half > 0 {
		out = append(out, effect(EffectStockpile, strip(h.Road, dx, dy, -half, half, c.StockpileM)))
	}
	return out
}

func effect(part EffectPart, r orb.Ring) Effect { return Effect{part, r, areaOf(r)} }

// strip returns a rectangle along a line from a place in the direction of a unit vector, between two distances from the place.
func strip(from orb.Point, dx, dy, beginM, endM, widthM float64) orb.Ring {
	at := func(alongM, leftM float64) orb.Point {
		return orb.Point{from[0] + alongM*dx - leftM*dy, from[1] + alongM*dy + leftM*dx}
	}
	half := widthM / 2
	return orb.Ring{at(beginM, -half), at(endM, -half), at(endM, half), at(beginM, half), at(beginM, -half)}
}
