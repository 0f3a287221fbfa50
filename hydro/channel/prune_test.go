package channel

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

func TestPrune(t *testing.T) {
	const cols = 40
	at := func(col, row int) int { return row*cols + col }
	trunk := path(cols, 20, 0, "vvvvvvvvvvvvvvvvvvvv") // 20 long, cells of rows 0 to 20
	fork := path(cols, 17, 0, `\\\`)                   // joins the trunk at row 3, 3 diagonal steps = 4.24
	lower := path(cols, 26, 6, "//////")               // joins the trunk at row 12, 8.49 long
	tests := []struct {
		name  string
		heads map[int]uint32
		paths [][]int
		min   float64
		want  []int // heads that are left, ascending
	}{
		{"zero keeps all", nil, [][]int{trunk, fork, lower}, 0, []int{at(17, 0), at(20, 0), at(26, 6)}},
		{"exactly long enough stays", nil, [][]int{trunk, path(cols, 26, 9, "<<<<<<")}, 6, []int{at(20, 0), at(26, 9)}},
		{"six diagonal steps are short of 8.5", nil, [][]int{trunk, lower}, 8.5, []int{at(20, 0)}},
		// Above row 3 the trunk is 3 long, the fork 4.24, both short of 5. The fork is dropped
		// because its catchment is the smaller; the trunk goes on as one link of 12 steps.
		{"of two short forks the larger stays", map[int]uint32{at(20, 0): 300}, [][]int{trunk, fork, lower}, 5, []int{at(20, 0), at(26, 6)}},
		{"the other way round", map[int]uint32{at(17, 0): 300}, [][]int{trunk, fork, lower}, 5, []int{at(17, 0), at(26, 6)}},
		// The trunk above the fork is 3 long, short of 4; the fork is long enough and stays,
		// though its catchment is the smaller.
		{"a short main stem goes", map[int]uint32{at(20, 0): 300}, [][]int{trunk, fork}, 4, []int{at(17, 0)}},
		// At 9 the fork goes first; the merged trunk is 12 long at row 12, and lower, 8.49, goes.
		{"merged links are judged again", map[int]uint32{at(20, 0): 300}, [][]int{trunk, fork, lower}, 9, []int{at(20, 0)}},
		// At 13 the merged trunk of 12 and lower are both short: the smaller one goes.
		{"merged and still short", map[int]uint32{at(20, 0): 300}, [][]int{trunk, fork, lower}, 13, []int{at(20, 0)}},
		{"merged and smaller", map[int]uint32{at(20, 0): 300, at(26, 6): 900}, [][]int{trunk, fork, lower}, 13, []int{at(26, 6)}},
		{"an end too short for all", nil, [][]int{trunk}, 20.5, nil},
		{"an end just long enough", nil, [][]int{trunk}, 20, []int{at(20, 0)}},
		{"a single cell", nil, [][]int{{at(3, 3)}}, 0.5, nil},
		{"nothing", nil, nil, 30, nil},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			var heads []int
			for _, l := range sketch(cols, tt.heads, tt.paths...).prune(tt.min).links() {
				if len(l.Up) == 0 {
					heads = append(heads, l.Cells[0])
				}
			}
			slices.Sort(heads)
			if !slices.Equal(heads, tt.want) {
				t.Errorf("heads %v, want %v", heads, tt.want)
			}
		})
	}
}

func TestPruneLeavesNoShortHead(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		tr := randomTree(r)
		minCells := rapid.Float64Range(0, 12).Draw(r, "min")
		rest := tr.prune(minCells)
		links := rest.links()
		for i, l := range links {
			if length := rest.linkSteps(links, i).cells(); len(l.Up) == 0 && length < minCells {
				r.Fatalf("head link %d is %.3f cells long, least %.3f", i, length, minCells)
			}
		}
		for p, cell := range rest.cell {
			was := tr.down[tr.place(cell)]
			if (was < 0) != (rest.down[p] < 0) || was >= 0 && tr.cell[was] != rest.cell[rest.down[p]] {
				r.Fatalf("cell %d drains elsewhere once pruned", cell)
			}
			if rest.area[p] != tr.area[tr.place(cell)] {
				r.Fatalf("cell %d changed its catchment", cell)
			}
		}
		if again := rest.prune(minCells); !slices.Equal(again.cell, rest.cell) {
			r.Fatalf("pruning twice drops more")
		}
	})
}

func TestSteps(t *testing.T) {
	if got, want := (steps{3, 4}).plus(steps{1, 1}).cells(), 4+5*math.Sqrt2; got != want {
		t.Errorf("length %v, want %v", got, want)
	}
}
