package geojson

import (
	"math"

	"siltstep/hydro"
	"siltstep/hydro/siting"
)

// DesignOf returns the design of dam k of drainage i; false where the plan holds none.
func DesignOf(p *hydro.Plan, i, k int) (hydro.Design, bool) {
	if i >= len(p.Designs) || k >= len(p.Designs[i]) {
		return hydro.Design{}, false
	}
	return p.Designs[i][k], true
}

// addDesign sets what the storm at a dam asks of it.
func addDesign(named map[string]any, p *hydro.Plan, d hydro.Design, s siting.Site) {
	named["peak_m3s"], named["person_days"], named["cost"] = d.PeakM3s, d.PersonDays, d.Cost
	if !math.IsNaN(d.PeakM3s) {
		named["storm_hours"], named["return_period_yr"] = positive(p.Config.Storm.HoursH), positive(ReturnPeriodYr(p.Config.Storm))
	}
	dam := d.Dam
	if dam == nil {
		return
	}
	named["crest_length_m"], named["crest_width_m"] = dam.CrestM, dam.Body.CrestWidthM
	named["rock_m3"], named["rock_t"] = dam.Rock.TotalM3, dam.Rock.OrderTonnes
	named["apron_length_m"], named["key_bed_m"], named["key_bank_m"] = dam.Found.ApronLengthM, dam.Found.KeyBedM, dam.Found.KeyBankM
	named["pond_m3"], named["sediment_m3"] = dam.Storage.PondM3, dam.Storage.SedimentM3
	named["fill_years_low"], named["fill_years_high"] = dam.Storage.FillYearsLow, dam.Storage.FillYearsHigh
	named["stone_d50_m"] = dam.StoneM
	if n := dam.Notch; n != nil {
		named["notch_width_m"], named["notch_depth_m"], named["dam_top_m"] = n.WidthM, n.DepthM, s.SillM+n.DepthM
	}
}

// ReturnPeriodYr returns the return period of a storm in years: that of a table with one column where none was given; 0 where
// it is not known.
func ReturnPeriodYr(s hydro.Storm) float64 {
	if t := s.Rain.Table; s.ReturnPeriodYr == 0 && t != nil && len(t.ReturnPeriodsYr) == 1 {
		return t.ReturnPeriodsYr[0]
	}
	return s.ReturnPeriodYr
}

// positive returns nil for a value of 0, which stands for not given.
func positive(x float64) any {
	if x == 0 {
		return nil
	}
	return x
}
