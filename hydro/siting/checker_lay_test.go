package siting

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
	"siltstep/hydro/channel"
)

// noisy is a bed that rises by a slope with steps of noise, as drawn from a list that repeats.
func noisy(slope float64) func(float64) float64 {
	part := []float64{0, 0, 3, 1, 0, 2.5, 0.5, 0, 0.2, 2.8} // of the mean rise; ten to ten metres
	return func(s float64) float64 {
		whole := int(s)
		z := 100 + 10*slope*float64(whole/10)
		for i := range whole % 10 {
			z += slope * part[i]
		}
		return z + slope*part[whole%10]*(s-float64(whole))
	}
}

// fine is the usual settings with a deposit slope.
func fine(ratio float64) Config {
	cfg := Defaults()
	cfg.DepositRatio = ratio
	return cfg
}

func TestLayoutsOnDrawnBeds(t *testing.T) {
	if testing.Short() {
		t.Skip("lays out some hundred beds")
	}
	beds := []struct {
		name  string
		bedM  func(float64) float64
		slope float64 // of every station, by a long fit; 0 for that of the bed itself
	}{
		{"even", ramp(0.06), 0},
		{"nearly flat", ramp(0.021), 0},
		{"steep", ramp(0.18), 0},
		{"stepped", func(s float64) float64 { return 100 + 0.4*math.Floor(s/10) + 0.01*s }, 0.05},
		{"concave", func(s float64) float64 { return 100 + s*s/1500 }, 0.05},
		{"convex", func(s float64) float64 { return 100 + 1.6*math.Sqrt(s) }, 0.05},
		{"noisy", noisy(0.05), 0.05},
		{"headcut of 0.6 m", stepped(60, 0.6, 0), 0.05},
		{"headcut of 1.5 m", stepped(60, 1.5, 0), 0.05},
	}
	grounds := []struct {
		name string
		set  func(d *channel.Drainage)
	}{
		{"plain", func(*channel.Drainage) {}},
		{"confluences", func(d *channel.Drainage) { d.Into, d.ConfluencesM = 0, []float64{31.7, 77.2} }},
		{"a cut", func(d *channel.Drainage) { at(d, 44, 46, func(s *station) { s.Cut, s.NoBed = true, true }) }},
		{"two reaches", func(d *channel.Drainage) { at(d, 52, 58, func(s *station) { s.CatchmentM2 = 50_000 }) }},
	}
	for _, b := range beds {
		for _, g := range grounds {
			for _, ratio := range []float64{0, 0.5} {
				for _, stepM := range []float64{0.5, 1} {
					t.Run(fmt.Sprintf("%s, %s, %g, %g m", b.name, g.name, ratio, stepM), func(t *testing.T) {
						d := drawn(120, stepM, b.bedM)
						if b.slope > 0 {
							evenSlope(d, b.slope)
						}
						g.set(d)
						cfg := fine(ratio)
						l := Lay(d, stepM, cfg, nil, Ground{}, nil)
						if len(l.Sites) == 0 {
							t.Error("no dam")
						}
						checkLayout(t, d, stepM, cfg, l)
						checkRoom(t, d, cfg, l)
					})
				}
			}
		}
	}
}

func TestLayoutsAlwaysPassTheChecker(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := anyDrainage(t)
		calm(t, d)
		cfg := fine(rapid.SampledFrom([]float64{0, 0.5, 0.7}).Draw(t, "ratio"))
		var edits []Edit
		for range rapid.IntRange(0, 3).Draw(t, "edits") {
			edits = append(edits, Edit{
				Action:   rapid.SampledFrom([]Action{Reject, Move, Fix, Built}).Draw(t, "action"),
				StationM: rapid.Float64Range(0, d.Profile.LengthM()).Draw(t, "station"),
				HeightM:  rapid.SampledFrom([]float64{0.2, 0.6, 0.8}).Draw(t, "height"),
			})
		}
		checkLayout(t, d, 1, cfg, Lay(d, 1, cfg, nil, Ground{}, edits))
	})
}

// gathered keeps what a checker tells.
type gathered []string

func (*gathered) Helper() {}
func (g *gathered) Errorf(format string, args ...any) {
	*g = append(*g, fmt.Sprintf(format, args...))
}

