package demo

import (
	"math"

	"github.com/paulmach/orb"
)

// finish gathers the ranch and what is known of it.
func (b *builder) finish(seed uint64) *Ranch {
	r := &Ranch{Grid: b.canvas.Grid, Property: orb.Polygon{mapRing(b.limits.ring())}, Road: orb.LineString(mapRing(b.roadLine))}
	r.Truth = Truth{
		Ranch: Name, Note: "an invented place, made by a program", CRS: CRS, Seed: seed,
		Cols: b.size.Cols, Rows: b.size.Rows, CellM: b.size.CellM,
		RoadFill: b.fillTruth(), StockPond: b.pond.truth(),
		Property: Cut{b.limits.cut.name, mapPoint(b.limits.cut.line.at[b.limits.cutStation])},
	}
	for _, g := range b.gullies {
		r.Truth.Trenches = append(r.Truth.Trenches, b.trenchTruth(g))
		r.Truth.Headcuts = append(r.Truth.Headcuts, g.headTruth()...)
		if g.enters {
			r.Truth.Entering = g.enterTruth()
		}
	}
	return r
}

func mapRing(at []spot) orb.Ring {
	out := make(orb.Ring, len(at))
	for k, p := range at {
		out[k] = mapPoint(p)
	}
	return out
}

// truthStepM is the distance between known places along a trench, m.
const truthStepM = 4

// rounded returns a length in metres to the millimetre.
func rounded(m float64) float64 { return math.Round(m*1000) / 1000 }

func (b *builder) trenchTruth(g *gully) Trench {
	t := Trench{
		ID: g.name, Start: mapPoint(g.line.at[g.from]), End: mapPoint(g.line.at[g.to]),
		LengthM: float64(g.to - g.from), BedWidthM: rounded(g.bedWidthM), BankRun: bankRun,
		CatchmentM2: [2]float64{g.line.areaM2[g.from], g.line.areaM2[g.to]},
	}
	if g.into != nil {
		t.Into = g.into.name
	}
	for k := g.from; ; k = min(k+truthStepM, g.to) {
		if b.measurable(g, k) {
			t.MeasuredAt = append(t.MeasuredAt, len(t.Line))
		}
		t.Line = append(t.Line, mapPoint(g.line.at[k]))
		t.BedM = append(t.BedM, rounded(g.bedM(k)))
		t.DepthM = append(t.DepthM, rounded(g.depthM[k]))
		if k == g.to {
			return t
		}
	}
}

// measurable reports whether the trench at a station has its plain shape.
func (b *builder) measurable(g *gully, k int) bool {
	plain := g.share[k] > 0.9 && !g.nearHead(k, 10) && !b.nearJoin(g, k, 20) && !g.fading(k+6) && k < g.to-12
	if b.road.gully == g {
		plain = plain && (k < b.road.footAt(-1)-6 || k > b.road.footAt(1)+6)
	}
	return plain && b.canvas.holds(g.line.at[k], 12)
}

func (g *gully) headTruth() []Headcut {
	var out []Headcut
	for _, h := range g.heads {
		if g.enters && h.station == g.from {
			continue // outside the data
		}
		d := g.line.along(h.station)
		out = append(out, Headcut{
			Trench: g.name, At: mapPoint(g.line.at[h.station]), Toward: orb.Point{d.e, -d.s},
			HeightM: rounded(h.heightM), Grade: fall(g.floorM, h.station-5, h.station+5),
		})
	}
	return out
}

func (g *gully) enterTruth() Entering {
	k := 0
	for g.line.at[k].s < 0 {
		k++
	}
	return Entering{Trench: g.name, At: mapPoint(g.line.at[k]), OutsideM2: g.line.areaM2[k]}
}

func (b *builder) fillTruth() RoadFill {
	c := b.road
	l, k := c.gully.line, c.station
	p := l.at[k]
	bed := c.gully.bedM(k)
	return RoadFill{
		Trench: c.gully.name, At: mapPoint(p), CrestM: rounded(c.crestM), BedM: rounded(bed),
		HeightM: rounded(c.crestM - bed), CrestWidthM: crestWidthM,
		Ends:         [2]orb.Point{mapPoint(p.plus(c.axis.times(-c.left))), mapPoint(p.plus(c.axis.times(c.right)))},
		CulvertInlet: mapPoint(l.at[c.footAt(-1)]), CulvertOutlet: mapPoint(l.at[c.footAt(1)]),
	}
}

// pondCorners is the number of corners of the known shore.
const pondCorners = 48

func (p *pond) truth() StockPond {
	dir := spot{1, 0}
	var ring []spot
	for range pondCorners {
		ring = append(ring, p.middle.plus(dir.times(p.radiusM(dir)-1)))
		dir = turn(dir)
	}
	ring = append(ring, ring[0])
	return StockPond{Water: orb.Polygon{mapRing(ring)}, LevelM: rounded(p.waterM), DamTopM: rounded(p.waterM + pondDamTopM)}
}

// turn returns a unit vector turned counterclockwise on the map by one corner of the shore:
// cosine and sine of 7.5 degrees.
func turn(d spot) spot {
	const cos, sin = 0.99144486137381, 0.13052619222005
	return spot{float64(d.e*cos) + float64(d.s*sin), float64(d.s*cos) - float64(d.e*sin)}.unit()
}
