package settings

import (
	"bytes"
	"errors"
	"io/fs"
	"math"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"siltstep/hydro"
	"siltstep/hydro/channel"
	"siltstep/hydro/checkdam"
	"siltstep/hydro/erosion"
	"siltstep/hydro/flow"
	"siltstep/hydro/siting"
	"siltstep/hydro/storm"
)

func TestParse(t *testing.T) {
	// Each row changes the defaults by hand; quantities are exact: 2 ft is 0.6096 m and
	// 10 ac is 40,468.564224 m².
	rows := []struct {
		name, text string
		change     func(*Settings)
	}{
		{"empty", "", func(*Settings) {}},
		{"blank lines", "\n \n", func(*Settings) {}},
		{"only a comment", "# nothing yet\n", func(*Settings) {}},
		{"only a document mark", "---\n", func(*Settings) {}},
		{"sections without keys", "flow:\ndams:\n  # height: 0.5 m\nchannels: {}\n", func(*Settings) {}},
		{"one key in braces", "dams: {height: 0.5 m}", func(c *Settings) { c.Siting.HeightM = 0.5 }},
		{"feet", "dams:\n  height: 2 ft # two feet\n", func(c *Settings) { c.Siting.HeightM = 0.6096 }},
		{"quoted", "\"dams\": {'height': \"0.5 m\"}", func(c *Settings) { c.Siting.HeightM = 0.5 }},
		{"byte order mark", "\ufeffdams: {height: 0.5 m}", func(c *Settings) { c.Siting.HeightM = 0.5 }},
		{"lines ending in CR LF", "dams:\r\n  height: 0.5 m\r\n  deposit_ratio: 0.5\r\n", func(c *Settings) {
			c.Siting.HeightM, c.Siting.DepositRatio = 0.5, 0.5
		}},
		{"document marks around", "---\ndams: {height: 0.5 m}\n...\n", func(c *Settings) { c.Siting.HeightM = 0.5 }},
		{"an engineer, said after the height", "dams: {height: 1.5 m, engineer: true}", func(c *Settings) {
			c.Siting.HeightM, c.Siting.Engineer = 1.5, true
		}},
		{"files", "flow: {roads: roads.geojson, culverts: \"../a b/pipes.gpkg\", stock_ponds: none}", func(c *Settings) {
			c.Files.Roads, c.Files.Culverts = "roads.geojson", "../a b/pipes.gpkg"
		}},
		{"a plain fill", "flow: {cut_length: 0 m, road_cut_length: 0 ft}", func(c *Settings) { c.Flow.CutLengthM, c.Flow.RoadCutLengthM = 0, 0 }},
		{"all keys", `flow: {edge: closed, cut_length: 20 m, cut_depth: 2 ft, road_cut_length: 40 m, road_cut_depth: 3 m, road_reach: 50 m, roads: r.shp, culverts: c.shp, stock_ponds: p.shp}
channels: {start_area: 1 ac, min_length: 0 m, section_spacing: 10 ft, section_reach: 30 m}
erosion: {window: 45 m, headcut: 0.5 m, incised_depth: 20 cm, bed_material: stiff-clay, roughness: 0.05}
severity: {incision: [0.2 m, 3 m], incision_weight: 10, headcuts: [0.1, 2], headcuts_weight: 20, shear: [0.5, 3], shear_weight: 0,
  bank_slope: [0.4 m/m, 150 %], bank_slope_weight: 5, incised_length: [0.1, 0.9], incised_length_weight: 65}
dams:
  kind: loose-rock
  height: 30 cm
  slope:
    - 0.03 m/m
    - 15 %
  catchment: [0 ha, 10 ac]
  min_incision: 1 ft
  spacing_rule: toe-to-crest
  deposit_ratio: 0.7
  engineer: false
  objective: most-sediment-per-tonne
  fixed_cost: 2 us-ton
  bed_width: 20 ft
  top_width: 12 m
  confluence_distance: 0 m
  bend_radius: 8 m
  road_distance: 15 m
  building_distance: 100 ft
  stream_distance: 50 m
  exclusions: sites.gpkg
  buildings: b.shp
  live_streams: s.shp
  base_level: rock.geojson
gully: {formation_years: 60, bank_density: 85 lb/ft3}
effect: {margin: 5 m, access_width: 0 m, stockpile: 10 m}
`, func(c *Settings) {
			c.Flow.Edge = flow.EdgeClosed
			c.Flow.CutLengthM, c.Flow.CutDepthM, c.Flow.RoadCutLengthM, c.Flow.RoadCutDepthM, c.Flow.RoadReachM = 20, 0.6096, 40, 3, 50
			c.Files = Files{Roads: "r.shp", Culverts: "c.shp", StockPonds: "p.shp", Exclusions: "sites.gpkg", Buildings: "b.shp", LiveStreams: "s.shp", BaseLevel: "rock.geojson"}
			c.Siting.Objective, c.Siting.DamCostT = siting.MostSedimentPerTonne, 1.81436948 // two of 0.90718474 t
			c.Siting.BedWidthMaxM, c.Siting.TopWidthMaxM, c.Siting.ConfluenceM, c.Siting.BendRadiusM = 6.096, 12, 0, 8
			c.Siting.RoadM, c.Siting.BuildingM, c.Siting.StreamM = 15, 30.48, 50
			c.Gully.FormationYears, c.Gully.BankTPerM3 = 60, 85*453592370./28316846592 // 1.3616 t/m³
			c.Effect = hydro.EffectConfig{MarginM: 5, StockpileM: 10}
			c.Channels.StartAreaM2, c.Channels.MinLengthM = 4046.8564224, 0
			c.Sections = channel.SectionConfig{SpacingM: 3.048, ReachM: 30}
			c.Erosion = erosion.Config{
				WindowM: 45, HeadcutM: 0.5, IncisedM: 0.2, Material: "stiff-clay", Roughness: 0.05,
				Incision: erosion.Scale{Zero: 0.2, Full: 3, Weight: 10}, Headcuts: erosion.Scale{Zero: 0.1, Full: 2, Weight: 20},
				Shear: erosion.Scale{Zero: 0.5, Full: 3}, BankSlope: erosion.Scale{Zero: 0.4, Full: 1.5, Weight: 5},
				IncisedLength: erosion.Scale{Zero: 0.1, Full: 0.9, Weight: 65},
			}
			c.Siting.MinIncisionM = 0.3048
			c.Siting.HeightM = 0.3
			c.Siting.SlopeMin, c.Siting.SlopeMax = 0.03, 0.15
			c.Siting.CatchmentMinM2, c.Siting.CatchmentMaxM2 = 0, 40468.564224
			c.Siting.DepositRatio = 0.7
		}},
		{"the storm of a table", "rain: {table: rain.csv, return_period: 10 yr, hours: 24}", func(c *Settings) {
			c.Files.Rain, c.Storm.ReturnPeriodYr, c.Storm.HoursH = "rain.csv", 10, 24
		}},
		// 2.5 in is 63.5 mm, 20 min a third of an hour.
		{"one depth in inches", "rain: {depth: 2.5 in, hours: 20 min, pattern: triangular}\nrunoff: {curve_number: 80, wetness: wet, abstraction_ratio: 0.05, method: unit-hydrograph}", func(c *Settings) {
			c.Storm.Rain.DepthMM, c.Storm.HoursH, c.Storm.Pattern = 63.5, 1./3, storm.PatternTriangular
			c.Storm.CurveNumber, c.Storm.Wetness, c.Storm.Ratio, c.Storm.Method = 80, storm.WetnessWet, storm.Ratio05, storm.MethodUnitHydrograph
		}},
		{"a curve, 2 h long", "rain: {curve: [1200, 10, 0.8, 2 h]}\nrunoff: {coefficient: 0.35, method: rational}", func(c *Settings) {
			c.Storm.Rain.Curve = &storm.Curve{A: 1200, B: 10, C: 0.8, LongestMin: 120}
			c.Storm.RunoffCoefficient, c.Storm.Method = 0.35, storm.MethodRational
		}},
		{"an intensity", "rain: {intensity: 3 in/h}", func(c *Settings) { c.Storm.Rain.IntensityMMH = 76.2 }},
		{"a cover", "runoff: {cover: pasture, condition: poor, soil_group: B}", func(c *Settings) { c.Ground = Ground{"pasture", "poor", "B"} }},
		{"words that leave open", "rain: {table: none, depth: none, curve: none, pattern: none}\nrunoff: {cover: none}\ndams: {crest_width: usual, notch_width: usual, notch_shape: usual, face_up: usual, face_down: usual}\ngully: {formation_years: none}\nsediment: {yield: none}\nprices: {currency: none, rock: none}",
			func(*Settings) {}},
		{"a handover", "handover: {title: 'North Pasture', paper: letter, private: [headcuts, dams]}\nfunding: {match_share: 40 %, match_base: total, federal: 60000}", func(c *Settings) {
			c.Handover = Handover{Title: "North Pasture", Paper: "letter", Private: []string{"dams", "headcuts"}}
			c.Funding = Funding{MatchShare: 0.4, MatchBase: "total", Federal: 60000}
		}},
		{"one private layer, and a share as a number", "handover: {private: dams}\nfunding: {match_share: 0.4, match_base: federal}", func(c *Settings) {
			c.Handover.Private = []string{"dams"}
			c.Funding = Funding{MatchShare: 0.4, MatchBase: "federal"}
		}},
		// 1 yd3/ac is 0.764554857984 m³ on 0.40468564224 ha: 1.88925...
		{"works and prices", `dams: {min_height: 1 ft, crest_width: 2 ft, face_up: 2:1, face_down: 4:1, notch_shape: parabolic, notch_width: 1.5 m, freeboard: 20 cm}
stone: {gravity: 2.5, voids: 0.4, waste: 0.3}
sediment: {yield: [0.5 m3/ha, 1 yd3/ac], density: 1100 kg/m3}
prices: {currency: USD, rock: 45, day: 180.50, days_per_m3: 0.8, load: 12 us-ton, barrow: 80 kg}`, func(c *Settings) {
			c.Siting.MinHeightM = 0.3048
			c.Works = hydro.Works{CrestWidthM: 0.6096, FaceUp: 2, FaceDown: 4, Notch: checkdam.NotchRequest{Shape: checkdam.Parabolic, WidthM: 1.5, FreeboardM: 0.2},
				StoneGravity: 2.5, Voids: 0.4, Waste: 0.3, Yield: checkdam.Yield{LowM3PerHa: 0.5, HighM3PerHa: 764554857984. / 404685642240},
				Prices: hydro.Prices{Currency: "USD", RockPerTonne: 45, PerDay: 180.5, DaysPerM3: 0.8, LoadT: 10.88621688, BarrowT: 0.08}} // 12 of 0.90718474 t
			c.Gully.SedimentTPerM3 = 1.1
		}},
	}
	for _, r := range rows {
		t.Run(r.name, func(t *testing.T) {
			want := Defaults()
			r.change(&want)
			got, err := Parse("plan.yaml", []byte(r.text))
			if err != nil || !same(got, want) {
				t.Errorf("got %+v, %v\nwant %+v", got, err, want)
			}
		})
	}
}

