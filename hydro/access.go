package hydro

import (
	"errors"
	"math"

	"siltstep/hydro/siting"

	"github.com/paulmach/orb"
)

// HandHaulM is the distance up to which rock is carried or wheeled by hand, m. This project's judgement: carrying rock 200 m to
// 300 m by hand makes or breaks a day's work.
const HandHaulM = 300

// HaulClass is how rock gets from the road to a dam.
type HaulClass string

// The classes.
const (
	HaulHand    HaulClass = "hand"    // carried or wheeled: HandHaulM or less
	HaulMachine HaulClass = "machine" // farther: a machine and a track for it
)

// Haul is the way of the rock to a dam.
type Haul struct {
	RoadM    float64   // from the axis straight to the nearest road on the map, m; NaN where no roads are given. What is walked is longer: the way along the channel and around fences is not known
	Class    HaulClass // by RoadM; empty where it is not known
	Loads    int       // Prices.Loads of the rock to order
	Barrows  int       // Prices.Barrows of it
	Road     orb.Point // where on the road the straight way begins, map coordinates, m; meaningless where RoadM is NaN
	OrderedT float64   // rock to order, to the hundredth, t; 0 for a dam that stands already; NaN where it is not known
}

// Haul returns the way of the rock to dam k of drainage i. Its roads are those of Config.Siting.Features. A plan that sited no
// dams has no such dam, and this panics.
func (p *Plan) Haul(i, k int) Haul {
	s := p.Layouts[i].Sites[k]
	h := Haul{OrderedT: math.NaN()}
	h.Road, h.RoadM = nearestRoad(orb.Point{s.X, s.Y}, p.Config.Siting.Features)
	switch {
	case h.RoadM <= HandHaulM:
		h.Class = HaulHand
	case h.RoadM > HandHaulM:
		h.Class = HaulMachine
	}
	if d := p.damOf(i, k); s.Edit == siting.Built {
		h.OrderedT = 0
	} else if d != nil {
		h.OrderedT = hundredth(d.Rock.OrderTonnes)
	}
	h.Loads, h.Barrows = p.Config.Works.Prices.Loads(h.OrderedT), p.Config.Works.Prices.Barrows(h.OrderedT)
	return h
}

// Loads returns how many truck or cart loads some rock is, the last one counted whole; 0 where LoadT is not given or the rock is
// not known. Of a series or a project they are reckoned from its rock: a truck serves several dams, so loads do not add up from dam to dam.
func (p Prices) Loads(rockT float64) int { return trips(rockT, p.LoadT) }

// Barrows returns how many wheelbarrows some rock is, the last one counted whole; 0 where BarrowT is not given or the rock is not
// known. Each dam has its own, so those of a series are the sum of its dams.
func (p Prices) Barrows(rockT float64) int { return trips(rockT, p.BarrowT) }

// trips returns how often something is carried.
func trips(rockT, eachT float64) int {
	const slack = 1e-9 // so that 1.1 t are eleven barrows of 0.1 t
	if !(rockT > 0 && eachT > 0) {
		return 0
	}
	return int(math.Ceil(rockT/eachT - slack))
}

// validateHaul returns every fault of the loads, joined.
func (p Prices) validateHaul() error {
	return errors.Join(
		zeroAndUp("rock in a load", p.LoadT, "t"),
		zeroAndUp("rock in a wheelbarrow", p.BarrowT, "t"),
	)
}

// nearestRoad returns the place on a road nearest to a point and how far it is, m; NaN where there are no roads. Cost: linear in the
// corners of the roads.
func nearestRoad(at orb.Point, land siting.Features) (road orb.Point, distanceM float64) {
	least2 := math.Inf(1)
	for _, line := range land.Roads {
		for i := 1; i < len(line); i++ {
			on := nearestOn(line[i-1], line[i], at)
			dx, dy := on[0]-at[0], on[1]-at[1]
			if m2 := dx*dx + dy*dy; m2 < least2 {
				road, least2 = on, m2
			}
		}
	}
	if math.IsInf(least2, 1) {
		return orb.Point{}, math.NaN()
	}
	return road, math.Sqrt(least2)
}

// nearestOn returns the place between a and b that is nearest to a point.
func nearestOn(a, b, at orb.Point) orb.Point {
	dx, dy := b[0]-a[0], b[1]-a[1]
	length2 := dx*dx + dy*dy
	if length2 == 0 {
		return a
	}
	share := ((at[0]-a[0])*dx + (at[1]-a[1])*dy) / length2
	share = min(1, max(0, share))
	return orb.Point{a[0] + share*dx, a[1] + share*dy}
}
