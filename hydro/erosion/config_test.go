package erosion

import (
	"math"
	"strings"
	"testing"
)

func TestValidate(t *testing.T) {
	tests := []struct {
		name   string
		change func(*Config)
		want   string // part of the one message; empty where the settings are valid
	}{
		{"defaults", func(*Config) {}, ""},
		{"no window", func(c *Config) { c.WindowM = 0 }, "window of the top-hat 0 m; allowed is 3 to 500 m"},
		{"window not a number", func(c *Config) { c.WindowM = null }, "window of the top-hat NaN m"},
		{"window without end", func(c *Config) { c.WindowM = math.Inf(1) }, "window of the top-hat +Inf m"},
		{"headcut of zero", func(c *Config) { c.HeadcutM = 0 }, "least headcut 0 m"},
		{"incised depth below zero", func(c *Config) { c.IncisedM = -0.3 }, "incised depth -0.3 m"},
		{"bed material", func(c *Config) { c.Material = "stiff-clay" }, ""},
		{"unknown bed material", func(c *Config) { c.Material = "cheese" }, `bed material "cheese" is not known; there are fine-sand`},
		{"glass", func(c *Config) { c.Roughness = 0.009 }, "roughness 0.009; allowed is 0.01 to 0.3"},
		{"roughness at the limits", func(c *Config) { c.Roughness = 0.3 }, ""},
		{"roughness not a number", func(c *Config) { c.Roughness = null }, "roughness NaN"},
		{"limits the wrong way round", func(c *Config) { c.Incision = Scale{2, 0.3, 30} }, "limits of incision: 2, which gives 0, is not below 0.3"},
		{"limits equal", func(c *Config) { c.Shear.Full = c.Shear.Zero }, "limits of shear: 1"},
		{"limit below zero", func(c *Config) { c.BankSlope.Zero = -1 }, "limits of bank-slope, -1 and 2; at least 0"},
		{"limit not a number", func(c *Config) { c.Headcuts.Full = null }, "limits of headcuts, 0 and NaN"},
		{"limit without end", func(c *Config) { c.IncisedLength.Full = math.Inf(1) }, "limits of incised-length, 0 and +Inf"},
		{"weight below zero", func(c *Config) { c.Shear.Weight = -1 }, "weight of shear, -1; at least 0"},
		{"weight not a number", func(c *Config) { c.Shear.Weight = null }, "weight of shear, NaN"},
		{"a part left out", func(c *Config) { c.Shear.Weight = 0 }, ""},
		{"no part left", func(c *Config) {
			c.Incision.Weight, c.Headcuts.Weight, c.Shear.Weight, c.BankSlope.Weight, c.IncisedLength.Weight = 0, 0, 0, 0, 0
		}, "all weights are zero"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			cfg := Defaults()
			tt.change(&cfg)
			err := cfg.Validate()
			switch {
			case tt.want == "" && err != nil:
				t.Errorf("%v", err)
			case tt.want != "" && (err == nil || !strings.Contains(err.Error(), tt.want) || strings.Contains(err.Error(), "\n")):
				t.Errorf("%v, want %q alone", err, tt.want)
			}
		})
	}
}

func TestValidateJoinsEveryFault(t *testing.T) {
	// Window, headcut, incised depth, roughness, limits of five parts, and no weight.
	if n := len(strings.Split(Config{}.Validate().Error(), "\n")); n != 10 {
		t.Errorf("%d faults, want 10:\n%v", n, Config{}.Validate())
	}
}
