package report

import (
	"fmt"

	"siltstep/geojson"
	"siltstep/hydro"
)

// loadMethod names the method of the loads.
const loadMethod = "volume of the incised channel below its lower bank top, prismoidal between cross-sections, times the density of the banks (gully.bank_density); a year: over gully.formation_years. It is what left so far, and no yearly rate of its own. Silt that dams trap is another figure: never add the two."

// What an empty value of a load, a gradient or a time line means.
const (
	noVoid     = "no cross-section is resolved"
	noVoidEnds = "the noise of the cells is not known; or " + noVoid
	noYears    = "no gully.formation_years was given; or " + noVoid
	noTreated  = "the series has no length"
)

// loadTable describes what each drainage has lost.
func loadTable() geojson.Layer {
	return table("loads", "soil that incised drainages have lost, one row each; those without incised length are left out", []geojson.Field{
		{Name: "drainage", Type: geojson.Text, Meaning: "drainage"},
		{Name: "voided_m", Type: geojson.Real, Unit: "m", Decimals: 2, Meaning: "length of the incised channel by resolved cross-sections, as deep as erosion.incised_depth or deeper"},
		{Name: "unresolved_m", Type: geojson.Real, Unit: "m", Decimals: 2, Meaning: "length where no cross-section is resolved or no bed is seen: in none of these figures; a mouth between the banks of the drainage that it joins is counted there"},
		{Name: "void_m3", Type: geojson.Real, Unit: "m³", Decimals: 2, Meaning: "volume of the incised channel below its lower bank top", Null: noVoid},
		{Name: "void_low_m3", Type: geojson.Real, Unit: "m³", Decimals: 2, Meaning: "the same less its standard error: cell noise in first order, all cross-sections taken to err the same way", Null: noVoidEnds},
		{Name: "void_high_m3", Type: geojson.Real, Unit: "m³", Decimals: 2, Meaning: "the same more its standard error", Null: noVoidEnds},
		{Name: "mass_t", Type: geojson.Real, Unit: "t", Decimals: 2, Meaning: "weight of the soil that filled it", Null: noVoid},
		{Name: "mass_low_t", Type: geojson.Real, Unit: "t", Decimals: 2, Meaning: "weight of void_low_m3", Null: noVoidEnds},
		{Name: "mass_high_t", Type: geojson.Real, Unit: "t", Decimals: 2, Meaning: "weight of void_high_m3", Null: noVoidEnds},
		{Name: "year_t", Type: geojson.Real, Unit: "t/yr", Decimals: 2, Meaning: "mass_t over the years in which the gully formed: a mean, not what it loses now", Null: noYears},
		{Name: "treated_m", Type: geojson.Real, Unit: "m", Decimals: 2, Meaning: "length of voided_m that dams treat", Null: noSiting},
		{Name: "avoided_year_t", Type: geojson.Real, Unit: "t/yr", Decimals: 2, Meaning: "year_t on the treated share of voided_m: the most that the dams can avoid", Null: noSiting + ", or " + noYears},
		{Name: "method", Type: geojson.Text, Meaning: "method of the figures"},
	})
}

func loadRows(p *hydro.Plan) (rows [][]any) {
	for i, d := range p.Network.Drainages {
		l := p.GullyLoadOf(i)
		if !(l.LengthM > 0) && !(p.Erosion[i].Depths.IncisedShare > 0) {
			continue
		}
		rows = append(rows, []any{d.ID, l.LengthM, l.UnresolvedM, l.VoidM3, l.VoidLowM3, l.VoidHighM3, l.MassT, l.MassLowT, l.MassHighT, l.YearT, l.TreatedM, l.AvoidedYearT, loadMethod})
	}
	return rows
}

// seriesID returns the id of a series of a drainage; of series 0, which is all of them, that of the drainage.
func seriesID(drainage string, series int) string {
	if series == 0 {
		return drainage
	}
	return fmt.Sprintf("%s-S%d", drainage, series)
}