// same compares settings by their values: where they came from does not count.
func same(a, b Settings) bool {
	for _, s := range []*Settings{&a, &b} {
		s.file, s.told = "", nil
		for _, face := range []*float64{&s.Works.FaceUp, &s.Works.FaceDown} {
			if math.IsNaN(*face) { // which equals nothing
				*face = -1
			}
		}
	}
	return reflect.DeepEqual(a, b)
}

// The table and hydro hold the same defaults, and the table is complete.
func TestDefaults(t *testing.T) {
	var b strings.Builder
	for _, k := range Keys() {
		_, short, _ := strings.Cut(k.Name, ".")
		text := k.Section() + ": {" + short + ": " + k.Default + "}"
		got, err := Parse("table", []byte(text))
		if err != nil || !same(got, Defaults()) {
			t.Errorf("%s: the table says %s, which gives %+v, %v", k.Name, k.Default, got, err)
		}
		if shown := k.rule.show(Defaults()); shown != k.Default {
			t.Errorf("%s: the table says %s, the default is %s", k.Name, k.Default, shown)
		}
		if k.Kind == "" || k.Allowed == "" || k.Meaning == "" || k.Source == "" {
			t.Errorf("%s: incomplete: %+v", k.Name, k)
		}
		b.WriteString(k.Name + "\n")
	}
	const want = `flow.edge
flow.cut_length
flow.cut_depth
flow.road_cut_length
flow.road_cut_depth
flow.road_reach
flow.roads
flow.culverts
flow.stock_ponds
channels.start_area
channels.min_length
channels.section_spacing
channels.section_reach
erosion.window
erosion.headcut
erosion.incised_depth
erosion.bed_material
erosion.roughness
severity.incision
severity.incision_weight
severity.headcuts
severity.headcuts_weight
severity.shear
severity.shear_weight
severity.bank_slope
severity.bank_slope_weight
severity.incised_length
severity.incised_length_weight
rain.table
rain.return_period
rain.hours
rain.depth
rain.intensity
rain.curve
rain.pattern
runoff.coefficient
runoff.curve_number
runoff.cover
runoff.condition
runoff.soil_group
runoff.wetness
runoff.abstraction_ratio
runoff.method
dams.kind
dams.objective
dams.fixed_cost
dams.height
dams.min_height
dams.slope
dams.catchment
dams.min_incision
dams.spacing_rule
dams.deposit_ratio
dams.engineer
dams.bed_width
dams.top_width
dams.confluence_distance
dams.bend_radius
dams.road_distance
dams.building_distance
dams.stream_distance
dams.exclusions
dams.buildings
dams.live_streams
dams.base_level
dams.crest_width
dams.face_up
dams.face_down
dams.notch_shape
dams.notch_width
dams.notch_side
dams.freeboard
stone.gravity
stone.voids
stone.waste
sediment.yield
sediment.density
gully.formation_years
gully.bank_density
prices.currency
prices.rock
prices.day
prices.days_per_m3
prices.load
prices.barrow
effect.margin
effect.access_width
effect.stockpile
handover.title
handover.paper
handover.private
funding.match_share
funding.match_base
funding.federal
`
	if b.String() != want {
		t.Errorf("keys are\n%s", b.String())
	}
}

