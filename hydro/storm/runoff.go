package storm

import (
	"errors"
	"fmt"
	"math"
)

// Ratio is the initial abstraction as a share of the storage S that goes with it.
type Ratio string

// The two ratios. Curve numbers of handbooks belong to the first; with the second, S is converted.
const (
	Ratio20 Ratio = "0.20" // Ia = 0.2 S. Source: SCS1986, read
	Ratio05 Ratio = "0.05" // Ia = 0.05 S05, S05 = 1.33 S^1.15 with S in inches. Source: Hawkins2002, the conversion in a copy
)

// Loss turns rain into runoff by the curve number method.
type Loss struct {
	CurveNumber float64 // over 0 to 100, of handbook tables: for average wetness and Ratio20
	Ratio       Ratio   // empty means Ratio20
}

// LowCurveNumber is where the method becomes unfit. Source: SCS1986, in a copy.
const LowCurveNumber = 40.0

// Validate returns every fault, joined.
func (l Loss) Validate() error {
	faults := []error{curveNumberFault(l.CurveNumber)}
	if l.Ratio != "" && l.Ratio != Ratio20 && l.Ratio != Ratio05 {
		faults = append(faults, fmt.Errorf("abstraction ratio %q; give %s or %s", l.Ratio, Ratio20, Ratio05))
	}
	return errors.Join(faults...)
}

func curveNumberFault(cn float64) error {
	if cn > 0 && cn <= 100 {
		return nil
	}
	return fmt.Errorf("curve number is %g; give more than 0 and at most 100", cn)
}

// storage returns S of the ratio and the ratio itself. A curve number near 0 may make S endless,
// which means no runoff.
func (l Loss) storage() (mm, ratio float64) {
	inches := 1000/l.CurveNumber - 10
	if l.Ratio == Ratio05 {
		return 1.33 * math.Pow(inches, 1.15) * inchMM, 0.05
	}
	return inches * inchMM, 0.2
}

// StorageMM returns S in mm: what the ground can still take up, of the ratio at hand.
// S = 1000/CN - 10 inches. Source: SCS1986.
func (l Loss) StorageMM() float64 {
	mm, _ := l.storage()
	return mm
}

// AbstractionMM returns Ia in mm, the rain that falls before any runs off.
func (l Loss) AbstractionMM() float64 {
	mm, ratio := l.storage()
	return mm * ratio
}

// RunoffMM returns the runoff in mm of a storm of rainMM: (P-Ia)²/(P-Ia+S) where P exceeds Ia, else
// 0. Curve number 100 sheds all. It is NaN where the rain is negative or not a number, or the
// loss has a fault. Source: SCS1986.
func (l Loss) RunoffMM(rainMM float64) float64 {
	if !(rainMM >= 0) || l.Validate() != nil {
		return math.NaN()
	}
	s, ratio := l.storage()
	if excess := rainMM - ratio*s; excess > 0 {
		return excess / (1 + s/excess)
	}
	return 0
}

// CurveNumber05 returns the curve number that Ratio05 would have beside one of handbook tables.
// Source: Hawkins2002, from memory. NaN outside 0 to 100.
func CurveNumber05(cn float64) float64 {
	if curveNumberFault(cn) != nil {
		return math.NaN()
	}
	return 100 / (1.879*math.Pow(100/cn-1, 1.15) + 1)
}

// Wetness is the antecedent condition of the ground.
type Wetness string

// The antecedent conditions.
const (
	WetnessDry     Wetness = "dry"     // condition I
	WetnessAverage Wetness = "average" // condition II, that of handbook tables
	WetnessWet     Wetness = "wet"     // condition III
)

// CurveNumber returns the curve number at this wetness of one for average wetness; the empty
// wetness is average. Source: ChowMaidmentMays1988, equations 5.5.4 and 5.5.5, from memory.
func (w Wetness) CurveNumber(average float64) (float64, error) {
	if err := curveNumberFault(average); err != nil {
		return math.NaN(), err
	}
	switch w {
	case "", WetnessAverage:
		return average, nil
	case WetnessDry:
		return 4.2 * average / (10 - 0.058*average), nil
	case WetnessWet:
		return 23 * average / (10 + 0.13*average), nil
	}
	return math.NaN(), fmt.Errorf("antecedent condition %q; give %s, %s or %s", w, WetnessDry, WetnessAverage, WetnessWet)
}

// Patch is a part of the catchment with one curve number.
type Patch struct {
	AreaM2      float64 // m², over 0; only the proportions count
	CurveNumber float64 // over 0 to 100, average wetness
}

// land is a catchment of patches at one wetness and ratio.
type land struct {
	losses []Loss
	shares []float64
}

func newLand(patches []Patch, w Wetness, ratio Ratio) (land, error) {
	var out land
	total := 0.0
	for i, p := range patches {
		cn, err := w.CurveNumber(p.CurveNumber)
		l := Loss{min(cn, 100), ratio}
		if err := errors.Join(above("area", p.AreaM2, "m²"), err); err != nil {
			return land{}, fmt.Errorf("patch %d of the catchment: %w", i+1, err)
		}
		if err := l.Validate(); err != nil {
			return land{}, err
		}
		out.losses, out.shares = append(out.losses, l), append(out.shares, p.AreaM2)
		total += p.AreaM2
	}
	if len(patches) == 0 {
		return land{}, errors.New("no curve number; give one for the catchment or for each patch of it")
	}
	if _, err := finite("area of the patches", total); err != nil {
		return land{}, err
	}
	for i := range out.shares {
		out.shares[i] /= total
	}
	return out, nil
}

// runoffMM weights the runoff of each patch by its area. (Weighting curve numbers instead
// underestimates it.)
func (g land) runoffMM(rainMM float64) float64 {
	mm := 0.0
	for i, l := range g.losses {
		mm += g.shares[i] * l.RunoffMM(rainMM)
	}
	return mm
}

// Composite returns the runoff in mm of a catchment of patches, each weighted by its area, and the
// one curve number that gives as much for this rain.
func Composite(rainMM float64, patches []Patch, ratio Ratio) (runoffMM, curveNumber float64, err error) {
	g, err := newLand(patches, WetnessAverage, ratio)
	if err := errors.Join(err, within("rain", rainMM, 0, math.MaxFloat64, "mm")); err != nil {
		return math.NaN(), math.NaN(), err
	}
	mm := g.runoffMM(rainMM)
	return mm, g.equivalent(rainMM, mm).CurveNumber, nil
}

// equivalent returns the loss with one curve number that sheds runoffMM of rainMM, by halving. Where
// nothing runs off it is that of the patch nearest to shedding.
func (g land) equivalent(rainMM, runoffMM float64) Loss {
	lo, hi := 100.0, 0.0
	for _, l := range g.losses {
		lo, hi = min(lo, l.CurveNumber), max(hi, l.CurveNumber)
	}
	out := Loss{hi, g.losses[0].Ratio}
	if runoffMM <= 0 {
		return out
	}
	for range 100 {
		out.CurveNumber = (lo + hi) / 2
		if out.RunoffMM(rainMM) < runoffMM {
			lo = out.CurveNumber
		} else {
			hi = out.CurveNumber
		}
	}
	return out
}
