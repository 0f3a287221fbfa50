package storm

import (
	"errors"
	"fmt"
	"math"
)

// Critical is critical flow: the depth of least energy for a discharge.
type Critical struct {
	Wetted
	FlowM3s    float64 // m³/s
	VelocityMS float64 // mean, m/s
	Notes      []Note
}

// CriticalDepth returns critical flow of peakM3s in a section: the lowest stage at which Q²T/(gA³) is no
// more than 1, by halving to a micrometre. Notes as of Channel.Depth.
func (s Section) CriticalDepth(peakM3s float64) (Critical, error) {
	if err := errors.Join(s.Validate(), above("flow", peakM3s, "m³/s")); err != nil {
		return Critical{}, err
	}
	stage, err := lowestStage(s, func(stageM float64) bool {
		w := s.At(stageM)
		return w.AreaM2 > 0 && peakM3s/w.AreaM2 <= math.Sqrt(gravityMS2*w.MeanDepthM())
	})
	if err != nil {
		return Critical{}, fmt.Errorf("critical depth of %g m³/s: %w", peakM3s, err)
	}
	w := s.At(stage)
	return Critical{Wetted: w, FlowM3s: peakM3s, VelocityMS: peakM3s / w.AreaM2, Notes: containedNote(w)}, nil
}

// SlopeFor returns the slope, rise over run, at which critical flow is normal flow with roughness n.
func (c Critical) SlopeFor(n float64) float64 {
	v := manningVelocityMS(n, c.HydraulicRadiusM(), 1)
	if !(v > 0) {
		return math.NaN()
	}
	return c.VelocityMS * c.VelocityMS / (v * v)
}
