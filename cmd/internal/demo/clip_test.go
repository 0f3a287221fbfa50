package demo

import (
	"testing"

	"siltstep/hydro/channel"
	"siltstep/hydro/flow"
	"siltstep/raster"
)

// clips are pieces of the default ranch, in cells: a quarter, a strip, a middle and a corner.
var clips = []struct {
	name string
	at   raster.Window
}{
	{"north-west quarter", raster.Window{Col: 0, Row: 0, Cols: 1000, Rows: 750}},
	{"south-east quarter", raster.Window{Col: 1000, Row: 750, Cols: 1000, Rows: 750}},
	{"strip", raster.Window{Col: 300, Row: 500, Cols: 1400, Rows: 300}},
	{"middle", raster.Window{Col: 650, Row: 400, Cols: 700, Rows: 700}},
	{"crooked corner", raster.Window{Col: 1237, Row: 111, Cols: 613, Rows: 577}},
}

// fromOutside returns how many cells outside a window drain through each cell, by the flow of the
// whole ranch.
func fromOutside(f *flow.Field, w raster.Window) []uint32 {
	outside, waits := make([]uint32, len(f.Cells)), make([]uint8, len(f.Cells))
	for i := range outside {
		if col, row := i%f.Cols-w.Col, i/f.Cols-w.Row; col < 0 || row < 0 || col >= w.Cols || row >= w.Rows {
			outside[i] = 1
		}
		if d := f.Down(i); d >= 0 {
			waits[d]++
		}
	}
	const passed = 255 // no cell waits for so many
	for i := range outside {
		for at := i; waits[at] == 0; {
			waits[at] = passed
			down := f.Down(at)
			if down < 0 {
				break
			}
			outside[down] += outside[at]
			waits[down]--
			at = down
		}
	}
	return outside
}

// A clip of the ranch marks the drainages whose catchment the clip cut, and no others. Which
// those are is known from the flow of the whole ranch, along the channel of each: the last
// cell alone may lie a cell beside the channel of the whole ranch, where the clip ends.
func TestClipMarksWhatItCut(t *testing.T) {
	r, err := made[0].once()
	if err != nil {
		t.Fatal(err)
	}
	whole := flowOver(t, r.Grid, withRoad(r))
	cell := r.Grid.Transform.CellM * r.Grid.Transform.CellM
	for _, clip := range clips {
		t.Run(clip.name, func(t *testing.T) {
			land, err := r.Grid.Clip(clip.at)
			if err != nil {
				t.Fatal(err)
			}
			f := flowOver(t, land, withRoad(r))
			outside := fromOutside(whole, clip.at)
			n := channel.Build(land, f, channel.Config{StartAreaM2: 2500, MinLengthM: 30})
			cut, marked := 0, 0
			for _, d := range n.Drainages {
				lost, unknown := 0.0, false
				for _, i := range d.Cells {
					col, row := land.ColRow(i)
					there := r.Grid.Index(col+clip.at.Col, row+clip.at.Row)
					lost = max(lost, float64(outside[there])*cell)
					unknown = unknown || whole.Truncated(there) // over the edge of the ranch itself
				}
				if lost > 0 || unknown {
					cut++
				}
				if d.Truncated {
					marked++
				}
				switch {
				case d.Truncated && lost == 0 && !unknown:
					t.Errorf("%s of %.0f m² is marked at %d border cells, and the clip cut nothing of it", d.ID, d.CatchmentM2, d.TruncatedCells)
				case !d.Truncated && (lost > 0 || unknown):
					t.Errorf("%s of %.0f m² is not marked, and %.0f m² (%.2g %%) lie outside", d.ID, d.CatchmentM2, lost, 100*lost/(lost+d.CatchmentM2))
				}
			}
			t.Logf("%d of %d drainages are cut, %d are marked", cut, len(n.Drainages), marked)
		})
	}
}