// gradientTable describes the fall of treated channels before and after.
func gradientTable() geojson.Layer {
	return table("gradients", "effective gradient of each series, and of all of a drainage, before dams and once they are full", []geojson.Field{
		{Name: "id", Type: geojson.Text, Meaning: "series, D07-S1, or drainage for all of its series"},
		{Name: "length_m", Type: geojson.Real, Unit: "m", Decimals: 2, Meaning: "treated length: of each dam from its axis to the end of its wedge or to the next axis"},
		{Name: "drop_m", Type: geojson.Real, Unit: "m", Decimals: 3, Meaning: "fall of the bed over it"},
		{Name: "falls_m", Type: geojson.Real, Unit: "m", Decimals: 3, Meaning: "of drop_m, what is left as falls at the dams, over rock"},
		{Name: "gradient_before", Type: geojson.Real, Unit: "1", Decimals: 4, Meaning: "drop_m over length_m", Null: noTreated},
		{Name: "gradient_after", Type: geojson.Real, Unit: "1", Decimals: 4, Meaning: "mean slope of the surfaces of the full deposits, drop_m less falls_m over length_m: by dams.deposit_ratio, 0 being what dams hold for sure; measured deposits had 0.5 to 0.66 of the slope of the bed", Null: noTreated},
	})
}

func gradientRows(p *hydro.Plan) (rows [][]any) {
	for i, d := range p.Network.Drainages {
		for _, g := range p.GradientsOf(i) {
			rows = append(rows, []any{seriesID(d.ID, g.Series), g.LengthM, g.DropM, g.KeptM, g.Before, g.After})
		}
	}
	return rows
}

// fillingTable describes how dams fill with the years.
func fillingTable() geojson.Layer {
	filled := func(name, meaning string) geojson.Field {
		return geojson.Field{Name: name, Type: geojson.Real, Unit: "1", Decimals: 3, Meaning: meaning}
	}
	kept := func(name, unit, meaning string) geojson.Field {
		return geojson.Field{Name: name, Type: geojson.Real, Unit: unit, Decimals: 2, Meaning: meaning}
	}
	return table("filling", "how full the dams of each series, and all of a drainage, are after 1, 2, 5, 10 and 20 years; none where no sediment.yield was given. The silt of the land is counted once and passed down; one large storm may bring that of years", []geojson.Field{
		{Name: "id", Type: geojson.Text, Meaning: "series, D07-S1, or drainage for all of its dams"},
		{Name: "years", Type: geojson.Real, Unit: "yr", Decimals: 0, Meaning: "since the dams were built"},
		{Name: "room_m3", Type: geojson.Real, Unit: "m³", Decimals: 2, Meaning: "silt that the designed dams hold when full"},
		filled("filled_low", "share of room_m3 that is filled, the least over the yields given and trap shares of 20 % to 80 %; at most 1"),
		filled("filled", "the likely share: geometric mean of the yields, trap share 50 %"),
		filled("filled_high", "the greatest share"),
		kept("kept_low_m3", "m³", "silt kept, the least"),
		kept("kept_m3", "m³", "silt kept, likely"),
		kept("kept_high_m3", "m³", "silt kept, the most"),
		kept("kept_low_t", "t", "silt kept by weight, the least; by sediment.density"),
		kept("kept_t", "t", "silt kept by weight, likely"),
		kept("kept_high_t", "t", "silt kept by weight, the most"),
	})
}

func fillingRows(p *hydro.Plan) (rows [][]any) {
	tPerM3 := p.Config.Gully.SedimentTPerM3
	for i, d := range p.Network.Drainages {
		for _, f := range p.FillingOf(i) {
			low, likely, high := f.Low*f.RoomM3, f.Likely*f.RoomM3, f.High*f.RoomM3
			rows = append(rows, []any{seriesID(d.ID, f.Series), f.Years, f.RoomM3, f.Low, f.Likely, f.High, low, likely, high, low * tPerM3, likely * tPerM3, high * tPerM3})
		}
	}
	return rows
}
