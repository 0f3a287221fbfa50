package checkdam

import (
	"fmt"
	"math"
)

// Stone is the median stone size by one method.
type Stone struct {
	Method      string
	D50M        float64 // as the method gives it; NaN where something is missing
	WithFactorM float64 // times the safety factor of the method
	Valid       bool    // the case lies inside the range of the method
	Note        Remark  // inputs and range, in plain words
	Source      string
	Recalled    bool // some values are from memory
}

// The methods of stone size.
const (
	MethodIsbash    = "isbash"
	MethodRockChute = "rock-chute"
	MethodHEC11     = "hec-11"
)

// Isbash's coefficient. Trap: a compilation in use prints D = 0.5·V²/(2g(SG−1)), a coefficient of 1.41,
// which gives stone of a third of the size.
const (
	IsbashHighTurbulence = 0.86 // water that falls or jumps: check dams. Source: NCHRP Report 568 as quoted in a manual
	IsbashLowTurbulence  = 1.20 // the same
)

// Range of the weight of stone of the velocity method. Source: NCHRP Report 568 as quoted in a manual.
const (
	IsbashGravityMin = 2.56
	IsbashGravityMax = 2.92
)

// StoneGravity is the usual weight of stone over that of water. Source: common practice; 2.56 to 2.92 as quoted from NCHRP Report 568.
const StoneGravity = 2.65

// IsbashD50M returns the stone that stays under water of velocity ms (m/s): V²/(2g·C²·(Gs−1)), after Isbash1936.
func IsbashD50M(ms, coefficient, stoneGravity float64) float64 {
	return ms * ms / (2 * gravity * coefficient * coefficient * (stoneGravity - 1))
}

// Range and factor of the rock-chute method. Source: Robinson1998; sizes and slopes of the tests read, the rest in a design
// sheet that quotes it.
const (
	ChuteSlopeMin   = 0.02
	ChuteSlopeMax   = 0.40
	chuteSlopeSteep = 0.10
	ChuteD50MinM    = 0.015
	ChuteD50MaxM    = 0.278
	ChuteGravityMin = 2.54
	ChuteGravityMax = 2.82
	ChuteFactor     = 1.2
)

// RockChuteD50M returns the median angular stone of a loose-rock chute or an overtopped face of some slope (rise over run)
// under a flow a metre of width q (m²/s): (q·S^1.5/9.76e-7)^(1/1.89) mm below a slope of 0.10, (q·S^0.58/8.07e-6)^(1/1.89) from
// there, after Robinson1998. Trap: a design sheet in use labels the steep form S^−0.58; its own numbers hold for +0.58 only.
func RockChuteD50M(q, slope float64) float64 {
	mm := q * math.Pow(slope, 0.58) / 8.07e-6
	if slope < chuteSlopeSteep {
		mm = q * math.Pow(slope, 1.5) / 9.76e-7
	}
	return math.Pow(mm, 1/1.89) / 1000
}

// RockChuteN returns Manning's roughness of such a face: 0.0292·(D50·S)^0.147, D50 in mm.
func RockChuteN(d50M, slope float64) float64 {
	return 0.0292 * math.Pow(1000*d50M*slope, 0.147)
}

// HEC11D50M returns the riprap of a bank or bed under gradually varied flow of a velocity (m/s) and depth (m):
// 0.00594·V³/(d^0.5·K1^1.5) for stone of 2.65 and a stability factor of 1.2, after HEC11. K1 is 1 on a level bed.
func HEC11D50M(ms, depthM, k1 float64) float64 {
	return 0.00594 * ms * ms * ms / (math.Sqrt(depthM) * math.Pow(k1, 1.5))
}

// stoneCase is what stone is sized from.
type stoneCase struct {
	peakM3s   float64
	notch     Notch
	faceDown  float64 // horizontal run a metre of height
	gravity   float64 // of the stone over that of water
	velocity  float64 // m/s given by the user; 0 where it is to be found
	criticalM float64 // depth in the notch
}

// stoneCaseOf returns what the stone of a request is sized from.
func stoneCaseOf(r Request, n Notch) stoneCase {
	return stoneCase{peakM3s: r.PeakM3s, notch: n, faceDown: r.FaceDown, gravity: r.StoneGravity, velocity: r.VelocityMs, criticalM: n.criticalM(n.HeadM)}
}

// gathering is how many times the flow a width of a notch's deepest part is taken at most, for water that gathers on the face. Own choice.
const gathering = 1.5

// q returns the flow a metre of width down the face: the peak over the notch's bottom width, which is more than passes anywhere in it. Of a
// notch that is deep for its width, or has no bottom width, it is at most gathering times what passes at the deepest place, critical velocity
// times depth; of a parabola it is what passes there, as its width at the top says nothing of it.
func (c stoneCase) q() float64 {
	deepest := c.notch.CriticalMs * c.criticalM
	switch {
	case c.notch.Shape == Parabolic:
		return deepest
	case c.notch.WidthM == 0:
		return gathering * deepest
	}
	return min(c.peakM3s/c.notch.WidthM, gathering*deepest)
}

// stones sizes stone by every method.
func stones(c stoneCase) []Stone {
	return []Stone{c.isbash(), c.rockChute(), c.hec11()}
}

