package geojson

import (
	"errors"
	"fmt"

	"siltstep/hydro"
	"siltstep/hydro/channel"
	"siltstep/raster"
)

// Catchments returns the layer of catchments, one outline a drainage, by catchment. They
// nest: that of a drainage holds those of all that join it. Errors: the plan holds no
// flow; the projector failed.
//
// Every cell is labelled once with the drainage it meets first. Drainages are numbered so
// that all that join one come right after it, so a catchment is a run of labels and is
// traced within its own bounds.
func Catchments(p *hydro.Plan, to Projector) (Collection, error) {
	c := Collection{Layer: CatchmentsLayer()}
	drainages := p.Network.Drainages
	if len(drainages) == 0 {
		return c, nil
	}
	if p.Flow == nil {
		return c, errors.New("catchments: the plan holds no flow directions; analyse the elevation model first")
	}
	n := nesting(drainages)
	ends := make([]int, len(drainages))
	for label, i := range n.order {
		cells := drainages[i].Cells
		ends[label] = cells[len(cells)-1]
	}
	cols, rows := p.Flow.Cols, p.Flow.Rows
	labels := p.Flow.Labels(ends)
	windows := n.windows(labels, cols)
	for i := range drainages {
		d := &drainages[i]
		lo, hi := n.run(i)
		outline := raster.OutlineWithin(labels, cols, rows, p.Grid.Transform, lo, hi, windows[lo])
		if len(outline) == 0 {
			continue
		}
		shape, err := to.multiPolygon(outline)
		if err != nil {
			return Collection{}, fmt.Errorf("catchment of %s: %w", d.ID, err)
		}
		c.Features = append(c.Features, Feature{Geometry: shape, Values: inOrder(c.Layer, map[string]any{
			"id": d.ID, "catchment_ha": d.CatchmentM2 / squareMetresPerHectare, "truncated": d.Truncated,
		})})
	}
	return c, nil
}

// nest numbers drainages in pre-order: each before those that join it, and these before
// any other.
type nest struct {
	order []int // drainage by label
	label []int // label by drainage
	size  []int // drainages in the catchment of each label, itself included
}

// run returns the first and the last label of the catchment of a drainage.
func (n nest) run(i int) (lo, hi int32) {
	at := n.label[i]
	return int32(at), int32(at + n.size[at] - 1)
}

func nesting(drainages []channel.Drainage) nest {
	n := nest{label: make([]int, len(drainages)), size: make([]int, len(drainages))}
	joins := make([][]int, len(drainages))
	var waiting []int // a stack, so that depth has no limit
	for i := len(drainages) - 1; i >= 0; i-- {
		if into := drainages[i].Into; into >= 0 {
			joins[into] = append(joins[into], i)
		} else {
			waiting = append(waiting, i)
		}
	}
	for len(waiting) > 0 {
		i := waiting[len(waiting)-1]
		waiting = append(waiting[:len(waiting)-1], joins[i]...)
		n.label[i] = len(n.order)
		n.order = append(n.order, i)
	}
	for label := len(n.order) - 1; label >= 0; label-- {
		n.size[label]++
		if into := drainages[n.order[label]].Into; into >= 0 {
			n.size[n.label[into]] += n.size[label]
		}
	}
	return n
}

// windows returns, by label, the bounds of the catchment of its drainage.
func (n nest) windows(labels []int32, cols int) []raster.Window {
	bounds := make([]raster.Window, len(n.order))
	for i, l := range labels {
		if l >= 0 {
			bounds[l] = around(bounds[l], raster.Window{Col: i % cols, Row: i / cols, Cols: 1, Rows: 1})
		}
	}
	for label := len(bounds) - 1; label >= 0; label-- {
		for k := label + 1; k < label+n.size[label]; k += n.size[k] {
			bounds[label] = around(bounds[label], bounds[k])
		}
	}
	return bounds
}

// around returns the smallest window that holds both; an empty one counts for nothing.
func around(a, b raster.Window) raster.Window {
	switch {
	case a.Empty():
		return b
	case b.Empty():
		return a
	}
	w := raster.Window{Col: min(a.Col, b.Col), Row: min(a.Row, b.Row)}
	w.Cols = max(a.Col+a.Cols, b.Col+b.Cols) - w.Col
	w.Rows = max(a.Row+a.Rows, b.Row+b.Rows) - w.Row
	return w
}
