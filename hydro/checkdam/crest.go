package checkdam

import "math"

// Rise is a place across a dam: the ground and the crest above it.
type Rise struct {
	OffsetM         float64 // from left to right looking downstream
	GroundM, CrestM float64 // above the lowest point of the section
}

// Across returns the dam as it stands in its section, for drawings and stakes: the ground below it and its crest, wings and notch, or a
// level line at the sill where no notch is known. Each stretch runs from where the crest leaves the ground, or the section ends, to where
// it meets it again; there are several where the ground stands above the crest between. Within a stretch there is a place wherever ground
// or crest bends, so that both are straight between; where one is upright there are two places at one offset.
func (d *Design) Across() [][]Rise {
	if s := d.Request.Section; d.Notch != nil {
		return standing(s.points, notchedCrest(s, d.Request.HeightM, *d.Notch))
	}
	return standing(d.Request.Section.points, levelCrest(d.Request.Section, d.Request.HeightM))
}

// LevelAt returns the level of a line at an offset, straight between its points, which may be NaN; NaN beyond its ends and for fewer
// than two points. Where the line is upright it is the level on the left.
func LevelAt(line []Point, offsetM float64) float64 {
	for i := 1; i < len(line); i++ {
		p, q := line[i-1], line[i]
		switch {
		case offsetM < p.OffsetM || offsetM > q.OffsetM || p.OffsetM == q.OffsetM:
			continue
		case offsetM == p.OffsetM:
			return p.LevelM
		case offsetM == q.OffsetM:
			return q.LevelM
		}
		return p.LevelM + (q.LevelM-p.LevelM)*(offsetM-p.OffsetM)/(q.OffsetM-p.OffsetM)
	}
	return math.NaN()
}

// standing returns the stretches of a crest that stand above the ground.
func standing(ground, crest []Point) [][]Rise {
	var all [][]Rise
	var run []Rise
	add := func(r Rise) {
		if n := len(run); n == 0 || run[n-1] != r {
			run = append(run, r)
		}
	}
	end := func() {
		if len(run) > 1 {
			all = append(all, run)
		}
		run = nil
	}
	at := breaks(ground, crest)
	for i := 1; i < len(at); i++ {
		mid := (at[i-1] + at[i]) / 2
		place := func(x float64) Rise { return Rise{x, levelWithin(ground, x, mid), levelWithin(crest, x, mid)} }
		a, b := place(at[i-1]), place(at[i])
		from, to := a.CrestM-a.GroundM, b.CrestM-b.GroundM
		if from <= 0 && to <= 0 {
			end()
			continue
		}
		meet := a.OffsetM + (b.OffsetM-a.OffsetM)*from/(from-to) // where they are level, if they are
		switch {
		case from <= 0:
			end()
			m := place(meet)
			add(Rise{meet, m.CrestM, m.CrestM})
			add(b)
		case to <= 0:
			add(a)
			m := place(meet)
			add(Rise{meet, m.CrestM, m.CrestM})
			end()
		default:
			add(a)
			add(b)
		}
	}
	end()
	return all
}
