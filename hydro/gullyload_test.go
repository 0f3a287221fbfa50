package hydro

import (
	"math"
	"testing"

	"siltstep/hydro/channel"
	"siltstep/hydro/erosion"

	"pgregory.net/rapid"
)

const ft, usTon = 0.3048, 0.90718474 // m; t, both exact

// trench returns the sections of an even channel of some length, 5 m apart.
func trench(lengthM, topM, bedM, depthM float64) []channel.Section {
	var out []channel.Section
	for m := 2.5; m < lengthM; m += 5 {
		out = append(out, channel.Section{StationM: m, Resolved: true, TopWidthM: topM, BedWidthM: bedM, DepthM: depthM, AreaM2: (topM + bedM) / 2 * depthM})
	}
	return out
}

func surveyed(lengthM float64, sections []channel.Section) *survey {
	s := &survey{lengthM: lengthM, spacingM: 5, cellM: 1, noiseM: 0.05, incisedM: 0.3}
	s.measure(sections)
	return s
}

func TestPublishedLoads(t *testing.T) {
	const lbFt3 = 0.45359237 / (ft * ft * ft) / 1000 // t/m³
	tests := []struct {
		name                    string
		lengthM, topM, bedM, dM float64
		cfg                     GullyConfig
		m3, massT, yearT        float64
	}{
		// ½(12 + 4)·5·300 = 12,000 ft³ of 85 lb are 1,020,000 lb, 510 US tons: 51 a year. The form of grant tables, from memory; the sum is ours.
		{"12, 4, 5 and 300 ft", 300 * ft, 12 * ft, 4 * ft, 5 * ft, GullyConfig{10, 85 * lbFt3, 1.3}, 339.8, 462.7, 51 * usTon},
		// ½(2.5 + 0.8)·1.2·120 = 237.6 m³.
		{"2.5, 0.8, 1.2 and 120 m", 120, 2.5, 0.8, 1.2, GullyConfig{0, 1.4, 1.3}, 237.6, 332.64, math.NaN()},
		{"too shallow to count", 120, 2.5, 0.8, 0.29, GullyConfig{10, 1.4, 1.3}, 0, 0, 0},
	}
	for _, tt := range tests {
		s := surveyed(tt.lengthM, trench(tt.lengthM, tt.topM, tt.bedM, tt.dM))
		l := s.load(tt.cfg)
		near := func(got, want float64) bool {
			return math.IsNaN(got) && math.IsNaN(want) || math.Abs(got-want) <= 0.0002*want // the printed figures have four places
		}
		if !near(l.VoidM3, tt.m3) || !near(l.MassT, tt.massT) || !near(l.YearT, tt.yearT) || math.Abs(l.UnresolvedM) > 1e-9 {
			t.Errorf("%s: %+v, want %g m³, %g t, %g t a year", tt.name, l, tt.m3, tt.massT, tt.yearT)
		}
	}
}

