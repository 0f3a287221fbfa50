package channel

import (
	"siltstep/raster"
)

// SectionConfig says how cross-sections are taken. The zero value takes none.
type SectionConfig struct {
	SpacingM float64 // along the line, m; at least 2 cells count whatever it says; default 5; zero takes no sections
	ReachM   float64 // how far a section goes to either side of the line, m; default 20
}

// Section is a cross-section of the ground at right angles to the smoothed channel line, read
// from the original elevation model.
type Section struct {
	StationM float64 // where it crosses the line, m
	X, Y     float64 // map position of the thalweg, m
	DX, DY   float64 // unit vector along the section, from left to right looking downstream

	FirstM, StepM float64 // offset of the first sample from the thalweg, left negative, and between samples, m
	MM            []int32 // elevation of each sample, mm, bilinear; raster.VoidMM where there is no data

	BedM        float64 // level of the bed between the toes, m, noise evened out
	BedWidthM   float64 // between the toes of the banks, m
	TopWidthM   float64 // between the tops of the banks, at the level of the lower one, m
	DepthM      float64 // from BedM to the lower bank top, m; 0 where there are no banks
	AreaM2      float64 // between the bed and the level of the lower bank top, m²
	Left, Right Bank
	Fit         Trapezoid

	Resolved bool   // banks and widths can be told from these cells
	Why      string // why not, in plain words; empty where resolved
}

// Bank is one side of a section. All is NaN where it cannot be told.
type Bank struct {
	ToeM, TopM float64 // offsets from the thalweg, m
	HeightM    float64 // top above BedM, m
	Slope      float64 // rise over run between toe and top, V:H
}

// Trapezoid is the plain shape nearest to a section up to the lower bank top.
type Trapezoid struct {
	BedWidthM float64 // m; 0 makes it a V
	SideSlope float64 // horizontal run a metre of height, mean of both sides
	DepthM    float64 // m
	ResidualM float64 // root mean square of the difference in height, m
}

// Sections returns the cross-sections of a drainage from the lower end upstream. Where no bed is seen
// (Station.NoBed) none is taken. Neighbours that would cross within the banks at a bend are left out.
// Where the ground has no bank on either side, as in a plain valley, the section is resolved: BedM is the
// level of the thalweg, all else is 0. In a section that is not resolved what cannot be told is NaN; the rest is
// a best guess. No sections where the profile has no length, or spacing or reach is zero, negative or NaN. The grid is
// only read. Cost: linear in the number of samples, some 7 µs for 81.
func Sections(g *raster.Grid, p Profile, cfg SectionConfig) []Section {
	cellM := g.Transform.CellM
	stepM := stepCells * cellM
	reach := int(min(cfg.ReachM/stepM+1e-9, 2*float64(g.Cols+g.Rows)/stepCells))
	if !(cfg.ReachM > 0) || reach < 1 {
		return nil
	}
	places := transects(p, cellM, cfg.SpacingM)
	raw := reach + searchSamples // samples to either side of the line
	mm := make([]int32, len(places)*(2*raw+1))
	for i, t := range places {
		t.read(g, mm[i*(2*raw+1):(i+1)*(2*raw+1)], stepM)
	}
	m := meter{cellM: cellM, stepM: stepM, errorM: errorOf(mm, 2*raw+1), left: newSide(reach + 1), right: newSide(reach + 1)}
	sections := make([]Section, len(places))
	for i, t := range places {
		line := mm[i*(2*raw+1) : (i+1)*(2*raw+1)]
		at := thalweg(line, raw)
		off := float64(at-raw) * stepM
		sections[i] = Section{
			StationM: t.stationM, X: t.x + t.dx*off, Y: t.y + t.dy*off, DX: t.dx, DY: t.dy,
			FirstM: -float64(reach) * stepM, StepM: stepM, MM: line[at-reach : at+reach+1 : at+reach+1],
		}
		m.measure(&sections[i])
	}
	return apart(sections)
}
