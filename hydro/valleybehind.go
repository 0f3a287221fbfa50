package hydro

import (
	"math"

	"siltstep/hydro/checkdam"
)

// The bed that a dam stands on. Source: our own choices; tipError by trials on drawn channels.
const (
	referenceM      = 5.0 // length of bed whose regression gives its level at the axis, half to each side, m
	referencePlaces = 5   // at which it is read
	tipError        = 2.0 // error of the bed where it is narrower than a cell and told from the banks, in errors of a cell
)

// behind is the ground behind a dam.
type behind struct {
	checkdam.Valley
	cutM   float64 // where what the dam holds is cut off, m above the axis; infinite for nowhere
	errorM float64 // standard deviation of the level of the bed at the axis; NaN where the noise of the survey is not known
}

// behind returns the ground above an axis up to a station or, before that, to where the bed stands highM above that at the axis, whose
// level is that of the regression. ok is false where nothing is known there. It holds until the next call.
func (g *valleyGround) behind(axisM, toM, highM float64) (b behind, ok bool) {
	n, above, ok := g.nodeAt(axisM)
	if !ok {
		return b, false
	}
	var variance float64
	n.bedM, variance = g.reference(n)
	b.errorM = g.noiseM * math.Sqrt(variance)
	if n.bedWidthM < g.cellM {
		b.errorM *= tipError
	}
	b.cutM = math.Inf(1)
	g.slices = append(g.slices[:0], checkdam.Slice{BedM: n.bedM, BedWidthM: n.bedWidthM, SideSlope: n.sideSlope})
	for i, last := above, n; i < len(g.nodes) && !last.gap; i++ {
		next := g.nodes[i]
		g.slices = append(g.slices, checkdam.Slice{AlongM: next.alongM - n.alongM, BedM: next.bedM, BedWidthM: next.bedWidthM, SideSlope: next.sideSlope})
		if next.stationM >= toM {
			b.cutM = last.toward(next, toM).alongM - n.alongM
			break
		}
		if next.bedM > n.bedM+highM {
			break
		}
		last = next
	}
	v, err := checkdam.NewValley(g.slices)
	b.Valley = v
	return b, err == nil
}

// reference returns the level of the bed at a node, m, by linear regression of the bed over referenceM, and its variance in those of the
// bed of a section: the sum of the squares of the weights that sections have in it, 0.4 to 0.6 where they lie 5 m apart.
func (g *valleyGround) reference(n node) (bedM, variance float64) {
	var places [referencePlaces]node
	read := places[:0]
	count, sumX, sumXX := 0.0, 0.0, 0.0
	for j := range referencePlaces {
		x := referenceM * (float64(j)/(referencePlaces-1) - 0.5)
		place, _, ok := g.nodeAt(n.stationM + x)
		if !ok {
			continue
		}
		read = append(read, place)
		count, sumX, sumXX = count+1, sumX+x, sumXX+x*x
	}
	first, last := read[0].section, read[len(read)-1].section
	if need := last - first + 2; need > len(g.weights) {
		g.weights = make([]float64, need)
	}
	weights := g.weights[:last-first+2]
	clear(weights)
	meanX := sumX / count
	spread := sumXX - sumX*meanX
	for _, place := range read {
		weight := 1 / count
		if spread > 0 {
			weight -= meanX * (place.stationM - n.stationM - meanX) / spread // the regression is read at x = 0
		}
		bedM += weight * place.bedM
		weights[place.section-first] += weight * (1 - place.upper)
		weights[place.section-first+1] += weight * place.upper
	}
	for _, w := range weights {
		variance += w * w
	}
	return bedM, variance
}
