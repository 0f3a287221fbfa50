package hydro

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"siltstep/hydro/channel"
	"siltstep/hydro/siting"
)

const (
	mostAstrayM  = 25.0 // greatest distance of a place from the channel line it is meant for, m. Source: our own choice, five times the error of a phone, some 5 m (common practice)
	samePlaceM   = 0.1  // stations closer than this are one place, m. Source: our own choice; files hold stations to 0.01 m and degrees to about as much
	movedUnsaidM = 1.0  // a dam without an edit that lies farther than this from its station was moved, m. Source: our own choice
)

// fieldwork is what the field asks, brought to the stations of a network. nil asks nothing.
type fieldwork struct {
	drainages []string    // ids
	asked     [][]placed  // one list a drainage, by station
	earlier   [][]Earlier // one list a drainage, by station; NaN first
	astray    []string    // dams that lie off their station without having been moved by an edit
}

// placed is an edit with its station.
type placed struct {
	Asked
	stationM float64
}

// place brings edits to the drainages of a network; nil where there are none. engineer lets heights over the limit through. Errors: EditFaults.
func (e Edits) place(n *channel.Network, engineer bool) (*fieldwork, error) {
	if len(e.Asked) == 0 && len(e.Earlier) == 0 {
		return nil, nil
	}
	p := placing{network: n, engineer: engineer, index: map[string]int{}, stood: map[string]float64{}}
	for i := range n.Drainages {
		p.index[n.Drainages[i].ID] = i
		p.known = append(p.known, n.Drainages[i].ID)
	}
	p.to = &fieldwork{drainages: p.known, asked: make([][]placed, len(p.known)), earlier: make([][]Earlier, len(p.known))}
	for _, was := range e.Earlier {
		p.earlier(was)
	}
	for _, a := range e.Asked {
		if !slices.ContainsFunc(p.faults, func(f EditFault) bool { return f.Row == a.Row }) { // one fault a row is enough
			p.asked(a)
		}
	}
	for i := range p.known {
		slices.SortStableFunc(p.to.earlier[i], func(a, b Earlier) int { return cmp.Compare(a.StationM, b.StationM) })
		slices.SortStableFunc(p.to.asked[i], func(a, b placed) int { return cmp.Compare(a.stationM, b.stationM) })
		p.onePlaceEach(p.known[i], p.to.asked[i])
	}
	if len(p.faults) > 0 {
		return nil, p.faults
	}
	return p.to, nil
}

// placing is a fieldwork in the making.
type placing struct {
	network  *channel.Network
	engineer bool
	known    []string           // ids of the drainages
	index    map[string]int     // of a drainage by id
	stood    map[string]float64 // station of an earlier dam by id, m
	to       *fieldwork
	faults   EditFaults
}

func (p *placing) fault(row, format string, args ...any) {
	p.faults = append(p.faults, EditFault{Row: row, Text: fmt.Sprintf(format, args...)})
}

// drainage returns the position of a drainage; an id that is not there is a fault.
func (p *placing) drainage(row, id string) (i int, ok bool) {
	if i, ok = p.index[id]; !ok {
		p.faults = append(p.faults, EditFault{Row: row, Wrong: id, Known: p.known, Text: fmt.Sprintf("there is no drainage %s on this elevation model", id)})
	}
	return i, ok
}

// earlier lists a dam of the earlier plan. Where it has a station and a place that differ it is told as astray; where it has a
// place alone, that gives the station.
func (p *placing) earlier(was Earlier) {
	drainage, number, ok := ParseDamID(was.ID)
	if !ok {
		p.fault(was.Row, "%q is not the id of a dam, as in D07-03", was.ID)
		return
	}
	was.ID = DamID(drainage, number)
	i, ok := p.drainage(was.Row, drainage)
	if !ok {
		return
	}
	if s, awayM := stationAt(p.network.Drainages[i].Profile, was.X, was.Y); !math.IsNaN(s) {
		offM := max(awayM, math.Abs(s-was.StationM))
		switch {
		case math.IsNaN(was.StationM) && awayM <= mostAstrayM:
			was.StationM = s
		case offM > movedUnsaidM:
			p.to.astray = append(p.to.astray, fmt.Sprintf("%s by %.1f m", was.ID, offM))
		}
	}
	p.stood[was.ID] = was.StationM
	p.to.earlier[i] = append(p.to.earlier[i], was)
}

