package channel

import (
	"fmt"
	"math"
	"reflect"
	"slices"
	"testing"

	"siltstep/hydro/flow"
	"siltstep/raster"
	"siltstep/raster/rastertest"
)

func TestStartCells(t *testing.T) {
	tests := []struct {
		startM2, cellM float64
		want           uint32
	}{
		{2500, 1, 2500},
		{2500, 0.5, 10_000},
		{2500, 0.1, 250_000},
		{49, 0.7, 100}, // 49/0.49, though 0.7·0.7 rounds to less than 0.49
		{49.1, 0.7, 101},
		{2500, 20, MinStartCells}, // 6.25 cells
		{0, 1, MinStartCells},
		{-1, 1, MinStartCells},
		{math.NaN(), 1, MinStartCells},
		{1e30, 1, math.MaxUint32},
		{math.Inf(1), 1, math.MaxUint32},
	}
	for _, tt := range tests {
		if got := (Config{StartAreaM2: tt.startM2}).startCells(tt.cellM); got != tt.want {
			t.Errorf("%v m² on cells of %v m: %d cells, want %d", tt.startM2, tt.cellM, got, tt.want)
		}
	}
}

func TestValleyHasOneDrainage(t *testing.T) {
	// V valley of 30 x 21 cells, z = 50 + 0.5·|c − 10| − 0.05·r: 21·(r+1) cells drain through
	// (10, r), and 9 at most beside it. At 50 cells channel begins in row 2 (63 cells). The valley
	// runs on rising beyond row 0, so water enters all the way.
	g := rastertest.Valley(21, 30, 50_000, 500, 50)
	f := run(t, g)
	n := Build(g, f, Config{})
	if len(n.Drainages) != 1 || len(n.Links) != 1 {
		t.Fatalf("%d drainages, %d links; want one of each", len(n.Drainages), len(n.Links))
	}
	d := n.Drainages[0]
	if d.ID != "D01" || d.Into != -1 || d.IntoCell != -1 || d.Order != 1 || d.CatchmentM2 != 630 || len(d.Cells) != 28 || len(d.ConfluencesM) != 0 {
		t.Errorf("drainage %+v", d)
	}
	p := d.Profile
	if len(p.Stations) != 28 || p.LengthM() != 27 || math.Abs(p.DropM()-27*0.05) > 1e-12 { // rounding only
		t.Fatalf("%d stations, length %v, drop %v; want 28, 27, 1.35", len(p.Stations), p.LengthM(), p.DropM())
	}
	for i, s := range p.Stations {
		row := 29 - i
		want := Station{
			StationM: float64(i), X: rastertest.CornerX + 10.5, Y: rastertest.CornerY - float64(row) - 0.5,
			Cell: row*21 + 10, GroundM: float64(50_000-50*row) / 1000, BedM: float64(50_000-50*row) / 1000,
			Slope: s.Slope, CatchmentM2: float64(21 * (row + 1)), Truncated: true, FillM: 0,
		}
		if s != want {
			t.Errorf("station %d: %+v, want %+v", i, s, want)
		}
		if math.Abs(s.Slope-0.05) > 1e-12 { // rounding only
			t.Errorf("station %d: slope %v, want 0.05", i, s.Slope)
		}
	}
	line := p.Line()
	if len(line) != 28 || line[0][1] <= line[27][1] {
		t.Errorf("the line does not run downstream: from %v to %v", line[0], line[len(line)-1])
	}
}

