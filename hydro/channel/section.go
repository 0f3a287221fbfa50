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
func Sections(g *raster.Grid, p Profile, cfg SectionConfig) []Section {
	return nil
}
