package cards

import (
	"siltstep/cmd/internal/facts"

	"github.com/paulmach/orb"
)

// Measures of the maps, mm.
const (
	leastMap  = 45.0 // height of the overview below which it gets a page of its own
	damBar    = 1.6  // half of the bar that stands for a dam
	panelHead = 5.0
	mapRoom   = 20.0 // around what a map shows
)

// overview draws all channels with the series, in a rectangle or, where that is too low, on a page of its own.
func (d *document) overview(x, y, w, h float64) {
	bound, ok := d.mapBound()
	if !ok {
		return
	}
	if h < leastMap {
		d.coverPage("map")
		y, h = margin, d.bottom()-margin
	}
	d.text(x, y+3, headSize, true, "Map: "+d.f.Grid.CRS+", grid north up")
	l := newLand(bound, x, y+panelHead, w, h-panelHead-1, mapRoom)
	d.box(0.3, white, l.x, l.y, l.w, l.h)
	taken := &labels{}
	d.inside(l.x, l.y, l.w, l.h, func() {
		d.channelLines(l)
		for _, r := range d.runs {
			for _, s := range r.dams {
				d.damBar(l, s, 0.6)
			}
		}
		d.gridMarks(l)
	})
	d.northMark(l)
	d.scaleBars(l, 40)
	taken.furniture(l, 60)
	d.keepWorks(l, taken)
	for _, r := range d.runs {
		if top := highestOf(r); top != nil {
			d.runLabel(l, r, *top, taken)
		}
	}
	d.channelNames(l, taken)
}

// keepWorks holds dams and the channels that have them free of letters.
func (d *document) keepWorks(l land, taken *labels) {
	with := map[string]bool{}
	for _, s := range d.f.Sites {
		with[s.Drainage] = true
		if p, ok := placeOf(s); ok {
			taken.keep(l.at(p), damBar)
		}
	}
	for _, c := range d.lines {
		if with[c.id] {
			for _, p := range l.spots(c.line) {
				taken.keep(p, 0.3)
			}
		}
	}
}

// runLabel names a series and its dams beside its highest dam.
func (d *document) runLabel(l land, r run, top facts.Site, taken *labels) {
	p, ok := placeOf(top)
	if !ok {
		return
	}
	words := r.ID
	if n := len(r.dams); n > 1 {
		words += ": " + shortName(r.dams[0]) + "–" + shortName(r.dams[n-1])
	} else {
		words += ": " + shortName(r.dams[0])
	}
	d.place(l, l.at(p), words, true, taken, 30)
}

// channelLines draws the drainages, those with dams stronger.
func (d *document) channelLines(l land) {
	with := map[string]bool{}
	for _, s := range d.f.Sites {
		with[s.Drainage] = true
	}
	for _, c := range d.lines {
		if !l.shows(c.bound) {
			continue
		}
		if with[c.id] {
			d.path(0.5, black, l.spots(c.line))
		} else {
			d.path(0.2, darkGrey, l.spots(c.line))
		}
	}
}

// channelNames names drainages at their upper ends where there is room, the largest first.
func (d *document) channelNames(l land, taken *labels) {
	for _, c := range d.lines {
		if end := l.at(c.line[len(c.line)-1]); l.holds(end) {
			d.place(l, end, c.id, false, taken, 5)
		}
	}
}

// damBar draws a dam as a bar across its channel.
func (d *document) damBar(l land, s facts.Site, size float64) {
	p, ok := placeOf(s)
	if !ok || !l.holds(l.at(p)) {
		return
	}
	way, here := d.acrossOf(s), l.at(p)
	d.line(0.7*size, black, here.X-way[0]*damBar*size, here.Y+way[1]*damBar*size, here.X+way[0]*damBar*size, here.Y-way[1]*damBar*size)
}

// manyDams is how many dams need a map as wide as the paper.
const manyDams = 16

// seriesMaps draws every series large enough to read the numbers of its dams: two maps side by side and three rows a page, then those
// with many dams, two a page.
func (d *document) seriesMaps() {
	half := (d.inner() - partGap) / 2
	d.panels(false, half, 2, 3)
	d.panels(true, d.inner(), 1, 2)
}

// panels draws the maps of the series with many dams or of the others, in columns and rows.
func (d *document) panels(many bool, w float64, cols, rows int) {
	const head = 7.0
	h := (d.bottom() - margin - head) / float64(rows)
	n := 0
	for _, r := range d.runs {
		bound, ok := boundOf(r)
		if !ok || (len(r.dams) > manyDams) != many {
			continue
		}
		at := n % (cols * rows)
		if at == 0 {
			d.coverPage("maps of the series")
			d.text(margin, margin+4, headSize, true, "Series, each from its lowest dam upstream: "+d.f.Grid.CRS+", grid north up")
		}
		d.panel(r, bound, margin+float64(at%cols)*(w+partGap), margin+head+float64(at/cols)*h, w, h-partGap)
		n++
	}
}

// boundOf returns the land of a series.
func boundOf(r run) (b orb.Bound, ok bool) {
	for _, s := range r.dams {
		if p, known := placeOf(s); known {
			b, ok = grown(b, p.Bound(), ok), true
		}
	}
	return b, ok
}

// panel draws the map of one series with the numbers of its dams.
func (d *document) panel(r run, bound orb.Bound, x, y, w, h float64) {
	d.text(x, y+3.4, plainSize, true, titleOf(r))
	l := newLand(bound, x, y+panelHead, w, h-panelHead, mapRoom)
	d.box(0.3, white, l.x, l.y, l.w, l.h)
	d.inside(l.x, l.y, l.w, l.h, func() {
		d.channelLines(l)
		for _, o := range d.f.Sites {
			if o.Drainage != r.Drainage || o.Series != r.Number {
				d.damBar(l, o, 0.6)
			}
		}
		for _, s := range r.dams {
			d.damBar(l, s, 1)
		}
		d.gridMarks(l)
	})
	d.northMark(l)
	d.scaleBars(l, 22)
	taken := &labels{}
	taken.furniture(l, 38)
	for _, s := range r.dams {
		if p, ok := placeOf(s); ok {
			taken.keep(l.at(p), damBar/2)
		}
	}
	for _, i := range inTurn(len(r.dams)) {
		if p, ok := placeOf(r.dams[i]); ok {
			d.numberDam(l, r.dams[i], p, i, taken)
		}
	}
}

// numberDam writes the number of a dam beside its bar, on alternating sides, farther out where the near place is taken.
func (d *document) numberDam(l land, s facts.Site, p orb.Point, i int, taken *labels) {
	way, here := d.acrossOf(s), l.at(p)
	words := shortName(s)
	side := 1.0
	if i%2 == 1 {
		side = -1
	}
	wide := d.width(leastSize, true, words)
	for _, far := range []float64{4, -4, 7.5, -7.5} {
		reach := far * side
		at := spot{X: here.X + way[0]*reach, Y: here.Y - way[1]*reach}
		b := rect{at.X - wide/2 - 0.2, at.Y - 1.3, at.X + wide/2 + 0.2, at.Y + 1.3}
		if !b.within(l) || taken.hit(b) {
			continue
		}
		taken.add(b)
		if far > 4 || far < -4 {
			d.line(0.1, darkGrey, here.X+way[0]*side*sign(far)*damBar, here.Y-way[1]*side*sign(far)*damBar, here.X+way[0]*(reach-sign(reach)*1.6), here.Y-way[1]*(reach-sign(reach)*1.6))
		}
		d.textMid(at.X, at.Y+1, leastSize, true, words)
		return
	}
}
