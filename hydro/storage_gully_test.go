package hydro

import (
	"context"
	"math"
	"math/rand/v2"
	"testing"

	"siltstep/hydro/channel"
	"siltstep/hydro/flow"
	"siltstep/raster"
	"siltstep/raster/rastertest"
)

// gully is a channel of one shape cut into a plane that falls along it.
type gully struct {
	bedM, side, bankM float64 // bed width, horizontal run of the banks a metre of height, their height
	cellM             float64
	way               way
	shift             [2]float64              // of the line off a cell centre, in cells, east and south
	errorM            float64                 // standard deviation of cells
	stepM             func(x float64) float64 // added to the bed x metres down the line from its middle; nil for none
}

// way is how a gully lies.
type way struct {
	deg     float64 // direction of flow, from south toward east
	radiusM float64 // of a bend to the left, negative to the right; 0 is straight
}

const (
	gullySlope = 0.08
	gullyHalfM = 30.0 // from the middle of the grid to its edge
)

// along returns the place on the line and the distance from it of a place east and south of the middle.
func (w way) along(east, south float64) (along, off float64) {
	sin, cos := math.Sincos(w.deg * math.Pi / 180)
	along, right := east*sin+south*cos, south*sin-east*cos
	if w.radiusM == 0 {
		return along, math.Abs(right)
	}
	r := math.Abs(w.radiusM)
	right *= math.Copysign(1, w.radiusM)
	return r * math.Atan2(along, right+r), math.Abs(math.Hypot(along, right+r) - r)
}

// draw returns the grid, and the same without errors of cells.
func (d gully) draw(seed uint64) (g, clean *raster.Grid) {
	side := int(2*gullyHalfM/d.cellM) + 1
	mid := float64(side-1) / 2
	level := func(col, row int) float64 {
		along, off := d.way.along((float64(col)-mid-d.shift[0])*d.cellM, (float64(row)-mid-d.shift[1])*d.cellM)
		bed := 100 - gullySlope*along
		if d.stepM != nil {
			bed += d.stepM(along)
		}
		return 1000 * (bed + min(d.bankM, max(0, off-d.bedM/2)/d.side))
	}
	rng := rand.New(rand.NewPCG(seed, 3))
	return rastertest.Surface(side, side, d.cellM, func(col, row int) int32 {
			return int32(math.Round(level(col, row) + 1000*d.errorM*rng.NormFloat64()))
		}), rastertest.Surface(side, side, d.cellM, func(col, row int) int32 {
			return int32(math.Round(level(col, row)))
		})
}

// ground returns the grid and what its cross-sections tell, along the path of the water through the gully.
func (d gully) ground(t testing.TB, seed uint64) (*raster.Grid, *valleyGround) {
	t.Helper()
	g, clean := d.draw(seed)
	f, err := flow.Run(context.Background(), clean, flow.Config{}, nil)
	if err != nil {
		t.Fatal(err)
	}
	head, best := -1, math.Inf(1)
	for i := range clean.MM {
		col, row := clean.ColRow(i)
		mid := float64(clean.Rows-1) / 2
		along, off := d.way.along((float64(col)-mid-d.shift[0])*d.cellM, (float64(row)-mid-d.shift[1])*d.cellM)
		if away := math.Hypot(along+gullyHalfM-3, off); away < best {
			head, best = i, away
		}
	}
	p := &Plan{Grid: g, NoiseM: d.errorM, Config: Defaults(), Network: &channel.Network{Drainages: []channel.Drainage{{Profile: channel.Downstream(g, f, head)}}}}
	p.Sections = [][]channel.Section{channel.Sections(g, p.Network.Drainages[0].Profile, p.Config.Sections)}
	return g, p.ground(0)
}

// prismM3 is bH²/(2k) + zH³/(3k), k the slope.
func prismM3(bedM, side, heightM float64) float64 {
	return (bedM*heightM*heightM/2 + side*math.Pow(heightM, 3)/3) / gullySlope
}
