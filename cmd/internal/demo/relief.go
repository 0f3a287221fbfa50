package demo

import "math"

// land is the coarse ground of the ranch and what shapes it.
type land struct {
	frame
	ground   *surface
	softness []float64 // how easily water cuts each cell, about 1
	held     []bool    // rim cells whose height is given
	gates    []gate
	spare    []float64
	rand     noise
}

// frame is the extent of the data within the country around it.
type frame struct {
	widthM, heightM float64 // of the data
}

// The country before erosion, and how it varies; chosen by eye.
const (
	marginM    = 208.0  // country modelled around the data, m; a multiple of coarsestM
	baseM      = 1618.0 // height at which the main valley leaves that country, m
	rimM       = 60.0   // rise from there to a place acrossM away, m
	acrossM    = 2500.0 // m
	startM     = 4.0    // unevenness, m
	startWaveM = 420.0  // its longest wavelength, m
	softRange  = 0.28   // half the range of softness
	softWaveM  = 380.0  // its longest wavelength, m
)

// shapeLand returns the ground of a ranch after all stages of erosion, on 4 m cells.
func shapeLand(f frame, seed uint64) (*land, error) {
	l := &land{frame: f, rand: noise{seed}}
	l.layGates()
	cols := int(math.Ceil((f.widthM + 2*marginM) / coarsestM))
	rows := int(math.Ceil((f.heightM + 2*marginM) / coarsestM))
	l.ground = newSurface(cols, rows, coarsestM, -marginM, -marginM)
	for i := range l.ground.z {
		p := l.ground.center(i)
		l.ground.z[i] = l.tilt(p) + float64(startM*l.rand.fractal(p.e, p.s, startWaveM, 0.6, 5))
	}
	for k, st := range stages {
		if k > 0 {
			l.ground = l.ground.finer()
		}
		l.prepare()
		for n := range st.rounds {
			r, err := route(l.ground, noise{mix(l.rand.seed ^ uint64(1000*k+n))}, jitter*l.ground.cellM)
			if err != nil {
				return nil, err
			}
			l.incise(r, st.step)
			l.creep(st.step)
		}
	}
	return l, nil
}

// prepare sets what depends on the cell size of the ground.
func (l *land) prepare() {
	s := l.ground
	l.softness, l.held = make([]float64, len(s.z)), make([]bool, len(s.z))
	l.spare = make([]float64, len(s.z))
	soft := noise{mix(l.rand.seed + 101)}
	for i := range s.z {
		p := s.center(i)
		v := soft.fractal(p.e, p.s, softWaveM, 0.7, 4)
		l.softness[i] = 1 + float64(softRange*min(max(v, -2), 2))
		if !s.border(i) {
			continue
		}
		if g, ok := l.gateAt(p); ok {
			l.held[i], s.z[i] = true, g.heightM
		}
	}
}

// tilt returns the height of the country before erosion, m: it rises away from the outlet.
func (l *land) tilt(p spot) float64 {
	return baseM + float64(rimM*math.Sqrt(p.minus(l.gates[0].spot).length()/acrossM))
}
