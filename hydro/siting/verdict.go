package siting

import "siltstep/hydro/channel"

// verdicts is what was found of the stations of a drainage.
type verdicts struct {
	reaches []Reach  // from the lower end upstream, without gap or overlap, with all reasons
	runs    []run    // the stations of each reach, in the same order
	stand   []bool   // by station: a dam may stand with its axis here
	places  []Place  // by station: what Ground.PlaceAt told; zero where it was not asked
	off     []Reason // by station of an eligible reach where no dam may stand: the first reason that keeps it off; Rule empty elsewhere
}

// judgeStations judges every station of a drainage and gathers them into reaches. It panics where the ground has another number of stations.
func judgeStations(d *channel.Drainage, cellM float64, cfg Config, inside Area, ground Ground) verdicts {
	n := len(d.Profile.Stations)
	j := newJudge(d, cellM, cfg, inside, ground)
	v := verdicts{runs: j.runs(), places: j.places, stand: make([]bool, n), off: make([]Reason, n)}
	for _, r := range v.runs {
		v.reaches = append(v.reaches, j.reach(r))
		for i := r.first; i <= r.last && r.faults == 0; i++ {
			v.stand[i] = j.place[i] == 0
			if !v.stand[i] {
				v.off[i] = j.reasons(run{first: i, last: i, faults: j.place[i]})[0]
			}
		}
	}
	return v
}
