package hydro_test

import (
	"math"
	"strings"
	"testing"

	"siltstep/hydro"
)

func TestConfigOfGulliesAndHauls(t *testing.T) {
	rows := []struct {
		name   string
		change func(*hydro.Config)
		want   string // part of the fault; empty for none
	}{
		{"as usual", func(*hydro.Config) {}, ""},
		{"limits", func(c *hydro.Config) {
			c.Gully = hydro.GullyConfig{FormationYears: 1000, BankTPerM3: 1.2, SedimentTPerM3: 1.6}
			c.Effect = hydro.EffectConfig{MarginM: 100}
		}, ""},
		{"soil like rock", func(c *hydro.Config) { c.Gully.BankTPerM3 = 2.65 }, "density of bank soil 2.65 t/m³; allowed is 1.2 to 1.7"},
		{"no soil", func(c *hydro.Config) { c.Gully.BankTPerM3 = 0 }, "density of bank soil 0 t/m³"},
		{"silt not a number", func(c *hydro.Config) { c.Gully.SedimentTPerM3 = math.NaN() }, "density of silt NaN t/m³; allowed is 1.1 to 1.6"},
		{"older than all gullies", func(c *hydro.Config) { c.Gully.FormationYears = 1001 }, "time over which gullies formed 1001 years; allowed is 0 to 1000"},
		{"margin", func(c *hydro.Config) { c.Effect.MarginM = -1 }, "margin around dams -1 m; allowed is 0 to 100"},
		{"access", func(c *hydro.Config) { c.Effect.AccessM = 101 }, "width of access 101 m"},
		{"pile", func(c *hydro.Config) { c.Effect.StockpileM = math.Inf(1) }, "side of stockpiles +Inf m"},
		{"load", func(c *hydro.Config) { c.Works.Prices.LoadT = -1 }, "rock in a load -1 t"},
		{"barrow", func(c *hydro.Config) { c.Works.Prices.BarrowT = math.NaN() }, "rock in a wheelbarrow NaN t"},
	}
	for _, r := range rows {
		t.Run(r.name, func(t *testing.T) {
			c := hydro.Defaults()
			r.change(&c)
			err := c.Validate()
			if (err == nil) != (r.want == "") || err != nil && !strings.Contains(err.Error(), r.want) {
				t.Errorf("got %v, want %q", err, r.want)
			}
		})
	}
}