func TestVoidBetweenSections(t *testing.T) {
	section := func(m, top, bed, depth float64) channel.Section {
		return channel.Section{StationM: m, Resolved: true, TopWidthM: top, BedWidthM: bed, DepthM: depth, AreaM2: (top + bed) / 2 * depth}
	}
	unresolved := channel.Section{StationM: 7.5}
	tests := []struct {
		name                    string
		sections                []channel.Section
		m3, lengthM, unresolved float64
	}{
		// Halves of 2.5 m at the ends of 10 m: 2.5·(1 + 4)·1/2 = 2.5·1 + 2.5·4; between, 5/6·(1 + 4·2.25 + 4) = 11.667.
		{"a V that grows from 1 m by 2 m to 2 m by 4 m", []channel.Section{section(2.5, 2, 0, 1), section(7.5, 4, 0, 2)}, 2.5 + 10 + 35.0/3, 10, 0},
		// Depth runs from 0.9 m at 2.5 m to 0 at 7.5 m and is 0.3 m at 2.5 + 10/3 m; a V as wide as deep has d²/2: 2.5·0.405 + 5/0.9·(0.9³ − 0.3³)/6.
		{"a V that ends in level ground", []channel.Section{section(2.5, 0.9, 0, 0.9), section(7.5, 0, 0, 0)}, 2.5*0.405 + 5/0.9*(0.729-0.027)/6, 2.5 + 10.0/3, 0},
		{"beside one that is not resolved", []channel.Section{section(2.5, 2, 0, 1), unresolved}, 5, 5, 5},
		{"none resolved", []channel.Section{unresolved}, math.NaN(), 0, 10},
		{"none", nil, math.NaN(), 0, 10},
	}
	for _, tt := range tests {
		l := surveyed(10, tt.sections).load(GullyConfig{BankTPerM3: 1.4})
		same := func(a, b float64) bool { return math.IsNaN(a) && math.IsNaN(b) || math.Abs(a-b) < 1e-9 }
		if !same(l.VoidM3, tt.m3) || !same(l.LengthM, tt.lengthM) || !same(l.UnresolvedM, tt.unresolved) {
			t.Errorf("%s: %+v, want %g m³ on %g m, %g m left out", tt.name, l, tt.m3, tt.lengthM, tt.unresolved)
		}
	}
	// A stretch of 40 m without sections, as under a pond: half a spacing to either side is told.
	gap := []channel.Section{section(2.5, 2, 0, 1), section(42.5, 2, 0, 1)}
	if l := surveyed(45, gap).load(GullyConfig{}); math.Abs(l.LengthM-10) > 1e-9 || math.Abs(l.UnresolvedM-35) > 1e-9 {
		t.Errorf("gap: %+v, want 10 m told and 35 m not", l)
	}
}

// What lies between the banks of the drainage that it joins is not of this one.
func TestMouthIsLeftOut(t *testing.T) {
	nan := math.NaN()
	stations := evenBed(20, 0.05)
	depths := erosion.Depths{SectionM: make([]float64, 21), IncisionM: make([]float64, 21)}
	for i := range 21 {
		depths.SectionM[i], depths.IncisionM[i] = 1, 1
		if i <= 4 {
			depths.IncisionM[i] = nan
		}
	}
	if got := mouthM(stations, depths); got != 4 {
		t.Fatalf("mouth to %g m, want 4", got)
	}
	depths.SectionM[4], depths.SectionM[3] = nan, nan // no section tells a depth there
	if got := mouthM(stations, depths); got != 2 {
		t.Errorf("mouth to %g m, want 2", got)
	}
	s := &survey{lengthM: 20, spacingM: 5, cellM: 1, noiseM: 0.05, incisedM: 0.3, mouthM: 4}
	s.measure(trench(20, 3, 1, 1))
	if l := s.load(GullyConfig{}); math.Abs(l.LengthM-16) > 1e-9 || math.Abs(l.VoidM3-32) > 1e-9 || l.UnresolvedM != 0 {
		t.Errorf("%+v, want 16 m of 2 m²", l)
	}
}

// A rough floor makes the area of a section larger or smaller than that of its trapezoid: the area as measured counts.
func TestVoidTakesTheMeasuredArea(t *testing.T) {
	sections := trench(20, 3, 1, 1)
	for i := range sections {
		sections[i].AreaM2 = 1.7
	}
	if l := surveyed(20, sections).load(GullyConfig{}); math.Abs(l.VoidM3-34) > 1e-9 {
		t.Errorf("%g m³, want 20 · 1.7", l.VoidM3)
	}
}

func TestErrorOfAVoid(t *testing.T) {
	// 4 m of top width are 4 cells: 0.05·4·√1.25 = 0.2236 m² on 20 m, 4.472 m³ about 20·2.
	l := surveyed(20, trench(20, 4, 0, 1)).load(GullyConfig{})
	if math.Abs(l.VoidLowM3-(40-4.4721)) > 1e-3 || math.Abs(l.VoidHighM3-(40+4.4721)) > 1e-3 {
		t.Errorf("%g to %g m³", l.VoidLowM3, l.VoidHighM3)
	}
	s := &survey{lengthM: 20, spacingM: 5, cellM: 1, noiseM: math.NaN(), incisedM: 0.3}
	s.measure(trench(20, 4, 0, 1))
	if l := s.load(GullyConfig{}); math.Abs(l.VoidM3-40) > 1e-9 || !math.IsNaN(l.VoidLowM3) || !math.IsNaN(l.VoidHighM3) {
		t.Errorf("noise not known: %+v", l)
	}
}

