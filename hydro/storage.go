package hydro

import (
	"fmt"
	"math"

	"siltstep/hydro/checkdam"
	"siltstep/hydro/siting"
)

// How coarse cells may be for a dam. A wedge holds in proportion to b + 2zH/3, so that a width wrong by a cell makes it wrong by a cell over that;
// with a bed of no width that is the cell over what a bank as high as the sill spans, times 1.5. Source: our own
// choices; what widths err by is derived, a break between two centres being rounded off by up to √2/4 of a cell on each side, and taken at
// a third, by trials on drawn channels.
const (
	coarsest    = 1.0            // cell over the span of a bank and 1.5 times the bed; above it nothing is measured
	fine        = 0.3            // cell over the span of a bank; up to it shapes are as drawn
	blurred     = 1.0            // from there on breaks are rounded off whole
	widthErrorC = math.Sqrt2 / 6 // standard deviation of a width where breaks are blurred, in cell sides; less in proportion down to fine
)

// storage returns what a dam holds, from the ground behind it as far as toM, a station; see storageEndM. body is its shape, ratio that of its
// deposit. The dam stands as high as it says above the bed at its axis, that of a regression over 5 m. Low and high take the bed of a
// section to err by as much as a cell does, twice that where it is narrower than a cell; the level at the axis by that times the
// root of the sum of the squares of the weights of sections in the regression; and widths by widthErrorC.
func (g *valleyGround) storage(s *siting.Site, body checkdam.Body, ratio, toM float64) checkdam.Measured {
	heightM := s.EffectiveHeightM
	b, ok := g.behind(s.StationM, toM, heightM/(1-ratio))
	if !ok {
		return checkdam.NotMeasured(fmt.Sprintf("no cross-section with banks is resolved within %.3g m of the axis", g.withinM))
	}
	wedge := b.Below(heightM, ratio, b.cutM)
	if wedge.Open {
		return checkdam.NotMeasured(fmt.Sprintf("the wedge goes on above station %.1f m, where no cross-section with banks is resolved within %.3g m", s.StationM+wedge.LengthM, g.withinM))
	}
	spanM, bedM := g.spans(heightM, wedge.LengthM)
	if !(g.cellM/(spanM+1.5*bedM) <= coarsest) {
		return checkdam.NotMeasured(fmt.Sprintf("cells of %.3g m are too coarse: the bed is %.2g m wide, and up to the sill, %.2f m high, a bank spans %.2g m (a cell may be as wide as 1.5 beds and the span of a bank)",
			g.cellM, bedM, heightM, spanM))
	}
	widthErrorM := widthErrorC * g.cellM * min(max(0, g.cellM/spanM-fine), blurred-fine) / (blurred - fine)
	return b.Measure(body, heightM, ratio, b.cutM, b.errorM, widthErrorM)
}

// spans returns how far from the bed a bank as high as the sill reaches, and the width of the bed, m, as means of the cross-sections of the ground
// asked for last.
func (g *valleyGround) spans(heightM, lengthM float64) (bankM, bedM float64) {
	count := 0.0
	for _, s := range g.slices {
		if s.AlongM <= lengthM {
			bankM, bedM, count = bankM+s.SideSlope*heightM, bedM+s.BedWidthM, count+1
		}
	}
	return bankM / count, bedM / count
}

// measured returns what each dam of a drainage holds, one a site. Where a dam has no design its shape is that of the settings.
func (p *Plan) measured(drainage int) []checkdam.Measured {
	g, sites := p.ground(drainage), p.Layouts[drainage].Sites
	body := func(k int) checkdam.Body {
		if k < len(p.Designs[drainage]) && p.Designs[drainage][k].Dam != nil {
			return p.Designs[drainage][k].Dam.Body
		}
		return p.body()
	}
	out := make([]checkdam.Measured, len(sites))
	for k := range sites {
		out[k] = g.storage(&sites[k], body(k), p.Config.Siting.DepositRatio, storageEndM(sites, k, body(k+1)))
	}
	return out
}

// storageEndM returns the station up to which the k-th dam of a drainage holds water or silt: the end of its wedge or, before that, the toe
// of the next dam, whose shape is body.
func storageEndM(sites []siting.Site, k int, body checkdam.Body) float64 {
	endM := sites[k].WedgeEndM
	if k+1 < len(sites) {
		next := &sites[k+1]
		endM = min(endM, next.StationM-body.CrestWidthM/2-body.FaceDown*next.EffectiveHeightM)
	}
	return endM
}

// siltM3 returns what a dam with its axis at a station holds when full, as far as another station, m³, under a deposit of a ratio. The sill
// is counted from the bed of the profile at the axis. It is no more than a guess where cells are too coarse to measure, counts as far
// as cross-sections are known, and is 0 where there are none. Cost: about a microsecond.
func (g *valleyGround) siltM3(ratio, axisM, sillM, toM float64) float64 {
	if len(g.nodes) == 0 {
		return 0
	}
	heightM := sillM - g.profileM(axisM)
	b, ok := g.behind(axisM, toM, heightM/(1-ratio))
	if !ok {
		return 0
	}
	return b.Below(heightM, ratio, b.cutM).VolumeM3
}

// bodyM3 returns what the upstream half of a dam takes of that, m³.
func (g *valleyGround) bodyM3(body checkdam.Body, axisM, sillM, toM float64) float64 {
	if len(g.nodes) == 0 {
		return 0
	}
	heightM := sillM - g.profileM(axisM)
	b, ok := g.behind(axisM, toM, heightM)
	if !ok {
		return 0
	}
	return b.BodyM3(body, heightM, b.cutM)
}
