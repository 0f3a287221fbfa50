package channel

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// sideOf returns a side with given heights in millimetres, the first of which is that of the thalweg.
func sideOf(mm ...int32) *side {
	s := newSide(len(mm))
	s.load(mm, 0, 1)
	return &s
}

// fit returns the best fit of three parts with a given toe and top.
func (s *side) fit(toe, top float64, n int) (h hinge, ok bool) {
	return s.fitFrom(toe, s.beyond(toe, n), top, s.beyond(top, n), n)
}

func TestHingeClosedForm(t *testing.T) {
	// Bed to 2, then 300 mm a step to 6, then 50 mm a step: three straight parts exactly.
	s := sideOf(0, 0, 0, 300, 600, 900, 1200, 1250, 1300, 1350, 1400)
	h, ok := s.fit(2, 6, 11)
	if !ok || math.Abs(h.bedM) > 1e-9 || math.Abs(h.bank-0.3) > 1e-9 || math.Abs(h.ground-0.05) > 1e-9 || h.squares > 1e-9 { // rounding only
		t.Errorf("%+v, %v; want bed 0, bank 0.3, ground 0.05, no difference", h, ok)
	}
	if r := h.riseM(); math.Abs(r-1.2) > 1e-9 {
		t.Errorf("rise %v, want 1.2", r)
	}
	b := s.findBank(0.5, leastErrorM)
	if !b.found || math.Abs(b.toe-2) > 0.13 || math.Abs(b.top-6) > 0.13 { // half of the last step of 0.25 samples
		t.Errorf("found %+v, want toe 2 and top 6", b)
	}
}

// hingeAt returns the height of a hinge at an offset.
func (h hinge) at(i float64) float64 {
	return h.bedM + h.bank*max(0, i-h.toe) - (h.bank-h.ground)*max(0, i-h.top)
}

func (h hinge) squaresOf(z []float64) (sum float64) {
	for i, v := range z {
		d := v - h.at(float64(i))
		sum += d * d
	}
	return sum
}

func TestHingeIsTheBestFit(t *testing.T) {
	// Against its own sum of squares, sample by sample, and against hinges a little off.
	rapid.Check(t, func(r *rapid.T) {
		mm := rapid.SliceOfN(rapid.Int32Range(-2000, 2000), 8, 30).Draw(r, "mm")
		s := sideOf(mm...)
		n := len(mm)
		toe := rapid.Float64Range(0, float64(n)-6).Draw(r, "toe")
		top := rapid.Float64Range(toe+2, float64(n)-4).Draw(r, "top")
		h, ok := s.fit(toe, top, n)
		if !ok {
			r.Fatalf("no fit for toe %v, top %v of %d", toe, top, n)
		}
		if got := h.squaresOf(s.z); math.Abs(got-h.squares) > 1e-7*(1+got) { // rounding: of sums up to 30²·4
			r.Fatalf("squares %v, sample by sample %v", h.squares, got)
		}
		for _, off := range [][3]float64{{0.01, 0, 0}, {-0.01, 0, 0}, {0, 0.01, 0}, {0, -0.01, 0}, {0, 0, 0.01}, {0, 0, -0.01}} {
			o := h
			o.bedM, o.bank, o.ground = h.bedM+off[0], h.bank+off[1], h.ground+off[2]
			if o.squaresOf(s.z) < h.squares-1e-7 {
				r.Fatalf("%+v fits better than %+v", o, h)
			}
		}
	})
}

func TestLineOfASide(t *testing.T) {
	s := sideOf(0, 100, 250, 400, 550, 600)
	if at, slope, ok := s.line(1.5, 4.2, 3); !ok || math.Abs(slope-0.15) > 1e-9 || math.Abs(at+0.05) > 1e-9 { // rounding only
		t.Errorf("line %v + %v·i, %v; want −0.05 + 0.15·i through samples 2 to 4", at, slope, ok)
	}
	if _, _, ok := s.line(1.5, 4.2, 4); ok {
		t.Error("a line through three samples where four are asked for")
	}
	if _, _, ok := s.line(3, 99, 3); !ok {
		t.Error("no line though three samples are left")
	}
}

func TestSideEndsAtAVoid(t *testing.T) {
	s := newSide(4)
	mm := []int32{7, 5, math.MinInt32, 0, 4, 9}
	if s.load(mm, 3, 1); len(s.z) != 3 || !s.complete || s.z[2] != 0.009 {
		t.Errorf("right side %v, complete %v; want 0, 0.004, 0.009", s.z, s.complete)
	}
	if s.load(mm, 3, -1); len(s.z) != 1 || s.complete {
		t.Errorf("left side %v, complete %v; want the thalweg alone", s.z, s.complete)
	}
}