func TestCheckerTellsOfSpoiltLayouts(t *testing.T) {
	tests := []struct {
		name  string
		spoil func(l *Layout)
		want  string
	}{
		{"nothing", func(*Layout) {}, ""},
		{"moved off its bed", func(l *Layout) { l.Sites[2].StationM += 0.1 }, "surveyed"},
		{"sill raised", func(l *Layout) { l.Sites[2].SillM += 0.05 }, "above the bed"},
		{"a height that is not offered", func(l *Layout) { l.Sites[0].EffectiveHeightM, l.Sites[0].SillM = 0.62, l.Sites[0].BedM+0.62 }, "is none of"},
		{"a longer body", func(l *Layout) { l.Sites[1].BodyUpM = 11 }, "bodies reach"},
		{"a longer wedge", func(l *Layout) { l.Sites[1].WedgeEndM += 3 }, "out of the wedge"},
		{"a shorter wedge", func(l *Layout) { l.Sites[1].WedgeEndM -= 3 }, "under the deposit line"},
		{"a dam left out", func(l *Layout) { l.Sites = append(l.Sites[:3:3], l.Sites[4:]...) }, "stands on bed"},
		{"the lowest left out", func(l *Layout) { l.Sites = l.Sites[1:] }, "more, at"},
		{"a series too many", func(l *Layout) { l.Sites[len(l.Sites)-1].Series++ }, "begins series"},
		{"spacing", func(l *Layout) { l.Sites[1].SpacingDownM++ }, "which says"},
		{"a dam on ground that is not eligible", func(l *Layout) { l.Reaches[0].Eligible = false }, "in no eligible reach"},
		{"too large a catchment", func(l *Layout) { l.Sites[1].CatchmentM2 = 40_001 }, "catchment"},
		{"bare ground", func(l *Layout) { l.BareM++ }, "bare"},
		{"a note of no bare piece", func(l *Layout) { l.Reaches[0].Notes = append(l.Reaches[0].Notes, Reason{}) }, "1 notes"},
		{"treated ground", func(l *Layout) { l.SeriesTreatedM[0]++ }, "by series"},
	}
	d := drawn(120, 1, ramp(0.06))
	at(d, 118, 118, func(s *station) { s.Cut, s.NoBed = true, true }) // ends the reach at 117.5
	cfg := oneHeight(0.6)
	for _, tt := range tests {
		l := Lay(d, 1, cfg, nil, Ground{}, nil)
		tt.spoil(&l)
		var told gathered
		checkLayout(&told, d, 1, cfg, l)
		checkRoom(&told, d, cfg, l)
		if all := strings.Join(told, "\n"); !strings.Contains(all, tt.want) || (tt.want == "") != (all == "") {
			t.Errorf("%s: told %q, want %q in it", tt.name, all, tt.want)
		}
	}
	// Dams at 4, 14, 24 … m, and ground that breaks a rule there.
	for _, tt := range []struct {
		name  string
		spoil func(d *channel.Drainage)
		want  string
	}{
		{"a confluence", func(d *channel.Drainage) { d.ConfluencesM = []float64{24.9} }, "near the confluence"},
		{"a lower end that joins another", func(d *channel.Drainage) { d.Into = 0 }, "near the confluence"},
		{"a cut under a dam", func(d *channel.Drainage) { d.Profile.Stations[23].Cut = true }, "on a cut"},
		{"a cut under a wedge", func(d *channel.Drainage) { d.Profile.Stations[25].StockPond = true }, "over a cut or water"},
		{"a step under a dam", func(d *channel.Drainage) { at(d, 25, 200, func(s *station) { s.BedM += 0.8 }) }, "under it falls"},
		{"a step below the lowest dam", func(d *channel.Drainage) { at(d, 0, 3, func(s *station) { s.BedM -= 2 }) }, "which is not drowned"},
	} {
		l := Lay(d, 1, cfg, nil, Ground{}, []Edit{{Action: Reject, StationM: 0}})
		other := *d
		other.Profile.Stations = append([]station(nil), d.Profile.Stations...)
		tt.spoil(&other)
		var told gathered
		checkLayout(&told, &other, 1, cfg, l)
		if all := strings.Join(told, "\n"); !strings.Contains(all, tt.want) {
			t.Errorf("%s: told %q, want %q in it", tt.name, all, tt.want)
		}
	}
}

func TestDamMovedToTheUpperEnd(t *testing.T) {
	// On a flat bed the wedge of a dam at 0 runs on to the upper end at 28, where the field asks for one: the sill there must be higher.
	d := drawn(28, 1, func(float64) float64 { return 100 })
	evenSlope(d, 0.06)
	l := Lay(d, 1, Defaults(), nil, Ground{}, []Edit{{Action: Move, StationM: 28}})
	checkLayout(t, d, 1, Defaults(), l)
}
