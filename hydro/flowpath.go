package hydro

import (
	"math"

	"siltstep/hydro/channel"
	"siltstep/hydro/storm"
)

// What the velocity along a flow path is reckoned with. Both are quick, so that times of concentration come out short
// rather than long, and peaks high: no sheet flow at the top, and channels that run about bankfull. Source: our own choice.
const (
	hillSurface = "unpaved" // ground under shallow concentrated flow
	bankfullM   = 0.3       // hydraulic radius of a channel, m
)

// flowPath is the way that water takes from the divide down to a cell.
type flowPath struct {
	hillM, hillFallM       float64 // above the channel head, m
	channelM, channelFallM float64 // below it, m
}

// segments returns the path for the velocity method, each part with its mean slope.
func (f flowPath) segments(roughness float64) []storm.Segment {
	slope := func(fallM, lengthM float64) float64 { return min(1, max(0, fallM/lengthM)) }
	var out []storm.Segment
	if f.hillM > 0 {
		out = append(out, storm.ShallowFlow{LengthM: f.hillM, Slope: slope(f.hillFallM, f.hillM), Surface: hillSurface})
	}
	if f.channelM > 0 {
		out = append(out, storm.ChannelFlow{LengthM: f.channelM, Slope: slope(f.channelFallM, f.channelM), Roughness: roughness, HydraulicRadiusM: bankfullM})
	}
	return out
}

// travelS returns the time through the path in s, and what to heed; 0 where it has no length, NaN where it cannot be told.
func (f flowPath) travelS(roughness float64) (float64, []storm.Note) {
	path := f.segments(roughness)
	if len(path) == 0 {
		return 0, nil
	}
	s, notes, err := storm.PathTravelS(path)
	if err != nil {
		return math.NaN(), nil
	}
	return s, notes
}

// flowPaths returns the path down to each station of a drainage. From a station's cell it is followed upstream to the divide, at
// each step into the neighbour with most cells behind it, of equal ones the higher, then the first by index. Levels are
// those of the original ground, each the lowest so far on the way down: pits, fills and noise then make no rise.
func (p *Plan) flowPaths(d *channel.Drainage) []flowPath {
	out := make([]flowPath, len(d.Profile.Stations))
	var cells []int      // the path, running upstream
	var parts []flowPath // down to each of them
	at := 0
	for i, s := range d.Profile.Stations {
		k := at
		for k < len(cells) && cells[k] != s.Cell {
			k++
		}
		if k == len(cells) {
			cells = p.upstream(s.Cell)
			parts = p.partsOf(cells)
			k = 0
		}
		at, out[i] = k, parts[k]
	}
	return out
}

// upstream returns the cells of the path from a cell up to the divide.
func (p *Plan) upstream(cell int) []int {
	g, f := p.Grid, p.Flow
	cells := []int{cell}
	for {
		col, row := g.ColRow(cell)
		best := -1
		for r := row - 1; r <= row+1; r++ {
			for c := col - 1; c <= col+1; c++ {
				if !g.Inside(c, r) {
					continue
				}
				n := g.Index(c, r)
				if n == cell || f.Down(n) != cell {
					continue
				}
				if best < 0 || f.Cells[n] > f.Cells[best] || f.Cells[n] == f.Cells[best] && g.MM[n] > g.MM[best] {
					best = n
				}
			}
		}
		if best < 0 {
			return cells
		}
		cells, cell = append(cells, best), best
	}
}

// chordSteps is how many steps of a path to either side of one give it its length. Source: our own choice: the zigzag
// that noise makes of a path would lengthen it by a tenth or two, and so the time.
const chordSteps = 5

// stepCells returns the length of the step from the k-th cell of a path to the next, in cell sides: its share of the straight
// line over the steps around it.
func (p *Plan) stepCells(cells []int, k int) float64 {
	from, to := max(0, k-chordSteps), min(len(cells)-1, k+1+chordSteps)
	c0, r0 := p.Grid.ColRow(cells[from])
	c1, r1 := p.Grid.ColRow(cells[to])
	return math.Hypot(float64(c1-c0), float64(r1-r0)) / float64(to-from)
}

// partsOf measures the path down to each cell of a path that runs upstream.
func (p *Plan) partsOf(cells []int) []flowPath {
	g := p.Grid
	cellM := g.Transform.CellM
	start := max(channel.MinStartCells, p.Config.Channels.StartAreaM2/(cellM*cellM)) // in cells; a channel begins here
	out := make([]flowPath, len(cells))
	var here flowPath
	lowest := g.MM[cells[len(cells)-1]]
	for k := len(cells) - 2; k >= 0; k-- {
		above, cell := cells[k+1], cells[k]
		stepM := cellM * p.stepCells(cells, k)
		fallM := float64(max(0, int64(lowest)-int64(g.MM[cell]))) / 1000
		lowest = min(lowest, g.MM[cell])
		if float64(p.Flow.Cells[above]) < start {
			here.hillM, here.hillFallM = here.hillM+stepM, here.hillFallM+fallM
		} else {
			here.channelM, here.channelFallM = here.channelM+stepM, here.channelFallM+fallM
		}
		out[k] = here
	}
	return out
}
