package flow

import (
	"math/bits"
	"slices"

	"siltstep/raster"
)

// basin is a connected piece of ground that was filled, while it is looked at.
type basin struct {
	cells    []int
	bottom   int   // lowest cell of the ground, the first of equals
	volumeMM int64 // cell millimetres
	pond     bool  // touches a declared stock pond
	review   bool  // holds a pit that was left for review
	playa    bool  // touches a declared playa
}

// depressions lists the ground that was filled, by its bottom cell: touching cells whose filled surface lies above the ground, which
// all stand at one level. Small ones are only counted. Cells of stock ponds, declared or likely, are marked.
func (c *cutter) depressions(cfg *Config, f *Field, workers int) {
	wet := wetCells(c.g.MM, f.FilledMM, workers)
	slices.Sort(c.failed)
	left := c.leftForReview()
	f.pond = polygonMask(c.g, slices.Concat(cfg.Features.StockPonds, cfg.Features.Playas))
	playas := polygonMask(c.g, cfg.Features.Playas)
	var b basin
	for w := range wet {
		for wet[w] != 0 {
			first := w<<6 + bits.TrailingZeros64(wet[w])
			b = basin{cells: b.cells[:0], bottom: first}
			b.flood(c.g, f.FilledMM, wet, first)
			for _, i := range b.cells {
				b.pond = b.pond || c.ponds.has(i)
				b.playa = b.playa || playas.has(i)
				b.review = b.review || left.has(i)
			}
			depthM := float64(f.FilledMM[first]-c.g.MM[b.bottom]) / 1000
			if !b.pond && !b.playa && depthM <= noiseDepthM && (depthM <= listedDepthM || len(b.cells) <= fewCells) {
				f.SmallDepressions++
				continue
			}
			d := c.depression(cfg, f, &b, depthM)
			if d.Cause == CauseStockPond {
				if f.pond == nil {
					f.pond = newMask(len(c.g.MM))
				}
				for _, i := range b.cells {
					f.pond.set(i)
				}
			}
			f.Depressions = append(f.Depressions, d)
		}
	}
	slices.SortFunc(f.Depressions, func(a, b Depression) int { return a.Cell - b.Cell })
}

// wetCells marks the cells whose filled surface lies above the ground.
func wetCells(ground, filled []int32, workers int) mask {
	wet := newMask(len(ground))
	bands := layBands(len(wet), 8*workers)
	eachWorker(len(bands), workers, func(next func() (int, bool)) {
		for k, ok := next(); ok; k, ok = next() {
			for w := bands[k].from; w < bands[k].to; w++ {
				from := w << 6
				var word uint64
				for b, z := range filled[from:min(from+64, len(filled))] {
					if z > ground[from+b] {
						word |= 1 << b
					}
				}
				wet[w] = word
			}
		}
	})
	return wet
}

// flood gathers the basin of a wet cell and wipes it from wet.
func (b *basin) flood(g *raster.Grid, filled []int32, wet mask, first int) {
	b.cells = append(b.cells, first)
	wet.clear(first)
	for k := 0; k < len(b.cells); k++ {
		i := b.cells[k]
		b.volumeMM += int64(filled[i]) - int64(g.MM[i])
		if z, low := g.MM[i], g.MM[b.bottom]; z < low || z == low && i < b.bottom {
			b.bottom = i
		}
		for d := range stepCol { // a wet cell lies neither on the border nor beside a void
			n := i + stepRow[d]*g.Cols + stepCol[d]
			if wet.has(n) {
				wet.clear(n)
				b.cells = append(b.cells, n)
			}
		}
	}
}

// depression describes a basin.
func (c *cutter) depression(cfg *Config, f *Field, b *basin, depthM float64) Depression {
	cellM2 := c.g.Transform.CellM * c.g.Transform.CellM
	d := Depression{
		Cell: b.bottom, LevelMM: f.FilledMM[b.bottom], Cells: len(b.cells), DepthM: depthM,
		AreaM2: float64(len(b.cells)) * cellM2, VolumeM3: float64(b.volumeMM) / 1000 * cellM2,
		SpillCell: b.bottom,
	}
	d.X, d.Y = c.g.CenterOf(b.bottom)
	for {
		down := f.Down(d.SpillCell)
		if down < 0 || f.FilledMM[down] < d.LevelMM {
			break
		}
		d.SpillCell = down
	}
	d.Cause = c.cause(b, &d)
	d.Why = c.why(cfg, b, depthM)
	return d
}

// cause judges what holds the water of a depression back.
func (c *cutter) cause(b *basin, d *Depression) Cause {
	switch {
	case b.pond:
		return CauseStockPond
	case b.playa:
		return CausePlaya
	case c.culverts.has(d.SpillCell):
		return CauseCulvert
	case c.reach.has(d.SpillCell):
		return CauseRoadFill
	case pondLike(d.DepthM, d.AreaM2):
		return CauseStockPond
	case d.DepthM <= noiseDepthM && d.AreaM2 <= pondAreaM2:
		return CauseNoise
	}
	return CauseUnknown
}
