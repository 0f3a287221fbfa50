package siting

import (
	"context"
	"math"
	"testing"

	"siltstep/hydro/channel"
	"siltstep/hydro/flow"
	"siltstep/raster/rastertest"
)

// along returns a drainage with a station every stepM metres of a line told by its arc length, at 6 %.
func along(lengthM, stepM float64, line func(s float64) (x, y float64)) *channel.Drainage {
	d := drawn(lengthM, stepM, ramp(0.06))
	for i := range d.Profile.Stations {
		st := &d.Profile.Stations[i]
		st.X, st.Y = line(st.StationM)
	}
	return d
}

// onArc is a circle of some radius.
func onArc(radiusM float64) func(s float64) (x, y float64) {
	return func(s float64) (x, y float64) {
		sin, cos := math.Sincos(s / radiusM)
		return radiusM * cos, radiusM * sin
	}
}

func TestRadiusOnArcs(t *testing.T) {
	// Stations every 0.1 m: the ends of the chords lie on stations, and the circle through them is the arc itself.
	for _, radiusM := range []float64{2, 4.9, 5, 5.1, 30} {
		j := newJudge(along(16, 0.1, onArc(radiusM)), 1, Defaults(), nil, Ground{})
		if got := j.radiusM(80); math.Abs(got-radiusM) > 1e-6 {
			t.Errorf("radius %g m, want %g", got, radiusM)
		}
		if tight := j.place[80]&onBend != 0; tight != (radiusM < 5) {
			t.Errorf("radius %g m: too tight is %t", radiusM, tight)
		}
	}
}

func TestCorners(t *testing.T) {
	// Two straight legs that turn at station 20: at the corner the circle has radius 5/(2·sin(turn/2)) m, which is 5 m at 60°.
	corner := func(turnDeg float64) func(s float64) (x, y float64) {
		sin, cos := math.Sincos(turnDeg * math.Pi / 180)
		return func(s float64) (x, y float64) {
			over := max(0, s-20)
			return min(s, 20) + cos*over, sin * over
		}
	}
	for _, tt := range []struct {
		turnDeg float64
		tight   bool
	}{{0, false}, {45, false}, {59, false}, {61, true}, {90, true}, {-90, true}, {180, true}} {
		j := newJudge(along(40, 1, corner(tt.turnDeg)), 1, Defaults(), nil, Ground{})
		if got := j.place[20]&onBend != 0; got != tt.tight {
			t.Errorf("turn of %g°: radius %g m, too tight is %t", tt.turnDeg, j.radiusM(20), got)
		}
		for _, far := range []int{0, 4, 14, 26, 36, 40} {
			if j.place[far] != 0 {
				t.Errorf("turn of %g°: station %d, straight or near an end, has faults %b", tt.turnDeg, far, j.place[far])
			}
		}
	}
}

func TestStraightValleysAreNoBends(t *testing.T) {
	// V valleys of 6 % with sides of 40 %, straight, every 3 degrees: the steps that the grid leaves in their line make no bend, not
	// even within a factor of two of the limit on the coarsest cells.
	for _, cellM := range []float64{0.5, 1, 2, 5} {
		least := math.Inf(1)
		for deg := 0; deg < 180; deg += 3 {
			p := straightValley(t, cellM, float64(deg)*math.Pi/180)
			j := newJudge(&channel.Drainage{ID: "D01", Into: -1, Profile: p}, cellM, Defaults(), nil, Ground{})
			if long := 2*j.chordM + 20*cellM; p.LengthM() < long {
				t.Fatalf("cells of %g m, %d°: the line is only %.1f m long, want %g", cellM, deg, p.LengthM(), long)
			}
			for i := range p.Stations {
				least = min(least, j.radiusM(i))
			}
		}
		t.Logf("cells of %g m: least radius %.1f m", cellM, least)
		// Steps of half a cell to a side give 3²/(2·0.5) = 9 cells over the shortest chord.
		if least < max(10, 9*cellM) {
			t.Errorf("cells of %g m: a straight valley bends with a radius of %.2f m", cellM, least)
		}
	}
}

// straightValley returns the profile of a straight valley that runs through the middle of a grid.
func straightValley(t *testing.T, cellM, angle float64) channel.Profile {
	t.Helper()
	const side = 81
	sin, cos := math.Sincos(angle)
	g := rastertest.Surface(side, side, cellM, func(col, row int) int32 {
		x, y := float64(col-side/2)+0.3, float64(row-side/2)+0.2
		return int32(math.Round(1000 * cellM * (100 + 0.4*math.Abs(x*sin-y*cos) - 0.06*(x*cos+y*sin))))
	})
	f, err := flow.Run(context.Background(), g, flow.Config{}, nil)
	if err != nil {
		t.Fatal(err)
	}
	half := float64(side/2) - 3
	reach := half / max(math.Abs(cos), math.Abs(sin))
	col, row := side/2-int(math.Round(reach*cos)), side/2-int(math.Round(reach*sin))
	return channel.Downstream(g, f, row*side+col)
}
