package hydro_test

import (
	"math"
	"testing"

	"siltstep/hydro"
	"siltstep/hydro/channel"
	"siltstep/hydro/checkdam"
	"siltstep/hydro/siting"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"
)

// oneDam is a plan of one loose-rock dam 0.6 m high, its notch not sized, at 100, 200 in a channel that runs at some bearing clockwise from north,
// degrees.
func oneDam(t interface{ Fatal(...any) }, section checkdam.Section, bearing float64) *hydro.Plan {
	nan := math.NaN()
	dam, err := checkdam.Size(checkdam.Request{Kind: checkdam.LooseRock, HeightM: 0.6, Slope: 0.05, Section: section, FaceUp: nan, FaceDown: nan, PeakM3s: nan})
	if err != nil {
		t.Fatal(err)
	}
	right := (bearing + 90) * math.Pi / 180
	return &hydro.Plan{
		Config:   hydro.Defaults(),
		Layouts:  []siting.Layout{{Sites: []siting.Site{{ID: "D01-01", StationM: 12, X: 100, Y: 200}}}},
		Designs:  [][]hydro.Design{{{Dam: &dam, Measured: checkdam.NotMeasured("nothing is drawn behind it")}}},
		Sections: [][]channel.Section{{{StationM: 5, DX: 1}, {StationM: 10, DX: math.Sin(right), DY: math.Cos(right)}, {StationM: 15, DX: 1}}},
	}
}

