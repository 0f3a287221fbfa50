package erosion

import "siltstep/hydro/channel"

// PowerAt tells what storm water can do to the bed of a drainage. peakM3s holds the storm peak at each station; nil where
// no storm is given.
func PowerAt(d *channel.Drainage, sections []channel.Section, depths Depths, peakM3s []float64, cfg Config) Power {
	return Power{}
}
