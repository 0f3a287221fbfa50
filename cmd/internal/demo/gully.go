package demo

// gully is a drainage with a floor of silt and a trench cut into it. Stations run
// downstream, in whole metres along its line.
type gully struct {
	name      string
	line      line
	from, to  int       // stations between which the trench lies
	floorM    []float64 // level of the silt floor at each station, m
	share     []float64 // of the floor's full thickness at each station, 0 to 1
	depthM    []float64 // of the trench bed below it, m; zero outside the trench
	bedWidthM float64
	siltM     float64 // thickness of the floor
	heads     []step  // downstream order; the first is where the trench begins
	into      *gully  // trenched drainage whose trench this one meets, or nil
	joins     int     // station there
	enters    bool    // its head lies outside the data: the trench comes in over the north edge
	fadeM     int     // length over which the trench runs out, m; zero where it does not
}

// step is a headcut: a near-vertical drop in the bed.
type step struct {
	station int
	heightM float64
}

// bedM returns the bed of the trench at a station, m.
func (g *gully) bedM(k int) float64 { return g.floorM[k] - g.depthM[k] }

// fading reports whether a station lies where the trench runs out or comes to meet another.
func (g *gully) fading(k int) bool {
	return g.fadeM > 0 && k > g.to-g.fadeM || g.into != nil && k > g.to-joinM
}

// fall returns the mean fall of levels between two stations, rise over run.
func fall(level []float64, from, to int) float64 {
	from, to = max(from, 0), min(to, len(level)-1)
	return (level[from] - level[to]) / float64(max(to-from, 1))
}

// levelAt returns a level between whole stations.
func levelAt(level []float64, station float64) float64 {
	k := min(max(int(station), 0), len(level)-2)
	return lerp(level[k], level[k+1], min(max(station-float64(k), 0), 1))
}

// flattenDown makes levels fall by at least the grade at every station.
func flattenDown(level []float64, grade float64) {
	for k := 1; k < len(level); k++ {
		level[k] = min(level[k], level[k-1]-grade)
	}
}

// meanOver returns a running mean over reach stations to either side, shorter at the ends.
func meanOver(level []float64, reach int) []float64 {
	sums := make([]float64, len(level)+1)
	for k, v := range level {
		sums[k+1] = sums[k] + v
	}
	out := make([]float64, len(level))
	for k := range level {
		r := min(reach, k, len(level)-1-k)
		out[k] = (sums[k+r+1] - sums[k-r]) / float64(2*r+1)
	}
	return out
}
