package channel

import (
	"math"

	"siltstep/raster"
)

// side is the ground from the thalweg outward on one side of a section, in samples: sample i lies
// i steps out. Heights are in metres above the thalweg's sample. Each sum runs over the samples before one.
type side struct {
	z        []float64
	sumI     []float64 // of i
	sumII    []float64 // of i²
	sumZ     []float64 // of z
	sumIZ    []float64 // of i·z
	sumZZ    []float64 // of z²
	toes     []float64 // samples where the ground bends up
	tops     []float64 // samples where it bends down
	complete bool      // reaches as far as it was asked to; otherwise it ends at a void or the edge of the grid
}

// newSide returns a side with room for so many samples.
func newSide(samples int) side {
	s := side{
		z: make([]float64, 0, samples), sumI: make([]float64, samples+1), sumII: make([]float64, samples+1),
		sumZ: make([]float64, samples+1), sumIZ: make([]float64, samples+1), sumZZ: make([]float64, samples+1),
	}
	for n := range samples {
		i := float64(n)
		s.sumI[n+1], s.sumII[n+1] = s.sumI[n]+i, s.sumII[n]+i*i
	}
	return s
}

// load fills a side with the samples of a section from the middle outward, up to the first void; dir is −1
// on the left.
func (s *side) load(mm []int32, middle, dir int) {
	s.z, s.complete = s.z[:0], false
	base := int64(mm[middle])
	for i, n := middle, 0; i >= 0 && i < len(mm); i, n = i+dir, n+1 {
		if mm[i] == raster.VoidMM {
			return
		}
		z := float64(int64(mm[i])-base) / 1000
		s.z = append(s.z, z)
		s.sumZ[n+1], s.sumIZ[n+1], s.sumZZ[n+1] = s.sumZ[n]+z, s.sumIZ[n]+float64(n)*z, s.sumZZ[n]+z*z
	}
	s.complete = true
}

// hinge is a line of up to three straight parts that hang together: the bed level as far as the toe, the
// bank from there to the top, and the ground beyond. Offsets are in steps, slopes in metres a step.
type hinge struct {
	toe, top float64
	bedM     float64
	bank     float64 // slope of the bank
	ground   float64 // slope of the ground beyond
	squares  float64 // sum of the squared differences, m²
}

// riseM returns how far the top stands above the bed, m.
func (h hinge) riseM() float64 { return h.bank * (h.top - h.toe) }

// sums are what a fit needs of the samples from one on: the sums of (i − at) and its square, and of
// z·(i − at).
type sums struct {
	count, u, uu, uz float64
}

// beyond returns the sums over the samples of the first n that lie beyond an offset.
func (s *side) beyond(at float64, n int) sums {
	a := int(math.Ceil(at))
	c := float64(n - a)
	i, ii := s.sumI[n]-s.sumI[a], s.sumII[n]-s.sumII[a]
	return sums{c, i - at*c, ii - 2*at*i + at*at*c, s.sumIZ[n] - s.sumIZ[a] - at*(s.sumZ[n]-s.sumZ[a])}
}

// risingFrom returns the sum of the squared differences of the first n samples from the line that fits them best of
// a level bed and a bank that rises from a toe and never ends; p are the sums beyond the toe.
func (s *side) risingFrom(p sums, n int) float64 {
	c, z := float64(n), s.sumZ[n]
	det := c*p.uu - p.u*p.u
	if !(det > 0) {
		return math.Inf(1)
	}
	bank := (c*p.uz - p.u*z) / det
	return max(0, s.sumZZ[n]-(z-bank*p.u)/c*z-bank*p.uz)
}

// fitFrom returns the least squares fit of three parts to the first n samples; ok is false where the samples do not
// tell. p are the sums beyond the toe, q those beyond the top. The normal equations are solved by Cramer's rule.
func (s *side) fitFrom(toe float64, p sums, top float64, q sums, n int) (h hinge, ok bool) {
	c, z := float64(n), s.sumZ[n]
	uv := q.uu + (top-toe)*q.u // Σ(i − toe)(i − top) beyond the top
	a, b, d := p.uu*q.uu-uv*uv, p.u*q.uu-uv*q.u, p.u*uv-p.uu*q.u
	det := c*a - p.u*b + q.u*d
	if !(det > 1e-9*c*p.uu*q.uu) {
		return hinge{}, false
	}
	bed := (z*a - p.u*(p.uz*q.uu-uv*q.uz) + q.u*(p.uz*uv-p.uu*q.uz)) / det
	bank := (c*(p.uz*q.uu-uv*q.uz) - z*b + q.u*(p.u*q.uz-p.uz*q.u)) / det
	turn := (c*(p.uu*q.uz-p.uz*uv) - p.u*(p.u*q.uz-p.uz*q.u) + z*d) / det
	return hinge{toe, top, bed, bank, bank + turn, max(0, s.sumZZ[n]-bed*z-bank*p.uz-turn*q.uz)}, true
}

// line returns the least squares line a + b·i through the samples from one offset to another, in
// steps; ok is false where fewer than least lie between.
func (s *side) line(from, to float64, least int) (a, b float64, ok bool) {
	i, j := max(0, int(math.Ceil(from))), min(len(s.z), int(math.Floor(to))+1)
	if j-i < max(2, least) {
		return 0, 0, false
	}
	c := float64(j - i)
	x, xx := s.sumI[j]-s.sumI[i], s.sumII[j]-s.sumII[i]
	z, xz := s.sumZ[j]-s.sumZ[i], s.sumIZ[j]-s.sumIZ[i]
	b = (c*xz - x*z) / (c*xx - x*x)
	return (z - b*x) / c, b, true
}
