package checkdam

import (
	"fmt"
	"math"
)

// Slice is the ground across the channel at a distance upstream of a dam's axis: a trapezoid that was fitted to it.
type Slice struct {
	AlongM    float64 // from the axis upstream along the channel
	BedM      float64 // level of the bed
	BedWidthM float64 // 0 makes it a V
	SideSlope float64 // horizontal run a metre of height, mean of both banks
}

// Valley is the ground behind a dam. Between slices bed, bed width and side slope run straight; banks go on as
// high as is asked for. It may be read by several goroutines.
type Valley struct{ slices []Slice }

// NewValley returns the ground of at least two slices, the first at the axis; it keeps them. Errors: fewer, a distance that
// does not grow, a value that is below zero or not finite, no channel at all.
func NewValley(slices []Slice) (Valley, error) {
	if len(slices) < 2 {
		return Valley{}, fmt.Errorf("valley: %d cross-sections; at least 2 are needed, the first at the axis", len(slices))
	}
	if slices[0].AlongM != 0 {
		return Valley{}, fmt.Errorf("valley: the first cross-section lies %g m from the axis; it must lie at 0", slices[0].AlongM)
	}
	for i, s := range slices {
		switch {
		case !(s.BedWidthM >= 0 && s.BedWidthM <= mostM) || !(s.SideSlope >= 0 && s.SideSlope <= mostM) || !(math.Abs(s.BedM) <= 10*mostM):
			return Valley{}, fmt.Errorf("valley: cross-section %d: bed at %g m, %g m wide, side slope %g; widths and slopes of 0 to %d are taken", i+1, s.BedM, s.BedWidthM, s.SideSlope, mostM)
		case s.BedWidthM == 0 && s.SideSlope == 0:
			return Valley{}, fmt.Errorf("valley: cross-section %d: bed width 0 m between upright banks: there is no channel", i+1)
		case i > 0 && !(s.AlongM > slices[i-1].AlongM && s.AlongM < math.MaxFloat64):
			return Valley{}, fmt.Errorf("valley: cross-section %d at %g m does not lie above the one before, at %g m", i+1, s.AlongM, slices[i-1].AlongM)
		}
	}
	return Valley{slices}, nil
}

// Room is the part of a valley below a surface.
type Room struct {
	VolumeM3 float64
	AreaM2   float64 // of the surface, seen from above
	SideM2   float64 // seen from the side, at the bed: depth times length
	LengthM  float64 // from the axis to its upper end
	Open     bool    // it ends where the valley does, and would go on
}

// Below returns the room between the bed and a surface that stands heightM above the bed at the axis and, where the bed rises by
// r, rises by ratio·r: 0 is a pond, up to under 1 a full wedge of silt. It ends where the surface meets the bed or, if
// that is nearer, toM upstream of the axis, at the toe of the next dam; +Inf is no limit. Nothing for a height or toM of
// 0 or below, or NaN. Prismoidal: L/6·(A₀ + 4A½ + A₁) between slices, A½ that of the shape midway, which is exact for
// widths, side slopes and depths that run straight. For a prism of b, z, H and k = slope·(1 − ratio) it is
// bH²/(2k) + zH³/(3k). Cost: linear in the slices.
func (v Valley) Below(heightM, ratio, toM float64) Room {
	return v.below(heightM, 1-ratio, 0, 0, toM)
}

// BodyM3 returns what the upstream half of a dam's body takes of the room below its sill, to toM: half of the crest, then
// the face down to the bed as it rises. On a prism of slope t, without a crest, it is (bH²/2 + zH³/3)·μ/(1 + μt), μ being the face.
func (v Valley) BodyM3(b Body, heightM, toM float64) float64 {
	if b.FaceUp <= 0 {
		return v.below(heightM, 1, 0, 0, min(toM, b.CrestWidthM/2)).VolumeM3
	}
	return v.below(heightM, 1, b.CrestWidthM/2, 1/b.FaceUp, toM).VolumeM3
}

// below measures the room where the depth is heightM − share·(rise of the bed) and, beyond fromM, falls by fall more a metre.
func (v Valley) below(heightM, share, fromM, fall, toM float64) Room {
	var r Room
	if !(heightM > 0) || !(toM > 0) {
		return r
	}
	at, depth := v.slices[0], heightM
	bed0 := at.BedM
	for i := 1; i < len(v.slices); {
		last, next := v.slices[i-1], v.slices[i]
		nextM := min(next.AlongM, toM)
		if fall > 0 && at.AlongM < fromM {
			nextM = min(nextM, fromM)
		}
		if nextM < next.AlongM {
			next = last.toward(next, nextM)
		} else {
			i++
		}
		deep := heightM - share*(next.BedM-bed0) - fall*max(0, next.AlongM-fromM)
		dry := deep <= 0
		if dry {
			next = at.toward(next, at.AlongM+(next.AlongM-at.AlongM)*depth/(depth-deep))
			deep = 0
			if !(next.AlongM > at.AlongM) { // less than rounding tells
				return r
			}
		}
		mid := at.toward(next, (at.AlongM+next.AlongM)/2)
		sixth := (next.AlongM - at.AlongM) / 6
		r.VolumeM3 += sixth * (at.areaM2(depth) + 4*mid.areaM2((depth+deep)/2) + next.areaM2(deep))
		r.AreaM2 += sixth * (at.widthM(depth) + 4*mid.widthM((depth+deep)/2) + next.widthM(deep))
		r.SideM2 += 3 * sixth * (depth + deep)
		r.LengthM = next.AlongM
		if dry || next.AlongM >= toM {
			return r
		}
		at, depth = next, deep
	}
	r.Open = true
	return r
}

// toward returns the slice between two at a distance, straight between.
func (s Slice) toward(t Slice, alongM float64) Slice {
	share := (alongM - s.AlongM) / (t.AlongM - s.AlongM)
	return Slice{alongM, s.BedM + share*(t.BedM-s.BedM), s.BedWidthM + share*(t.BedWidthM-s.BedWidthM), s.SideSlope + share*(t.SideSlope-s.SideSlope)}
}

// areaM2 and widthM are those below a depth, not below zero.
func (s Slice) areaM2(depthM float64) float64 { return (s.BedWidthM + s.SideSlope*depthM) * depthM }
func (s Slice) widthM(depthM float64) float64 { return s.BedWidthM + 2*s.SideSlope*depthM }