func TestSlantedValleysAreAsLongAsTheyAre(t *testing.T) {
	// A V valley whose bed slants across the grid, bed slope 0.03 along itself: the length of the
	// profile is the distance between its ends, and drop over length the slope. Mirrored and
	// turned it keeps its length.
	const side = 160
	worst := 0.0
	for deg := 0; deg <= 45; deg += 5 {
		sin, cos := math.Sincos(float64(deg) * math.Pi / 180)
		valley := rastertest.Surface(side, side, 1, func(col, row int) int32 {
			across := float64(col-side/2)*cos - float64(row-side/2)*sin
			along := float64(col-side/2)*sin + float64(row-side/2)*cos
			return int32(math.Round(100_000 + 400*math.Abs(across+0.123) - 30*along))
		})
		mirrored := rastertest.Surface(side, side, 1, func(col, row int) int32 { return valley.At(side-1-col, row) })
		turned := rastertest.Surface(side, side, 1, func(col, row int) int32 { return valley.At(row, side-1-col) })
		first := Build(valley, run(t, valley), Config{StartAreaM2: 1000, MinLengthM: 30}).Drainages[0]
		p := first.Profile
		low, high := p.Stations[0], p.Stations[len(p.Stations)-1]
		straight := math.Hypot(high.X-low.X, high.Y-low.Y)
		if straight < 100 || math.Abs(p.LengthM()/straight-1) > 0.01 { // 1 % is what the package promises
			t.Errorf("%d°: length %.2f m, straight %.2f m", deg, p.LengthM(), straight)
		}
		worst = max(worst, math.Abs(p.LengthM()/straight-1))
		if slope := p.DropM() / straight; math.Abs(slope-0.03) > 0.002 { // at each end the lowest cell lies 0 to 0.5 m off the bed, 0 to 0.2 m above it: 0.2 m over 100 m
			t.Errorf("%d°: slope %.5f, want 0.03", deg, slope)
		}
		for name, g := range map[string]*raster.Grid{"mirrored": mirrored, "turned": turned} {
			if got := Build(g, run(t, g), Config{StartAreaM2: 1000, MinLengthM: 30}).Drainages[0].Profile.LengthM(); math.Abs(got-p.LengthM()) > 1e-9 { // rounding only
				t.Errorf("%d°, %s: length %v, was %v", deg, name, got, p.LengthM())
			}
		}
	}
	t.Logf("worst error of length %.2f %%", 100*worst)
}

func TestRoughCountryHoldsTheRules(t *testing.T) {
	drainages, tributaries, truncated, wholeAbove := 0, 0, 0, 0
	for seed := range uint64(12) {
		g := country(seed, 90, 120)
		if seed%3 == 2 {
			g = rastertest.Hole(g, raster.Window{Col: 30, Row: 40, Cols: 9, Rows: 7})
		}
		f := run(t, g)
		cfg := Config{StartAreaM2: 120, MinLengthM: 8}
		n := Build(g, f, cfg)
		drainages += len(n.Drainages)
		for i, d := range n.Drainages {
			checkDrainage(t, g, f, n, i)
			if d.Into >= 0 {
				tributaries++
			}
			if d.Truncated {
				truncated++
				if st := d.Profile.Stations; !st[len(st)-1].Truncated {
					wholeAbove++
				}
			}
		}
		checkNesting(t, f, n)
		if again := Build(g, f, cfg); fmt.Sprint(again) != fmt.Sprint(n) {
			t.Errorf("seed %d: the same input gives another network", seed)
		}
	}
	t.Logf("%d drainages, %d tributaries, %d truncated, %d of them only below the head", drainages, tributaries, truncated, wholeAbove)
	if drainages < 50 || tributaries < 30 || truncated < 10 || truncated == drainages || wholeAbove == 0 {
		t.Error("the ground is too dull to test anything")
	}
}

