package hydro

import (
	"math"

	"siltstep/hydro/checkdam"
)

// fillYears are the years of a fill time line. Source: our own choice.
var fillYears = []float64{1, 2, 5, 10, 20}

// Filling is how full the dams of a series are after some years.
type Filling struct {
	Series            int     // number of the series within its drainage; 0 for all dams of the drainage
	Years             float64 // after they were built, yr
	RoomM3            float64 // silt that they hold when full, of those that are designed, m³
	Low, Likely, High float64 // share of it that is filled, 0 to 1
}

// FillingOf returns the fill time line of a drainage after 1, 2, 5, 10 and 20 years: that of each series, then that of all its dams; nil
// where no sediment yield was given, or no dam is designed.
//
// The silt of the land is counted once and passed down the drainage: a share of it stays behind the first dam below that
// is not full, the rest passes all dams. So no dam is more than full, and the dams together never keep more than the land
// yields. Low and high are the ends over the yields given and trap shares of 20 % to 80 %; likely is the geometric mean of the yields
// with 50 %, the share that 37 dams kept in four years (Polyakov2014). Where water enters over the edge of the data more silt comes
// than is counted. Silt comes in few storms: one large one may fill what stands here for ten years.
func (p *Plan) FillingOf(drainage int) []Filling {
	if p.Designs == nil || p.Config.Works.Yield == (checkdam.Yield{}) {
		return nil
	}
	dams, sites := p.siltTraps(drainage), p.Layouts[drainage].Sites
	of := make([]int, len(sites))
	last := 0
	for k, s := range sites {
		of[k], last = s.Series, max(last, s.Series)
	}
	return fillingOf(dams, of, last, p.Config.Works.Yield)
}

// fillingOf returns the time lines of dams whose series are given, and of all of them.
func fillingOf(dams []siltTrap, series []int, last int, y checkdam.Yield) []Filling {
	room := make([]float64, last+1) // by series; 0 is all
	for k, d := range dams {
		room[0] += d.holdsM3
		room[series[k]] += d.holdsM3
	}
	if !(room[0] > 0) {
		return nil
	}
	guesses := silts(y)
	likely := shares(dams, series, room, guesses[0])
	low, high := shares(dams, series, room, guesses[0]), shares(dams, series, room, guesses[0])
	for _, s := range guesses[1:] {
		for i, row := range shares(dams, series, room, s) {
			for n, v := range row {
				low[i][n], high[i][n] = min(low[i][n], v), max(high[i][n], v)
			}
		}
	}
	var out []Filling
	for step := range room {
		n := (step + 1) % len(room) // all of them last
		if !(room[n] > 0) {
			continue
		}
		for i, years := range fillYears {
			out = append(out, Filling{n, years, room[n], low[i][n], likely[i][n], high[i][n]})
		}
	}
	return out
}

// shares returns the share of the room of each series that is filled, a row for each of fillYears; NaN where there is no room.
func shares(dams []siltTrap, series []int, room []float64, s silt) [][]float64 {
	out := make([][]float64, len(fillYears))
	for i, kept := range keptM3(dams, s, fillYears) {
		out[i] = make([]float64, len(room))
		for k, m3 := range kept {
			out[i][0] += m3
			out[i][series[k]] += m3
		}
		for n := range room {
			out[i][n] = min(1, out[i][n]/room[n])
			if !(room[n] > 0) {
				out[i][n] = math.NaN()
			}
		}
	}
	return out
}
