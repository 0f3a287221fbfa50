package hydro

import (
	"math"
	"strings"
	"testing"

	"siltstep/hydro/flow"
)

func TestConfigValidate(t *testing.T) {
	tests := []struct {
		name   string
		change func(*Config)
		want   []string // one part of each message
	}{
		{"defaults", func(*Config) {}, nil},
		{"unknown edge", func(c *Config) { c.Flow.Edge = flow.EdgeClosed + 1 }, []string{"edge 2"}},
		{"workers below zero", func(c *Config) { c.Flow.Workers = -1 }, []string{"-1 workers"}},
		{"cut below zero", func(c *Config) { c.Flow.CutLengthM = -1 }, []string{"longest cut -1 m"}},
		{"cut not a number", func(c *Config) { c.Flow.RoadCutDepthM = math.NaN() }, []string{"deepest cut near a road NaN m"}},
		{"start area below zero", func(c *Config) { c.Channels.StartAreaM2 = -1 }, []string{"start area -1 m²"}},
		{"start area not a number", func(c *Config) { c.Channels.StartAreaM2 = math.NaN() }, []string{"start area NaN"}},
		{"length without end", func(c *Config) { c.Channels.MinLengthM = math.Inf(1) }, []string{"channel length +Inf m"}},
		{"sections apart below zero", func(c *Config) { c.Sections.SpacingM = -1 }, []string{"spacing of sections -1 m"}},
		{"no sections", func(c *Config) { c.Sections.SpacingM = 0 }, nil},
		{"sections too short", func(c *Config) { c.Sections.ReachM = 0 }, []string{"reach of sections 0 m; allowed is 1 to 200 m"}},
		{"sections too long", func(c *Config) { c.Sections.ReachM = 201 }, []string{"reach of sections 201 m"}},
		{"section not a number", func(c *Config) { c.Sections.ReachM = math.NaN() }, []string{"reach of sections NaN m"}},
		{"erosion", func(c *Config) { c.Erosion.WindowM = 0 }, []string{"window of the top-hat 0 m"}},
		{"incision", func(c *Config) { c.Siting.MinIncisionM = -1 }, []string{"least incision -1 m"}},
		{"storm", func(c *Config) { c.Storm.RunoffCoefficient = 2 }, []string{"storm: runoff coefficient is 2"}},
		{"works", func(c *Config) { c.Works.Voids = 0.9 }, []string{"dams: voids 0.9"}},
		{"sediment yield", func(c *Config) { c.Works.Yield.LowM3PerHa = 3 }, []string{"sediment yield 3 to 0"}},
		{"prices", func(c *Config) { c.Works.Prices.RockPerTonne = -1 }, []string{"price of rock -1 a tonne"}},
		{"faults of two stages", func(c *Config) { c.Channels.MinLengthM, c.Siting.HeightM = -2, 2 },
			[]string{"channel length -2 m", "dam height 2 m"}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			cfg := Defaults()
			tt.change(&cfg)
			var got []string
			if err := cfg.Validate(); err != nil {
				got = strings.Split(err.Error(), "\n")
			}
			if len(got) != len(tt.want) {
				t.Fatalf("faults %q, want %q", got, tt.want)
			}
			for i, w := range tt.want {
				if !strings.Contains(got[i], w) {
					t.Errorf("fault %q, want %q in it", got[i], w)
				}
			}
		})
	}
}
