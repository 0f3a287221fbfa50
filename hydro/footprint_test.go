package hydro_test

import (
	"math"
	"testing"

	"siltstep/hydro"
	"siltstep/hydro/checkdam"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"pgregory.net/rapid"
)

// By hand, for a channel that runs south, so that the left bank lies east: the crest of 2·(1 + 0.6) = 3.2 m with keys of 0.6 m is
// 4.4 m; the body reaches 0.25 + 1.5·0.6 = 1.15 m up and 0.25 + 3·0.6 = 2.05 m down; the apron is 1.2 m long and 2 + 0.6 = 2.6 m
// wide. 4.4·3.2 + 2.6·1.2 = 17.2 m².
func TestFootprintByHand(t *testing.T) {
	p := oneDam(t, trench(t), 180)
	f, ok := p.Footprint(0, 0)
	want := orb.Ring{{102.2, 201.15}, {97.8, 201.15}, {97.8, 197.95}, {98.7, 197.95}, {98.7, 196.75}, {101.3, 196.75}, {101.3, 197.95}, {102.2, 197.95}, {102.2, 201.15}}
	if !ok || len(f.Ring) != len(want) {
		t.Fatalf("got %+v, %v", f, ok)
	}
	for i := range want {
		if planar.Distance(f.Ring[i], want[i]) > 1e-9 {
			t.Errorf("corner %d: %v, want %v", i, f.Ring[i], want[i])
		}
	}
	if f.AreaM2 != 17.2 || math.Abs(f.FillM3-p.Designs[0][0].Dam.Rock.TotalM3) > 0.005 || !math.IsNaN(f.PondM2) {
		t.Errorf("%g m², %g m³, pond %g m²", f.AreaM2, f.FillM3, f.PondM2)
	}
	p.Designs[0][0].Measured.PondAreaM2 = 31.25
	if f, _ := p.Footprint(0, 0); f.PondM2 != 31.25 {
		t.Errorf("pond %g m², measured are 31.25", f.PondM2)
	}
}

// A hump above the sill does not end the dam. The level of 0.6 m meets the left bank at −3 + 0.9/1.3 = −2.3077 m and the right one at
// 2 − 2·0.9/1.5 = 0.8 m; keys add 0.6 m.
func TestFootprintOfAMeasuredSection(t *testing.T) {
	section, err := checkdam.NewSection([]checkdam.Point{{OffsetM: -3, LevelM: 1.5}, {OffsetM: -2, LevelM: 0.2}, {OffsetM: -1, LevelM: 0.9}, {OffsetM: 0}, {OffsetM: 2, LevelM: 1.5}})
	if err != nil {
		t.Fatal(err)
	}
	f, ok := oneDam(t, section, 0).Footprint(0, 0) // north, so that right is east
	if !ok || math.Abs(f.Ring[0][0]-100+2.9077) > 5e-5 || math.Abs(f.Ring[1][0]-100-1.4) > 1e-9 {
		t.Errorf("got %+v, %v", f, ok)
	}
}

// Upright banks: the level ends at the foot of both.
func TestFootprintBetweenWalls(t *testing.T) {
	section, err := checkdam.TrapezoidSection(2, 0, 1)
	if err != nil {
		t.Fatal(err)
	}
	if f, ok := oneDam(t, section, 0).Footprint(0, 0); !ok || math.Abs(f.Ring[0][0]-98.4) > 1e-9 || math.Abs(f.Ring[1][0]-101.6) > 1e-9 {
		t.Errorf("got %+v, %v", f, ok)
	}
}

func TestFootprintNeedsASection(t *testing.T) {
	p := oneDam(t, trench(t), 0)
	p.Sections[0] = nil
	if _, ok := p.Footprint(0, 0); ok {
		t.Error("which way the dam lies is not known")
	}
}

