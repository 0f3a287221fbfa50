package report

import (
	"bufio"
	"fmt"
	"io"
	"math"
	"strings"

	"siltstep/geojson"
	"siltstep/hydro/channel"
	"siltstep/raster"

	"github.com/paulmach/orb"
)

// WriteSections writes the samples of the cross-sections of a drainage, a row each, from the
// lower end upstream and each from left to right. Error: w failed.
func WriteSections(w io.Writer, sections []channel.Section) error {
	fields := SectionTable().Fields
	names := make([]string, len(fields))
	for i, f := range fields {
		names[i] = f.Name
	}
	out := bufio.NewWriterSize(w, 1<<16)
	out.WriteString(strings.Join(names, ",") + "\n") // errors stay in the writer until Flush
	var line []byte
	for _, s := range sections {
		for k, mm := range s.MM { // by hand: there are millions of them
			groundM := float64(mm) / 1000
			if mm == raster.VoidMM {
				groundM = math.NaN()
			}
			line = line[:0]
			for i, v := range [...]float64{s.StationM, s.FirstM + float64(k)*s.StepM, groundM} {
				if i > 0 {
					line = append(line, ',')
				}
				line = geojson.AppendReal(line, v, fields[i].Decimals, "")
			}
			out.Write(append(line, '\n'))
		}
	}
	if err := out.Flush(); err != nil {
		return fmt.Errorf("sections: %w", err)
	}
	return nil
}

// Deepest returns the resolved section with the greatest depth, the lowest of several; nil
// where none is resolved.
func Deepest(sections []channel.Section) *channel.Section {
	var deepest *channel.Section
	for i := range sections {
		if s := &sections[i]; s.Resolved && (deepest == nil || s.DepthM > deepest.DepthM) {
			deepest = s
		}
	}
	return deepest
}

// crossSectionRows returns what was read off every section of the plan.
func crossSectionRows(r Record) ([][]any, error) {
	var at []orb.Point
	for _, list := range r.Plan.Sections {
		for _, s := range list {
			at = append(at, orb.Point{s.X, s.Y})
		}
	}
	places, err := r.ToLonLat.Project(at)
	if err != nil {
		return nil, err
	}
	rows := make([][]any, 0, len(at))
	for i, list := range r.Plan.Sections {
		for _, s := range list {
			rows = append(rows, crossSectionRow(r.Plan.Network.Drainages[i].ID, s, places[len(rows)]))
		}
	}
	return rows, nil
}

// crossSectionRow leaves out what a section that is not resolved cannot tell.
func crossSectionRow(drainage string, s channel.Section, place orb.Point) []any {
	row := []any{drainage, s.StationM, place[0], place[1], s.X, s.Y, bearingDeg(s.DX, s.DY), s.Resolved, orNull(s.Why)}
	told := []float64{s.BedM, s.BedWidthM, s.TopWidthM, s.DepthM, s.AreaM2, s.Left.HeightM, s.Left.Slope, s.Right.HeightM, s.Right.Slope,
		s.Fit.BedWidthM, s.Fit.SideSlope, s.Fit.DepthM, s.Fit.ResidualM}
	for _, v := range told {
		if !s.Resolved {
			v = math.NaN()
		}
		row = append(row, v)
	}
	return row
}

// bearingDeg returns the grid bearing of a direction, 0 up to but not including 360, north 0.
func bearingDeg(dx, dy float64) float64 {
	deg := math.Atan2(dx, dy) * 180 / math.Pi
	if deg = math.Round(deg*10) / 10; deg < 0 {
		deg += 360
	}
	return deg
}
