package demo

import (
	"encoding/binary"
	"hash/fnv"
	"reflect"
	"runtime"
	"strings"
	"sync"
	"testing"

	"siltstep/raster"
)

// made are the ranches that the tests look at: the one of the demo command, another seed
// on a squarer piece of country, and half-metre cells.
var made = []struct {
	name string
	size Size
	seed uint64
	once func() (*Ranch, error)
}{
	{name: "default", size: DefaultSize, seed: DefaultSeed},
	{name: "another seed", size: Size{1700, 1600, 1}, seed: 3},
	{name: "half-metre cells", size: Size{2800, 2600, 0.5}, seed: 12},
}

func init() {
	for k := range made {
		m := &made[k]
		m.once = sync.OnceValues(func() (*Ranch, error) { return Generate(m.size, m.seed) })
	}
}

// eachRanch runs a check on every ranch.
func eachRanch(t *testing.T, check func(t *testing.T, r *Ranch)) {
	t.Helper()
	for k := range made {
		t.Run(made[k].name, func(t *testing.T) {
			r, err := made[k].once()
			if err != nil {
				t.Fatal(err)
			}
			check(t, r)
		})
	}
}

// sum returns a checksum of a grid.
func sum(g *raster.Grid) uint64 {
	h := fnv.New64a()
	var b [4]byte
	for _, z := range g.MM {
		binary.LittleEndian.PutUint32(b[:], uint32(z))
		h.Write(b[:])
	}
	return h.Sum64()
}

func TestSameRanchEveryTime(t *testing.T) {
	first, err := made[0].once()
	if err != nil {
		t.Fatal(err)
	}
	for _, procs := range []int{1, 3} {
		before := runtime.GOMAXPROCS(procs)
		again, err := Generate(DefaultSize, DefaultSeed)
		runtime.GOMAXPROCS(before)
		if err != nil {
			t.Fatal(err)
		}
		if sum(again.Grid) != sum(first.Grid) {
			t.Errorf("%d processors: another grid", procs)
		}
		if !reflect.DeepEqual(again.Truth, first.Truth) || !reflect.DeepEqual(again.Road, first.Road) || !reflect.DeepEqual(again.Property, first.Property) {
			t.Errorf("%d processors: other truth, road or property", procs)
		}
	}
	other, err := made[1].once()
	if err != nil {
		t.Fatal(err)
	}
	if other.Truth.Trenches[0].Start == first.Truth.Trenches[0].Start {
		t.Error("another seed gives the same main valley")
	}
}

func TestCountryIsPlausible(t *testing.T) {
	eachRanch(t, func(t *testing.T, r *Ranch) {
		if n := r.Grid.ValidCells(); n != r.Grid.Cols*r.Grid.Rows {
			t.Errorf("%d of %d cells hold data", n, r.Grid.Cols*r.Grid.Rows)
		}
		lo, hi, _ := r.Grid.RangeMM()
		if lo < 1_600_000 || hi > 1_800_000 {
			t.Errorf("elevations from %d to %d mm; want 1,600 to 1,800 m", lo, hi)
		}
		if relief := hi - lo; relief < 60_000 || relief > 140_000 {
			t.Errorf("relief %d mm; want 60 to 140 m", relief)
		}
	})
}

func TestSizeOutOfRange(t *testing.T) {
	for _, c := range []struct {
		name string
		size Size
		want string
	}{
		{"cells too fine", Size{20000, 20000, 0.1}, "cells of 0.1 m"},
		{"cells too coarse", Size{2000, 2000, 5}, "cells of 5 m"},
		{"no cell size", Size{Cols: 2000, Rows: 2000}, "cells of 0 m"},
		{"too narrow", Size{1000, 2000, 1}, "1000 x 2000 m"},
		{"no rows", Size{2000, 0, 1}, "2000 x 0 m"},
		{"too many cells", Size{60000, 60000, 1}, "at most"},
	} {
		t.Run(c.name, func(t *testing.T) {
			r, err := Generate(c.size, DefaultSeed)
			if err == nil || r != nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("got %v, %v; want an error with %q", r, err, c.want)
			}
		})
	}
}
