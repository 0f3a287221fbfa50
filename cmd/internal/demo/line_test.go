package demo

import "testing"

func TestDrawLineStepsByMetres(t *testing.T) {
	at := []spot{{0, 0}, {4, 0}, {8, 4}, {12, 8}, {12, 12}, {12, 16}, {16, 20}}
	l := drawLine(at, []float64{1, 2, 3, 4, 5, 6, 7})
	for k := 1; k < len(l.at); k++ {
		// A chord across a bend is a little shorter than the metre along it.
		if d := l.at[k].minus(l.at[k-1]).length(); d > 1+1e-9 || d < 0.97 {
			t.Errorf("step %d is %.4f m", k, d)
		}
		if l.areaM2[k] < l.areaM2[k-1] {
			t.Errorf("catchment shrinks at %d", k)
		}
	}
	if d := at[len(at)-1].minus(l.at[l.length()]).length(); l.at[0] != at[0] || d >= 1 {
		t.Errorf("runs from %v to %v", l.at[0], l.at[l.length()])
	}
}
