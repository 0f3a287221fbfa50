package channel

import (
	"math"

	"siltstep/raster"
)

// chordCells: a transect takes its direction from the chord between the places this far down and up the line;
// over so many cells the steps of D8 that smoothing leaves do not turn it. Source: our own choice.
const chordCells = 4.0 // cell sides to either side

// leastSpacingCells is the least distance between sections, in cell sides: nearer ones read the
// same cells.
const leastSpacingCells = 2.0

// stepCells is the distance between the samples of a section, in cell sides. Elevations between
// cell centres follow from those of the centres; half a cell misses none of them by much.
const stepCells = 0.5

// transect is where a section is to be taken: a place on the line, and the unit vector to the
// right of it looking downstream.
type transect struct {
	stationM float64
	x, y     float64
	dx, dy   float64
}

// transects lays out the places of sections along a profile, the first half a spacing from the lower
// end; a line shorter than the spacing has one in its middle. Those where no bed is seen are left out.
func transects(p Profile, cellM, spacingM float64) []transect {
	lengthM := p.LengthM()
	if len(p.Stations) < 2 || !(lengthM > 0) || !(spacingM > 0) {
		return nil
	}
	spacingM = max(spacingM, leastSpacingCells*cellM)
	if !(spacingM <= lengthM) {
		spacingM = lengthM
	}
	var out []transect
	at, from, to := walker{st: p.Stations}, walker{st: p.Stations}, walker{st: p.Stations}
	chordM := chordCells * cellM
	for k := 0; ; k++ {
		s := spacingM * (float64(k) + 0.5)
		if s > lengthM {
			return out
		}
		x, y := at.to(s)
		lowX, lowY := from.to(s - chordM)
		highX, highY := to.to(s + chordM)
		length := math.Hypot(lowX-highX, lowY-highY)
		if at.noBed(s) || !(length > 0) {
			continue
		}
		out = append(out, transect{s, x, y, (lowY - highY) / length, (highX - lowX) / length})
	}
}

// walker walks up the line of a profile.
type walker struct {
	st []Station
	i  int // the last station at or below the place; the one above it exists
}

// to walks on to a place along the line and returns its map position. Beyond an end it stays there.
func (w *walker) to(stationM float64) (x, y float64) {
	for w.i < len(w.st)-2 && w.st[w.i+1].StationM <= stationM {
		w.i++
	}
	a, b := &w.st[w.i], &w.st[w.i+1]
	if !(b.StationM > a.StationM) {
		return a.X, a.Y
	}
	t := min(1, max(0, (stationM-a.StationM)/(b.StationM-a.StationM)))
	return a.X + (b.X-a.X)*t, a.Y + (b.Y-a.Y)*t
}

// noBed reports whether no bed is seen at a station beside the place it has come to.
func (w *walker) noBed(stationM float64) bool {
	a, b := &w.st[w.i], &w.st[w.i+1]
	return a.NoBed && stationM < b.StationM || b.NoBed && stationM > a.StationM
}

// read samples the ground along a transect from n steps left of the line to n steps right of it, in millimetres.
func (t transect) read(g *raster.Grid, mm []int32, stepM float64) {
	n := len(mm) / 2
	cellM := g.Transform.CellM
	u0, v0 := (t.x-g.Transform.OriginX)/cellM-0.5, (g.Transform.OriginY-t.y)/cellM-0.5
	du, dv := t.dx*stepM/cellM, -t.dy*stepM/cellM
	lastCol, lastRow := float64(g.Cols-1), float64(g.Rows-1)
	for i := range mm {
		at := float64(i - n)
		u, v := u0+du*at, v0+dv*at
		mm[i] = raster.VoidMM
		if u >= 0 && v >= 0 && u < lastCol && v < lastRow {
			if z, ok := bilinear(g, u, v); ok {
				mm[i] = z
				continue
			}
		}
		if z, ok := g.Sample(t.x+t.dx*at*stepM, t.y+t.dy*at*stepM); ok {
			mm[i] = int32(math.Round(z * 1000))
		}
	}
}

// bilinear is raster.Grid.Sample to the nearest millimetre for a place well inside the grid, in cells from the
// centre of the first; ok is false where one of the four cells about it is void.
func bilinear(g *raster.Grid, u, v float64) (mm int32, ok bool) {
	col, row := int(u), int(v)
	i := row*g.Cols + col
	a, b, c, d := g.MM[i], g.MM[i+1], g.MM[i+g.Cols], g.MM[i+g.Cols+1]
	if a == raster.VoidMM || b == raster.VoidMM || c == raster.VoidMM || d == raster.VoidMM {
		return 0, false
	}
	fu, fv := u-float64(col), v-float64(row)
	north := float64(a) + float64(int64(b)-int64(a))*fu
	south := float64(c) + float64(int64(d)-int64(c))*fu
	return int32(math.Floor(north + (south-north)*fv + 0.5)), true
}