// By hand: with 3 m on all sides 10.4 m by 10.4 m; the strip 50 m less 2.2 + 3 m long, 3 m wide; a square of 5 m.
func TestEffectsByHand(t *testing.T) {
	p := oneDam(t, trench(t), 180)
	p.Config.Siting.Features.Roads = []orb.LineString{{{150, 0}, {150, 400}}}
	rows := []struct {
		name   string
		change func(*hydro.Plan)
		want   map[hydro.EffectPart]float64
	}{
		{"all", func(*hydro.Plan) {}, map[hydro.EffectPart]float64{hydro.EffectWorks: 108.16, hydro.EffectAccess: 134.4, hydro.EffectStockpile: 25}},
		{"no margin", func(p *hydro.Plan) { p.Config.Effect.MarginM = 0 }, map[hydro.EffectPart]float64{hydro.EffectWorks: 4.4 * 4.4, hydro.EffectAccess: 143.4, hydro.EffectStockpile: 25}},
		{"no pile", func(p *hydro.Plan) { p.Config.Effect = hydro.EffectConfig{AccessM: 4} }, map[hydro.EffectPart]float64{hydro.EffectWorks: 4.4 * 4.4, hydro.EffectAccess: 191.2}},
		{"the road within the margin", func(p *hydro.Plan) {
			p.Config.Effect = hydro.EffectConfig{MarginM: 60, AccessM: 3, StockpileM: 2}
		}, map[hydro.EffectPart]float64{hydro.EffectWorks: 124.4 * 124.4, hydro.EffectStockpile: 4}},
		{"the road over the dam", func(p *hydro.Plan) {
			p.Config.Effect = hydro.Defaults().Effect
			p.Config.Siting.Features.Roads = []orb.LineString{{{100, 0}, {100, 400}}}
		}, map[hydro.EffectPart]float64{hydro.EffectWorks: 108.16}},
		{"no road", func(p *hydro.Plan) { p.Config.Siting.Features.Roads = nil }, map[hydro.EffectPart]float64{hydro.EffectWorks: 108.16}},
	}
	for _, r := range rows {
		t.Run(r.name, func(t *testing.T) {
			r.change(p)
			effects := p.Effects(0, 0)
			if len(effects) != len(r.want) {
				t.Fatalf("got %+v", effects)
			}
			for _, e := range effects {
				if math.Abs(e.AreaM2-r.want[e.Part]) > 0.006 { // m²; both to the hundredth
					t.Errorf("%s: %g m², want %g", e.Part, e.AreaM2, r.want[e.Part])
				}
			}
		})
	}
}

// Whichever way the channel runs and the road lies: rings are closed and anticlockwise, areas are those of the rings, the dam lies
// within its works, and the strip runs from the road to the edge of the works.
func TestEffectsAnyWay(t *testing.T) {
	section := trench(t)
	rapid.Check(t, func(t *rapid.T) {
		p := oneDam(t, section, rapid.Float64Range(0, 360).Draw(t, "bearing"))
		away, angle := rapid.Float64Range(20, 500).Draw(t, "road, m"), rapid.Float64Range(0, 2*math.Pi).Draw(t, "angle")
		road := orb.Point{100 + away*math.Cos(angle), 200 + away*math.Sin(angle)}
		p.Config.Siting.Features.Roads = []orb.LineString{{road, road}}
		f, ok := p.Footprint(0, 0)
		effects := p.Effects(0, 0)
		if !ok || len(effects) != 3 || math.Abs(f.AreaM2-17.2) > 0.011 {
			t.Fatalf("%+v, %v, %+v", f, ok, effects)
		}
		rings := []orb.Ring{f.Ring}
		areas := []float64{f.AreaM2}
		for _, e := range effects {
			rings, areas = append(rings, e.Ring), append(areas, e.AreaM2)
		}
		for i, r := range rings {
			if !r.Closed() || r.Orientation() != orb.CCW || math.Abs(planar.Area(r)-areas[i]) > 0.006 {
				t.Fatalf("ring %d of %g m²: %v, of %g m²", i, areas[i], r, planar.Area(r))
			}
		}
		works := effects[0].Ring
		for _, corner := range f.Ring {
			if !planar.RingContains(works, corner) {
				t.Fatalf("%v of the dam lies outside its works %v", corner, works)
			}
		}
		strip := effects[1].Ring
		begin, end := orb.Point{(strip[0][0] + strip[3][0]) / 2, (strip[0][1] + strip[3][1]) / 2}, orb.Point{(strip[1][0] + strip[2][0]) / 2, (strip[1][1] + strip[2][1]) / 2}
		if planar.Distance(begin, road) > 1e-6 || planar.DistanceFrom(orb.LineString(works), end) > 1e-6 {
			t.Fatalf("the strip runs from %v to %v; road %v, works %v", begin, end, road, works)
		}
	})
}
