package cards

import (
	"math"

	"siltstep/cmd/internal/facts"
)

// Limits of the part of a channel that a sketch shows, m.
const (
	leastReachM = 5.0
	mostReachM  = 30.0
	pastDam     = 0.18 // of the distance to a neighbour, shown beyond it
)

// along draws the bed at a dam, its neighbours and their wedges.
func (d *document) along(r run, i int, x, y, w, h float64) {
	const title = "Along the channel, water runs to the left"
	s := r.dams[i]
	bed := d.bedOf(s.Drainage)
	if len(bed.xM) < 2 {
		d.sketchBox(x, y, w, h, title, "not known: level the bed before you build")
		return
	}
	at := float64(s.StationM)
	from, to := at-d.reachDown(r, i), at+d.reachUp(r, i)
	from, to = max(from, bed.xM[0]), min(to, bed.xM[len(bed.xM)-1])
	part := bed.between(from, to)
	low, high := part.bounds()
	high = max(high, float64(known(s.DamTopM, s.NotchSillM)))
	for _, near := range neighbours(r, i) {
		if n := r.dams[near]; float64(n.StationM) <= to {
			high = max(high, float64(n.NotchSillM))
		}
	}
	const foot, above = 14.0, 3.0
	f := fit(x+sketchSide, y+sketchHead+above, w-2*sketchSide, h-sketchHead-above-foot, from, to, low-0.15, high)
	d.sketchBox(x, y, w, h, title, scaleText(f, "distances axis to axis, dams up to their sills"))
	d.inside(x, y+sketchHead, w, h-sketchHead, func() {
		for _, near := range append(neighbours(r, i), i) {
			d.wedge(f, r.dams[near], bed)
		}
		for _, near := range neighbours(r, i) {
			d.path(0.3, black, d.dam(f, r.dams[near], bed))
		}
		d.hatch(hatchApart, d.dam(f, s, bed))
		d.apron(f, s, bed)
		d.path(0.6, black, part.spots(f))
	})
	d.alongDimensions(f, r, i, y+h)
}

// bedOf returns the bed of a drainage by station.
func (d *document) bedOf(drainage string) (bed curve) {
	for _, p := range d.f.Profiles[drainage] {
		if !math.IsNaN(p.BedM) {
			bed.add(p.StationM, p.BedM)
		}
	}
	return bed
}

// neighbours returns the dams of the run next to one.
func neighbours(r run, i int) (list []int) {
	if i > 0 {
		list = append(list, i-1)
	}
	if i+1 < len(r.dams) {
		list = append(list, i+1)
	}
	return list
}

// reachDown and reachUp return how far below and above a dam the sketch goes, m.
func (d *document) reachDown(r run, i int) float64 {
	s := r.dams[i]
	least := max(leastReachM, float64(known(s.ApronLengthM, 0))+4*float64(known(s.EffectiveHeightM, 0))+1)
	if i == 0 {
		return least
	}
	return near(float64(spacing(s, r.dams[i-1])), least)
}

func (d *document) reachUp(r run, i int) float64 {
	if i+1 == len(r.dams) {
		silt := d.siltOf(r.dams[i])
		if n := len(silt.xM); n > 0 {
			return near(silt.xM[n-1]-float64(r.dams[i].StationM), leastReachM)
		}
		return leastReachM
	}
	return near(float64(spacing(r.dams[i+1], r.dams[i])), leastReachM)
}

// near returns a distance and a little more, at least some and not too far.
func near(far, least float64) float64 {
	return min(mostReachM, max(least, (1+pastDam)*far, far+1.5))
}

// dam returns the outline of a dam along the channel up to its sill, from its downstream toe.
func (d *document) dam(f frame, s facts.Site, bed curve) []spot {
	sill, at := float64(s.NotchSillM), float64(s.StationM)
	half := float64(known(s.CrestWidthM, 0.5)) / 2
	down, up := toe(bed, at-half, sill, -1, d.faces.down), toe(bed, at+half, sill, 1, d.faces.up)
	outline := curve{}
	outline.add(at-half, sill)
	outline.add(at+half, sill)
	spots := append([]spot{f.at(down, bed.heightAt(down))}, outline.spots(f)...)
	spots = append(spots, f.at(up, bed.heightAt(up)))
	ground := bed.between(down, up)
	back := ground.spots(f)
	for i := len(back) - 2; i > 0; i-- {
		spots = append(spots, back[i])
	}
	return spots
}

