package erosion

import "siltstep/hydro/channel"

// Headcuts finds the steps in the bed of a drainage. noiseM is the standard deviation of a cell's own error in metres.
func Headcuts(d *channel.Drainage, cellM, noiseM float64, cfg Config) []Headcut {
	return nil
}
