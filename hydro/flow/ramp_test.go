package flow

import (
	"slices"
	"testing"

	"siltstep/raster"
)

// A strip of one row, in mm; the path is all of it.
func TestRamp(t *testing.T) {
	deep := limits{depth: 1 << 40}
	tests := []struct {
		name       string
		before     []int32
		lim        limits
		kept       []int
		after      []int32
		excavation int64
	}{
		// A drop of 4 over 4 steps.
		{"even", []int32{10, 20, 20, 20, 6}, deep, nil, []int32{10, 9, 8, 7, 6}, 11 + 12 + 13},
		// A drop of 5 over 3 steps: 5/3 and 10/3 are cut to 1 and 3 whole mm.
		{"whole millimetres", []int32{10, 20, 20, 5}, deep, nil, []int32{10, 9, 7, 5}, 11 + 13},
		{"never raised", []int32{10, 20, 8, 20, 6}, deep, nil, []int32{10, 9, 8, 7, 6}, 11 + 13},
		{"end not lower", []int32{10, 12, 11}, deep, nil, []int32{10, 10, 10}, 2 + 1},
		// At most 11 deep: 20 − 11 = 9 on the fourth cell, so none above it may be lower either.
		{"held up by depth", []int32{10, 12, 20, 20, 2}, limits{depth: 11}, nil, []int32{10, 9, 9, 9, 2}, 3 + 11 + 11},
		{"kept", []int32{10, 20, 20, 20, 6}, deep, []int{2}, []int32{10, 9, 20, 7, 6}, 11 + 13},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			g := &raster.Grid{Cols: len(tt.before), Rows: 1, Transform: raster.Transform{CellM: 1}, MM: tt.before}
			c := &cutter{g: g, z: slices.Clone(tt.before), kept: newMask(len(tt.before))}
			c.ground = ground{z: c.z, before: g.MM, dug: newMask(len(g.MM))}
			path := make([]int, len(tt.before))
			for i := range path {
				path[i] = i
			}
			for _, i := range tt.kept {
				c.kept.set(i)
			}
			if got := c.ramp(path, &tt.lim); got.volume != tt.excavation || !slices.Equal(c.z, tt.after) {
				t.Errorf("cut to %v by %d, want %v by %d", c.z, got, tt.after, tt.excavation)
			}
		})
	}
}

// Cells of a grid 10 wide: index = 10·row + column.
func TestLineCells(t *testing.T) {
	tests := []struct {
		name        string
		chain, want []int
	}{
		{"one", []int{42}, []int{42}},
		{"same twice", []int{42, 42}, []int{42}},
		{"east", []int{20, 23}, []int{20, 21, 22, 23}},
		{"corner", []int{0, 33}, []int{0, 11, 22, 33}},
		{"west and up", []int{33, 20}, []int{33, 32, 21, 20}}, // −1/3 and −2/3 of a row round to 0 and −1
		{"two pieces", []int{0, 2, 22}, []int{0, 1, 2, 12, 22}},
	}
	for _, tt := range tests {
		if got := lineCells(10, tt.chain); !slices.Equal(got, tt.want) {
			t.Errorf("%s: %v, want %v", tt.name, got, tt.want)
		}
	}
}