// toe returns the station where a face from the crest meets the bed, m.
func toe(bed curve, x, z, way, face float64) float64 {
	if math.IsNaN(face) || face <= 0 {
		return x
	}
	const step = 0.05 // m
	for i := range 400 {
		next := x + way*step*float64(i)
		height := bed.heightAt(next)
		if math.IsNaN(height) {
			return x
		}
		if z-step*float64(i)/face <= height {
			return next
		}
	}
	return x
}

// siltOf returns the surface of the silt behind a dam when full, by station, from the sill on; empty where it is not known.
func (d *document) siltOf(s facts.Site) (top curve) {
	for _, p := range d.f.Profiles[s.Drainage] {
		begun := len(top.xM) > 0
		switch {
		case p.StationM <= float64(s.StationM):
		case math.IsNaN(p.DepositM) && begun, p.StationM > float64(s.StationM)+mostReachM, begun && p.DamID != "" && p.DamID != s.ID:
			return top
		case !math.IsNaN(p.DepositM):
			if !begun {
				top.add(float64(s.StationM), float64(s.NotchSillM))
			}
			top.add(p.StationM, p.DepositM)
		}
	}
	return top
}

// wedge draws the silt behind a dam when full.
func (d *document) wedge(f frame, s facts.Site, bed curve) {
	top := d.siltOf(s)
	if len(top.xM) == 0 {
		return
	}
	below := bed.between(float64(s.StationM), top.xM[len(top.xM)-1]).spots(f)
	outline := top.spots(f)
	for i := len(below) - 1; i >= 0; i-- {
		outline = append(outline, below[i])
	}
	d.area(paleGrey, outline)
	d.dashed(0.4, 0.6, func() { d.path(0.25, black, top.spots(f)) })
}

// apron draws the rock below a dam as a heavy line under the bed.
func (d *document) apron(f frame, s facts.Site, bed curve) {
	if !s.ApronLengthM.Known() {
		return
	}
	to := toe(bed, float64(s.StationM)-float64(known(s.CrestWidthM, 0.5))/2, float64(s.NotchSillM), -1, d.faces.down)
	spots := bed.between(to-float64(s.ApronLengthM), to).spots(f)
	for i := range spots {
		spots[i].Y += 0.8
	}
	d.path(1.6, darkGrey, spots)
}

// alongDimensions writes distances, rises and the height of the sill.
func (d *document) alongDimensions(f frame, r run, i int, foot float64) {
	s := r.dams[i]
	at := f.along(float64(s.StationM))
	decimals := d.tapeDecimals(r)
	for _, n := range neighbours(r, i) {
		o := r.dams[n]
		lower, upper := o, s
		if n > i {
			lower, upper = s, o
		}
		x := min(max(f.along(float64(o.StationM)), f.x), f.x+f.w)
		d.span(x, at, foot-6)
		from, to := min(x, at), max(x, at)
		d.fitMid(from, to, f, foot-6-labelLift, d.length(spacing(upper, lower), decimals))
		d.fitMid(from, to, f, foot-2, "rise "+d.signed(riseFrom(upper, lower)))
		if far := math.Abs(float64(o.StationM - s.StationM)); far*f.scale <= f.w {
			d.textMid(x, f.up(float64(o.NotchSillM))-1.2, leastSize, false, shortName(o))
		}
	}
	if i == 0 {
		d.text(f.x, foot-2, leastSize, false, "apron "+d.length(s.ApronLengthM, 2))
	}
	d.textMid(at, f.up(float64(s.NotchSillM))-1.2, plainSize, true, shortName(s))
}

// signed shows a rise that may be a fall.
func (d *document) signed(m facts.Num) string {
	if m < 0 {
		return "-" + d.length(-m, 2)
	}
	return d.length(m, 2)
}

// shortName is the number of a dam within its drainage.
func shortName(s facts.Site) string {
	if len(s.ID) > len(s.Drainage)+1 {
		return s.ID[len(s.Drainage)+1:]
	}
	return s.ID
}

// fitMid writes words in the middle of a stretch, moved so that they stay inside the frame.
func (d *document) fitMid(from, to float64, f frame, y float64, words string) {
	half := d.width(leastSize, false, words) / 2
	middle := min(max((from+to)/2, f.x+half), f.x+f.w-half)
	d.textMid(middle, y, leastSize, false, words)
}
