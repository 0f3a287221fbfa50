package hydro

import (
	"math"

	"siltstep/hydro/channel"
	"siltstep/raster"
)

// How the banks of a section are told again for what a dam holds. Source: our own choices, by trials on drawn channels.
const (
	breakCells  = 0.5  // so near a toe or top, in cells as seen along the section, samples mix what lies on both its sides
	leastOnBank = 3    // samples that tell a line
	tipCells    = 1.25 // bed width in cell sides below which the bed is where the banks meet
	areaAgrees  = 0.1  // the shape must have the area that was measured within this share
)

// shape is a channel across: a trapezoid on a bed.
type shape struct{ bedM, bedWidthM, sideSlope float64 }

// shapeOf returns the shape of a fitted section. Between lines through the samples that lie on each bank alone, which cells do not round
// off, if there are enough and the area agrees; otherwise the section's own fit, which has its area and top width.
func shapeOf(s *channel.Section, cellM float64) shape {
	own := shape{s.BedM, s.Fit.BedWidthM, s.Fit.SideSlope}
	insetM := breakCells * cellM * (math.Abs(s.DX) + math.Abs(s.DY))
	left, right := bankLine(s, s.Left.TopM+insetM, s.Left.ToeM-insetM), bankLine(s, s.Right.ToeM+insetM, s.Right.TopM-insetM)
	if !(left.slope < 0) || !(right.slope > 0) {
		return own
	}
	out := shape{s.BedM, max(0, left.atM/left.slope-right.atM/right.slope), (1/right.slope - 1/left.slope) / 2}
	depthM := s.DepthM
	if s.BedWidthM < tipCells*cellM {
		lowerM := (left.slope*right.atM - right.slope*left.atM) / (right.slope - left.slope)
		out.bedM, out.bedWidthM, depthM = s.BedM-lowerM, 0, depthM+lowerM
	}
	if area := (out.bedWidthM + out.sideSlope*depthM) * depthM; !(math.Abs(area/s.AreaM2-1) <= areaAgrees) {
		return own
	}
	return out
}

// line is the ground along a piece of a section: atM above the bed at its thalweg, and rising to the right.
type line struct{ atM, slope float64 }

// bankLine returns the line of least squares through the samples between two offsets; NaN where they are too few.
func bankLine(s *channel.Section, fromM, toM float64) line {
	first, last := max(0, int(math.Ceil((fromM-s.FirstM)/s.StepM))), min(len(s.MM)-1, int(math.Floor((toM-s.FirstM)/s.StepM)))
	n, x, xx, z, xz := 0.0, 0.0, 0.0, 0.0, 0.0
	for i := first; i <= last; i++ {
		if s.MM[i] == raster.VoidMM {
			continue
		}
		at, high := s.FirstM+float64(i)*s.StepM, float64(s.MM[i])/1000-s.BedM
		n, x, xx, z, xz = n+1, x+at, xx+at*at, z+high, xz+at*high
	}
	if n < leastOnBank {
		return line{math.NaN(), math.NaN()}
	}
	slope := (n*xz - x*z) / (n*xx - x*x)
	return line{(z - slope*x) / n, slope}
}
