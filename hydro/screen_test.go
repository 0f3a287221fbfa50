package hydro_test

import (
	"context"
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"siltstep/hydro"
	"siltstep/hydro/erosion"
	"siltstep/hydro/siting"
	"siltstep/raster"
	"siltstep/raster/rastertest"
)

// gully is a V valley on cells of 1 m that runs south, with sides of 10 % and a trench along its middle
// with a level floor widthM wide and upright banks: the first cell beside it lies depthM higher.
// A width of 0 leaves the valley whole. Its 60 m to either side drain inwards; beyond its ridges it falls
// away, so that nothing flows in.
func gully(slope, widthM, depthM float64) *raster.Grid {
	const strip, half, side = 3, 60, 0.1
	return rastertest.Surface(2*(half+strip)+1, 400+strip, 1, func(col, row int) int32 {
		off := math.Abs(float64(col - half - strip))
		z := side * (half - math.Abs(off-half))
		if off < widthM/2 {
			z = side*(widthM+1)/2 - depthM
		}
		return int32(math.Round(1000 * (200 + z - slope*math.Abs(float64(row-strip)))))
	})
}

// roughen adds an error of its own to every cell.
func roughen(g *raster.Grid, noiseM float64) *raster.Grid {
	rng := rand.New(rand.NewPCG(1, 2))
	for i := range g.MM {
		g.MM[i] += int32(math.Round(1000 * noiseM * rng.NormFloat64()))
	}
	return g
}

