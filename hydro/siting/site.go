package siting

import (
	"fmt"
	"math"

	"siltstep/hydro/channel"
)

// sites turns the stands of a drainage, which rise upstream, into numbered dams. Catchment and
// cell are those of the station at or below the axis, the larger of the two beside it; slope is
// that of the nearest station.
func sites(d *channel.Drainage, b bed, stands []stand) []Site {
	out := make([]Site, 0, len(stands))
	for i, p := range stands {
		low := b.stations[b.below(p.axisM)]
		x, y := b.xy(p.axisM)
		bedM := b.elevationM(p.axisM)
		s := Site{
			ID:               fmt.Sprintf("%s-%02d", d.ID, i+1),
			Drainage:         d.ID,
			Series:           p.series,
			Number:           i + 1,
			StationM:         p.axisM,
			X:                x,
			Y:                y,
			Cell:             low.Cell,
			BedM:             bedM,
			SillM:            bedM + p.wedge.heightM,
			EffectiveHeightM: p.wedge.heightM,
			Slope:            b.stations[b.nearest(p.axisM)].Slope,
			CatchmentM2:      low.CatchmentM2,
			SpacingDownM:     math.NaN(),
			RiseM:            math.NaN(),
			SpacingUpM:       math.NaN(),
			WedgeEndM:        p.wedge.endM,
		}
		if i > 0 && stands[i-1].series == p.series {
			s.SpacingDownM = p.axisM - out[i-1].StationM
			s.RiseM = bedM - out[i-1].BedM
			out[i-1].SpacingUpM = s.SpacingDownM
		}
		out = append(out, s)
	}
	return out
}
