package erosion

import (
	"cmp"
	"math"
	"slices"

	"siltstep/hydro/channel"
	"siltstep/raster"
)

// CauseBank is where water comes in over the bank of an incised bed that goes on upstream of the place: no headcut
// of that bed, though one may grow from it.
const CauseBank Cause = "bank"

// How it is told that the bed below a step goes on upstream. Source: our own choice, tried on drawn gullies.
const (
	goesOnM  = 8.0         // m over which low ground must go on
	passesM  = 5.0         // m over which the line of another drainage must go on
	besideBy = 6.0         // m from the foot within which that line passes
	behindM  = 6.0         // m of line below the foot that tell where the bed leads
	fanRad   = math.Pi / 3 // to either side of straight on upstream
	fanSteps = 8           // directions looked at to either side
	lowShare = 0.5         // share of the height of the step below which ground is low
)

// NetworkHeadcuts returns the headcuts of every drainage of a network, as Headcuts tells them, one slice a drainage, but each
// step once: of several drainages that fall over one head, within 5 m, the one with most land tells it.
// Where the ground at its foot, or the line of another drainage there, goes on upstream nearer to the level of the bed below
// than of the bed above, the cause is CauseBank, unless it is a road or a pond.
func NetworkHeadcuts(g *raster.Grid, n *channel.Network, noiseM float64, cfg Config) [][]Headcut {
	out := make([][]Headcut, len(n.Drainages))
	found := make([][]step, len(n.Drainages))
	for i := range n.Drainages {
		found[i] = stepsOf(&n.Drainages[i], g.Transform.CellM, noiseM, cfg)
	}
	lines := linesBeside(g, n, found)
	for i, all := range found {
		st := n.Drainages[i].Profile.Stations
		for _, p := range all {
			h := headcutAt(st, p)
			if h.Cause == CauseHeadcut && (bedGoesOn(g, st, p) || lines.goOn(g, i, p)) {
				h.Cause = CauseBank
			}
			out[i] = append(out[i], h)
		}
	}
	dropSame(out)
	return out
}

// bedGoesOn reports whether the bed below a step leads on upstream past it: some straight way from its foot, away from
// where the water goes, stays low for goesOnM.
func bedGoesOn(g *raster.Grid, st []channel.Station, p step) bool {
	down := p.foot
	for down > 0 && st[p.foot].StationM-st[down].StationM < behindM {
		down--
	}
	foot, behind := st[p.foot], st[down]
	straight := math.Atan2(foot.Y-behind.Y, foot.X-behind.X)
	for k := -fanSteps; k <= fanSteps; k++ {
		sin, cos := math.Sincos(straight + fanRad*float64(k)/fanSteps)
		if lowAlong(g, foot, cos, sin, p) {
			return true
		}
	}
	return false
}

// lowAlong reports whether the ground from the foot of a step in a direction stays for goesOnM nearer to the bed below,
// drawn out upstream, than to the one above.
func lowAlong(g *raster.Grid, foot channel.Station, dx, dy float64, p step) bool {
	for away := g.Transform.CellM; away <= goesOnM; away += g.Transform.CellM / 2 {
		z := g.At(g.Transform.ColRow(foot.X+away*dx, foot.Y+away*dy))
		if z == raster.VoidMM || float64(z)/1000 > p.below.at(foot.StationM+away)+lowShare*p.heightM {
			return false
		}
	}
	return true
}

// lines finds the drainages of a network by the cells they run through, as far as those lie beside steps.
type lines struct {
	network *channel.Network
	at      map[int]place
}

// place is a station of a drainage.
type place struct{ drainage, station int }