func screen(t *testing.T, g *raster.Grid, change func(*hydro.Config)) *hydro.Plan {
	t.Helper()
	cfg := hydro.Defaults()
	if change != nil {
		change(&cfg)
	}
	p, err := hydro.Screen(context.Background(), g, cfg, nil)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func has(p *hydro.Plan, rule string) bool {
	return slices.ContainsFunc(p.Findings, func(f hydro.Finding) bool { return f.Rule == rule })
}

func TestTrenchIsFoundAndRanked(t *testing.T) {
	for _, noiseM := range []float64{0, 0.05} {
		t.Run(fmt.Sprintf("noise of %g m", noiseM), func(t *testing.T) {
			p := screen(t, roughen(gully(0.05, 5, 1), noiseM), nil)
			j := p.Erosion[0]
			// A trench 1 m deep all along.
			if math.Abs(j.Depths.MeanM-1) > 0.1 || j.Depths.IncisedShare < 0.95 {
				t.Errorf("mean incision %.3f m, incised share %.2f, want 1 m all along", j.Depths.MeanM, j.Depths.IncisedShare)
			}
			// Incision 0.7/1.7 · 30 = 12.4, incised length 10, over 65: 34.4. 0.1 m of incision is 2.7 of that. How steep upright banks
			// are cells of 1 m cannot tell.
			if s := j.Severity; s.Rank != 1 || s.Steady != 1 || s.Class != erosion.Watch || math.Abs(s.Total-34.4) > 2.7 || !math.IsNaN(s.Parts[3].Value) {
				t.Errorf("severity %+v", s)
			}
			if has(p, hydro.FindingSound) || !has(p, hydro.FindingShear) || has(p, hydro.FindingUnjudged) {
				t.Errorf("findings %+v", p.Findings)
			}
		})
	}
}

func TestLandWithoutIncisionIsSound(t *testing.T) {
	for name, g := range map[string]*raster.Grid{
		"V valley, sides of 50 %":               valley(1, 0.05),
		"V valley, sides of 50 %, cells of 2 m": valley(2, 0.05),
		"V valley, sides of 10 %":               gully(0.05, 0, 0),
		"V valley, sides of 10 %, noise 0.05 m": roughen(gully(0.05, 0, 0), 0.05),
		"V valley, sides of 10 %, noise 0.1 m":  roughen(gully(0.05, 0, 0), 0.1),
		"V valley, sides of 50 %, noise 0.1 m":  roughen(valley(1, 0.05), 0.1),
	} {
		t.Run(name, func(t *testing.T) {
			p := screen(t, g, nil)
			if len(p.Erosion) == 0 {
				t.Fatal("no drainage")
			}
			for i, j := range p.Erosion {
				if j.Severity.Class != erosion.Sound {
					t.Errorf("%s: %q, severity %.1f, mean incision %.2f m, %d headcuts, parts %+v", p.Network.Drainages[i].ID, j.Severity.Class, j.Severity.Total, j.Depths.MeanM, len(j.Headcuts), j.Severity.Parts)
				}
			}
			if !has(p, hydro.FindingSound) {
				t.Error("no finding says that they are sound")
			}
		})
	}
}

func TestIncisionIsAskedFor(t *testing.T) {
	rules := func(p *hydro.Plan) (out []siting.Rule) {
		for _, l := range p.Layouts {
			for _, r := range l.Reaches {
				for _, why := range r.Reasons {
					out = append(out, why.Rule)
				}
			}
		}
		return out
	}
	asked := func(leastM float64) func(*hydro.Config) {
		return func(c *hydro.Config) { c.Siting.MinIncisionM = leastM }
	}
	if p := analyze(t, valley(1, 0.05), asked(0.3), nil); p.Totals.Dams != 0 || !slices.Contains(rules(p), siting.RuleIncision) || !has(p, hydro.FindingNoReach) {
		t.Errorf("a valley that is not cut into its land: %d dams, reasons %v", p.Totals.Dams, rules(p))
	}
	// With the rule off the land may hold dams, but this valley has no banks.
	if p := analyze(t, valley(1, 0.05), asked(0), nil); p.Totals.Dams != 0 || slices.Contains(rules(p), siting.RuleIncision) || !slices.Contains(rules(p), siting.RuleSection) {
		t.Errorf("with the rule off: %d dams, reasons %v", p.Totals.Dams, rules(p))
	}
	wide := func(leastM float64) func(*hydro.Config) {
		return func(c *hydro.Config) { c.Siting.MinIncisionM, c.Siting.CatchmentMaxM2 = leastM, 1e6 }
	}
	deep := analyze(t, gully(0.05, 5, 1), wide(0.3), nil)
	if slices.Contains(rules(deep), siting.RuleIncision) || deep.Totals.Dams < 20 {
		t.Errorf("a trench of 1 m: %d dams, reasons %v", deep.Totals.Dams, rules(deep))
	}
	if p := analyze(t, gully(0.05, 5, 1), wide(1.2), nil); p.Totals.Dams != 0 || !slices.Contains(rules(p), siting.RuleIncision) {
		t.Errorf("a trench of 1 m where 1.2 m are asked for: %d dams, reasons %v", p.Totals.Dams, rules(p))
	}
	if p := analyze(t, gully(0.05, 5, 1), wide(0), nil); p.Totals.Dams < 20 {
		t.Errorf("a trench of 1 m with the rule off: %d dams, reasons %v", p.Totals.Dams, rules(p))
	}
}

func TestScreenIsAnalyzeWithoutSites(t *testing.T) {
	g := roughen(gully(0.05, 5, 1), 0.05)
	var stages []string
	p, err := hydro.Screen(context.Background(), g, hydro.Defaults(), func(s string) { stages = append(stages, s) })
	if err != nil {
		t.Fatal(err)
	}
	if want := []string{"cuts", "fill", "direction", "accumulation", "channels", "sections", "erosion"}; !slices.Equal(stages, want) {
		t.Errorf("stages %v, want %v", stages, want)
	}
	whole, err := hydro.Analyze(context.Background(), g, hydro.Defaults(), nil, nil)
	if err != nil {
		t.Fatal(err)
	}
	if p.Layouts != nil || p.Totals.Dams != 0 || p.Totals.ChannelM != whole.Totals.ChannelM || whole.Totals.Dams == 0 {
		t.Errorf("screen: %d layouts, %+v; with sites %+v", len(p.Layouts), p.Totals, whole.Totals)
	}
	if n := len(p.Network.Drainages); len(p.Sections) != n || len(p.Erosion) != n || !(math.Abs(p.NoiseM-0.05) < 0.01) {
		t.Errorf("%d drainages, %d lists of sections, %d judgements, noise %g m", n, len(p.Sections), len(p.Erosion), p.NoiseM)
	}
	if fmt.Sprint(p.Sections, p.Erosion) != fmt.Sprint(whole.Sections, whole.Erosion) {
		t.Error("screen and analyze judge differently")
	}
	for _, stop := range stages {
		ctx, cancel := context.WithCancel(context.Background())
		defer cancel()
		_, err := hydro.Screen(ctx, g, hydro.Defaults(), func(s string) {
			if s == stop {
				cancel()
			}
		})
		if !errors.Is(err, context.Canceled) {
			t.Errorf("cancelled in %q: error %v", stop, err)
		}
	}
}

func TestScreenIsTheSameForAnyNumberOfWorkers(t *testing.T) {
	g := rastertest.Fractal(7, 300, 300, 20_000)
	one := screen(t, g, func(c *hydro.Config) { c.Flow.Workers = 1 })
	four := screen(t, g, func(c *hydro.Config) { c.Flow.Workers = 4 })
	if len(one.Erosion) < 5 {
		t.Fatalf("only %d drainages", len(one.Erosion))
	}
	if fmt.Sprint(one.Sections, one.Erosion, one.Findings) != fmt.Sprint(four.Sections, four.Erosion, four.Findings) {
		t.Error("one worker and four give different judgements")
	}
}

// turned is a grid turned by 90 degrees clockwise.
func turned(g *raster.Grid) *raster.Grid {
	out := *g
	out.Cols, out.Rows = g.Rows, g.Cols
	out.MM = make([]int32, len(g.MM))
	for row := range g.Rows {
		for col := range g.Cols {
			out.MM[out.Index(g.Rows-1-row, col)] = g.At(col, row)
		}
	}
	return &out
}

// mirrored is a grid with west and east exchanged.
func mirrored(g *raster.Grid) *raster.Grid {
	out := *g
	out.MM = make([]int32, len(g.MM))
	for row := range g.Rows {
		for col := range g.Cols {
			out.MM[g.Index(g.Cols-1-col, row)] = g.At(col, row)
		}
	}
	return &out
}

func TestTurningTheLandChangesNoClass(t *testing.T) {
	for name, g := range map[string]*raster.Grid{
		"gully with noise": roughen(gully(0.05, 5, 1), 0.05),
		"valley of 10 %":   roughen(gully(0.05, 0, 0), 0.05),
	} {
		want := screen(t, g, nil).Erosion[0].Severity
		for way, h := range map[string]*raster.Grid{"turned": turned(g), "turned twice": turned(turned(g)), "mirrored": mirrored(g)} {
			// Equal slopes are told apart by a fixed order of directions, so a line may shift by a cell here and
			// there: some tenths of a point.
			if got := screen(t, h, nil).Erosion[0].Severity; got.Class != want.Class || math.Abs(got.Total-want.Total) > 0.5 {
				t.Errorf("%s, %s: %q at %.2f, else %q at %.2f", name, way, got.Class, got.Total, want.Class, want.Total)
			}
		}
	}
}
