package hydro

import (
	"math"
	"testing"

	"siltstep/hydro/checkdam"

	"pgregory.net/rapid"
)

func TestFillTimeLineByHand(t *testing.T) {
	// Likely: √(0.5·2) = 1 m³/ha, half of it kept. The upper dam, a series of its own, is given 1 m³ a year of 2 ha and holds 4; the lower
	// one 0.5 of its own hectare, and all 1.5 once the upper one is full after 4 years.
	dams := []siltTrap{{10, 1}, {4, 2}}
	got := fillingOf(dams, []int{1, 2}, 2, checkdam.Yield{LowM3PerHa: 0.5, HighM3PerHa: 2})
	want := []Filling{ // after 1, 2, 5, 10, 20 years
		{Series: 1, RoomM3: 10, Likely: 0.05}, {Series: 1, RoomM3: 10, Likely: 0.1}, {Series: 1, RoomM3: 10, Likely: 0.35}, {Series: 1, RoomM3: 10, Likely: 1}, {Series: 1, RoomM3: 10, Likely: 1},
		{Series: 2, RoomM3: 4, Likely: 0.25}, {Series: 2, RoomM3: 4, Likely: 0.5}, {Series: 2, RoomM3: 4, Likely: 1}, {Series: 2, RoomM3: 4, Likely: 1}, {Series: 2, RoomM3: 4, Likely: 1},
		{Series: 0, RoomM3: 14, Likely: 1.5 / 14}, {Series: 0, RoomM3: 14, Likely: 3.0 / 14}, {Series: 0, RoomM3: 14, Likely: 7.5 / 14}, {Series: 0, RoomM3: 14, Likely: 1}, {Series: 0, RoomM3: 14, Likely: 1},
	}
	if len(got) != len(want) {
		t.Fatalf("%d rows, want %d", len(got), len(want))
	}
	for i, w := range want {
		g := got[i]
		if g.Series != w.Series || g.Years != fillYears[i%5] || g.RoomM3 != w.RoomM3 || math.Abs(g.Likely-w.Likely) > 1e-9 {
			t.Errorf("row %d: %+v, want %+v", i, g, w)
		}
	}
	// The first year: at least 0.5 m³/ha, 20 % kept, of 3 ha; at most 2 m³/ha and 80 %: 0.3 and 4.8 of 14 m³, 3.2 of the upper dam's 4.
	if all := got[10]; math.Abs(all.Low-0.3/14) > 1e-9 || math.Abs(all.High-4.8/14) > 1e-9 {
		t.Errorf("all after a year: %+v", all)
	}
	if none := fillingOf([]siltTrap{{0, 1}}, []int{1}, 1, checkdam.Yield{LowM3PerHa: 1, HighM3PerHa: 2}); none != nil {
		t.Errorf("no room: %+v", none)
	}
}

// Whatever the dams, nothing is more than full, low is no more than likely and that no more than high, and all rise with the years.
func TestNothingIsMoreThanFull(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		dams := drawDams(t)
		series, last := make([]int, len(dams)), 1
		for k := range series {
			if k > 0 && rapid.Bool().Draw(t, "next") {
				last++
			}
			series[k] = last
		}
		y := checkdam.Yield{LowM3PerHa: rapid.Float64Range(0.01, 3).Draw(t, "low")}
		y.HighM3PerHa = y.LowM3PerHa * rapid.Float64Range(1, 20).Draw(t, "times")
		land := 0.0
		for _, d := range dams {
			land += d.landHa
		}
		var before Filling
		for _, f := range fillingOf(dams, series, last, y) {
			if !(0 <= f.Low && f.Low <= f.Likely && f.Likely <= f.High && f.High <= 1) {
				t.Fatalf("%+v", f)
			}
			if f.Series == before.Series && f.RoomM3 == before.RoomM3 && f.Years > before.Years && (f.Low < before.Low || f.Likely < before.Likely || f.High < before.High) {
				t.Fatalf("%+v after %+v", f, before)
			}
			if most := land * y.HighM3PerHa * f.Years; f.High*f.RoomM3 > most*(1+1e-9)+1e-12 {
				t.Fatalf("%+v holds more than the %g m³ that came", f, most)
			}
			before = f
		}
	})
}

// Polyakov2014: 37 dams on catchments of 4.0 and 3.1 ha kept 75 t in four years, half of the sediment yield, and were more than 80 %
// full: 2.0 t a dam, so that each had room for 75/37/0.8 = 2.5 t. How they and the land lay is not told: here they lie along two lines with
// the same land to each, 21 on the larger.
//
// Of this the yield, twice 2.64 t/ha a year, the share and the room come from the same 75 t: that they give 75 t again shows that
// the share is that of a whole set of dams, and nothing else. The second row has a yield measured elsewhere in the same
// country (M. H. Nichols, 2006: at eight ponds of 35 to 160 ha 0.5 to 3.0, in the mean 1.4 m³/ha a year) at 1.3 t/m³: an order of magnitude, and no more was asked.
func TestFillingOfThirtySevenDams(t *testing.T) {
	const keptT, years, roomT = 75.0, 4.0, 75.0 / 37 / 0.8
	kept := func(tPerHa, share float64) float64 {
		sum := 0.0
		for _, set := range []struct {
			dams int
			ha   float64
		}{{21, 4.0}, {16, 3.1}} {
			dams := make([]siltTrap, set.dams)
			for k := range dams {
				dams[k] = siltTrap{roomT, set.ha / float64(set.dams)}
			}
			for _, t := range keptM3(dams, silt{tPerHa, share}, []float64{years})[0] {
				sum += t
			}
		}
		return sum
	}
	yieldT := 2 * keptT / years / (4.0 + 3.1) // 2·2.64 t/ha a year
	if math.Abs(yieldT-5.28) > 0.005 {
		t.Errorf("yield %g t/ha a year, by hand 5.28", yieldT)
	}
	if got := kept(yieldT, checkdam.TrapShare); math.Abs(got-keptT) > 0.01*keptT {
		t.Errorf("with their own yield %g t, measured %g", got, keptT)
	}
	if low, high := kept(yieldT, checkdam.TrapShareLow), kept(yieldT, checkdam.TrapShareHigh); !(low < 0.5*keptT && high > keptT && high <= 37*roomT*(1+1e-9)) {
		t.Errorf("with their own yield %g to %g t", low, high)
	}
	likely, high := kept(1.4*1.3, checkdam.TrapShare), kept(3.0*1.3, checkdam.TrapShareHigh)
	if !(likely > keptT/10 && likely < keptT*10) || !(high > keptT/2) {
		t.Errorf("with the yield of other catchments %g t, at most %g; measured %g", likely, high, keptT)
	}
	t.Logf("kept in 4 years, t: measured %g; own yield %.1f; other catchments %.1f, at most %.1f", keptT, kept(yieldT, checkdam.TrapShare), likely, high)
}