// trench is 2 m wide at the bed and 1.5 m deep, with sides of 1:1.
func trench(t interface{ Fatal(...any) }) checkdam.Section {
	s, err := checkdam.TrapezoidSection(2, 1, 1.5)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func TestHaul(t *testing.T) {
	rows := []struct {
		name    string
		roads   []orb.LineString
		roadM   float64
		road    orb.Point
		class   hydro.HaulClass
		loadT   float64
		barrowT float64
	}{
		{"beside a road", []orb.LineString{{{150, 0}, {150, 400}}}, 50, orb.Point{150, 200}, hydro.HaulHand, 10, 0.1},
		{"beyond the end of one: 3, 4, 5", []orb.LineString{{{130, 240}, {200, 240}}}, 50, orb.Point{130, 240}, hydro.HaulHand, 0, 0},
		{"the nearer of two", []orb.LineString{{{400, 0}, {400, 400}}, {{100, 500}, {100, 480}}}, 280, orb.Point{100, 480}, hydro.HaulHand, 10, 0},
		{"300 m", []orb.LineString{{{400, 0}, {400, 400}}}, 300, orb.Point{400, 200}, hydro.HaulHand, 0, 0.1},
		{"301 m", []orb.LineString{{{401, 0}, {401, 400}}}, 301, orb.Point{401, 200}, hydro.HaulMachine, 10, 0.1},
		{"a road of one place twice", []orb.LineString{{{100, 203}, {100, 203}}}, 3, orb.Point{100, 203}, hydro.HaulHand, 10, 0.1},
		{"no road", nil, math.NaN(), orb.Point{}, "", 10, 0.1},
		{"a road without length", []orb.LineString{{{100, 203}}}, math.NaN(), orb.Point{}, "", 10, 0.1},
	}
	for _, r := range rows {
		t.Run(r.name, func(t *testing.T) {
			p := oneDam(t, trench(t), 180)
			p.Config.Siting.Features.Roads = r.roads
			p.Config.Works.Prices.LoadT, p.Config.Works.Prices.BarrowT = r.loadT, r.barrowT
			got := p.Haul(0, 0)
			rock := math.Round(100*p.Designs[0][0].Dam.Rock.OrderTonnes) / 100
			if math.Abs(got.RoadM-r.roadM) > 1e-9 || math.IsNaN(got.RoadM) != math.IsNaN(r.roadM) || got.Road != r.road || got.Class != r.class || got.OrderedT != rock {
				t.Errorf("got %+v, want %g m to %v, %q; %g t", got, r.roadM, r.road, r.class, rock)
			}
			for _, trips := range []struct {
				got   int
				eachT float64
			}{{got.Loads, r.loadT}, {got.Barrows, r.barrowT}} {
				enough, fewer := float64(trips.got)*trips.eachT >= rock-1e-6, float64(trips.got-1)*trips.eachT < rock
				if trips.eachT == 0 && trips.got != 0 || trips.eachT > 0 && !(enough && fewer) {
					t.Errorf("%d trips of %g t for %g t", trips.got, trips.eachT, rock)
				}
			}
		})
	}
}

func TestLoads(t *testing.T) {
	for _, r := range []struct {
		name        string
		rockT, each float64
		want        int
	}{
		{"even", 20, 10, 2}, {"a rest is a load", 20.01, 10, 3}, {"0.1 is no binary fraction", 1.1, 0.1, 11}, {"nor is 0.7", 0.7, 0.1, 7},
		{"no rock", 0, 10, 0}, {"no load given", 20, 0, 0}, {"not known", math.NaN(), 10, 0}, {"less than one", 0.02, 0.1, 1},
	} {
		p := hydro.Prices{LoadT: r.each, BarrowT: r.each}
		if got, barrows := p.Loads(r.rockT), p.Barrows(r.rockT); got != r.want || barrows != r.want {
			t.Errorf("%s: %d loads and %d barrows of %g t for %g t, want %d", r.name, got, barrows, r.each, r.rockT, r.want)
		}
	}
}

func TestHaulOfADamWithoutDesign(t *testing.T) {
	p := oneDam(t, trench(t), 180)
	p.Designs[0][0].Dam = nil
	p.Config.Works.Prices.LoadT, p.Config.Works.Prices.BarrowT = 10, 0.1
	p.Config.Siting.Features.Roads = []orb.LineString{{{150, 0}, {150, 400}}}
	if h := p.Haul(0, 0); h.RoadM != 50 || h.Loads != 0 || h.Barrows != 0 || !math.IsNaN(h.OrderedT) {
		t.Errorf("got %+v", h)
	}
	if _, ok := p.Footprint(0, 0); ok || p.Effects(0, 0) != nil {
		t.Error("a dam without a design has a footprint")
	}
}

// A dam that stands already takes no rock and no ground, but stands on some.
func TestHaulOfABuiltDam(t *testing.T) {
	p := oneDam(t, trench(t), 180)
	p.Layouts[0].Sites[0].Edit = siting.Built
	p.Config.Works.Prices.LoadT, p.Config.Works.Prices.BarrowT = 10, 0.1
	if h := p.Haul(0, 0); h.OrderedT != 0 || h.Loads != 0 || h.Barrows != 0 {
		t.Errorf("got %+v", h)
	}
	if f, ok := p.Footprint(0, 0); !ok || f.AreaM2 != 17.2 || p.Effects(0, 0) != nil {
		t.Errorf("got %+v, %v and %v", f, ok, p.Effects(0, 0))
	}
}

// No place on a road, tried one by one, is nearer than the one told, and that one lies on the road.
func TestNearestRoadAgainstTwin(t *testing.T) {
	section := trench(t)
	rapid.Check(t, func(t *rapid.T) {
		p := oneDam(t, section, 180)
		line := make(orb.LineString, rapid.IntRange(2, 6).Draw(t, "corners"))
		for i := range line {
			line[i] = orb.Point{rapid.Float64Range(-300, 300).Draw(t, "x"), rapid.Float64Range(-300, 300).Draw(t, "y")}
		}
		p.Config.Siting.Features.Roads = []orb.LineString{line}
		h := p.Haul(0, 0)
		const pieces = 2000
		nearest, off := math.Inf(1), math.Inf(1)
		longest := 0.0
		for i := 1; i < len(line); i++ {
			longest = max(longest, math.Hypot(line[i][0]-line[i-1][0], line[i][1]-line[i-1][1]))
			for k := range pieces + 1 {
				share := float64(k) / pieces
				x, y := line[i-1][0]+share*(line[i][0]-line[i-1][0]), line[i-1][1]+share*(line[i][1]-line[i-1][1])
				nearest = min(nearest, math.Hypot(x-100, y-200))
				off = min(off, math.Hypot(x-h.Road[0], y-h.Road[1]))
			}
		}
		step := longest / pieces
		if h.RoadM > nearest+1e-9 || h.RoadM < nearest-step || off > step || math.Abs(math.Hypot(h.Road[0]-100, h.Road[1]-200)-h.RoadM) > 1e-9 {
			t.Fatalf("%+v of %v; by trial %g m", h, line, nearest)
		}
	})
}
