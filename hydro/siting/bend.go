package siting

import "math"

// Over what a bend is told: the circle through a station and the points this far up and down the channel line.
// The steps that a grid leaves in the smoothed line of a straight channel are under half a cell to a side: over 3 cells they make
// a radius of 3²/(2·½) = 9 cells at least, and far more over longer chords. Source: our own choice.
const (
	bendChordM     = 5.0 // m
	bendChordCells = 3.0
)

// bendChord returns how far up and down the channel line a bend is told, m. A chord no shorter than the limit asks
// whether the line turns by over 60° within it.
func bendChord(cellM, limitM float64) float64 {
	return max(bendChordM, bendChordCells*cellM, limitM)
}

// radiusM returns the radius of the bend at station i in metres; infinite where the line is straight, or where it ends
// nearer than the chord and no bend can be told.
func (j *judge) radiusM(i int) float64 {
	s := j.bed.stations[i].StationM
	if s-j.chordM < 0 || s+j.chordM > j.bed.lengthM() {
		return math.Inf(1)
	}
	downX, downY := j.bed.xy(s - j.chordM)
	upX, upY := j.bed.xy(s + j.chordM)
	x, y := j.bed.stations[i].X, j.bed.stations[i].Y
	return circleM(downX-x, downY-y, upX-x, upY-y)
}

// circleM returns the radius of the circle through the origin and two points: the product of the three sides over four
// times the area. Infinite where they lie on a line; 0 where the two points fall together, the line turning back on itself.
func circleM(ax, ay, bx, by float64) float64 {
	a, b, c := math.Hypot(ax, ay), math.Hypot(bx, by), math.Hypot(ax-bx, ay-by)
	if c == 0 {
		return 0
	}
	return a * b * c / (2 * math.Abs(ax*by-ay*bx))
}