func TestLoad(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "plan.yaml")
	if err := os.WriteFile(path, []byte("dams: {height: 0.5 m}\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	cfg, err := Load(path)
	if err != nil || cfg.Siting.HeightM != 0.5 {
		t.Errorf("got %+v, %v", cfg, err)
	}

	large := filepath.Join(dir, "large.yaml")
	if err := os.WriteFile(large, bytes.Repeat([]byte("# comment\n"), 1<<20), 0o600); err != nil {
		t.Fatal(err)
	}
	absent := filepath.Join(dir, "absent.yaml")
	rows := []struct{ name, path, want string }{
		{"absent", absent, absent + ": the settings file cannot be read: no such file or directory"},
		{"folder", dir, dir + ": the settings file cannot be read: is a directory"},
		{"10 MB", large, large + ": larger than 32 KiB; a settings file lists keys and values, see --print-settings"},
	}
	for _, r := range rows {
		t.Run(r.name, func(t *testing.T) {
			_, err := Load(r.path)
			if !errors.Is(err, ErrInput) || err.Error() != r.want {
				t.Errorf("got %v\nwant %v", err, r.want)
			}
		})
	}
	if _, err := Load(absent); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("the cause is lost: %v", err)
	}
}

// Names are relative to the settings file; a plan shows no folder.
func TestFilesOfSettings(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "plan.yaml")
	if err := os.WriteFile(path, []byte("flow: {roads: gis/roads.geojson, culverts: /far/pipes.shp}\nrain: {table: gis/rain.csv}\ndams: {buildings: gis/houses.shp, live_streams: creek.gpkg}\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	cfg, err := Load(path)
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range []struct{ name, want string }{
		{cfg.Files.Roads, filepath.Join(dir, "gis/roads.geojson")}, {cfg.Files.Culverts, "/far/pipes.shp"}, {cfg.Files.StockPonds, ""},
		{cfg.Files.Buildings, filepath.Join(dir, "gis/houses.shp")}, {cfg.Files.LiveStreams, filepath.Join(dir, "creek.gpkg")},
	} {
		if got := cfg.Files.Path(r.name); got != r.want {
			t.Errorf("%q is at %q, want %q", r.name, got, r.want)
		}
	}
	for _, k := range Keys() {
		if k.Kind == "file" {
			want := map[string]string{"flow.roads": "roads.geojson", "flow.culverts": "pipes.shp", "flow.stock_ponds": "none", "rain.table": "rain.csv",
				"dams.exclusions": "none", "dams.buildings": "houses.shp", "dams.live_streams": "creek.gpkg", "dams.base_level": "none"}[k.Name]
			if got := k.ValueIn(cfg); got != want {
				t.Errorf("%s is shown as %q, want %q", k.Name, got, want)
			}
		}
	}
}

// A fault that shows only when a value is used names file, line, key and value.
func TestFaultInUse(t *testing.T) {
	cfg, err := Parse("plan.yaml", []byte("rain:\n  table: rain.csv\n  hours: 24\n"))
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range []struct{ key, want string }{
		{"rain.hours", "plan.yaml:3: rain.hours: 24; too long"},
		{"rain.return_period", "plan.yaml: rain.return_period: too long"}, // it is not in the file
	} {
		if got := cfg.Fault(r.key, "too long"); got.Error() != r.want || !errors.Is(got, ErrInput) {
			t.Errorf("got %v, want %s", got, r.want)
		}
	}
}

func TestDesignStorm(t *testing.T) {
	cfg, err := Parse("plan.yaml", []byte("rain: {table: rain.csv, return_period: 10 yr}\nrunoff: {cover: pasture, condition: poor, soil_group: B}"))
	if err != nil {
		t.Fatal(err)
	}
	table := &storm.Table{ReturnPeriodsYr: []float64{10}}
	// Curve number 79: TR-55, table 2-2c, pasture in poor condition on soil group B.
	s, err := cfg.DesignStorm(table)
	if err != nil || s.CurveNumber != 79 || len(s.Notes) != 1 || s.Rain.Table != table || s.ReturnPeriodYr != 10 {
		t.Errorf("got %+v, %v", s, err)
	}
}
