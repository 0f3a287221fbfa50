package page

import (
	"math"
	"slices"

	"siltstep/cmd/internal/facts"

	"github.com/paulmach/orb"
)

// The fit: cubic in each direction, from points on a lattice over the grid with more rows and columns than it has unknowns in each.
const (
	powers = 4
	nodes  = 7
)

// A position turns metres of the grid into degrees: with u and v from -1 to 1 over the grid, west to east and south to north, longitude is the sum of
// Lon[4i+j] uⁱvʲ, and latitude likewise.
type position struct {
	Lon []float64 `json:"lon"`
	Lat []float64 `json:"lat"`
}

// placeIn returns a place of the plan in degrees.
func placeIn(f *facts.Folder) (orb.Point, bool) {
	for _, d := range f.Drainages {
		if line := f.Lines[d.ID]; len(line) > 0 {
			return line[0], true
		}
	}
	return orb.Point{}, false
}

// fitPosition fits a position to the projection of a grid. start is a place not far from the grid, degrees.
func fitPosition(g facts.Grid, start orb.Point, toGrid func([]orb.Point) ([]orb.Point, error)) (*position, error) {
	o := originOf(g)
	half := orb.Point{float64(g.Cols) * o.cellM / 2, float64(g.Rows) * o.cellM / 2}
	var at, want []orb.Point
	for row := range nodes {
		for col := range nodes {
			// Nodes where a Chebyshev polynomial is 0: the fit is then nearly the best there is.
			u := orb.Point{-math.Cos(math.Pi * (float64(col) + 0.5) / nodes), -math.Cos(math.Pi * (float64(row) + 0.5) / nodes)}
			at = append(at, u)
			want = append(want, orb.Point{o.westM + half[0]*(1+u[0]), o.southM + half[1]*(1+u[1])})
		}
	}
	places, err := degreesOf(want, start, toGrid)
	if err != nil {
		return nil, err
	}
	lon, lat := make([]float64, len(places)), make([]float64, len(places))
	for i, p := range places {
		lon[i], lat[i] = p[0], p[1]
	}
	return &position{surface(at, lon), surface(at, lat)}, nil
}

// degreesOf turns metres of the grid back into degrees by Newton's method.
func degreesOf(want []orb.Point, start orb.Point, toGrid func([]orb.Point) ([]orb.Point, error)) ([]orb.Point, error) {
	const (
		step   = 1e-4 // degrees, for slopes
		nearM  = 1e-4 // 1e-9 degrees
		atMost = 30
	)
	n := len(want)
	at := slices.Repeat([]orb.Point{start}, n)
	for range atMost {
		ask := make([]orb.Point, 0, 3*n)
		for _, p := range at {
			ask = append(ask, p, orb.Point{p[0] + step, p[1]}, orb.Point{p[0], p[1] + step})
		}
		got, err := toGrid(ask)
		if err != nil {
			return nil, err
		}
		if len(got) != 3*n {
			return nil, errOutside
		}
		far := 0.0
		for i := range at {
			here := got[3*i]
			offX, offY := want[i][0]-here[0], want[i][1]-here[1]
			far = max(far, math.Abs(offX), math.Abs(offY))
			xu, yu := (got[3*i+1][0]-here[0])/step, (got[3*i+1][1]-here[1])/step
			xv, yv := (got[3*i+2][0]-here[0])/step, (got[3*i+2][1]-here[1])/step
			det := xu*yv - xv*yu
			at[i][0] += (offX*yv - offY*xv) / det
			at[i][1] += (offY*xu - offX*yu) / det
		}
		if far < nearM {
			return at, nil
		}
		if math.IsNaN(far) {
			break
		}
	}
	return nil, errOutside
}

// surface returns the coefficients of the polynomial nearest to values by least squares.
func surface(at []orb.Point, values []float64) []float64 {
	const n = powers * powers
	normal := make([][]float64, n)
	for i := range normal {
		normal[i] = make([]float64, n+1)
	}
	for k, p := range at {
		var term [n]float64
		for i := range powers {
			for j := range powers {
				term[powers*i+j] = math.Pow(p[0], float64(i)) * math.Pow(p[1], float64(j))
			}
		}
		for i := range n {
			for j := range n {
				normal[i][j] += term[i] * term[j]
			}
			normal[i][n] += term[i] * values[k]
		}
	}
	return solved(normal)
}

// solved solves linear equations, the right-hand side last in each row, by elimination with the largest pivot.
func solved(rows [][]float64) []float64 {
	n := len(rows)
	for c := range n {
		best := c
		for r := c + 1; r < n; r++ {
			if math.Abs(rows[r][c]) > math.Abs(rows[best][c]) {
				best = r
			}
		}
		rows[c], rows[best] = rows[best], rows[c]
		for r := range n {
			if r == c {
				continue
			}
			share := rows[r][c] / rows[c][c]
			for k := c; k <= n; k++ {
				rows[r][k] -= share * rows[c][k]
			}
		}
	}
	x := make([]float64, n)
	for i := range n {
		x[i] = rows[i][n] / rows[i][i]
	}
	return x
}
