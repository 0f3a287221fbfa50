package hydro

import (
	"math"

	"siltstep/hydro/checkdam"
)

// fillSeries sets how long the dams of a drainage take to fill, as a range over yields and trap shares. The silt of the
// catchment is counted once and passed down: a dam is given what the dams above let by and what the land between them
// yields, so that together they never keep more than there is. Dams on tributaries are taken to let all by, and so is a
// dam without a design. Nothing changes where no yield is given.
func (p *Plan) fillSeries(drainage int) {
	yield := p.Config.Works.Yield
	if yield == (checkdam.Yield{}) {
		return
	}
	designs, sites := p.Designs[drainage], p.Layouts[drainage].Sites
	dams := make([]siltTrap, len(designs))
	for k := range designs {
		landM2 := sites[k].CatchmentM2
		if k+1 < len(sites) {
			landM2 = max(0, landM2-sites[k+1].CatchmentM2)
		}
		dams[k] = siltTrap{landHa: landM2 / 10_000}
		if designs[k].Dam != nil {
			dams[k].holdsM3 = designs[k].Dam.Storage.SedimentM3
		}
	}
	low, high := make([]float64, len(dams)), make([]float64, len(dams))
	for k := range dams {
		low[k], high[k] = math.Inf(1), 0
	}
	for _, m3PerHa := range []float64{yield.LowM3PerHa, yield.HighM3PerHa} {
		for _, share := range []float64{checkdam.TrapShareLow, checkdam.TrapShare, checkdam.TrapShareHigh} {
			for k, years := range yearsToFill(dams, m3PerHa, share) {
				low[k], high[k] = min(low[k], years), max(high[k], years)
			}
		}
	}
	for k := range designs {
		if d := designs[k].Dam; d != nil && !math.IsInf(high[k], 1) {
			d.Storage.FillYearsLow, d.Storage.FillYearsHigh = low[k], high[k]
		}
	}
}

// siltTrap is a dam of a drainage as the silt sees it.
type siltTrap struct {
	holdsM3 float64 // silt when full; 0 lets all by
	landHa  float64 // land that drains to it and to no dam above
}

// yearsToFill returns after how many years each dam is full, the dams from the lowest upstream: of the silt that comes to it a
// dam keeps a share until it is full, then none. Infinite for a dam that no silt comes to. Cost: the square of the number of dams.
func yearsToFill(dams []siltTrap, yieldM3PerHa, share float64) []float64 {
	years, leftM3 := make([]float64, len(dams)), make([]float64, len(dams))
	for k, d := range dams {
		leftM3[k] = d.holdsM3
	}
	rate := make([]float64, len(dams))
	for now := 0.0; ; {
		passing, next := 0.0, math.Inf(1)
		for k := len(dams) - 1; k >= 0; k-- {
			passing += dams[k].landHa * yieldM3PerHa
			rate[k] = 0
			if leftM3[k] > 0 {
				rate[k] = share * passing
				passing -= rate[k]
				if rate[k] > 0 {
					next = min(next, leftM3[k]/rate[k])
				}
			}
		}
		if math.IsInf(next, 1) {
			break
		}
		now += next
		for k := range dams {
			if rate[k] == 0 {
				continue
			}
			if leftM3[k]/rate[k] <= next*(1+1e-12) {
				leftM3[k], years[k] = 0, now
			} else {
				leftM3[k] -= rate[k] * next
			}
		}
	}
	for k := range dams {
		if leftM3[k] > 0 {
			years[k] = math.Inf(1)
		}
	}
	return years
}