// asked gives an edit its station.
func (p *placing) asked(a Asked) {
	if d, number, ok := ParseDamID(a.ID); ok {
		a.ID = DamID(d, number)
		if a.Drainage != "" && a.Drainage != d {
			p.fault(a.Row, "%s is a dam of %s, and drainage says %s: reject it there, and add the new dam as a row without id", a.ID, d, a.Drainage)
			return
		}
		a.Drainage = d
	}
	if a.Action == siting.Fix && a.HeightM > siting.RefusedHeightM && !p.engineer {
		p.fault(a.Row, "asks for a dam %.2f m high, and the most is %g m: lower it, set dams.engineer: true where an engineer designs it, or write built where it stands already", a.HeightM, siting.RefusedHeightM)
		return
	}
	i := -1
	if a.Drainage != "" {
		var ok bool
		if i, ok = p.drainage(a.Row, a.Drainage); !ok {
			return
		}
	}
	var s float64
	if !math.IsNaN(a.StationM) {
		s = p.atStation(a, i)
	} else {
		i, s = p.atPlace(a, i)
	}
	if math.IsNaN(s) {
		return
	}
	if was, ok := p.stood[a.ID]; ok && math.Abs(was-s) <= samePlaceM {
		s = was // a place in degrees, rounded, is where the dam stood
	}
	a.Drainage = p.known[i]
	p.to.asked[i] = append(p.to.asked[i], placed{a, s})
}

// atStation returns the station that an edit gives, brought onto the drainage where rounding took it off; NaN and a fault where there is none.
func (p *placing) atStation(a Asked, i int) float64 {
	if i < 0 {
		p.fault(a.Row, "station_m is given, and no drainage to count it along: fill in drainage")
		return math.NaN()
	}
	lengthM := p.network.Drainages[i].Profile.LengthM()
	if !(a.StationM >= -samePlaceM && a.StationM <= lengthM+samePlaceM) {
		p.fault(a.Row, "station_m %.2f does not lie on %s, which runs from 0 to %.2f m", a.StationM, a.Drainage, lengthM)
		return math.NaN()
	}
	return min(max(a.StationM, 0), lengthM)
}

// atPlace returns drainage and station nearest to the place of an edit, on drainage i, or on any where i is below zero; NaN and a fault where there is none.
func (p *placing) atPlace(a Asked, i int) (drainage int, stationM float64) {
	drainage, stationM = i, math.NaN()
	awayM := math.Inf(1)
	for k := range p.network.Drainages {
		if i >= 0 && k != i {
			continue
		}
		if s, m := stationAt(p.network.Drainages[k].Profile, a.X, a.Y); m < awayM {
			drainage, stationM, awayM = k, s, m
		}
	}
	switch {
	case math.IsNaN(stationM):
		p.fault(a.Row, "has no place, or there is no drainage for it: give a point, or drainage and station_m")
	case awayM > mostAstrayM:
		p.fault(a.Row, "lies %.1f m from the channel line of %s, and the most is %g m: move it onto the line, or give drainage and station_m",
			awayM, p.network.Drainages[drainage].ID, mostAstrayM)
		stationM = math.NaN()
	}
	return drainage, stationM
}

// onePlaceEach reports edits of a drainage, by station, that ask of one place.
func (p *placing) onePlaceEach(drainage string, asked []placed) {
	for k := 1; k < len(asked); k++ {
		if low, high := asked[k-1], asked[k]; high.stationM-low.stationM < samePlaceM {
			p.fault(high.Row, "asks of the same place as %s, station %.2f m of %s: leave one of the two", low.Row, low.stationM, drainage)
		}
	}
}

// stationAt returns the station of the point of a channel line nearest to a place, straight between stations, and its distance,
// both in metres: of two equally near the lower, and beyond an end that end. NaN and endless where the profile has no
// stations or the place is NaN.
func stationAt(p channel.Profile, x, y float64) (stationM, awayM float64) {
	stationM, awayM = math.NaN(), math.Inf(1)
	for i, b := range p.Stations {
		a := p.Stations[max(i-1, 0)]
		dx, dy := b.X-a.X, b.Y-a.Y
		t := 0.0
		if l2 := dx*dx + dy*dy; l2 > 0 {
			t = min(max(((x-a.X)*dx+(y-a.Y)*dy)/l2, 0), 1)
		}
		if m := math.Hypot(a.X+t*dx-x, a.Y+t*dy-y); m < awayM {
			stationM, awayM = a.StationM+t*(b.StationM-a.StationM), m
		}
	}
	return stationM, awayM
}

// of returns what is asked of a drainage, by station.
func (f *fieldwork) of(drainage int) []siting.Edit {
	if f == nil {
		return nil
	}
	var out []siting.Edit
	for _, a := range f.asked[drainage] {
		out = append(out, siting.Edit{ID: a.ID, Action: a.Action, StationM: a.stationM, HeightM: a.HeightM})
	}
	return out
}
