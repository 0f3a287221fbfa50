package channel

import (
	"math"
	"math/rand/v2"

	"siltstep/raster"
	"siltstep/raster/rastertest"
)

// trench is a channel of known shape cut into a plane that falls along it.
type trench struct {
	bedM, run, depthM float64 // bed width, run of the banks per metre of height, depth below the plane at the middle
	cross             float64 // slope of the plane across the trench, up to the right
	deg               float64 // direction of flow, from south toward east
	radiusM           float64 // of a bend to the left; zero is straight
	shift             float64 // of the line off a cell centre, in cells
}

// fallAlong is the slope of every drawn trench.
const fallAlong = 0.03

// halfM is how far a drawn grid reaches from its middle, m.
const halfM = 40.0

// lengthM is how much of its line has sections, m.
const drawnM = 50.0

// at returns the place along the line and the offset right of it of a place east and south of the middle. The line
// of a bend is an arc through the middle.
func (t trench) at(east, south float64) (along, right float64) {
	sin, cos := math.Sincos(t.deg * math.Pi / 180)
	along, right = east*sin+south*cos, south*sin-east*cos
	if t.radiusM == 0 {
		return along, right
	}
	fromCenter := math.Hypot(along, right+t.radiusM) // the middle of the bend lies to the left
	return t.radiusM * math.Atan2(along, right+t.radiusM), fromCenter - t.radiusM
}

// place returns the place on the line a length along it, east and south of the middle.
func (t trench) place(along float64) (east, south float64) {
	right := 0.0
	if t.radiusM > 0 {
		sin, cos := math.Sincos(along / t.radiusM)
		along, right = t.radiusM*sin, t.radiusM*(cos-1)
	}
	sin, cos := math.Sincos(t.deg * math.Pi / 180)
	return along*sin - right*cos, along*cos + right*sin
}

// levelM returns the ground at a place.
func (t trench) levelM(along, right float64) float64 {
	down := 100 - fallAlong*along
	ground := down + t.cross*right
	out := math.Abs(right) - t.bedM/2
	switch {
	case out <= 0:
		return min(ground, down-t.depthM)
	case t.run == 0:
		return ground
	}
	return min(ground, down-t.depthM+out/t.run)
}

// topsM returns the offsets at which the banks meet the plane, left without its sign.
func (t trench) topsM() (left, right float64) {
	return (t.depthM*t.run + t.bedM/2) / (1 + t.cross*t.run), (t.depthM*t.run + t.bedM/2) / (1 - t.cross*t.run)
}

// draw returns the grid, with independent errors of the cells of a standard deviation, and the line as a profile with
// a station a cell.
func (t trench) draw(cellM, errorM float64, seed uint64) (*raster.Grid, Profile) {
	rng := rand.New(rand.NewPCG(seed, 1))
	side := int(2*halfM/cellM) + 1
	mid := float64(side-1) / 2
	g := rastertest.Surface(side, side, cellM, func(col, row int) int32 {
		along, right := t.at((float64(col)-mid-t.shift)*cellM, (float64(row)-mid-t.shift)*cellM)
		return int32(math.Round(1000 * (t.levelM(along, right) + errorM*rng.NormFloat64())))
	})
	x0, y0 := rastertest.CornerX+(mid+0.5+t.shift)*cellM, rastertest.CornerY-(mid+0.5+t.shift)*cellM
	n := int(drawnM / cellM)
	p := Profile{Stations: make([]Station, n+1)}
	for i := range p.Stations {
		station := drawnM * float64(i) / float64(n)
		east, south := t.place(drawnM/2 - station)
		p.Stations[i] = Station{StationM: station, X: x0 + east, Y: y0 - south}
	}
	return g, p
}

// land returns a grid that falls to the south and has a given cross-section, x metres west of the middle, that is to the
// right looking downstream, and the profile down its middle.
func land(cellM, errorM float64, seed uint64, z func(x float64) float64) (*raster.Grid, Profile) {
	rng := rand.New(rand.NewPCG(seed, 2))
	side := int(2*halfM/cellM) + 1
	mid := float64(side-1) / 2
	g := rastertest.Surface(side, side, cellM, func(col, row int) int32 {
		x := (mid - float64(col) + 0.3) * cellM
		return int32(math.Round(1000 * (100 - fallAlong*float64(row)*cellM + z(x) + errorM*rng.NormFloat64())))
	})
	p := Profile{Stations: make([]Station, int(drawnM)+1)}
	for i := range p.Stations {
		p.Stations[i] = Station{
			StationM: float64(i), X: rastertest.CornerX + (mid+0.8)*cellM,
			Y: rastertest.CornerY - float64(side)*cellM/2 - drawnM/2 + float64(i),
		}
	}
	return g, p
}
