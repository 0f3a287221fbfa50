package siting

import (
	"math"
	"strings"
	"testing"
)

func TestDefaultsAreValid(t *testing.T) {
	if err := Defaults().Validate(); err != nil {
		t.Error(err)
	}
}

func TestValidate(t *testing.T) {
	tests := []struct {
		name   string
		change func(*Config)
		want   string // part of the message; empty where the settings are valid
	}{
		{"straw", func(c *Config) { c.Kind = "straw" }, `dam kind "straw"`},
		{"height at the least", func(c *Config) { c.HeightM = 0.1 }, ""},
		{"height too low", func(c *Config) { c.HeightM = 0.09 }, "at least 0.1"},
		{"height at the limit", func(c *Config) { c.HeightM = 0.9 }, ""},
		{"height over the limit", func(c *Config) { c.HeightM = 0.91 }, "dam height 0.91 m is over 0.9 m"},
		{"height with an engineer", func(c *Config) { c.HeightM, c.Engineer = 1.2, true }, ""},
		{"height not a number", func(c *Config) { c.HeightM = math.NaN() }, "dam height NaN m"},
		{"height without end", func(c *Config) { c.HeightM, c.Engineer = math.Inf(1), true }, "dam height +Inf m"},
		{"least height above height", func(c *Config) { c.HeightM = 0.2 }, ""},
		{"least height too low", func(c *Config) { c.MinHeightM = 0 }, "least dam height 0 m"},
		{"slope range the wrong way round", func(c *Config) { c.SlopeMin, c.SlopeMax = 0.2, 0.1 }, "bed slope: the least, 0.2, is not below the greatest, 0.1"},
		{"slope below zero", func(c *Config) { c.SlopeMin = -0.01 }, "least bed slope -0.01"},
		{"slope in percent", func(c *Config) { c.SlopeMax = 20 }, "greatest bed slope 20"},
		{"catchment range empty", func(c *Config) { c.CatchmentMinM2 = c.CatchmentMaxM2 }, "catchment: the least"},
		{"catchment not a number", func(c *Config) { c.CatchmentMaxM2 = math.NaN() }, "greatest catchment NaN m²"},
		{"incision not asked for", func(c *Config) { c.MinIncisionM = 0 }, ""},
		{"incision below zero", func(c *Config) { c.MinIncisionM = -0.1 }, "least incision -0.1 m"},
		{"incision not a number", func(c *Config) { c.MinIncisionM = math.NaN() }, "least incision NaN m"},
		{"objective", func(c *Config) { c.Objective = "cheapest" }, "take least-rock, fewest-dams"},
		{"fixed cost below zero", func(c *Config) { c.DamCostT = -1 }, "fixed cost of a dam -1 t"},
		{"bend not a number", func(c *Config) { c.BendRadiusM = math.NaN() }, "radius of bends NaN m"},
		{"deposit ratio at the limit", func(c *Config) { c.DepositRatio = 0.7 }, ""},
		{"deposit ratio over the limit", func(c *Config) { c.DepositRatio = 0.71 }, "deposit ratio 0.71"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			cfg := Defaults()
			tt.change(&cfg)
			err := cfg.Validate()
			switch {
			case tt.want == "" && err != nil:
				t.Errorf("%v", err)
			case tt.want != "" && (err == nil || !strings.Contains(err.Error(), tt.want)):
				t.Errorf("%v, want %q", err, tt.want)
			}
		})
	}
}

func TestValidateJoinsEveryFault(t *testing.T) {
	err := Config{Kind: "straw", HeightM: 3, SlopeMax: 2, DepositRatio: 1}.Validate()
	// Kind, height, least height, greatest slope, catchment range, objective, deposit ratio.
	if n := len(strings.Split(err.Error(), "\n")); n != 7 {
		t.Errorf("%d faults, want 7:\n%v", n, err)
	}
}
