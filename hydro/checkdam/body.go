package checkdam

import "slices"

// Body is the shape of a dam along the flow.
type Body struct {
	CrestWidthM float64 // thickness of the crest along the flow
	FaceUp      float64 // upstream face, horizontal run a metre of height
	FaceDown    float64 // downstream face
}

// meanFace returns the mean of both faces.
func (b Body) meanFace() float64 { return (b.FaceUp + b.FaceDown) / 2 }

// LengthM returns how far a body of some height reaches along the flow at its base.
func (b Body) LengthM(heightM float64) float64 {
	return b.CrestWidthM + 2*b.meanFace()*heightM
}

// VolumeM3 returns the rock of a body whose crest runs along a polyline over a section: the sum over the width of w·h + m·h²,
// h being the crest above the ground, w the crest width and m the mean face. Exact for straight pieces. A crest in or below the
// ground gives 0; beyond its ends there is none. For a level crest over a trapezoid it is b(wh + mh²) + 2z(wh²/2 + mh³/3).
func (b Body) VolumeM3(s Section, crest []Point) float64 {
	sum := 0.0
	at := breaks(s.points, crest)
	for i := 1; i < len(at); i++ {
		left, right := at[i-1], at[i]
		mid := (left + right) / 2
		if right <= left {
			continue
		}
		// Ends are taken from inside the piece, so that an upright bank or side counts on its own side only.
		end := func(x float64) float64 {
			return levelWithin(crest, x, mid) - levelWithin(s.points, x, mid)
		}
		sum += wet(right-left, end(left), end(right), func(l, h0, h1 float64) float64 {
			return l * (b.CrestWidthM*(h0+h1)/2 + b.meanFace()*(h0*h0+h0*h1+h1*h1)/3)
		})
	}
	return sum
}

// breaks returns the offsets at which either line bends and both exist, ascending, each once.
func breaks(a, b []Point) []float64 {
	lo, hi := max(a[0].OffsetM, b[0].OffsetM), min(a[len(a)-1].OffsetM, b[len(b)-1].OffsetM)
	var at []float64
	for _, line := range [2][]Point{a, b} {
		for _, p := range line {
			if p.OffsetM >= lo && p.OffsetM <= hi {
				at = append(at, p.OffsetM)
			}
		}
	}
	slices.Sort(at)
	return slices.Compact(at)
}

// levelWithin returns the level of a line at x, read on the piece that holds the place inside.
func levelWithin(line []Point, x, inside float64) float64 {
	for i := 1; i < len(line); i++ {
		p, q := line[i-1], line[i]
		if p.OffsetM <= inside && inside <= q.OffsetM && q.OffsetM > p.OffsetM {
			return p.LevelM + (q.LevelM-p.LevelM)*(x-p.OffsetM)/(q.OffsetM-p.OffsetM)
		}
	}
	return line[len(line)-1].LevelM
}

// levelCrest returns a level crest over the whole of a section.
func levelCrest(s Section, heightM float64) []Point {
	return []Point{{s.points[0].OffsetM, heightM}, {s.points[len(s.points)-1].OffsetM, heightM}}
}

// parabolaPieces is how many straight pieces stand for a side of a parabolic notch.
const parabolaPieces = 16

// notchedCrest returns the crest of a dam: level wings, and the notch over the middle of the bed.
func notchedCrest(s Section, heightM float64, n Notch) []Point {
	top, middle, half := heightM+n.DepthM, s.BedMiddleM(), n.opensM()/2
	crest := []Point{{min(s.points[0].OffsetM, middle-half), top}}
	switch n.Shape {
	case Parabolic:
		for k := -parabolaPieces; k <= parabolaPieces; k++ {
			share := float64(k) / parabolaPieces
			crest = append(crest, Point{middle + half*share, heightM + n.DepthM*share*share})
		}
	default:
		crest = append(crest, Point{middle - half, top}, Point{middle - n.WidthM/2, heightM}, Point{middle + n.WidthM/2, heightM}, Point{middle + half, top})
	}
	return append(crest, Point{max(s.points[len(s.points)-1].OffsetM, middle+half), top})
}
