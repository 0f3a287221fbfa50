package settings

import (
	"errors"
	"math"
	"reflect"
	"strings"
	"testing"

	"siltstep/cmd/internal/facts"
	"siltstep/hydro"
	"siltstep/hydro/checkdam"
	"siltstep/hydro/erosion"
	"siltstep/hydro/flow"
	"siltstep/hydro/siting"
	"siltstep/hydro/storm"

	"pgregory.net/rapid"
)

func TestPrintDefaults(t *testing.T) {
	var b strings.Builder
	if err := Print(&b, Defaults()); err != nil {
		t.Fatal(err)
	}
	var bare []string // without comments
	for line := range strings.Lines(b.String()) {
		keep, _, _ := strings.Cut(line, "#")
		if keep = strings.TrimRight(keep, " \n"); keep != "" {
			bare = append(bare, keep)
		}
	}
	const want = `flow:
  edge: open
  cut_length: 30 m
  cut_depth: 1 m
  road_cut_length: 60 m
  road_cut_depth: 6 m
  road_reach: 30 m
  roads: none
  culverts: none
  stock_ponds: none
channels:
  start_area: 0.25 ha
  min_length: 30 m
  section_spacing: 5 m
  section_reach: 20 m
erosion:
  window: 15 m
  headcut: 0.3 m
  incised_depth: 0.3 m
  bed_material: none
  roughness: 0.04
severity:
  incision: [0.3 m, 2 m]
  incision_weight: 30
  headcuts: [0, 1]
  headcuts_weight: 25
  shear: [1, 4]
  shear_weight: 20
  bank_slope: [50 %, 200 %]
  bank_slope_weight: 15
  incised_length: [0, 1]
  incised_length_weight: 10
rain:
  table: none
  return_period: none
  hours: none
  depth: none
  intensity: none
  curve: none
  pattern: none
runoff:
  coefficient: none
  curve_number: none
  cover: none
  condition: none
  soil_group: none
  wetness: average
  abstraction_ratio: 0.20
  method: highest
dams:
  kind: loose-rock
  objective: least-rock
  fixed_cost: 1 t
  height: 0.6 m
  min_height: 0.3 m
  slope: [2 %, 20 %]
  catchment: [0.25 ha, 4 ha]
  min_incision: 0.3 m
  spacing_rule: toe-to-crest
  deposit_ratio: 0
  engineer: false
  bed_width: 6 m
  top_width: 15 m
  confluence_distance: 5 m
  bend_radius: 5 m
  road_distance: 10 m
  building_distance: 30 m
  stream_distance: 10 m
  exclusions: none
  buildings: none
  live_streams: none
  base_level: none
  crest_width: usual
  face_up: usual
  face_down: usual
  notch_shape: usual
  notch_width: usual
  notch_side: usual
  freeboard: 0.1 m
stone:
  gravity: 2.65
  voids: 0.35
  waste: 0.15
sediment:
  yield: none
  density: 1.3 t/m3
gully:
  formation_years: none
  bank_density: 1.4 t/m3
prices:
  currency: none
  rock: none
  day: none
  days_per_m3: none
  load: none
  barrow: none
effect:
  margin: 3 m
  access_width: 3 m
  stockpile: 5 m
handover:
  title: none
  paper: a4
  private: none
funding:
  match_share: none
  match_base: none
  federal: none`
	if got := strings.Join(bare, "\n"); !reflect.DeepEqual(got, want) {
		t.Errorf("got\n%s", got)
	}
	for _, k := range Keys() {
		for _, part := range []string{k.Meaning, k.Allowed, "source: " + k.Source} {
			if !strings.Contains(b.String(), part) {
				t.Errorf("%s: %q is not printed", k.Name, part)
			}
		}
	}
}

func TestPrintNamesTheDefault(t *testing.T) {
	cfg := Defaults()
	cfg.Siting.HeightM = 0.45
	var b strings.Builder
	if err := Print(&b, cfg); err != nil {
		t.Fatal(err)
	}
	for line := range strings.Lines(b.String()) {
		if has := strings.Contains(line, "; default: "); has != strings.Contains(line, " height: 0.45 m ") {
			t.Errorf("unexpected: %s", line)
		}
	}
}

func TestPrintReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cfg := Defaults()
		draw := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
		cfg.Flow.Edge = rapid.SampledFrom([]flow.Edge{flow.EdgeOpen, flow.EdgeClosed}).Draw(t, "edge")
		cfg.Flow.CutLengthM, cfg.Flow.CutDepthM = draw("cut length", 0, 200), draw("cut depth", 0, 20)
		cfg.Flow.RoadCutLengthM, cfg.Flow.RoadCutDepthM = draw("road cut length", 0, 200), draw("road cut depth", 0, 20)
		cfg.Flow.RoadReachM = draw("road reach", 0, 200)
		cfg.Files.Roads = rapid.SampledFrom([]string{"", "roads.geojson", "my roads: north #2.gpkg", `C:\gis\"r".shp`, "ä\nb", "true", "1", "~"}).Draw(t, "roads")
		cfg.Channels.StartAreaM2 = draw("start area", 0, 1e7)
		cfg.Channels.MinLengthM = draw("min length", 0, 1e5)
		cfg.Siting.Engineer = rapid.Bool().Draw(t, "engineer")
		cfg.Siting.HeightM = draw("height", 0.1, 0.9)
		if cfg.Siting.Engineer {
			cfg.Siting.HeightM *= 3
		}
		cfg.Siting.SlopeMin = draw("least slope", 0, 0.49)
		cfg.Siting.SlopeMax = draw("greatest slope", 0.5, 1)
		cfg.Siting.CatchmentMinM2 = draw("least catchment", 0, 1e4)
		cfg.Siting.CatchmentMaxM2 = draw("greatest catchment", 1.1e4, 1e9)
		cfg.Siting.DepositRatio = draw("deposit ratio", 0, 0.7)
		cfg.Siting.MinIncisionM = draw("incision", 0, 10)
		cfg.Sections.SpacingM, cfg.Sections.ReachM = draw("section spacing", 0, 100), draw("section reach", 1, 200)
		e := &cfg.Erosion
		e.WindowM, e.HeadcutM, e.IncisedM = draw("window", 3, 500), draw("headcut", 0.05, 50), draw("incised depth", 0.05, 50)
		e.Roughness = draw("roughness", 0.01, 0.3)
		e.Material = rapid.SampledFrom([]string{"", "fine-sand", "cobbles"}).Draw(t, "material")
		for _, s := range []*erosion.Scale{&e.Incision, &e.Headcuts, &e.Shear, &e.BankSlope} {
			s.Zero, s.Full, s.Weight = draw("zero", 0, 5), draw("full", 5.1, 100), draw("weight", 0, 100)
		}
		e.IncisedLength = erosion.Scale{Zero: draw("zero share", 0, 0.4), Full: draw("full share", 0.5, 1), Weight: draw("weight", 0.1, 100)}
		drawLand(t, &cfg, draw)
		drawStorm(t, &cfg, draw)
		drawWorks(t, &cfg.Works, draw)
		drawHandover(t, &cfg, draw)
		readBack(t, cfg)
	})
}

// drawLand draws what is sought, what dams keep clear of, and how the gullies formed.
func drawLand(t *rapid.T, cfg *Settings, draw func(string, float64, float64) float64) {
	s := &cfg.Siting
	s.Kind = rapid.SampledFrom([]checkdam.Kind{checkdam.LooseRock, checkdam.Log, checkdam.Gabion}).Draw(t, "kind")
	s.Objective = rapid.SampledFrom(siting.Objectives()).Draw(t, "objective")
	s.DamCostT = draw("fixed cost", 0, 1000)
	for _, m := range []*float64{&s.BedWidthMaxM, &s.TopWidthMaxM, &s.ConfluenceM, &s.BendRadiusM, &s.RoadM, &s.BuildingM, &s.StreamM} {
		*m = draw("clearance", 0, 1e4)
	}
	for _, name := range []*string{&cfg.Files.Exclusions, &cfg.Files.Buildings, &cfg.Files.LiveStreams, &cfg.Files.BaseLevel} {
		*name = rapid.SampledFrom([]string{"", "a layer.gpkg"}).Draw(t, "layer")
	}
	cfg.Gully = hydro.GullyConfig{BankTPerM3: draw("bank", 1.2, 1.7), SedimentTPerM3: draw("silt", 1.1, 1.6)}
	if rapid.Bool().Draw(t, "age is known") {
		cfg.Gully.FormationYears = draw("age", 0.1, 1000)
	}
	cfg.Effect = hydro.EffectConfig{MarginM: draw("margin", 0, 100), AccessM: draw("access", 0, 100), StockpileM: draw("pile", 0, 100)}
}

// drawStorm draws rain in one of the ways it may be given, and ground.
func drawStorm(t *rapid.T, cfg *Settings, draw func(string, float64, float64) float64) {
	s := &cfg.Storm
	switch rapid.IntRange(0, 4).Draw(t, "rain") {
	case 1:
		cfg.Files.Rain, s.HoursH = "my rain.csv", draw("hours", 0.05, 240)
		s.ReturnPeriodYr = draw("return period", 1, 1000)
	case 2:
		s.Rain.DepthMM, s.HoursH, s.Pattern = draw("depth", 0.1, 2000), 24, storm.PatternII
	case 3:
		s.Rain.IntensityMMH = draw("intensity", 0.1, 1000)
	case 4:
		s.Rain.Curve = &storm.Curve{A: draw("a", 1, 1e5), B: draw("b", 0, 60), C: draw("c", 0.1, 1), LongestMin: draw("longest", 10, 1440)}
	}
	s.RunoffCoefficient = draw("coefficient", 0.01, 1)
	if rapid.Bool().Draw(t, "by cover") {
		cfg.Ground = Ground{"sagebrush", "fair", "C"}
	} else {
		s.CurveNumber = draw("curve number", 1, 100)
	}
	s.Wetness = rapid.SampledFrom([]storm.Wetness{"", storm.WetnessDry, storm.WetnessWet}).Draw(t, "wetness")
	s.Ratio = rapid.SampledFrom([]storm.Ratio{"", storm.Ratio05}).Draw(t, "ratio")
	s.Method = rapid.SampledFrom([]storm.Method{"", storm.MethodRational}).Draw(t, "method")
}

