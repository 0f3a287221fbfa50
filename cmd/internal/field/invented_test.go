package field

import (
	"math"

	"siltstep/cmd/internal/facts"

	"github.com/paulmach/orb"
)

var unknown = facts.Num(math.NaN())

// place lies on an invented plane at 104° west, 37° north.
func place(east, north float64) facts.Place {
	return facts.Place{Lon: facts.Num(-104 + east/88000), Lat: facts.Num(37 + north/111000), XM: facts.Num(500000 + east), YM: facts.Num(4100000 + north)}
}

// dam stands in a bed that starts at 1600 m and rises by 5 %.
func dam(id, drainage string, series, number int, station, spacing float64) facts.Site {
	s := facts.Site{ID: id, Drainage: drainage, Series: series, Number: number, StationM: facts.Num(station), BedM: facts.Num(1600 + 0.05*station), EffectiveHeightM: 0.4,
		NotchWidthM: 1.75, NotchDepthM: 0.25, StoneD50M: 0.105, RockT: 6.25, CrestLengthM: 3.5, SpacingDownM: facts.Num(spacing), RiseFromBelowM: facts.Num(0.05 * spacing), Place: place(float64(len(drainage))*10, station)}
	s.NotchSillM = s.BedM + s.EffectiveHeightM
	return s
}

// invented is a plan of two drainages and three series: that of D02 is built first, and one of D01 has no place in the order. D01-03 is
// not designed and has no position.
func invented() *facts.Folder {
	f := &facts.Folder{Lines: map[string]orb.LineString{}, Catchments: map[string]orb.Geometry{}, Profiles: map[string]facts.Profile{}}
	f.Program = facts.Program{Name: "siltstep", Version: "0.1.0", Format: facts.Format, Command: "plan"}
	f.Cautions = []facts.Text{{Text: "This is a planning aid, not an engineered design."}, {Text: "Walk every site."}}
	f.Grid.CRS = "an invented plane"
	last := dam("D01-03", "D01", 2, 3, 60, math.NaN())
	last.Place = facts.Place{Lon: unknown, Lat: unknown, XM: unknown, YM: unknown}
	last.NotchWidthM, last.NotchDepthM, last.StoneD50M, last.RockT, last.CrestLengthM = unknown, unknown, unknown, unknown, unknown
	f.Sites = []facts.Site{dam("D01-01", "D01", 1, 1, 10, math.NaN()), dam("D01-02", "D01", 1, 2, 18, 8), last, dam("D02-01", "D02", 1, 1, 5, math.NaN()), dam("D02-02", "D02", 1, 2, 12.5, 7.5)}
	f.Sites[1].Cautions = `A gate of "iron" stands near; mind the fence & the <dog>`
	f.Series = []facts.Series{
		{ID: "D01-S1", Drainage: "D01", Number: 1, DamIDs: "D01-01 D01-02", BuildOrder: 2},
		{ID: "D01-S2", Drainage: "D01", Number: 2, DamIDs: "D01-03"},
		{ID: "D02-S1", Drainage: "D02", Number: 1, DamIDs: "D02-01 D02-02", BuildOrder: 1, Before: "Treat the step above & below first."},
		{ID: "D02-S2", Drainage: "D02", Number: 2, DamIDs: "D02-03", BuildOrder: 3, LeftOut: true},
	}
	f.Checks = []facts.Check{{ID: "D01-02", Number: 1, Text: "Is the bed < 2 m wide & firm?"}, {ID: "D01-02", Number: 2, Text: "Second."}}
	f.Designs = []facts.Design{{ID: "D01-03", Buildable: true, Missing: "No cross-section shows bed and banks"}, {ID: "D02-01"}}
	f.Headcuts = []facts.Headcut{
		{ID: "H01", Drainage: "D01", StationM: 80, HeightM: 0.75, CatchmentHa: 1.5, Cause: "headcut", Place: place(30, 80)},
		{ID: "H02", Drainage: "D02", StationM: 30, HeightM: 0.5, CatchmentHa: unknown, Cause: "road", Place: place(30, 30)},
	}
	for i, id := range []string{"D01", "D02"} {
		d := facts.Drainage{ID: id, LengthM: 100, CatchmentHa: 2.5, Severity: 40, SeverityClass: "watch", Dams: 3 - i, Truncated: i == 0}
		if i == 1 {
			d.Into, d.Severity, d.SeverityClass = "D01", unknown, ""
		}
		f.Drainages = append(f.Drainages, d)
		east := 100 * float64(i)
		upper, lower := place(east, 100), place(east, 0)
		f.Lines[id] = orb.LineString{{float64(upper.Lon), float64(upper.Lat)}, {float64(lower.Lon), float64(lower.Lat)}}
		f.Profiles[id] = facts.Profile{{StationM: 0, BedM: 1600, Place: lower}}
	}
	f.Profiles["D02"][0].BedM = math.NaN()
	ring := func(r float64) orb.Ring {
		a, b := place(-r, -r), place(r, r)
		return orb.Bound{Min: orb.Point{float64(a.Lon), float64(a.Lat)}, Max: orb.Point{float64(b.Lon), float64(b.Lat)}}.ToRing()
	}
	f.Catchments["D01"] = orb.Polygon{ring(50), ring(10)}
	f.Catchments["D02"] = orb.MultiPolygon{{ring(20)}, {ring(5)}}
	return f
}