func (c stoneCase) rockChute() Stone {
	s := Stone{Method: MethodRockChute, Source: "Robinson1998", D50M: math.NaN(), WithFactorM: math.NaN()}
	if !(c.faceDown > 0) {
		s.Note = remark("an upright face is no chute")
		return s
	}
	slope := 1 / c.faceDown
	if slope < ChuteSlopeMin || slope > ChuteSlopeMax {
		s.Note = remark(fmt.Sprintf("the downstream face of %g:1 is %.3g %%%%; the tests ran from %g %%%% to %g %%%%: lay the face at 2.5:1 or flatter", c.faceDown, 100*slope, 100*ChuteSlopeMin, 100*ChuteSlopeMax))
		return s
	}
	s.D50M = RockChuteD50M(c.q(), slope)
	s.WithFactorM = ChuteFactor * s.D50M
	s.Valid = true
	s.Note = remark(fmt.Sprintf("%%s down a face of %g:1, factor %g", c.faceDown, ChuteFactor), Quantity{c.q(), OfUnitFlow, 3})
	switch {
	case c.gravity < ChuteGravityMin || c.gravity > ChuteGravityMax:
		s.Valid = false
		s.Note = s.Note.and(fmt.Sprintf("; stone %g times as heavy as water lies outside the tested %g to %g", c.gravity, ChuteGravityMin, ChuteGravityMax))
	case s.D50M > ChuteD50MaxM:
		s.Valid = false
		s.Note = s.Note.and("; larger than the tested stone of %s", stoneOf(ChuteD50MaxM))
	case s.D50M < ChuteD50MinM:
		s.Valid = false
		s.Note = s.Note.and("; smaller than the tested stone of %s", Quantity{ChuteD50MinM, OfStone, 3})
	}
	return s
}

// isbash uses the velocity given, or the larger of the critical one in the notch and that down the face.
func (c stoneCase) isbash() Stone {
	s := Stone{Method: MethodIsbash, Source: "Isbash1936", Valid: c.gravity >= IsbashGravityMin && c.gravity <= IsbashGravityMax}
	ms, from, down := c.velocity, "velocity as given", 0.0 // down: depth of the water down the face, m
	if ms == 0 {
		ms, from = c.notch.CriticalMs, "critical velocity in the notch"
		if face := c.faceMs(); face > ms {
			ms, from, down = face, "velocity down the face", c.q()/face
			if slope := 1 / c.faceDown; slope > ChuteSlopeMax || slope < ChuteSlopeMin {
				from += ", its roughness taken beyond the tested slopes"
			}
		}
	}
	s.D50M = IsbashD50M(ms, IsbashHighTurbulence, c.gravity)
	s.WithFactorM = s.D50M
	s.Note = remark("%s, "+from, Quantity{ms, OfVelocity, 2}).and(fmt.Sprintf("; high turbulence (%g), which holds the safety", IsbashHighTurbulence))
	if down > 0 && down < s.D50M {
		s.Note = s.Note.and("; the water there is %s deep, less than a stone: tests of rock on a face are the better guide", metres(down))
	}
	if !s.Valid {
		s.Note = s.Note.and(fmt.Sprintf("; stone %g times as heavy as water lies outside %g to %g", c.gravity, IsbashGravityMin, IsbashGravityMax))
	}
	return s
}

// faceMs returns the velocity of uniform flow down the downstream face, all water above the stones: q = d^(5/3)·√S/n, with the
// roughness of the stone that this velocity asks for. 0 for an upright face.
func (c stoneCase) faceMs() float64 {
	if !(c.faceDown > 0) {
		return 0
	}
	slope, q := 1/c.faceDown, c.q()
	ms := c.notch.CriticalMs
	for range 200 {
		n := RockChuteN(IsbashD50M(ms, IsbashHighTurbulence, c.gravity), slope)
		ms = (ms + q/math.Pow(n*q/math.Sqrt(slope), 0.6)) / 2
	}
	return ms
}

// hec11MostFroude is where flow stops being gradually varied and tranquil. Source: our own choice, below critical flow.
const hec11MostFroude = 0.8

// hec11 judges the flow in the notch, which is critical: shown for comparison, outside the range of the method.
func (c stoneCase) hec11() Stone {
	s := Stone{Method: MethodHEC11, Source: "HEC11"}
	ms := c.velocity
	if ms == 0 {
		ms = c.notch.CriticalMs
	}
	s.D50M = HEC11D50M(ms, c.criticalM, 1)
	s.WithFactorM = s.D50M
	mean := c.notch.areaM2(c.criticalM) / c.notch.topWidthM(c.criticalM)
	froude := ms / math.Sqrt(gravity*mean)
	s.Valid = froude <= hec11MostFroude
	s.Note = remark("%s at %s depth, its stability factor of 1.2 within", Quantity{ms, OfVelocity, 2}, metres(c.criticalM))
	if !s.Valid {
		s.Note = s.Note.and(fmt.Sprintf("; made for calm flow, and this has a Froude number of %.2f", froude))
	}
	return s
}

// chosen returns the largest stone of the methods that are inside their range; ok is false where none is.
func chosen(all []Stone) (best Stone, ok bool) {
	for _, s := range all {
		if s.Valid && (!ok || s.WithFactorM > best.WithFactorM) {
			best, ok = s, true
		}
	}
	return best, ok
}
