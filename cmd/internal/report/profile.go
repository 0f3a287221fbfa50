package report

import (
	"fmt"
	"io"
	"math"

	"siltstep/geojson"
	"siltstep/hydro/channel"
	"siltstep/hydro/erosion"
	"siltstep/hydro/siting"

	"github.com/paulmach/orb"
)

// squareMetresPerHectare turns the areas of a plan into those of the files.
const squareMetresPerHectare = 10_000

// sameRowM is how near to a station a dam must stand to share its row, m: half of the last
// decimal of station_m.
const sameRowM = 0.005

// WriteProfile writes a longitudinal profile: a row for each station from the lower end
// upstream and one for each dam at its own station. sites rise upstream and may be empty;
// depositRatio is that of the plan. Bed and slope stay empty
// where the ground is not the bed, depths and widths where they cannot be told; the zero
// Depths leaves them all empty. Errors: the projector failed; w failed.
func WriteProfile(w io.Writer, p channel.Profile, depths erosion.Depths, sites []siting.Site, depositRatio float64, to geojson.Projector) error {
	lines := profileLines(p, sites)
	at := make([]orb.Point, len(lines))
	for i, l := range lines {
		at[i] = orb.Point{l.X, l.Y}
	}
	places, err := to.Project(at)
	if err != nil {
		return fmt.Errorf("profile: %w", err)
	}
	rows := make([][]any, len(lines))
	for i, l := range lines {
		var id any
		sill, deposit := math.NaN(), siting.DepositM(sites, depositRatio, l.StationM, l.BedM)
		if l.dam != nil {
			id, sill = l.dam.ID, l.dam.SillM
			deposit = sill
		}
		bed, slope := l.BedM, l.Slope
		if l.NoBed {
			bed, slope = math.NaN(), math.NaN()
		}
		rows[i] = []any{l.StationM, places[i][0], places[i][1], l.X, l.Y, l.GroundM, bed, slope, l.CatchmentM2 / squareMetresPerHectare}
		for _, measured := range [][]float64{depths.IncisionM, depths.BedWidthM, depths.BankToBankM, depths.BankLeftM, depths.BankRightM} {
			rows[i] = append(rows[i], geojson.AtStation(p, measured, l.StationM))
		}
		rows[i] = append(rows[i], id, sill, deposit)
	}
	if err := writeTable(w, ProfileTable().Fields, rows); err != nil {
		return fmt.Errorf("profile: %w", err)
	}
	return nil
}

// profileLine is a row: a station, a dam, or both.
type profileLine struct {
	channel.Station
	dam *siting.Site
}

// profileLines merges stations and dams, both rising upstream.
func profileLines(p channel.Profile, sites []siting.Site) []profileLine {
	var lines []profileLine
	k := 0
	for i, st := range p.Stations {
		for ; k < len(sites) && sites[k].StationM < st.StationM-sameRowM; k++ {
			lines = append(lines, damLine(p.Stations, i, &sites[k]))
		}
		line := profileLine{Station: st}
		if k < len(sites) && sites[k].StationM <= st.StationM+sameRowM {
			line.dam = &sites[k]
			k++
		}
		lines = append(lines, line)
	}
	for ; k < len(sites); k++ {
		lines = append(lines, damLine(p.Stations, len(p.Stations), &sites[k]))
	}
	return lines
}

// damLine takes all from the dam, but for the ground, which runs straight between the
// stations around it; beyond the ends it is unknown.
func damLine(stations []channel.Station, above int, s *siting.Site) profileLine {
	ground := math.NaN()
	if above > 0 && above < len(stations) {
		a, b := stations[above-1], stations[above]
		ground = a.GroundM + (b.GroundM-a.GroundM)*(s.StationM-a.StationM)/(b.StationM-a.StationM)
	}
	return profileLine{dam: s, Station: channel.Station{StationM: s.StationM, X: s.X, Y: s.Y, Cell: s.Cell,
		GroundM: ground, BedM: s.BedM, Slope: s.Slope, CatchmentM2: s.CatchmentM2}}
}
