package channel

import (
	"slices"
	"testing"

	"pgregory.net/rapid"
)

func TestMainStem(t *testing.T) {
	// Two heads meet at (10, 5): a straight one from the north, 5 long, and a diagonal one
	// from the north-west, 5 steps of √2.
	const cols = 20
	north, west := path(cols, 10, 0, "vvvvvvvvvv"), path(cols, 5, 0, `\\\\\`)
	tests := []struct {
		name  string
		heads map[int]uint32
		paths [][]int
		want  int // head cell of D01
	}{
		{"larger catchment", map[int]uint32{10: 102}, [][]int{north, west}, 10},
		{"equal catchments: longer", nil, [][]int{north, west}, 5},
		{"equal catchments: longer, of higher cell index", nil, [][]int{north, path(cols, 15, 0, "/////")}, 15},
		// Mirror images, 7.07 and 7.07: the one whose last cell has the lower index is the western.
		{"equal lengths: lower cell index", map[int]uint32{5: 100, 15: 100},
			[][]int{west, path(cols, 15, 0, "/////"), path(cols, 10, 5, "vvv")}, 5},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			tr := sketch(cols, tt.heads, tt.paths...)
			links := tr.links()
			rank(links)
			drainages, ranks := tr.drainages(links)
			if len(drainages) != 2 {
				t.Fatalf("%d drainages, want 2", len(drainages))
			}
			main, side := drainages[0], drainages[1]
			if main.ID != "D01" || main.Cells[0] != tt.want || main.Into != -1 || main.IntoCell != -1 || ranks[0] != -1 || main.Order != 2 {
				t.Errorf("main drainage %+v, rank %d; want head %d and no confluence", main, ranks[0], tt.want)
			}
			const confluence = 5*cols + 10
			if side.ID != "D02" || side.Into != 0 || side.IntoCell != confluence || side.Order != 1 {
				t.Errorf("side drainage %+v; want one into D01 at cell %d", side, confluence)
			}
			if main.Cells[ranks[1]] != confluence {
				t.Errorf("rank %d is cell %d, want %d", ranks[1], main.Cells[ranks[1]], confluence)
			}
			if slices.Contains(side.Cells, confluence) {
				t.Error("the confluence cell belongs to the receiving drainage alone")
			}
		})
	}
}

func TestEqualDrainagesByCell(t *testing.T) {
	const cols = 9
	tr := sketch(cols, nil, path(cols, 7, 0, "vvv"), path(cols, 2, 0, "vvv"))
	drainages, _ := tr.drainages(tr.links())
	if len(drainages) != 2 || drainages[0].Cells[0] != 2 || drainages[1].Cells[0] != 7 {
		t.Errorf("%+v; want the western one first", drainages)
	}
}

func TestDrainagesCoverTheTree(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		tr := randomTree(r)
		links := tr.links()
		rank(links)
		drainages, ranks := tr.drainages(links)
		var cells []int
		heads := 0
		for _, l := range links {
			if len(l.Up) == 0 {
				heads++
			}
		}
		if heads != len(drainages) {
			r.Fatalf("%d drainages from %d heads", len(drainages), heads)
		}
		for n, d := range drainages {
			cells = append(cells, d.Cells...)
			for k := 1; k < len(d.Cells); k++ {
				if tr.cell[tr.down[tr.place(d.Cells[k-1])]] != d.Cells[k] {
					r.Fatalf("%s: cell %d does not drain to %d", d.ID, d.Cells[k-1], d.Cells[k])
				}
			}
			last := d.Cells[len(d.Cells)-1]
			down := tr.down[tr.place(last)]
			if d.Into < 0 {
				if down >= 0 {
					r.Fatalf("%s ends before flow does", d.ID)
				}
				continue
			}
			if d.Into >= n {
				r.Fatalf("%s flows into a smaller one", d.ID)
			}
			if tr.cell[down] != d.IntoCell || drainages[d.Into].Cells[ranks[n]] != d.IntoCell {
				r.Fatalf("%s: confluence at %d, rank %d does not fit", d.ID, d.IntoCell, ranks[n])
			}
		}
		slices.Sort(cells)
		if !slices.Equal(cells, tr.cell) {
			r.Fatalf("cells of drainages %v, of the tree %v", cells, tr.cell)
		}
	})
}

func TestEntriesPassDown(t *testing.T) {
	// D01 takes D02, which takes D03; D04 ends alone. Entries of their own: 1, 2, 4, 0.
	// Nested: 1+2+4 = 7, 2+4 = 6, 4, 0.
	drainages := []Drainage{
		{Into: -1, TruncatedCells: 1}, {Into: 0, TruncatedCells: 2}, {Into: 1, TruncatedCells: 4}, {Into: -1},
	}
	passDown(drainages)
	for n, want := range []int{7, 6, 4, 0} {
		if d := drainages[n]; d.TruncatedCells != want || d.Truncated != (want > 0) {
			t.Errorf("drainage %d: %d cells, truncated %t; want %d", n+1, d.TruncatedCells, d.Truncated, want)
		}
	}
}