// The error of one section is that of cells which err each for itself, and of the one cell that sets the level.
func TestErrorOfASectionByDraws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cells := rapid.IntRange(2, 20).Draw(t, "cells")
		const sigma, cellM, draws = 0.05, 1.0, 4000
		sum := 0.0
		noise := rapid.Uint64().Draw(t, "seed") | 1
		uniform := func() float64 { // a plain generator, of standard deviation 1
			noise ^= noise << 13
			noise ^= noise >> 7
			noise ^= noise << 17
			return (float64(noise>>11)/(1<<53) - 0.5) * math.Sqrt(12)
		}
		for range draws {
			area := float64(cells) * cellM * sigma * uniform()
			for range cells {
				area -= cellM * sigma * uniform()
			}
			sum += area * area
		}
		s := survey{cellM: cellM, noiseM: sigma}
		got, want := s.voidErrorM2(float64(cells)*cellM), math.Sqrt(sum/draws)
		if math.Abs(got/want-1) > 0.1 { // 4,000 draws are good to 1.1 % each, one standard deviation
			t.Fatalf("%d cells: %g m², by draws %g", cells, got, want)
		}
	})
}

// Dams never avoid more than the treated share, and what they treat is no longer than the void.
func TestAvoidedIsTheTreatedShare(t *testing.T) {
	s := surveyed(100, trench(100, 3, 1, 1))
	l := s.load(GullyConfig{FormationYears: 20, BankTPerM3: 1.4})
	l.treat(s.voids, []stretch{{10, 20}, {20, 28}, {60, 150}})
	// 10 + 8 + 40 m of 100; 200 m³ are 280 t, 14 a year.
	if math.Abs(l.TreatedM-58) > 1e-9 || math.Abs(l.AvoidedYearT-0.58*14) > 1e-9 {
		t.Errorf("%+v", l)
	}
	l.treat(s.voids, nil)
	if l.TreatedM != 0 || l.AvoidedYearT != 0 {
		t.Errorf("no dams: %+v", l)
	}
	rapid.Check(t, func(t *rapid.T) {
		lengthM := rapid.Float64Range(20, 300).Draw(t, "length")
		sections := trench(lengthM, 3, 1, 1)
		for i := range sections {
			sections[i].DepthM = rapid.Float64Range(0, 2).Draw(t, "depth")
			sections[i].Resolved = rapid.IntRange(0, 3).Draw(t, "resolved") > 0
		}
		s := surveyed(lengthM, sections)
		l := s.load(GullyConfig{FormationYears: 20, BankTPerM3: 1.4})
		var dams []stretch
		for m := 0.0; m < lengthM; {
			from := m + rapid.Float64Range(0, 20).Draw(t, "gap")
			m = from + rapid.Float64Range(0.1, 20).Draw(t, "treated")
			dams = append(dams, stretch{from, m})
		}
		l.treat(s.voids, dams)
		plain := 0.0 // by centimetres
		for _, v := range s.voids {
			for m := v.fromM; m < v.toM; m += 0.01 {
				for _, d := range dams {
					if d.fromM <= m && m < d.toM {
						plain += 0.01
					}
				}
			}
		}
		if math.Abs(l.TreatedM-plain) > 0.03*float64(len(s.voids)+len(dams)) || l.TreatedM > l.LengthM || l.AvoidedYearT > l.YearT {
			t.Fatalf("%+v, by centimetres %g m", l, plain)
		}
		if sum := l.LengthM + l.UnresolvedM; sum > lengthM+1e-9 {
			t.Fatalf("%g m of %g", sum, lengthM)
		}
	})
}
