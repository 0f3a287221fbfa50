package siting

import "siltstep/hydro/channel"

// Area reports whether a map position lies inside, in metres of the grid's coordinate system.
type Area func(x, y float64) bool

// Reach is a piece of a drainage with one verdict.
type Reach struct {
	Drainage   string
	FromM, ToM float64 // stations, FromM below ToM
	Eligible   bool
	Reasons    []Reason // why not; empty where eligible
	Notes      []Reason // how the march went: why it ended, what was lowered or dropped; empty where not eligible
}

// LengthM returns the length of the reach along the channel line in metres.
func (r Reach) LengthM() float64 { return r.ToM - r.FromM }

// Site is one check dam.
type Site struct {
	ID               string // D07-03: drainage and number from the bottom
	Drainage         string
	Series           int // run within the drainage, from the bottom, 1 …
	Number           int // number within the drainage, from the bottom, 1 …
	StationM         float64
	X, Y             float64
	Cell             int     // D8 cell of the station at or next below the axis
	BedM             float64 // original bed at the axis, m
	SillM            float64 // notch sill, m
	EffectiveHeightM float64 // SillM − BedM
	Slope            float64 // bed slope at the nearest station
	CatchmentM2      float64 // catchment of Cell
	SpacingDownM     float64 // to the dam below in the same series, axis to axis, m; NaN for the lowest
	RiseM            float64 // bed rise from the dam below in the same series, m; NaN for the lowest
	SpacingUpM       float64 // to the dam above in the same series, m; NaN for the highest
	WedgeEndM        float64 // station of the upper end of the sediment wedge
	Cautions         []Reason
}

// Layout is what siting found on one drainage.
type Layout struct {
	Reaches   []Reach // from the lower end upstream, without gap or overlap
	Sites     []Site  // from the lower end upstream
	EligibleM float64 // length of eligible reaches, m
	TreatedM  float64 // treated channel length, m
}

// Lay lays out one drainage on the ground that was screened. inside limits where structures may
// stand; nil means anywhere.
// cellM is the side of a grid cell and must be above zero; cfg must be valid. A drainage
// without stations gives an empty layout. Cost: linear in the stations, with a search of a
// few steps for each dam. It panics where the ground has another number of stations.
func Lay(d *channel.Drainage, cellM float64, cfg Config, inside Area, ground Ground, edits []Edit) Layout {
	if !(cellM > 0) {
		panic("siting: cell size must be above zero")
	}
	incision := incisionOf(d.Profile, ground, cellM)
	b, off := bed{d.Profile.Stations}, blocked(d.Profile)
	barred := bars(d.Profile, off)
	var out Layout
	var stands []stand
	series := 0
	for _, r := range runs(d, off, incision, cellM, cfg, inside) {
		reach := r.reach(d, incision, cellM, cfg)
		if reach.Eligible {
			m := march{bed: b, cfg: cfg, inside: inside, barred: barred, off: off, run: r, series: series, stands: stands}
			m.walk()
			stands = m.stands
			reach.Notes = m.notes
			series = m.series
			out.EligibleM += reach.LengthM()
		}
		out.Reaches = append(out.Reaches, reach)
	}
	out.Sites = sites(d, b, stands)
	for i := range out.Sites {
		out.Sites[i].Cautions = cautions(d, cellM, cfg, stands[:i+1], &out.Sites[i])
	}
	out.TreatedM = treatedM(stands)
	return out
}