// linesBeside returns the lines within besideBy of the feet of steps, one slice of steps a drainage.
func linesBeside(g *raster.Grid, n *channel.Network, found [][]step) lines {
	l := lines{n, map[int]place{}}
	wanted := make([]bool, blocks(g.Cols)*blocks(g.Rows))
	for i, all := range found {
		for _, p := range all {
			in := window(g, n.Drainages[i].Profile.Stations[p.foot])
			for row := in.Row >> blockBits; row <= (in.Row+in.Rows-1)>>blockBits; row++ {
				for col := in.Col >> blockBits; col <= (in.Col+in.Cols-1)>>blockBits; col++ {
					wanted[row*blocks(g.Cols)+col] = true
				}
			}
		}
	}
	for i := range n.Drainages {
		d := &n.Drainages[i]
		for k := range d.Profile.Stations {
			cell := d.Profile.Stations[k].Cell
			col, row := g.ColRow(cell)
			if wanted[row>>blockBits*blocks(g.Cols)+col>>blockBits] && (k > 0 || d.Into < 0) { // the confluence is no cell of its own
				l.at[cell] = place{i, k}
			}
		}
	}
	return l
}

// blockBits is the power of two of the side, in cells, of the blocks that are marked beside steps.
const blockBits = 5

// blocks returns how many blocks so many cells lie in.
func blocks(cells int) int { return (cells + 1<<blockBits - 1) >> blockBits }

// window returns the cells within besideBy of a station to all sides, as a window inside the grid.
func window(g *raster.Grid, of channel.Station) raster.Window {
	left, top := g.Transform.ColRow(of.X-besideBy, of.Y+besideBy)
	right, bottom := g.Transform.ColRow(of.X+besideBy, of.Y-besideBy)
	return raster.Window{Col: left, Row: top, Cols: right - left + 1, Rows: bottom - top + 1}.Intersect(g.Bounds())
}

// goOn reports whether the line of another drainage passes the foot of a step of drainage of, and from where it is
// nearest stays as low for passesM upstream.
func (l lines) goOn(g *raster.Grid, of int, p step) bool {
	foot := l.network.Drainages[of].Profile.Stations[p.foot]
	for _, at := range l.passing(g, of, foot) {
		st := l.network.Drainages[at.drainage].Profile.Stations
		for _, s := range st[at.station:] {
			up := s.StationM - st[at.station].StationM
			if s.GroundM > p.below.at(foot.StationM+up)+lowShare*p.heightM {
				break
			}
			if up >= passesM {
				return true
			}
		}
	}
	return false
}

// passing returns where other drainages than of come nearest to a station, within besideBy of it.
func (l lines) passing(g *raster.Grid, of int, to channel.Station) []place {
	var out []place
	awayM := func(p place) float64 {
		s := l.network.Drainages[p.drainage].Profile.Stations[p.station]
		return math.Hypot(s.X-to.X, s.Y-to.Y)
	}
	in := window(g, to)
	for row := in.Row; row < in.Row+in.Rows; row++ {
		for col := in.Col; col < in.Col+in.Cols; col++ {
			at, ok := l.at[g.Index(col, row)]
			if !ok || at.drainage == of || awayM(at) > besideBy {
				continue
			}
			k := slices.IndexFunc(out, func(p place) bool { return p.drainage == at.drainage })
			switch {
			case k < 0:
				out = append(out, at)
			case awayM(at) < awayM(out[k]):
				out[k] = at
			}
		}
	}
	return out
}

// dropSame leaves one of the headcuts of different drainages that lie within nearM of each other: that with most land,
// of equal ones that of the first drainage. Those on banks stay.
func dropSame(all [][]Headcut) {
	type owned struct{ of, at int }
	var order []owned
	for i := range all {
		for k := range all[i] {
			if all[i][k].Cause != CauseBank {
				order = append(order, owned{i, k})
			}
		}
	}
	slices.SortStableFunc(order, func(a, b owned) int {
		return cmp.Compare(all[b.of][b.at].CatchmentM2, all[a.of][a.at].CatchmentM2)
	})
	var kept []owned
	drop := map[owned]bool{}
	for _, o := range order {
		h := all[o.of][o.at]
		same := func(p owned) bool {
			e := all[p.of][p.at]
			return p.of != o.of && math.Hypot(e.X-h.X, e.Y-h.Y) <= nearM
		}
		if slices.ContainsFunc(kept, same) {
			drop[o] = true
			continue
		}
		kept = append(kept, o)
	}
	for i := range all {
		var rest []Headcut
		for k := range all[i] {
			if !drop[owned{i, k}] {
				rest = append(rest, all[i][k])
			}
		}
		all[i] = rest
	}
}