// checkDrainage checks what holds for every drainage by itself and against the one it joins.
func checkDrainage(t *testing.T, g *raster.Grid, f *flow.Field, n *Network, i int) {
	t.Helper()
	d := n.Drainages[i]
	last := d.Cells[len(d.Cells)-1]
	if d.ID != fmt.Sprintf("D%02d", i+1) || d.CatchmentM2 != float64(f.Cells[last]) {
		t.Errorf("%s: place %d, catchment %v of %d cells", d.ID, i, d.CatchmentM2, f.Cells[last])
	}
	if i > 0 && d.CatchmentM2 > n.Drainages[i-1].CatchmentM2 {
		t.Errorf("%s is larger than the one before it", d.ID)
	}
	if d.Truncated != f.Truncated(last) {
		t.Errorf("%s: truncated %t by count (%d), %t by flow", d.ID, d.Truncated, d.TruncatedCells, f.Truncated(last))
	}
	for k, s := range d.Profile.Stations {
		if s.Truncated != f.Truncated(s.Cell) || s.Truncated && !d.Profile.Stations[0].Truncated {
			t.Errorf("%s: station %d truncated %t, by flow %t; its lower end %t", d.ID, k, s.Truncated, f.Truncated(s.Cell), d.Profile.Stations[0].Truncated)
		}
	}
	if down := f.Down(last); down != d.IntoCell {
		t.Errorf("%s drains to cell %d, confluence %d", d.ID, down, d.IntoCell)
	}
	for k, c := range d.ConfluencesM {
		if c < 0 || c > d.Profile.LengthM() || k > 0 && c <= d.ConfluencesM[k-1] {
			t.Errorf("%s: confluences %v", d.ID, d.ConfluencesM)
		}
	}
	s := d.Profile.Stations
	extra := 0
	if d.Into >= 0 {
		extra = 1
		checkJoint(t, d, n.Drainages[d.Into])
	}
	if len(s) != len(d.Cells)+extra {
		t.Fatalf("%s: %d stations for %d cells", d.ID, len(s), len(d.Cells))
	}
	for k := range s {
		if k >= extra {
			cell := d.Cells[len(d.Cells)-1-(k-extra)]
			x, y := g.CenterOf(cell)
			if s[k].Cell != cell || math.Hypot(s[k].X-x, s[k].Y-y) > 1+1e-9 { // rounding only
				t.Errorf("%s station %d: cell %d at %v, %v; want cell %d within one cell of %v, %v", d.ID, k, s[k].Cell, s[k].X, s[k].Y, cell, x, y)
			}
			if s[k].GroundM > float64(g.MM[cell])/1000 {
				t.Errorf("%s station %d: ground above its own cell", d.ID, k)
			}
			if want := float64(f.FilledMM[cell]-g.MM[cell]) / 1000; s[k].FillM != want {
				t.Errorf("%s station %d: fill %v, want %v", d.ID, k, s[k].FillM, want)
			}
		}
		if k > 0 && (s[k].StationM <= s[k-1].StationM || s[k].BedM < s[k-1].BedM) {
			t.Errorf("%s station %d: station %v after %v, bed %v after %v", d.ID, k, s[k].StationM, s[k-1].StationM, s[k].BedM, s[k-1].BedM)
		}
		if !(s[k].Slope >= 0) {
			t.Errorf("%s station %d: slope %v", d.ID, k, s[k].Slope)
		}
	}
}

// checkJoint checks that a tributary ends on the line and bed of the receiving drainage.
func checkJoint(t *testing.T, d, into Drainage) {
	t.Helper()
	end := d.Profile.Stations[0]
	for _, s := range into.Profile.Stations {
		if s.Cell != d.IntoCell || s == into.Profile.Stations[0] && into.Into >= 0 {
			continue
		}
		if end.X != s.X || end.Y != s.Y || end.BedM != s.BedM || end.GroundM != s.GroundM {
			t.Errorf("%s ends at %+v, %s has %+v there", d.ID, end, into.ID, s)
		}
		if end.Cell != d.Cells[len(d.Cells)-1] || end.CatchmentM2 != d.CatchmentM2 || end.Truncated != d.Truncated {
			t.Errorf("%s: the confluence has cell %d, catchment %v and truncation %t, not its own", d.ID, end.Cell, end.CatchmentM2, end.Truncated)
		}
		for _, c := range into.ConfluencesM {
			if c == s.StationM {
				return
			}
		}
		t.Errorf("%s joins %s at %v m, not among %v", d.ID, into.ID, s.StationM, into.ConfluencesM)
		return
	}
	t.Errorf("%s: cell %d is not on %s", d.ID, d.IntoCell, into.ID)
}

