package flow

import "siltstep/raster"

// flood is the working memory of one worker, used again for each tile.
type flood struct {
	z     [places]int32
	label [places]uint16
	queue buckets
	sets  *sets
}

// run floods one tile of a surface from its perimeter and from the ends of flow inside it. Of the surface no
// other tile is touched.
func (f *flood) run(g *raster.Grid, t *tile, surface []int32, labels []uint16) {
	lo, hi, valid := f.load(g.Cols, t, surface)
	t.labels = 0
	if valid > 0 {
		f.queue.reset(&f.z, &f.label, lo, hi)
		f.seed(g, t, valid < t.rows*t.cols)
		f.spread(t)
	}
	f.store(g.Cols, t, surface, labels)
}

// load copies the tile and returns its lowest and highest elevation and its cells with data.
func (f *flood) load(gridCols int, t *tile, surface []int32) (lo, hi int32, valid int) {
	lo, hi = int32(1<<31-1), raster.VoidMM
	for i := range f.label {
		f.label[i] = voidLabel
	}
	for r := range t.rows {
		from := (t.row+r)*gridCols + t.col
		p := (r+1)*wallSide + 1
		for c, z := range surface[from : from+t.cols] {
			f.z[p+c] = z
			if z == raster.VoidMM {
				continue
			}
			f.label[p+c] = openLabel
			lo, hi, valid = min(lo, z), max(hi, z), valid+1
		}
	}
	return lo, hi, valid
}

// seed puts the perimeter of the tile and the ends of flow inside, voids and declared ones, into the queue.
func (f *flood) seed(g *raster.Grid, t *tile, voids bool) {
	for r := range t.rows {
		step := t.cols - 1
		if voids || r == 0 || r == t.rows-1 || step == 0 {
			step = 1
		}
		for c := 0; c < t.cols; c += step {
			p := uint16((r+1)*wallSide + c + 1)
			if f.label[p] == voidLabel {
				continue
			}
			onEdge := r == 0 || c == 0 || r == t.rows-1 || c == t.cols-1
			switch {
			case onEdge && touchesOutside(g, t.col+c, t.row+r), !onEdge && f.besideVoid(p):
				f.label[p] = outsideLabel
			case onEdge:
				f.label[p] = waitingLabel
			default:
				continue
			}
			f.queue.push(p, f.z[p])
		}
	}
	for _, i := range t.ends {
		p := uint16((i/g.Cols-t.row+1)*wallSide + i%g.Cols - t.col + 1)
		if f.label[p] == openLabel {
			f.queue.push(p, f.z[p])
		}
		f.label[p] = outsideLabel
	}
}

// besideVoid reports whether a place inside the tile touches a void.
func (f *flood) besideVoid(p uint16) bool {
	for _, s := range around {
		if f.label[p+s] == voidLabel {
			return true
		}
	}
	return false
}

// touchesOutside reports whether a cell lies on the border of the grid or beside a void.
func touchesOutside(g *raster.Grid, col, row int) bool {
	if col == 0 || row == 0 || col == g.Cols-1 || row == g.Rows-1 {
		return true
	}
	for d := range stepCol {
		if g.MM[(row+stepRow[d])*g.Cols+col+stepCol[d]] == raster.VoidMM {
			return true
		}
	}
	return false
}

// around holds the steps to the eight neighbours of a place; 16-bit sums wrap as they should.
var around = [8]uint16{
	1, wallSide, 1<<16 - 1, 1<<16 - wallSide,
	wallSide + 1, wallSide - 1, 1<<16 - wallSide - 1, 1<<16 - wallSide + 1,
}

// spread takes places from the lowest up. Places not reached yet join the flood; where two
// floods meet for the first time the level is kept.
func (f *flood) spread(t *tile) {
	f.sets = newSets(4*tileSide + int(firstLabel))
	fresh := firstLabel
	for {
		p, ok := f.queue.pop()
		if !ok {
			break
		}
		mine := f.label[p]
		if mine == waitingLabel {
			mine = fresh
			fresh++
			f.label[p] = mine
		}
		level := f.z[p]
		for _, s := range around {
			q := p + s
			other := f.label[q]
			if other == mine {
				continue
			}
			switch {
			case other == openLabel:
				f.label[q] = mine
				f.z[q] = max(f.z[q], level)
				f.queue.push(q, f.z[q])
			case other == voidLabel:
			case other == waitingLabel:
				f.label[q] = mine
			case f.z[q] <= level:
				f.meet(t, mine, other, level)
			}
		}
	}
	t.labels = int(fresh - firstLabel)
}

// meet keeps the level at which two floods first touch; levels come from the lowest up.
func (f *flood) meet(t *tile, l, m uint16, level int32) {
	a, b := f.sets.find(uint32(l)), f.sets.find(uint32(m))
	if a != b {
		f.sets.join(a, b)
		t.meets = append(t.meets, edge{uint32(l), uint32(m), level})
	}
}

// store copies the flooded tile back.
func (f *flood) store(gridCols int, t *tile, out []int32, labels []uint16) {
	for r := range t.rows {
		from := (t.row+r)*gridCols + t.col
		p := (r+1)*wallSide + 1
		copy(out[from:from+t.cols], f.z[p:p+t.cols])
		copy(labels[from:from+t.cols], f.label[p:p+t.cols])
	}
}
