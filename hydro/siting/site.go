package siting

import (
	"fmt"
	"math"

	"github.com/paulmach/orb"
)

// sites turns the stands of a drainage, which rise upstream, into numbered dams. Catchment and
// cell are those of the station at or below the axis, the larger of the two beside it; slope is
// that of the nearest station.
func (l *layer) sites(stands []stand) []Site {
	out := make([]Site, 0, len(stands))
	for i, p := range stands {
		low := l.bed.stations[l.bed.below(p.axisM)]
		x, y := l.bed.xy(p.axisM)
		s := Site{
			ID:               fmt.Sprintf("%s-%02d", l.d.ID, i+1),
			Drainage:         l.d.ID,
			Series:           p.series,
			Number:           i + 1,
			StationM:         p.axisM,
			X:                x,
			Y:                y,
			Cell:             low.Cell,
			BedM:             p.bedM,
			SillM:            p.sillM(),
			EffectiveHeightM: p.heightM,
			Slope:            l.bed.stations[l.bed.nearest(p.axisM)].Slope,
			CatchmentM2:      low.CatchmentM2,
			SpacingDownM:     math.NaN(),
			RiseM:            math.NaN(),
			SpacingUpM:       math.NaN(),
			WedgeEndM:        p.endM,
			BodyUpM:          p.upM,
			BodyDownM:        p.downM,
			Base:             OnDam,
			Edit:             p.edit,
		}
		if i > 0 && stands[i-1].series == p.series {
			s.SpacingDownM = p.axisM - out[i-1].StationM
			s.RiseM = p.bedM - out[i-1].BedM
			out[i-1].SpacingUpM = s.SpacingDownM
		} else {
			s.Base = l.base(p)
		}
		s.Cautions = l.cautions(stands[:i+1], &s)
		out = append(out, s)
	}
	return out
}

// baseM is how far below the toe of a dam a base level is looked for along the line, m, beside one that lies
// under its body. Source: our own choice.
const baseM = 2.0

// base returns what the lowest dam of a series stands on.
func (l *layer) base(p stand) Base {
	x, y := l.bed.xy(p.axisM)
	withinM := p.downM + baseM
	near := gather(l.cfg.Features.BaseLevels, orb.Point{x, y}.Bound().Pad(withinM))
	if near.distanceM(x, y) <= withinM {
		return OnDeclared
	}
	if l.d.Into >= 0 && p.axisM <= max(ConfluenceM, l.cfg.ConfluenceM+p.downM) {
		return OnConfluence
	}
	return OnFooter
}