func drawWorks(t *rapid.T, w *hydro.Works, draw func(string, float64, float64) float64) {
	if rapid.Bool().Draw(t, "plain works") {
		return
	}
	w.CrestWidthM, w.FaceUp, w.FaceDown = draw("crest", 0.2, 5), draw("face up", 1, 10), draw("face down", 1, 10)
	w.Notch.WidthM, w.Notch.SideSlope, w.Notch.FreeboardM = draw("notch width", 0.2, 20), draw("notch side", 0.1, 5), draw("freeboard", 0.05, 1)
	w.Notch.Shape = checkdam.Trapezoidal
	w.StoneGravity, w.Voids, w.Waste = draw("gravity", 1.5, 4), draw("voids", 0.1, 0.6), draw("waste", 0.01, 1)
	w.Yield = checkdam.Yield{LowM3PerHa: draw("low yield", 0.001, 5), HighM3PerHa: draw("high yield", 5.1, 100)}
	w.Prices = hydro.Prices{Currency: rapid.SampledFrom([]string{"", "USD", "€", "true", "null"}).Draw(t, "currency"), RockPerTonne: draw("rock", 0.01, 1e6),
		PerDay: draw("day", 0.01, 1e6), DaysPerM3: draw("days", 0.01, 100), LoadT: draw("load", 0.01, 100), BarrowT: draw("barrow", 0.01, 1)}
}

// drawHandover draws what documents are called, what is private, and a match.
func drawHandover(t *rapid.T, cfg *Settings, draw func(string, float64, float64) float64) {
	cfg.Handover.Title = rapid.SampledFrom([]string{"", "North Pasture: gully #2", `"Ä" \n \`, "true", "12"}).Draw(t, "title")
	cfg.Handover.Paper = rapid.SampledFrom([]string{"a4", "letter"}).Draw(t, "paper")
	for _, layer := range facts.Layers() {
		if rapid.Bool().Draw(t, layer) {
			cfg.Handover.Private = append(cfg.Handover.Private, layer)
		}
	}
	if rapid.Bool().Draw(t, "match") {
		cfg.Funding = Funding{MatchShare: draw("share", 0.01, 0.99), MatchBase: rapid.SampledFrom([]string{"total", "federal"}).Draw(t, "base"), Federal: draw("federal", 0.01, 1e6)}
	}
}

// readBack holds that Print and Parse are inverse, and that hydro takes what Parse gives.
func readBack(t interface{ Fatalf(string, ...any) }, cfg Settings) {
	var b strings.Builder
	if err := Print(&b, cfg); err != nil {
		t.Fatalf("print %+v: %v", cfg, err)
	}
	if err := cfg.Validate(); err != nil {
		t.Fatalf("%+v: %v", cfg, err)
	}
	back, err := Parse("printed", []byte(b.String()))
	if err != nil || !same(back, cfg) {
		t.Fatalf("got %+v, %v\nwant %+v\nfrom\n%s", back, err, cfg, b.String())
	}
}

func TestPrintRefuses(t *testing.T) {
	rows := []struct {
		name   string
		change func(*Settings)
		want   string
	}{
		{"not a number", func(c *Settings) { c.Siting.HeightM = math.NaN() }, "dams.height: at least 0.1 m"},
		{"infinite", func(c *Settings) { c.Channels.MinLengthM = math.Inf(1) }, "channels.min_length: a finite number"},
		{"negative", func(c *Settings) { c.Siting.SlopeMin = -1 }, "dams.slope: first value: at least 0 %"},
		{"no kind", func(c *Settings) { c.Siting.Kind = "" }, "dams.kind: loose-rock or one-rock or log or brush or gabion"},
		{"cut", func(c *Settings) { c.Flow.CutLengthM = 2000 }, "flow.cut_length: at most 200 m"},
		{"bed material", func(c *Settings) { c.Erosion.Material = "cheese" }, "erosion.bed_material: " + strings.Join(bedMaterials(), " or ")},
		{"reach", func(c *Settings) { c.Flow.RoadReachM = 201 }, "flow.road_reach: at most 200 m"},
		{"edge", func(c *Settings) { c.Flow.Edge = 9 }, "flow.edge: open or closed"},
	}
	for _, r := range rows {
		t.Run(r.name, func(t *testing.T) {
			cfg := Defaults()
			r.change(&cfg)
			var b strings.Builder
			err := Print(&b, cfg)
			if err == nil || err.Error() != "settings cannot be written: "+r.want || b.Len() > 0 {
				t.Errorf("got %v and %d bytes, want %s", err, b.Len(), r.want)
			}
		})
	}
	full := errors.New("disk full")
	if err := Print(failing{full}, Defaults()); !errors.Is(err, full) {
		t.Errorf("got %v", err)
	}
}

type failing struct{ err error }

func (f failing) Write([]byte) (int, error) { return 0, f.err }