// checkNesting checks catchments and entries against a walk down from every cell.
func checkNesting(t *testing.T, f *flow.Field, n *Network) {
	t.Helper()
	at := map[int]int{} // drainage of a channel cell
	for i, d := range n.Drainages {
		for _, cell := range d.Cells {
			at[cell] = i
		}
	}
	inflow := map[int]bool{}
	for _, i := range f.Inflow {
		inflow[i] = true
	}
	cells, entries := make([]int, len(n.Drainages)), make([]int, len(n.Drainages))
	for i := range f.Cells {
		if !f.Valid(i) {
			continue
		}
		reached := map[int]bool{}
		for c := i; c >= 0; c = f.Down(c) {
			if d, ok := at[c]; ok {
				reached[d] = true
			}
		}
		for d := range reached {
			cells[d]++
			if inflow[i] {
				entries[d]++
			}
		}
	}
	for i, d := range n.Drainages {
		if d.CatchmentM2 != float64(cells[i]) || d.TruncatedCells != entries[i] {
			t.Errorf("%s: %v m² and %d entries, a walk from every cell finds %d and %d", d.ID, d.CatchmentM2, d.TruncatedCells, cells[i], entries[i])
		}
	}
}

func TestWorkersDoNotShow(t *testing.T) {
	g := country(5, 120, 150)
	cfg := Config{StartAreaM2: 200, MinLengthM: 10}
	var first *Network
	for _, workers := range []int{1, 2, 5} {
		f, err := flow.Run(t.Context(), g, flow.Config{Workers: workers}, nil)
		if err != nil {
			t.Fatal(err)
		}
		n := Build(g, f, cfg)
		if first == nil {
			first = n
		}
		if !reflect.DeepEqual(n, first) {
			t.Errorf("%d workers give another network", workers)
		}
	}
}

func TestClosedEdgeTruncatesNothing(t *testing.T) {
	g := country(1, 80, 80)
	f, err := flow.Run(t.Context(), g, flow.Config{Edge: flow.EdgeClosed}, nil)
	if err != nil {
		t.Fatal(err)
	}
	for _, d := range Build(g, f, Config{StartAreaM2: 100}).Drainages {
		if d.Truncated || d.TruncatedCells != 0 || slices.ContainsFunc(d.Profile.Stations, func(s Station) bool { return s.Truncated }) {
			t.Errorf("%s is truncated by %d cells", d.ID, d.TruncatedCells)
		}
	}
}

func TestOddGrids(t *testing.T) {
	strip := func(cols, rows int) *raster.Grid { return rastertest.Plane(cols, rows, 90_000, 100, 100) }
	tests := []struct {
		name     string
		g        *raster.Grid
		cells    int     // of D01; 0 for no drainage
		lengthM  float64 // of D01
		slopeNaN bool
	}{
		{"too small for a channel", rastertest.Valley(5, 5, 9000, 500, 50), 0, 0, false},
		{"one cell", rastertest.Of([]int32{7}), 0, 0, false},
		{"one row: 80 cells, channel from the 50th", strip(80, 1), 31, 30, false},
		{"one column", strip(1, 80), 31, 30, false},
		{"one row, one cell of channel", strip(50, 1), 1, 0, true},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			n := Build(tt.g, run(t, tt.g), Config{})
			if tt.cells == 0 {
				if len(n.Drainages) != 0 || len(n.Links) != 0 {
					t.Errorf("%d drainages, %d links; want none", len(n.Drainages), len(n.Links))
				}
				return
			}
			if len(n.Drainages) != 1 {
				t.Fatalf("%d drainages, want 1", len(n.Drainages))
			}
			d := n.Drainages[0]
			if len(d.Cells) != tt.cells || d.Profile.LengthM() != tt.lengthM || math.IsNaN(d.Profile.Stations[0].Slope) != tt.slopeNaN {
				t.Errorf("%d cells, length %v, slope %v; want %d, %v, NaN %t", len(d.Cells), d.Profile.LengthM(), d.Profile.Stations[0].Slope, tt.cells, tt.lengthM, tt.slopeNaN)
			}
		})
	}
}

func TestBuildRefusesAFieldOfAnotherGrid(t *testing.T) {
	defer func() {
		if recover() == nil {
			t.Error("a field of another size was taken")
		}
	}()
	f := run(t, rastertest.Plane(4, 5, 9000, 10, 10))
	Build(rastertest.Plane(5, 4, 9000, 10, 10), f, Config{})
}
