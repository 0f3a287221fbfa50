package erosion

import "siltstep/hydro/channel"

// Measure brings cross-sections and top-hat together at the stations of a drainage.
func Measure(d *channel.Drainage, sections []channel.Section, topHatM []float64, cfg Config) Depths {
	return Depths{}
}
