package channel

import (
	"fmt"
	"slices"

	"siltstep/hydro/flow"
	"siltstep/raster"

	"github.com/paulmach/orb"
)

// Profile is the longitudinal profile of a drainage.
type Profile struct {
	Stations []Station // from the lower end upstream
}

// Station is one place along the smoothed channel line: one for each D8 cell, and at the
// lower end of a tributary one more, the confluence, on the line of the receiving drainage.
//
// At a confluence X, Y, GroundM and BedM are those of the receiving drainage there; Cell,
// CatchmentM2, Truncated and FillM are those of the tributary's own last cell, so that its catchment
// never takes in the land of the larger one.
//
// Where a blockage was cut through, in a stock pond and under standing water the ground is not
// the bed: such a station has NoBed set, BedM there is a straight line between the stations
// beyond, and no slope is told.
type Station struct {
	StationM    float64 // metres along the smoothed line from the lower end
	X, Y        float64 // map position on the smoothed line, m
	Cell        int     // the D8 cell it stands for
	GroundM     float64 // original elevation: lowest of 3 cells across the flow, m
	BedM        float64 // after the quantile carve: never rises downstream, m
	Slope       float64 // bed slope by least squares over max(10 m, 5 cells), rise over run, ≥ 0; NaN where it cannot be told
	NoBed       bool    // the ground here is not the bed: Cut, StockPond, standing water (see Stretches) or what holds it
	Cut         bool    // the ground of the cell was lowered so that water passes, by more than the noise of a survey
	StockPond   bool    // the cell lies in a stock pond or playa, declared or likely
	CatchmentM2 float64 // land that drains through the D8 cell, m²
	Truncated   bool    // water enters that catchment over the edge of the data: CatchmentM2 reads "at least"
	FillM       float64 // depth of the filled surface above the original elevation of the cell, m: standing water, road fill or pit; 0 on a cut
}

// LengthM returns the length along the smoothed line in metres; 0 for an empty profile.
func (p Profile) LengthM() float64 {
	if len(p.Stations) == 0 {
		return 0
	}
	return p.Stations[len(p.Stations)-1].StationM
}

// DropM returns the fall of the bed from the upper to the lower end in metres; 0 for an empty profile.
func (p Profile) DropM() float64 {
	if len(p.Stations) == 0 {
		return 0
	}
	return p.Stations[len(p.Stations)-1].BedM - p.Stations[0].BedM
}

// Line returns the smoothed line running downstream, in map coordinates; empty for an
// empty profile.
func (p Profile) Line() orb.LineString {
	line := make(orb.LineString, len(p.Stations))
	for i, s := range p.Stations {
		line[len(line)-1-i] = orb.Point{s.X, s.Y}
	}
	return line
}

// Downstream returns the profile of the path that water takes from a cell to where flow
// ends. The cell need not be channel. It panics where the cell holds no data.
func Downstream(g *raster.Grid, f *flow.Field, cell int) Profile {
	mustMatch(g, f)
	if !f.Valid(cell) {
		panic(fmt.Sprintf("channel: cell %d holds no data", cell))
	}
	var cells []int
	for ; cell >= 0; cell = f.Down(cell) {
		cells = append(cells, cell)
	}
	return follow(g, f, marksOf(g, f), cells, nil).profile
}

// course is the line of a path with its profile: one vertex and one station a cell, and one more
// at a confluence. The line runs downstream, the stations upstream.
type course struct {
	line    []vertex
	bedMM   []int32 // running downstream
	profile Profile
}

// joint is where a tributary ends: one vertex of the course it joins.
type joint struct {
	at      vertex
	groundM float64
	bedMM   int32
}

// joint returns the vertex of a course that stands for the k-th cell of its path.
func (c course) joint(k int) *joint {
	return &joint{c.line[k], c.profile.Stations[len(c.line)-1-k].GroundM, c.bedMM[k]}
}

// follow returns the course of a path. end, if not nil, is the confluence it runs into.
func follow(g *raster.Grid, f *flow.Field, m marks, cells []int, end *joint) course {
	raw := centers(cells, g.Cols)
	if end != nil {
		raw = append(raw, end.at)
	}
	c := course{line: smooth(raw)}
	ground := groundMM(g, cells, c.line)
	c.profile = stationed(g, f, cells, c.line, ground)
	if end != nil {
		c.profile.Stations[0].GroundM = end.groundM
	}
	m.mark(c.profile)
	c.bedMM = bedOf(ground, c.profile, end)
	n := len(c.line)
	for i := range c.profile.Stations {
		c.profile.Stations[i].BedM = float64(c.bedMM[n-1-i]) / 1000
	}
	setSlopes(c.profile, slopeWindow(g.Transform.CellM))
	return c
}

// stationed returns the stations of a line from the lower end upstream, without bed and slope.
func stationed(g *raster.Grid, f *flow.Field, cells []int, line []vertex, groundMM []int32) Profile {
	cellM, n := g.Transform.CellM, len(line)
	along := stationsOf(line)
	stations := make([]Station, n)
	for i := range stations {
		k := n - 1 - i
		at := min(k, len(cells)-1)
		cell := cells[at]
		x, y := mapPosition(g.Transform, line[k])
		stations[i] = Station{
			StationM:    along[k] * cellM,
			X:           x,
			Y:           y,
			Cell:        cell,
			GroundM:     float64(groundMM[at]) / 1000,
			CatchmentM2: catchmentM2(f, cellM, cell),
			Truncated:   f.Truncated(cell),
			FillM:       float64(max(0, f.FilledMM[cell]-g.MM[cell])) / 1000,
		}
	}
	return Profile{Stations: stations}
}

// mapPosition returns the map coordinates of a vertex, in metres.
func mapPosition(t raster.Transform, v vertex) (x, y float64) {
	return t.OriginX + (v.col+0.5)*t.CellM, t.OriginY - (v.row+0.5)*t.CellM
}

// addProfiles fills in the profiles of drainages, the receiving one before its tributaries,
// and the stations of confluences. ranks are those that tree.drainages returns.
func addProfiles(g *raster.Grid, f *flow.Field, drainages []Drainage, ranks []int) {
	courses := make([]course, len(drainages))
	m := marksOf(g, f)
	for n := range drainages {
		d := &drainages[n]
		var end *joint
		if d.Into >= 0 {
			end = courses[d.Into].joint(ranks[n])
		}
		courses[n] = follow(g, f, m, d.Cells, end)
		d.Profile = courses[n].profile
	}
	for n := range drainages {
		if into := drainages[n].Into; into >= 0 {
			r := &drainages[into]
			at := len(r.Profile.Stations) - 1 - ranks[n]
			r.ConfluencesM = append(r.ConfluencesM, r.Profile.Stations[at].StationM)
		}
	}
	for n := range drainages {
		slices.Sort(drainages[n].ConfluencesM)
		drainages[n].ConfluencesM = slices.Compact(drainages[n].ConfluencesM)
	}
}
