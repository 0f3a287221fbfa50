package demo

import "math"

// tap is one place along an axis of a surface: the four cells around it and their weights.
type tap struct {
	at [4]int
	w  [4]float64
}

// tapAt returns the tap at a place in metres along an axis of n cells of size cellM that
// begins at originM. Weights are those of the uniform cubic B-spline: smooth, and never
// outside the range of its four cells. Beyond the ends the last cell repeats.
// Source: de Boor 1978, A practical guide to splines, ch. IX (uniform cubic case).
func tapAt(placeM, originM, cellM float64, n int) tap {
	x := (placeM-originM)/cellM - 0.5
	f := math.Floor(x)
	t := x - f
	var p tap
	u := 1 - t
	p.w[0] = u * u * u / 6
	p.w[3] = t * t * t / 6
	p.w[1] = bump(t)
	p.w[2] = bump(u)
	for k := range p.at {
		p.at[k] = min(max(int(f)+k-1, 0), n-1)
	}
	return p
}

// bump is the middle piece of the cubic B-spline: (4 − 6t² + 3t³)/6.
func bump(t float64) float64 {
	cubic := float64(3 * t * t * t)
	square := float64(6 * t * t)
	return (4 - square + cubic) / 6
}

// tapsAlong returns the taps at the centres of count cells of stepM from fromM on.
func tapsAlong(fromM, stepM float64, count int, originM, cellM float64, n int) []tap {
	taps := make([]tap, count)
	for k := range taps {
		taps[k] = tapAt(fromM+float64((float64(k)+0.5)*stepM), originM, cellM, n)
	}
	return taps
}

// mixRow writes into row the mix of four rows of the surface.
func (s *surface) mixRow(row []float64, p tap) {
	a := s.z[p.at[0]*s.cols:][:s.cols]
	b := s.z[p.at[1]*s.cols:][:s.cols]
	c := s.z[p.at[2]*s.cols:][:s.cols]
	d := s.z[p.at[3]*s.cols:][:s.cols]
	for i := range row {
		row[i] = float64(a[i]*p.w[0]) + float64(b[i]*p.w[1]) + float64(c[i]*p.w[2]) + float64(d[i]*p.w[3])
	}
}

// mixAt returns the mix of four cells of a row.
func mixAt(row []float64, p *tap) float64 {
	return float64(row[p.at[0]]*p.w[0]) + float64(row[p.at[1]]*p.w[1]) +
		float64(row[p.at[2]]*p.w[2]) + float64(row[p.at[3]]*p.w[3])
}

// finer returns the surface at half the cell size, on the same ground.
func (s *surface) finer() *surface {
	f := newSurface(2*s.cols, 2*s.rows, s.cellM/2, s.west, s.north)
	across := tapsAlong(f.west, f.cellM, f.cols, s.west, s.cellM, s.cols)
	down := tapsAlong(f.north, f.cellM, f.rows, s.north, s.cellM, s.rows)
	row := make([]float64, s.cols)
	for r := range f.rows {
		s.mixRow(row, down[r])
		for c := range f.cols {
			f.z[r*f.cols+c] = mixAt(row, &across[c])
		}
	}
	return f
}

// heightM returns the surface at any place, m.
func (s *surface) heightM(p spot) float64 {
	across := tapAt(p.e, s.west, s.cellM, s.cols)
	down := tapAt(p.s, s.north, s.cellM, s.rows)
	sum := 0.0
	for k, r := range down.at {
		sum += float64(down.w[k] * mixAt(s.z[r*s.cols:][:s.cols], &across))
	}
	return sum
}
