package demo

import "math"

// noise is a random field that is a pure function of place and seed: no state, so any
// part of it can be computed by itself, in any order.
type noise struct{ seed uint64 }

// mix scrambles 64 bits: the finalizer of SplitMix64.
// Source: Steele, Lea, Flood 2014, Fast splittable pseudorandom number generators, fig. 16.
func mix(x uint64) uint64 {
	x += 0x9e3779b97f4a7c15
	x = (x ^ x>>30) * 0xbf58476d1ce4e5b9
	x = (x ^ x>>27) * 0x94d049bb133111eb
	return x ^ x>>31
}

// lattice returns the value at a whole-numbered place, −1 to 1.
func (n noise) lattice(i, j int64) float64 {
	h := mix(mix(n.seed^uint64(i)) ^ uint64(j))
	return float64(float64(h>>11)/(1<<52)) - 1
}

// unit returns a number from 0 to 1 that belongs to key.
func (n noise) unit(key int) float64 { return (n.lattice(int64(key), 7919) + 1) / 2 }

// between returns a number from lo to hi that belongs to key.
func (n noise) between(key int, lo, hi float64) float64 {
	return lo + float64((hi-lo)*n.unit(key))
}

// at returns a smooth value at a place given in lattice steps, −1 to 1: lattice values
// joined by quintic curves, so that slope and curvature are continuous.
func (n noise) at(x, y float64) float64 {
	fx, fy := math.Floor(x), math.Floor(y)
	i, j := int64(fx), int64(fy)
	u, v := quintic(x-fx), quintic(y-fy)
	top := lerp(n.lattice(i, j), n.lattice(i+1, j), u)
	bottom := lerp(n.lattice(i, j+1), n.lattice(i+1, j+1), u)
	return lerp(top, bottom, v)
}

// fractal returns noise of several wavelengths in metres, each half as long and weaker by
// the gain than the one before; the first has amplitude 1.
func (n noise) fractal(e, s, waveM, gain float64, octaves int) float64 {
	sum, amp := 0.0, 1.0
	for k := range octaves {
		layer := noise{mix(n.seed + uint64(k))}
		sum += float64(amp * layer.at(e/waveM, s/waveM))
		amp, waveM = amp*gain, waveM/2
	}
	return sum
}

// quintic eases t from 0 to 1 with zero slope and curvature at both ends.
func quintic(t float64) float64 {
	p := float64(t*6) - 15
	p = float64(p*t) + 10
	return p * t * t * t
}

// lerp mixes a and b; the conversion keeps a processor from fusing the sum.
func lerp(a, b, t float64) float64 { return a + float64((b-a)*t) }
