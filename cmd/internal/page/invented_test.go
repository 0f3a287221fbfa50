package page

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"math"
	"testing"

	"siltstep/cmd/internal/facts"

	"github.com/paulmach/orb"
)

// The invented land lies at 104° west, 37° north; a degree is 88,000 m east to west and 111,000 m north to south, everywhere.
func flat(at []orb.Point) ([]orb.Point, error) {
	out := make([]orb.Point, len(at))
	for i, p := range at {
		out[i] = orb.Point{500000 + (p[0]+104)*88000, 4100000 + (p[1]-37)*111000}
	}
	return out, nil
}

func back(x, y float64) facts.Place {
	return facts.Place{Lon: facts.Num(-104 + (x-500000)/88000), Lat: facts.Num(37 + (y-4100000)/111000), XM: facts.Num(x), YM: facts.Num(y)}
}

// invented returns a plan of drainages side by side that run south, with dams spread over them, and every table filled.
func invented(drainages, dams, stations int) *facts.Folder {
	unknown := facts.Num(math.NaN())
	f := &facts.Folder{Lines: map[string]orb.LineString{}, Catchments: map[string]orb.Geometry{}, Profiles: map[string]facts.Profile{}, Sections: map[string]facts.Section{}}
	f.Program = facts.Program{Name: "siltstep", Version: "0.1.0", Format: facts.Format, Command: "plan"}
	f.Cautions = []facts.Text{{Text: "This is a planning aid, not an engineered design."}, {Text: "Walk every site before anything is built."}}
	f.Decisions = []facts.Text{{Text: "Heights are in m."}}
	f.Settings = []facts.Setting{{Key: "dams.height", Value: "0.6 m"}}
	f.Inputs = []facts.Input{{Role: "elevation", File: "dem.tif", SHA256: "00ff"}}
	f.Sources = []facts.Source{{Key: "Jepson1939", Text: "Jepson, H. G. (1939). Prevention and control of gullies. Farmers' Bulletin 1813."}}
	f.Grid = facts.Grid{CRS: "an invented plane", Cols: 20 * (drainages + 1), Rows: stations + 40, CellM: 1, WestM: 500000, NorthM: 4100000 + facts.Num(stations) + 40, LowestM: 1600, HighestM: 1700, NoiseM: unknown}
	classes := []string{"sound", "watch", "eroding", "severe", ""}
	perDrainage := (dams + drainages - 1) / drainages
	for d := range drainages {
		id := fmt.Sprintf("D%02d", d+1)
		x := 500010 + 20*float64(d)
		one := facts.Drainage{ID: id, Order: 1, LengthM: facts.Num(stations), DropM: facts.Num(stations) / 20, Slope: 0.05, CatchmentHa: 2.5, Truncated: d%7 == 3, Severity: facts.Num(d % 90), SeverityClass: classes[d%5], IncisionMeanM: 0.75, IncisionMaxM: 1.25, Headcuts: 1, PeakM3s: unknown, EligibleM: 200, TreatedM: 150.25, RockT: 80.5, PondM3: 20, SedimentM3: 25, Cost: unknown, Rank: facts.Num(drainages - d), SteadyShare: 0.5, PropertyShare: 1}
		var line orb.LineString
		var profile facts.Profile
		for k := range stations + 1 {
			s := float64(k)
			at := back(x+3*math.Sin(s/40), 4100010+s)
			bed := 1600 + 0.05*s + 0.2*math.Sin(s/9+float64(d))
			profile = append(profile, facts.Station{Place: at, StationM: s, GroundM: bed + 0.03*math.Sin(s*1.7), BedM: bed, Slope: 0.05, CatchmentHa: 2.5 - s/1000, IncisionM: 0.75 + 0.2*math.Sin(s/30), NotchSillM: math.NaN(), DepositM: math.NaN()})
			line = append(line, orb.Point{float64(at.Lon), float64(at.Lat)})
		}
		profile[0].IncisionM = math.NaN()
		line.Reverse()
		f.Lines[id], f.Profiles[id] = line, profile
		w, e := back(x-9, 4100005), back(x+9, 4100015+float64(stations))
		f.Catchments[id] = orb.Polygon{orb.Bound{Min: orb.Point{float64(w.Lon), float64(w.Lat)}, Max: orb.Point{float64(e.Lon), float64(e.Lat)}}.ToRing()}
		var names string
		for n := range perDrainage {
			if len(f.Sites) == dams {
				break
			}
			k := 5 + n*(stations-20)/perDrainage
			p := profile[k]
			dam := fmt.Sprintf("%s-%02d", id, n+1)
			names += dam + " "
			site := facts.Site{ID: dam, Drainage: id, Series: 1, Number: n + 1, StationM: facts.Num(p.StationM), BedM: facts.Num(p.BedM), NotchSillM: facts.Num(p.BedM) + 0.45, DamTopM: facts.Num(p.BedM) + 0.7, EffectiveHeightM: 0.45, Slope: 0.05, CatchmentHa: 2.125, BedWidthM: 1.5, BankToBankM: 4.25, BankHeightM: 1.25, CrestLengthM: 3.5 + facts.Num(n)/100, CrestWidthM: 0.5, SpacingDownM: 8, RiseFromBelowM: 0.4, SpacingUpM: 8, StormHours: 24, ReturnPeriodYr: 10, PeakM3s: 0.214, NotchWidthM: 1.75, NotchDepthM: 0.25, StoneD50M: 0.105, RockM3: 3.5 + facts.Num(len(f.Sites))/1000, RockT: 6.25, ApronLengthM: 1.2, KeyBedM: 0.15, KeyBankM: 0.45, PondM3: 2.5, SedimentM3: 3.25, FillYearsLow: unknown, FillYearsHigh: unknown, PersonDays: unknown, Cost: unknown, Confidence: []string{"high", "medium", "low"}[n%3], Cautions: "A confluence lies 5.3 m away: flow from the side may strike this dam or go round it", WedgeEndM: facts.Num(p.StationM) + 7, Place: p.Place}
			f.Sites = append(f.Sites, site)
			f.Designs = append(f.Designs, facts.Design{ID: dam, Method: "rational", LowM3s: 0.15, HighM3s: 0.214, TimeOfConcentrationMin: 6, Buildable: n != 1, LowerHeightM: unknown, NotchShape: "trapezoidal", NotchSideSlope: 1, HeadM: 0.12, FreeboardM: 0.1, CapacityM3s: 0.25, CapacityOverHighest: 1.18, StoneMethod: "rock-chute", BodyM3: 1.5, KeyM3: 0.5, ApronM3: 1.5, RockInPlaceT: 6, Notes: fmt.Sprintf("Note %d: runoff is 14 mm on ground of average wetness.", len(f.Sites))})
			f.Checks = append(f.Checks, facts.Check{ID: dam, Number: 1, Text: fmt.Sprintf("Measure both banks of %s: the lower is 0.3%d m above the level the water may reach.", dam, n%10)}, facts.Check{ID: dam, Number: 2, Text: "Dig at the axis: is it rock, clay or sand?"})
			f.Weaknesses = append(f.Weaknesses, facts.Weakness{ID: dam, Mode: "flank", Margin: 0.3, Text: fmt.Sprintf("The left bank stands only 0.%02d m above the notch.", n%100)})
			section := make(facts.Section, 81)
			for i := range section {
				o := float64(i-40) / 4
				section[i] = facts.SectionPoint{OffsetM: o, GroundM: p.BedM + math.Min(1.5, math.Max(0, math.Abs(o)-0.75)), DamM: math.NaN()}
				if math.Abs(o) < 2 {
					section[i].DamM = p.BedM + 0.45 + math.Max(0, math.Min(0.25, math.Abs(o)-0.875))
				}
			}
			section[0].GroundM = math.NaN()
			f.Sections[dam] = section
			one.Dams++
		}
		if one.Dams > 0 {
			one.Series = 1
			f.Series = append(f.Series, facts.Series{ID: id + "-S1", Drainage: id, Number: 1, DamIDs: names, FromStationM: 5, ToStationM: 100, TreatedM: 150.25, Quantities: facts.Quantities{Dams: one.Dams, RockM3: 40, RockT: 80.5, SedimentM3: 25, SedimentLowM3: 20, SedimentHighM3: 30, PersonDays: unknown, Cost: unknown}, Built: one.Dams, Loads: 8, Severity: 40, WeightedM: 60, BuildOrder: d + 1, Year: 1})
		}
		f.Drainages = append(f.Drainages, one)
		f.Parts = append(f.Parts, facts.Part{Drainage: id, Part: "incision", Value: 0.75, Unit: "m", Score: 26.5, Weight: 30, Points: 8.25}, facts.Part{Drainage: id, Part: "shear", Value: unknown, Unit: "1", Score: unknown, Weight: unknown, Points: unknown})
		f.Headcuts = append(f.Headcuts, facts.Headcut{ID: "H" + id, Drainage: id, StationM: 60, HeightM: 0.5, CatchmentHa: 1.5, Cause: []string{"headcut", "bank"}[d%2], Place: profile[60].Place})
		f.Reaches = append(f.Reaches, facts.Reach{Drainage: id, FromStationM: 0, ToStationM: facts.Num(stations) - 50, Verdict: "eligible"}, facts.Reach{Drainage: id, FromStationM: facts.Num(stations) - 50, ToStationM: facts.Num(stations), Verdict: "not eligible", Reasons: "The bed is too steep: its slope goes up to 25 %, and the most is 20 %"})
		f.Loads = append(f.Loads, facts.Load{Drainage: id, VoidedM: 100, VoidM3: 250, VoidLowM3: 200, VoidHighM3: 300, MassT: 350, MassLowT: 280, MassHighT: 420, YearT: 7, TreatedM: 150, AvoidedYearT: unknown, Method: "Volume of the gully below its banks."})
		f.Gradients = append(f.Gradients, facts.Gradient{ID: id, Length: 150, DropM: 7.5, FallsM: 5, Before: 0.05, After: 0.017})
		f.Filling = append(f.Filling, facts.Filling{ID: id, Years: 5, RoomM3: 25, Low: 0.1, Likely: 0.3, High: 0.6})
	}
	f.Totals = facts.Totals{Quantities: facts.Quantities{Dams: len(f.Sites), RockM3: 1234.5, RockT: 2222.25, PondM3: 300, SedimentLowM3: 200, SedimentM3: 350, SedimentHighM3: 500, PersonDays: unknown, Cost: unknown}, Drainages: drainages, Severe: drainages / 5, Series: drainages, ChannelM: 1000, EligibleM: 900, TreatedM: 800.5, TreatedDefinition: "along the channel line, horizontal", Unbuildable: 1}
	here := func(x, y float64) orb.Point {
		p := back(500000+x, 4100000+y)
		return orb.Point{float64(p.Lon), float64(p.Lat)}
	}
	f.Limits = map[string][]orb.Geometry{
		"property":   {orb.Polygon{{here(2, 5), here(100, 5), here(100, 150), here(2, 150), here(2, 5)}}},
		"road":       {orb.LineString{here(0, 30), here(120, 40)}},
		"base level": {orb.MultiPoint{here(10, 12), here(30, 12)}},
	}
	f.Scenarios = []facts.Scenario{{Name: "many low dams", Series: 3, EligibleM: 900, TreatedM: 850, UncoveredM: 50, Quantities: facts.Quantities{Dams: 20, RockT: 90, SedimentM3: 30, PersonDays: unknown, Cost: unknown}}}
	f.Findings = []facts.Finding{{Rule: "truncated", Subject: "D04", Text: "Water enters the catchment of D04 over the edge of the data.", Lon: unknown, Lat: unknown}}
	f.Changes = []facts.Change{{ID: "D01-02", Kind: "moved", Text: "moved 1.5 m up", Note: "for a root"}}
	return f
}

// shade returns a picture of relief for an invented plan.
func shade(t *testing.T, width, height int) []byte {
	t.Helper()
	picture := image.NewGray(image.Rect(0, 0, width, height))
	for y := range height {
		for x := range width {
			picture.SetGray(x, y, color.Gray{Y: uint8(150 + 60*math.Sin(float64(x)/17)*math.Cos(float64(y)/23))})
		}
	}
	var b bytes.Buffer
	if err := png.Encode(&b, picture); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// pageOf writes the page of a plan.
func pageOf(t *testing.T, f *facts.Folder, opt Options) string {
	t.Helper()
	if opt.ToGrid == nil {
		opt.ToGrid = flat
	}
	var b bytes.Buffer
	if err := Write(&b, f, opt); err != nil {
		t.Fatal(err)
	}
	return b.String()
}
