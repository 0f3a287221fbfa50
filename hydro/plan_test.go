package hydro_test

import (
	"context"
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"
	"testing"

	"siltstep/hydro"
	"siltstep/hydro/flow"
	"siltstep/hydro/siting"
	"siltstep/raster"
	"siltstep/raster/rastertest"
)

// analyze plans a grid with the default settings as changed, incision not asked for: the valleys drawn
// for other rules are not cut into their land. TestIncisionIsAskedFor asks for it.
func analyze(t *testing.T, g *raster.Grid, change func(*hydro.Config), inside siting.Area) *hydro.Plan {
	t.Helper()
	cfg := hydro.Defaults()
	cfg.Siting.MinIncisionM = 0
	if change != nil {
		change(&cfg)
	}
	p, err := hydro.Analyze(context.Background(), g, cfg, inside, nil)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// valley is a V channel 41 cells wide and 400 long that runs south with sides at 50 %: 1.64 ha on
// cells of 1 m. A strip of 3 cells beyond its ridges falls away to the north, east and west, so
// that nothing flows in.
func valley(cellM, slope float64) *raster.Grid {
	const strip, half = 3, 20
	return rastertest.Surface(2*(half+strip)+1, 400+strip, cellM, func(col, row int) int32 {
		across := half - math.Abs(math.Abs(float64(col-half-strip))-half)
		along := math.Abs(float64(row - strip))
		return int32(math.Round(1000 * (200 + cellM*(0.5*across-slope*along))))
	})
}

// trenched lowers five columns of a grid about a middle one by the side of a cell and returns it: a gully that holds dams.
func trenched(g *raster.Grid, middle int) *raster.Grid {
	for row := range g.Rows {
		for col := middle - 2; col <= middle+2; col++ {
			g.MM[g.Index(col, row)] -= int32(1000 * g.Transform.CellM)
		}
	}
	return g
}

// cutValley is valley with a gully along its bed: valley alone has no banks that could hold a dam.
func cutValley(cellM, slope float64) *raster.Grid { return trenched(valley(cellM, slope), 23) }

// oneHeight asks for dams of one height.
func oneHeight(c *hydro.Config, heightM float64) {
	c.Siting.MinHeightM, c.Siting.HeightM = heightM, heightM
}

func TestSpacingThroughAGrid(t *testing.T) {
	const ft = 0.3048
	// Slope in %, spacing in ft of dams 2 ft high: an Indiana erosion manual read in a copy; it is
	// height over slope. The tolerance is one cell.
	for slope, feet := range map[float64]float64{2: 100, 4: 50, 5: 40, 8: 25} {
		t.Run(fmt.Sprintf("%g %%", slope), func(t *testing.T) {
			p := analyze(t, cutValley(1, slope/100), func(c *hydro.Config) {
				oneHeight(c, 2*ft)
				c.Siting.SlopeMin = 0.015 // so that rounding of 2 % does not end a reach
			}, nil)
			if p.Totals.Drainages != 1 || p.Totals.Series != 1 || p.Totals.Dams < 10 {
				t.Fatalf("totals %+v, want one drainage with one long series", p.Totals)
			}
			sites := p.Layouts[0].Sites
			for i, s := range sites[1:] {
				if math.Abs(s.SpacingDownM-feet*ft) > 1 {
					t.Errorf("%s: spacing %.3f m, want %.3f", s.ID, s.SpacingDownM, feet*ft)
				}
				// Toe to crest, or up to a cell closer where that takes less rock.
				if lap := sites[i].SillM - s.BedM; lap < -1e-3 || lap > slope/100+1e-3 {
					t.Errorf("%s: bed %.4f m, sill below %.4f", s.ID, s.BedM, sites[i].SillM)
				}
			}
		})
	}
}

func TestNoiseOfTheSurveyDoesNotStopDams(t *testing.T) {
	// An error of 0.1 m in each cell, that of common airborne lidar (common practice), makes pits along
	// the whole bed; none of them is a stock pond, so nearly all of it must stay eligible.
	g := cutValley(1, 0.05)
	rng := rand.New(rand.NewPCG(1, 2))
	for i := range g.MM {
		g.MM[i] += int32(math.Round(100 * rng.NormFloat64()))
	}
	p := analyze(t, g, func(c *hydro.Config) { oneHeight(c, 0.6) }, nil)
	if share := p.Totals.EligibleM / p.Totals.ChannelM; share < 0.9 {
		t.Errorf("%.0f %% of the channel is eligible, want 90 %%; reaches %+v", 100*share, p.Layouts[0].Reaches)
	}
	// 0.6 m at 5 % is a dam each 12 m: 28 on the clean bed of 337 m.
	if p.Totals.Dams < 25 || p.Totals.Dams > 31 {
		t.Errorf("%d dams, want 28 within 3", p.Totals.Dams)
	}
}

// cents returns a number as it is shown with two decimals, in hundredths.
func cents(t *testing.T, x float64) int64 {
	t.Helper()
	n, err := strconv.ParseInt(strings.Replace(strconv.FormatFloat(x, 'f', 2, 64), ".", "", 1), 10, 64)
	if err != nil {
		t.Fatal(err)
	}
	return n
}

func TestTotalsAddUp(t *testing.T) {
	p := analyze(t, country(true), nil, nil)
	var drainages, truncated, dams, series int
	var channel, eligible, treated int64 // hundredths of a metre, each drainage as it is shown
	for i, d := range p.Network.Drainages {
		l := p.Layouts[i]
		of := map[int]bool{}
		for _, s := range l.Sites {
			of[s.Series] = true
		}
		drainages, dams, series = drainages+1, dams+len(l.Sites), series+len(of)
		if d.Truncated {
			truncated++
		}
		channel, eligible, treated = channel+cents(t, d.Profile.LengthM()), eligible+cents(t, l.EligibleM), treated+cents(t, l.TreatedM)
	}
	got := p.Totals
	if got.Drainages != drainages || got.Truncated != truncated || got.Dams != dams || got.Series != series || drainages < 3 || dams < 50 || series < 3 {
		t.Errorf("totals %+v, want drainages %d, truncated %d, dams %d, series %d, and many", got, drainages, truncated, dams, series)
	}
	if cents(t, got.ChannelM) != channel || cents(t, got.EligibleM) != eligible || cents(t, got.TreatedM) != treated || treated == 0 {
		t.Errorf("totals %+v, want channel %d, eligible %d, treated %d hundredths of a metre", got, channel, eligible, treated)
	}
}

func TestAnalyzeIsTheSameForAnyNumberOfWorkers(t *testing.T) {
	g := cutValley(1, 0.05)
	one := analyze(t, g, func(c *hydro.Config) { c.Flow.Workers = 1 }, nil)
	four := analyze(t, g, func(c *hydro.Config) { c.Flow.Workers = 4 }, nil)
	if fmt.Sprint(one.Layouts, one.Totals, one.Findings) != fmt.Sprint(four.Layouts, four.Totals, four.Findings) {
		t.Error("one worker and four give different plans")
	}
}

func TestAnalyzeStagesAndErrors(t *testing.T) {
	var stages []string
	watch := func(s string) { stages = append(stages, s) }
	if _, err := hydro.Analyze(context.Background(), valley(1, 0.05), hydro.Defaults(), nil, watch); err != nil {
		t.Fatal(err)
	}
	if want := []string{"cuts", "fill", "direction", "accumulation", "channels", "sections", "erosion", "sites"}; !slices.Equal(stages, want) {
		t.Errorf("stages %v, want %v", stages, want)
	}

	for _, stop := range stages {
		ctx, cancel := context.WithCancel(context.Background())
		defer cancel()
		_, err := hydro.Analyze(ctx, valley(1, 0.05), hydro.Defaults(), nil, func(s string) {
			if s == stop {
				cancel()
			}
		})
		if !errors.Is(err, context.Canceled) {
			t.Errorf("cancelled in %q: error %v", stop, err)
		}
	}

	void := valley(1, 0.05)
	for i := range void.MM {
		void.MM[i] = raster.VoidMM
	}
	if _, err := hydro.Analyze(context.Background(), void, hydro.Defaults(), nil, nil); !errors.Is(err, flow.ErrNoData) {
		t.Errorf("no data: error %v", err)
	}
	if _, err := hydro.Analyze(context.Background(), void, hydro.Config{}, nil, nil); err == nil || errors.Is(err, flow.ErrNoData) {
		t.Errorf("empty settings: error %v", err)
	}
}
