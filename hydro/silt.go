package hydro

import (
	"math"

	"siltstep/hydro/checkdam"
)

// fillSeries sets how long the dams of a drainage take to fill, as a range over yields and trap shares. The silt of the
// catchment is counted once and passed down: a dam is given what the land between it and the dam above yields, and what the dams
// above let by once they are full, so that together they never keep more than there is. Dams on tributaries are taken to let
// all by, and so is a dam without a design. Nothing changes where no yield is given.
func (p *Plan) fillSeries(drainage int) {
	yield := p.Config.Works.Yield
	if yield == (checkdam.Yield{}) {
		return
	}
	dams := p.siltTraps(drainage)
	low, high := make([]float64, len(dams)), make([]float64, len(dams))
	for k := range dams {
		low[k], high[k] = math.Inf(1), 0
	}
	for _, y := range silts(yield) {
		for k, years := range yearsToFill(dams, y.yieldM3PerHa, y.share) {
			low[k], high[k] = min(low[k], years), max(high[k], years)
		}
	}
	designs := p.Designs[drainage]
	for k := range designs {
		if d := designs[k].Dam; d != nil && !math.IsInf(high[k], 1) {
			d.Storage.FillYearsLow, d.Storage.FillYearsHigh = low[k], high[k]
		}
	}
}

// siltTraps returns the dams of a drainage as the silt sees them, from the lowest upstream.
func (p *Plan) siltTraps(drainage int) []siltTrap {
	designs, sites := p.Designs[drainage], p.Layouts[drainage].Sites
	dams := make([]siltTrap, len(designs))
	for k := range designs {
		landM2 := sites[k].CatchmentM2
		if k+1 < len(sites) {
			landM2 = max(0, landM2-sites[k+1].CatchmentM2)
		}
		dams[k] = siltTrap{landHa: landM2 / 10_000}
		if d := designs[k].Dam; d != nil && d.Storage.SedimentM3 > 0 {
			dams[k].holdsM3 = d.Storage.SedimentM3
		}
	}
	return dams
}

// silt is one guess at what comes and what of it can be kept.
type silt struct {
	yieldM3PerHa float64 // in a year
	share        float64 // that dams can keep
}

// likelySilt lies between the ends of a yield as many times over the one as under the other, since yields are uncertain by a
// factor, with the trap share that was measured. Source: our own choice.
func likelySilt(y checkdam.Yield) silt {
	return silt{math.Sqrt(y.LowM3PerHa * y.HighM3PerHa), checkdam.TrapShare}
}

// silts returns what is likely, then both ends of a yield with every trap share.
func silts(y checkdam.Yield) []silt {
	out := []silt{likelySilt(y)}
	for _, m3PerHa := range []float64{y.LowM3PerHa, y.HighM3PerHa} {
		for _, share := range []float64{checkdam.TrapShareLow, checkdam.TrapShare, checkdam.TrapShareHigh} {
			out = append(out, silt{m3PerHa, share})
		}
	}
	return out
}

// siltTrap is a dam of a drainage as the silt sees it.
type siltTrap struct {
	holdsM3 float64 // silt when full; 0 lets all by
	landHa  float64 // land that drains to it and to no dam above
}

// siltRun is a series of dams that fill. Of the silt of the land a share is coarse enough to stay: the first dam below that is
// not full keeps it; the rest passes them all. So the series as a whole keeps that share of the yield, as it was measured behind a
// whole set of dams (Polyakov2014), and a second dam does not catch again what the first could not.
type siltRun struct {
	dams           []siltTrap // from the lowest upstream
	silt           silt
	leftM3, rateM3 []float64 // room left in each, and what it keeps in a year
}

func newSiltRun(dams []siltTrap, s silt) *siltRun {
	r := &siltRun{dams, s, make([]float64, len(dams)), make([]float64, len(dams))}
	for k, d := range dams {
		r.leftM3[k] = d.holdsM3
	}
	return r
}

// settle sets what each dam keeps in a year as things stand, and returns after how many years the next is full; infinite
// for none. Linear in the dams.
func (r *siltRun) settle() (years float64) {
	coming, years := 0.0, math.Inf(1)
	for k := len(r.dams) - 1; k >= 0; k-- {
		coming += r.dams[k].landHa * r.silt.yieldM3PerHa * r.silt.share
		r.rateM3[k] = 0
		if r.leftM3[k] > 0 && coming > 0 {
			r.rateM3[k], coming = coming, 0
			years = min(years, r.leftM3[k]/r.rateM3[k])
		}
	}
	return years
}

// pass lets some years go by in which nothing changes.
func (r *siltRun) pass(years float64) {
	const slack = 1e-12 // relative; so that a dam is full when its time has come
	for k := range r.dams {
		switch {
		case r.rateM3[k] == 0:
		case r.leftM3[k]/r.rateM3[k] <= years*(1+slack):
			r.leftM3[k] = 0
		default:
			r.leftM3[k] -= r.rateM3[k] * years
		}
	}
}

// yearsToFill returns after how many years each dam is full, the dams from the lowest upstream. Infinite for a dam that no silt
// comes to; 0 for one that holds none. Cost: the square of the number of dams.
func yearsToFill(dams []siltTrap, yieldM3PerHa, share float64) []float64 {
	r, years := newSiltRun(dams, silt{yieldM3PerHa, share}), make([]float64, len(dams))
	for now := 0.0; ; {
		next := r.settle()
		if math.IsInf(next, 1) {
			break
		}
		r.pass(next)
		now += next
		for k := range dams {
			if r.rateM3[k] > 0 && r.leftM3[k] == 0 {
				years[k] = now
			}
		}
	}
	for k := range dams {
		if r.leftM3[k] > 0 {
			years[k] = math.Inf(1)
		}
	}
	return years
}

// keptM3 returns the silt in each dam after each of some rising numbers of years. Cost as of yearsToFill.
func keptM3(dams []siltTrap, s silt, years []float64) [][]float64 {
	r, now := newSiltRun(dams, s), 0.0
	out := make([][]float64, len(years))
	for i, then := range years {
		for now < then {
			next := r.settle()
			if next >= then-now {
				r.pass(then - now)
				break
			}
			r.pass(next)
			now += next
		}
		now = then
		out[i] = make([]float64, len(dams))
		for k, d := range dams {
			out[i][k] = d.holdsM3 - r.leftM3[k]
		}
	}
	return out
}
