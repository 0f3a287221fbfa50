package demo

import (
	"math"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"siltstep/hydro/channel"
	"siltstep/hydro/erosion"
	"siltstep/raster"
)

// told is a headcut with the drainage that tells it.
type told struct {
	erosion.Headcut
	drainage string
}

func (h told) at() orb.Point { return orb.Point{h.X, h.Y} }

// headcutsOf returns the headcuts of a ranch on a grid of it, the road and the pond declared as the demo command does.
func headcutsOf(t *testing.T, r *Ranch, g *raster.Grid, noiseM float64) []told {
	t.Helper()
	cfg := withRoad(r)
	cfg.Features.StockPonds = []orb.Polygon{r.Truth.StockPond.Water}
	n := channel.Build(g, flowOver(t, g, cfg), channel.Config{StartAreaM2: 2500, MinLengthM: 30})
	var all []told
	for i, heads := range erosion.NetworkHeadcuts(g, n, noiseM, erosion.Defaults()) {
		for _, h := range heads {
			all = append(all, told{h, n.Drainages[i].ID})
		}
	}
	return all
}

// score is what headcuts that are told have to do with those known.
type score struct {
	found, right, wrong int // known ones found; of these within 3 m and 0.15 m; told where none is
	squares             float64
}

// judge compares what is told as a headcut with what is known: the known one within nearM, else it is wrong.
func judge(t *testing.T, r *Ranch, all []told, nearM float64) (s score, missed []Headcut) {
	t.Helper()
	hit := make([]int, len(r.Truth.Headcuts))
	for _, h := range all {
		if h.Cause != erosion.CauseHeadcut {
			continue
		}
		near := 0
		for k := range r.Truth.Headcuts {
			if planar.Distance(h.at(), r.Truth.Headcuts[k].At) < planar.Distance(h.at(), r.Truth.Headcuts[near].At) {
				near = k
			}
		}
		known := r.Truth.Headcuts[near]
		away, off := planar.Distance(h.at(), known.At), h.HeightM-known.HeightM
		if away > nearM {
			s.wrong++
			t.Logf("%s at %.1f m: %.2f m told, the nearest known is %.0f m away", h.drainage, h.StationM, h.HeightM, away)
			continue
		}
		if hit[near]++; hit[near] > 1 {
			t.Errorf("%s: the headcut at %v is told again", h.drainage, known.At)
			continue
		}
		s.found++
		s.squares += off * off
		if away <= 3 && math.Abs(off) <= 0.15 {
			s.right++
		} else {
			t.Logf("%s at %.1f m: %.1f m from a known one of %s, height off by %.2f m", h.drainage, h.StationM, away, known.Trench, off)
		}
	}
	for k, n := range hit {
		if n == 0 {
			missed = append(missed, r.Truth.Headcuts[k])
		}
	}
	return s, missed
}

// Every known headcut is found within 3 m and 0.15 m of its height, and none elsewhere, with the error of open lidar and with
// that of the texture. What falls over the bank of a trench is told as that.
func TestKnownHeadcutsAreFound(t *testing.T) {
	eachRanch(t, func(t *testing.T, r *Ranch) {
		for _, noiseM := range []float64{0.1, 0.03} {
			all := headcutsOf(t, r, r.Grid, noiseM)
			s, missed := judge(t, r, all, 5)
			for _, h := range missed {
				t.Errorf("error of %g m: %s: %.2f m at %v is not found", noiseM, h.Trench, h.HeightM, h.At)
			}
			if s.right != len(r.Truth.Headcuts) || s.wrong > 0 {
				t.Errorf("error of %g m: %d of %d within 3 m and 0.15 m, %d wrong", noiseM, s.right, len(r.Truth.Headcuts), s.wrong)
			}
			causes := map[erosion.Cause]int{}
			for _, h := range all {
				causes[h.Cause]++
				if h.Cause != erosion.CauseBank {
					continue
				}
				away := math.Inf(1)
				for _, tr := range r.Truth.Trenches {
					away = min(away, planar.DistanceFrom(orb.LineString(tr.Line), h.at()))
				}
				// Half of the widest bed, 2 m, the run of the highest bank, 1.4 m, and a station and a half above it.
				if away > 2+1.4+1.5 {
					t.Errorf("error of %g m: %s at %.1f m: %.2f m told as a bank, %.1f m from any trench", noiseM, h.drainage, h.StationM, h.HeightM, away)
				}
			}
			t.Logf("error of %g m: precision %d of %d, recall %d of %d, height off by %.3f m (root mean square); causes %v",
				noiseM, s.found, s.found+s.wrong, s.found, len(r.Truth.Headcuts), math.Sqrt(s.squares/float64(max(s.found, 1))), causes)
		}
	})
}

// meanOf returns a grid with cells k times as large, each the mean of those it covers.
func meanOf(g *raster.Grid, k int) *raster.Grid {
	tr := g.Transform
	tr.CellM *= float64(k)
	out := raster.New(g.Cols/k, g.Rows/k, tr)
	for i := range out.MM {
		col, row := out.ColRow(i)
		total := 0
		for d := range k * k {
			total += int(g.At(col*k+d%k, row*k+d/k))
		}
		out.MM[i] = int32(math.Round(float64(total) / float64(k*k)))
	}
	return out
}

// Larger cells show fewer, and little that is not there: at 2 m four of five, at 5 m none. The error is that of the texture; with that of
// open lidar fewer steps stand out over cells of 2 m, and none is wrong.
func TestHeadcutsOnLargerCells(t *testing.T) {
	eachRanch(t, func(t *testing.T, r *Ranch) {
		known := float64(len(r.Truth.Headcuts))
		for _, row := range []struct {
			cellM, noiseM float64
			least         float64 // share found
			wrong         int     // a bank that flow comes over, or an old dam, in cells that blur both
		}{{2, 0.03, 0.8, 2}, {2, 0.1, 0.6, 0}, {5, 0.03, 0, 0}} {
			g := meanOf(r.Grid, int(math.Round(row.cellM/r.Grid.Transform.CellM)))
			s, _ := judge(t, r, headcutsOf(t, r, g, row.noiseM), max(5, 2*row.cellM))
			t.Logf("cells of %g m, error of %g m: %d of %.0f found, %d of them within 3 m and 0.15 m, %d wrong", row.cellM, row.noiseM, s.found, known, s.right, s.wrong)
			if float64(s.found) < row.least*known || s.wrong > row.wrong {
				t.Errorf("cells of %g m, error of %g m: %d of %.0f found, %d wrong", row.cellM, row.noiseM, s.found, known, s.wrong)
			}
		}
	})
}
