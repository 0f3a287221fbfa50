package storm

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"
)

// MaxSteps is the largest number of steps of a storm or hydrograph; more is an error.
const MaxSteps = 200_000

// Hyetograph is rain in equal steps, the first from time zero.
type Hyetograph struct {
	StepS   float64   // length of a step, s
	DepthMM []float64 // rain in each step, mm
}

// Validate returns the first fault: no steps, too many, a step that is not positive, a depth that
// is negative or not a number, no rain at all.
func (h Hyetograph) Validate() error {
	if err := above("storm: step", h.StepS, "s"); err != nil {
		return err
	}
	if len(h.DepthMM) == 0 || len(h.DepthMM) > MaxSteps {
		return fmt.Errorf("storm: %d steps; give 1 to %d", len(h.DepthMM), MaxSteps)
	}
	for i, mm := range h.DepthMM {
		if err := within(fmt.Sprintf("storm: rain in step %d", i+1), mm, 0, 1e6, "mm"); err != nil {
			return err
		}
	}
	return above("storm: total rain", h.TotalMM(), "mm")
}

// TotalMM returns the rain of the whole storm in mm.
func (h Hyetograph) TotalMM() float64 {
	total := 0.0
	for _, mm := range h.DepthMM {
		total += mm
	}
	return total
}

// DurationS returns the length of the storm in s.
func (h Hyetograph) DurationS() float64 { return h.StepS * float64(len(h.DepthMM)) }

// MaxMM returns the most rain in mm that falls in any window of so many seconds, rain being even
// within a step. A window longer than the storm holds all of it.
func (h Hyetograph) MaxMM(windowS float64) float64 {
	if !(windowS > 0) || len(h.DepthMM) == 0 {
		return 0
	}
	mass := make([]float64, len(h.DepthMM)+1)
	for i, mm := range h.DepthMM {
		mass[i+1] = mass[i] + mm
	}
	at := func(t float64) float64 {
		x := min(max(t/h.StepS, 0), float64(len(h.DepthMM)))
		i := min(int(x), len(h.DepthMM)-1)
		return mass[i] + (x-float64(i))*h.DepthMM[i]
	}
	most := 0.0
	for i := range mass {
		edge := float64(i) * h.StepS
		most = max(most, at(edge+windowS)-at(edge), at(edge)-at(edge-windowS))
	}
	return most
}

// split returns the storm with each step cut into n even ones.
func (h Hyetograph) split(n int) Hyetograph {
	out := Hyetograph{StepS: h.StepS / float64(n), DepthMM: make([]float64, 0, n*len(h.DepthMM))}
	for _, mm := range h.DepthMM {
		for range n {
			out.DepthMM = append(out.DepthMM, mm/float64(n))
		}
	}
	return out
}

// merged returns the storm with n steps made one; the last may be filled up with dry time.
func (h Hyetograph) merged(n int) Hyetograph {
	out := Hyetograph{StepS: h.StepS * float64(n)}
	for group := range slices.Chunk(h.DepthMM, n) {
		total := 0.0
		for _, mm := range group {
			total += mm
		}
		out.DepthMM = append(out.DepthMM, total)
	}
	return out
}

// stepsIn returns how many steps of stepS make the hours.
func stepsIn(hours, stepS float64) (int, error) {
	if err := errors.Join(above("storm duration", hours, "h"), above("storm step", stepS, "s")); err != nil {
		return 0, err
	}
	n := hours * hourS / stepS
	if n > MaxSteps {
		return 0, fmt.Errorf("a storm of %g h in steps of %g s has %.0f steps; at most %d: take longer steps or a shorter storm", hours, stepS, n, MaxSteps)
	}
	if math.Abs(n-math.Round(n)) > 1e-6*n || n < 0.5 {
		return 0, fmt.Errorf("steps of %g s do not divide a storm of %g h", stepS, hours)
	}
	return int(math.Round(n)), nil
}

// Uniform returns a storm of even rain: depthMM over so many hours in steps of stepS seconds,
// which must divide them.
func Uniform(depthMM, hours, stepS float64) (Hyetograph, error) {
	return shaped(depthMM, hours, stepS, func(t float64) float64 { return t })
}

// TrianglePeak is where the triangular storm peaks, as a share of its duration. Source: our own
// choice, the front of the usual 0.375 to 0.5.
const TrianglePeak = 0.375

// Triangular returns a storm whose intensity rises evenly to TrianglePeak of its duration and
// falls evenly from there: depthMM over so many hours in steps of stepS seconds, which must divide
// them. The highest intensity is twice the mean.
func Triangular(depthMM, hours, stepS float64) (Hyetograph, error) {
	return shaped(depthMM, hours, stepS, func(t float64) float64 {
		if t <= TrianglePeak {
			return t * t / TrianglePeak
		}
		return 1 - (1-t)*(1-t)/(1-TrianglePeak)
	})
}

// shaped lays depthMM along a mass curve from 0 at 0 to 1 at 1.
func shaped(depthMM, hours, stepS float64, mass func(share float64) float64) (Hyetograph, error) {
	n, err := stepsIn(hours, stepS)
	if err := errors.Join(err, above("rain depth", depthMM, "mm")); err != nil {
		return Hyetograph{}, err
	}
	out := Hyetograph{StepS: hours * hourS / float64(n), DepthMM: make([]float64, n)}
	before := 0.0
	for i := range n {
		after := mass(float64(i+1) / float64(n))
		out.DepthMM[i] = depthMM * max(0, after-before)
		before = after
	}
	return out, nil
}

// Nested returns the storm that holds, within every duration of whole steps around its peak, at least the
// depth that depthMM gives for that duration: the differences of depths from step to step, the
// largest at the middle and the rest by turns right and left of it (alternating blocks). Steps of
// stepS seconds must divide the hours. An error of depthMM is passed on.
func Nested(depthMM func(minutes float64) (float64, error), hours, stepS float64) (Hyetograph, error) {
	n, err := stepsIn(hours, stepS)
	if err != nil {
		return Hyetograph{}, err
	}
	blocks := make([]float64, n)
	before := 0.0
	for i := range n {
		after, err := depthMM(hours * 60 * float64(i+1) / float64(n))
		if err != nil {
			return Hyetograph{}, fmt.Errorf("nested storm: %w", err)
		}
		blocks[i] = max(0, after-before)
		before = after
	}
	slices.SortFunc(blocks, func(a, b float64) int { return cmp.Compare(b, a) })
	out := Hyetograph{StepS: hours * hourS / float64(n), DepthMM: make([]float64, n)}
	for i, place := range fromMiddle(n) {
		out.DepthMM[place] = blocks[i]
	}
	return out, nil
}

// fromMiddle returns the places 0 to n-1 by turns right and left of the middle.
func fromMiddle(n int) []int {
	middle := n / 2
	places := append(make([]int, 0, n), middle)
	for k := 1; len(places) < n; k++ {
		if middle+k < n {
			places = append(places, middle+k)
		}
		if middle-k >= 0 {
			places = append(places, middle-k)
		}
	}
	return places
}
