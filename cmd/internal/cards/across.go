package cards

import (
	"fmt"
	"math"
	"strconv"

	"siltstep/cmd/internal/facts"
)

// Room in a sketch, mm.
const (
	sketchHead  = 9.0 // title and scale
	sketchSide  = 3.0
	hatchApart  = 1.7
	labelLift   = 1.2 // of letters above a line
	besideDamM  = 1.2 // least land shown beside the ends of a dam, m
	levelNearM  = 0.0015
	acrossFoot  = 8.0  // dimension below the bed
	acrossAbove = 11.0 // dimension above the top
)

// sketchBox draws the frame of a sketch with its title.
func (d *document) sketchBox(x, y, w, h float64, title, scale string) {
	d.box(0.25, white, x, y, w, h)
	d.text(x+1.5, y+3.8, plainSize, true, title)
	d.text(x+1.5, y+7.4, leastSize, false, scale)
}

// scaleText words the scale of a sketch.
func scaleText(f frame, first string) string {
	heights := "heights and widths at the same scale"
	if f.exaggeration != 1 {
		heights = "heights drawn " + strconv.FormatFloat(f.exaggeration, 'g', 3, 64) + " times"
	}
	return first + "; " + heights
}

// across draws a dam in its cross-section.
func (d *document) across(s facts.Site, x, y, w, h float64) {
	const title = "Cross-section, looking downstream"
	ground, body := groundAndBody(d.f.Sections[s.ID])
	if len(ground.xM) < 2 {
		d.sketchBox(x, y, w, h, title, "not known: measure it at the axis before you build")
		return
	}
	fromM, toM := windowAcross(s, ground, body)
	shown := ground.between(fromM, toM)
	low, high := shown.bounds()
	if top := float64(s.DamTopM); s.DamTopM.Known() {
		high = max(high, top)
	}
	high = min(high, max(low+2.5*float64(s.EffectiveHeightM), float64(s.BedM+known(s.BankHeightM, 0)), float64(known(s.DamTopM, s.NotchSillM)))+0.3)
	low -= float64(known(s.KeyBedM, 0))
	f := fit(x+sketchSide, y+sketchHead+acrossAbove, w-2*sketchSide, h-sketchHead-acrossAbove-acrossFoot, fromM, toM, low, high)
	d.sketchBox(x, y, w, h, title, scaleText(f, "left bank at the left"))
	d.inside(x, y+sketchHead, w, h-sketchHead, func() {
		d.body(f, body, ground)
		d.keys(f, s, body, ground)
		d.path(0.6, black, shown.spots(f))
	})
	d.acrossDimensions(f, s, body, y+sketchHead, y+h)
}

// known returns a figure, or another where it is not known.
func known(x, otherwise facts.Num) facts.Num {
	if x.Known() {
		return x
	}
	return otherwise
}

// groundAndBody takes a cross-section apart.
func groundAndBody(section facts.Section) (ground, body curve) {
	for _, p := range section {
		if !math.IsNaN(p.GroundM) {
			ground.add(p.OffsetM, p.GroundM)
		}
		if !math.IsNaN(p.DamM) && !math.IsNaN(p.GroundM) {
			body.add(p.OffsetM, p.DamM)
		}
	}
	return ground, body
}

// windowAcross returns which offsets are shown, m.
func windowAcross(s facts.Site, ground, body curve) (from, to float64) {
	half := float64(known(s.BankToBankM, known(s.BedWidthM, 4))) / 2
	from, to = -half, half
	if len(body.xM) > 0 {
		from, to = body.xM[0], body.xM[len(body.xM)-1]
	}
	beside := max(besideDamM, float64(known(s.KeyBankM, 0))+0.6, 0.18*(to-from))
	return max(from-beside, ground.xM[0]), min(to+beside, ground.xM[len(ground.xM)-1])
}

// body draws the rock of a dam between its crest and the ground.
func (d *document) body(f frame, body, ground curve) {
	outline := body.spots(f)
	for i := len(body.xM) - 1; i >= 0; i-- {
		outline = append(outline, f.at(body.xM[i], min(body.zM[i], ground.heightAt(body.xM[i]))))
	}
	d.hatch(hatchApart, outline)
}

