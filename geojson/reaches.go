package geojson

import (
	"fmt"

	"siltstep/hydro"
	"siltstep/hydro/channel"
	"siltstep/hydro/siting"

	"github.com/paulmach/orb"
)

// Reaches returns the layer of reaches, drainage by drainage, from the lower end upstream,
// each line running downstream. A reach without length is left out. Errors: the projector
// failed.
func Reaches(p *hydro.Plan, to Projector) (Collection, error) {
	c := Collection{Layer: ReachesLayer()}
	for i, l := range p.Layouts {
		d := &p.Network.Drainages[i]
		for _, r := range l.Reaches {
			line := part(d.Profile, r.FromM, r.ToM)
			if len(line) < 2 {
				continue
			}
			points, err := to.Project(line)
			if err != nil {
				return Collection{}, fmt.Errorf("drainage %s: %w", d.ID, err)
			}
			c.Features = append(c.Features, Feature{Geometry: lineString(points), Values: ReachValues(r)})
		}
	}
	return c, nil
}

// ReachValues returns the values of a reach in the order of ReachesLayer.
func ReachValues(r siting.Reach) []any {
	verdict := "not eligible"
	if r.Eligible {
		verdict = "eligible"
	}
	return inOrder(ReachesLayer(), map[string]any{
		"drainage": r.Drainage, "from_station_m": r.FromM, "to_station_m": r.ToM,
		"verdict": verdict, "reasons": Joined(r.Reasons),
	})
}

// sameStationM is the distance under which two stations are one place: a hundredth of the
// decimals written. Our own choice.
const sameStationM = 1e-4

// part returns the channel line between two stations, running downstream; empty where
// they lie no further apart than sameStationM or outside the profile.
func part(p channel.Profile, fromM, toM float64) orb.LineString {
	fromM, toM = max(fromM, 0), min(toM, p.LengthM())
	if toM-fromM <= sameStationM {
		return nil
	}
	line := orb.LineString{place(p, toM)}
	for i := len(p.Stations) - 1; i >= 0; i-- {
		if s := p.Stations[i]; s.StationM > fromM+sameStationM && s.StationM < toM-sameStationM {
			line = append(line, orb.Point{s.X, s.Y})
		}
	}
	return append(line, place(p, fromM))
}

// place returns the map position at a station, straight between those of the profile.
func place(p channel.Profile, stationM float64) orb.Point {
	i := 1
	for i < len(p.Stations)-1 && p.Stations[i].StationM < stationM {
		i++
	}
	a, b := p.Stations[i-1], p.Stations[i]
	w := (stationM - a.StationM) / (b.StationM - a.StationM)
	return orb.Point{a.X + w*(b.X-a.X), a.Y + w*(b.Y-a.Y)}
}

// lineString names a batch of positions a line.
func lineString(points []orb.Point) orb.LineString { return points }