// keys draws with dashes how far a dam goes into bed and banks.
func (d *document) keys(f frame, s facts.Site, body, ground curve) {
	if len(body.xM) < 2 || !s.KeyBedM.Known() || !s.KeyBankM.Known() {
		return
	}
	first, last := body.xM[0], body.xM[len(body.xM)-1]
	middle, top := (first+last)/2, max(body.zM[0], body.zM[len(body.zM)-1])
	spots := []spot{f.at(first, top), f.at(first-float64(s.KeyBankM), top)}
	for _, x := range body.xM {
		z := ground.heightAt(x)
		share := min(1, max(0, (z-float64(s.BedM))/max(top-float64(s.BedM), levelNearM)))
		side := math.Copysign(float64(s.KeyBankM)*share, x-middle)
		spots = append(spots, f.at(x+side, z-float64(s.KeyBedM)*(1-share)))
	}
	spots = append(spots, f.at(last+float64(s.KeyBankM), top), f.at(last, top))
	d.dashed(1.2, 0.8, func() { d.path(0.3, black, spots) })
}

// acrossDimensions writes the widths and heights that a crew sets out.
func (d *document) acrossDimensions(f frame, s facts.Site, body curve, top, foot float64) {
	d.text(f.x, top+3, leastSize, false, "left bank")
	d.textRight(f.x+f.w, top+3, leastSize, false, "right bank")
	if len(body.xM) == 0 {
		d.textMid(f.x+f.w/2, foot-2, leastSize, false, "dam not known here: "+d.length(s.EffectiveHeightM, 2)+" from bed to sill")
		return
	}
	first, last := f.along(body.xM[0]), f.along(body.xM[len(body.xM)-1])
	d.span(first, last, foot-2)
	d.textMid((first+last)/2, foot-2-labelLift, leastSize, false, "crest "+d.length(s.CrestLengthM, 2)+", key "+d.length(s.KeyBankM, 2)+" into each bank")
	left, right := sillEnds(s, body)
	damTop := f.up(float64(known(s.DamTopM, s.NotchSillM)))
	if s.NotchWidthM.Known() && right > left {
		y := damTop - 2.5
		d.span(f.along(left), f.along(right), y)
		words := fmt.Sprintf("notch %s wide, %s deep", d.length(s.NotchWidthM, 2), d.length(s.NotchDepthM, 2))
		half := d.width(leastSize, true, words)/2 + 0.5
		d.box(0, white, f.along((left+right)/2)-half, y-labelLift-2.6, 2*half, 3.2)
		d.textMid(f.along((left+right)/2), y-labelLift, leastSize, true, words)
	} else {
		d.textMid(f.x+f.w/2, damTop-3, leastSize, true, "notch "+notKnown)
	}
	d.heightLabel(f, f.along((left+right)/2), s)
}

// heightLabel draws the height of the sill over the bed on a white ground.
func (d *document) heightLabel(f frame, x float64, s facts.Site) {
	bed, sill := f.up(float64(s.BedM)), f.up(float64(s.NotchSillM))
	words := d.length(s.EffectiveHeightM, 2)
	wide := d.width(leastSize, true, words)
	middle := (bed + sill) / 2
	d.box(0, white, x-1.6, sill+0.3, 3.2, bed-sill-0.6)
	d.rise(x, bed, sill)
	d.box(0, white, x+1.8, middle-1.7, wide+1, 3.4)
	d.text(x+2.3, middle+1, leastSize, true, words)
}

// sillEnds returns where the sill of a notch begins and ends, offsets in m.
func sillEnds(s facts.Site, body curve) (left, right float64) {
	left, right = math.Inf(1), math.Inf(-1)
	for i, z := range body.zM {
		if math.Abs(z-float64(s.NotchSillM)) < levelNearM {
			left, right = min(left, body.xM[i]), max(right, body.xM[i])
		}
	}
	if right < left {
		return 0, 0
	}
	return left, right
}
