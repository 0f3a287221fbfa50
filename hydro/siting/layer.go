package siting

import (
	"math"

	"siltstep/hydro/channel"
)

// A layer gathers the dams that may stand in one drainage.
type layer struct {
	verdicts
	d       *channel.Drainage
	bed     bed
	cellM   float64
	cfg     Config
	heights []float64
	bars    []bar
	margin  margin
	steep   []int // by station: how many pieces of the bed below it, from station to station, are steeper than a step
	ground  Ground
	kept    map[int]Reason // by station: what keeps off the lowest dam that its place offers
}

func newLayer(d *channel.Drainage, cellM float64, cfg Config, inside Area, ground Ground, v verdicts) *layer {
	b := bed{d.Profile.Stations}
	return &layer{
		steep:    b.steepPieces(cfg.SlopeMax),
		verdicts: v, d: d, bed: b, cellM: cellM, cfg: cfg, heights: cfg.Heights(),
		bars: bars(d.Profile, blocked(d.Profile)), margin: newMargin(b, cfg, inside, ground), ground: ground,
		kept: map[int]Reason{},
	}
}

// options returns every dam that may stand, in the order that a problem asks for: at each station that allows one, and
// where dams of one height, and of the greatest that each place allows, would stand if placed toe to crest from the lower end of a reach.
func (l *layer) options(edits []Edit) []option {
	var all []option
	for i, stands := range l.stand {
		if stands {
			all = append(all, l.optionsAt(i)...)
		}
	}
	for _, r := range l.runs {
		for _, most := range l.heights {
			all = append(all, l.chain(r, math.Inf(-1), most)...)
		}
	}
	return sortOptions(l.withEdits(all, edits))
}

// optionsAt returns the dams that may stand at a station.
func (l *layer) optionsAt(station int) (all []option) {
	axisM := l.bed.stations[station].StationM
	need := l.lipAt(axisM)
	for _, offer := range l.offers(station) {
		o, fault := l.option(station, axisM, offer, need)
		if fault == nil {
			all = append(all, o)
		} else if _, told := l.kept[station]; !told {
			l.kept[station] = *fault
		}
	}
	if len(all) > 0 {
		delete(l.kept, station)
	}
	return all
}

// offers returns the dams that a place offers; where banks are not judged, each height at no cost.
func (l *layer) offers(station int) []Offer {
	if l.ground.PlaceAt != nil {
		return l.places[station].Offers
	}
	all := make([]Offer, len(l.heights))
	for i, h := range l.heights {
		all[i].HeightM = h
	}
	return all
}

// option returns the dam that an offer makes at an axis, or what keeps it off.
func (l *layer) option(station int, axisM float64, offer Offer, need lipNeed) (option, *Reason) {
	if offer.Fault != nil {
		return option{}, offer.Fault
	}
	o := l.dam(station, axisM, offer)
	o.lip = need
	bodyM := o.upM + o.downM
	if grade := l.bed.grade(axisM, bodyM); grade > l.cfg.SlopeMax*(1+1e-9)+1e-12 {
		return o, &Reason{RuleStep, grade, l.cfg.SlopeMax, "The bed under a dam is steeper than " + percent(l.cfg.SlopeMax) + " here, as on a step"}
	}
	if fault := l.bodyFault(o); fault != nil {
		return o, fault
	}
	return o, l.margin.fault(&o, l.cfg)
}

// dam returns the dam of an offer at an axis with its wedge, whatever keeps it off.
func (l *layer) dam(station int, axisM float64, offer Offer) option {
	body := l.cfg.body()
	if offer.CrestWidthM > 0 {
		body.CrestWidthM = offer.CrestWidthM
	}
	o := option{
		axisM: axisM, heightM: offer.HeightM, bedM: l.bed.elevationM(axisM),
		upM: body.CrestWidthM/2 + body.FaceUp*offer.HeightM, downM: body.CrestWidthM/2 + body.FaceDown*offer.HeightM,
		lip: lipNeed{levelM: math.Inf(-1), stationM: axisM}, rockKg: kg(offer.RockT), station: station,
	}
	o.meetM, o.runsOut = l.bed.meet(axisM, offer.HeightM, l.cfg.DepositRatio)
	o.endM = o.meetM
	if b, ok := firstAbove(l.bars, axisM); ok && b.fromM < o.endM {
		o.endM, o.cutOff = b.fromM, b
	}
	return o
}

// bodyFault tells what keeps a body off: a stretch that is barred to dams, or the upper end of the drainage, above
// which there is no bed to fill.
func (l *layer) bodyFault(o option) *Reason {
	if endM := l.bed.lengthM() - (o.upM+o.downM)/2; o.axisM > endM {
		return &Reason{RuleReachEnd, o.axisM, endM, "The upper end of the drainage leaves no bed to fill here"}
	}
	for _, b := range l.bars {
		if o.axisM+o.upM > b.fromM && o.axisM-o.downM < b.toM {
			return &Reason{b.rule, math.NaN(), math.NaN(), "A dam body would lie on standing water, a cut or a stock pond here"}
		}
	}
	return nil
}

// lipAt returns the lip of a step that lies too near below an axis, to be drowned by the dam beneath.
func (l *layer) lipAt(axisM float64) lipNeed {
	const belowM = 2 * stepRunM // a step that begins at the end of the look is steep before that
	first, last := l.bed.below(axisM-l.cfg.lipClearM()-belowM), min(l.bed.below(axisM)+1, len(l.steep)-1)
	if l.steep[first] == l.steep[last] {
		return lipNeed{axisM, math.Inf(-1)}
	}
	if lip, ok := l.bed.lipBelow(axisM, l.cfg.lipClearM()-1e-9, l.cfg.SlopeMax, nil); ok {
		return lipNeed{lip.stationM, l.bed.elevationM(lip.stationM)}
	}
	return lipNeed{axisM, math.Inf(-1)}
}

// chain returns the dams of at most a height placed toe to crest in a run, from a station or from its lower end where that is higher. Where
// a place holds none the chain goes on from the next station that does.
func (l *layer) chain(r run, fromM, mostM float64) (all []option) {
	i := r.first
	for axisM := fromM; i <= r.last; {
		at := l.bed.stations[i].StationM
		if next := min(i+1, r.last); axisM > l.bed.stations[next].StationM {
			i = max(next, i+1)
			continue
		}
		if axisM > at {
			at = axisM
		}
		o, ok := l.tallest(i, at, mostM)
		if !ok {
			i, axisM = i+1, math.Inf(-1)
			continue
		}
		all = append(all, o)
		axisM = o.meetM
		if !(axisM > at) {
			i++
		}
	}
	return all
}

// tallest returns the highest dam up to a height that may stand at an axis, next above a station. Between two stations both must allow
// one, and the dam takes the more rock of the two: the axis may be nearer to the cross-section of either.
func (l *layer) tallest(station int, axisM, mostM float64) (option, bool) {
	other := station
	if axisM > l.bed.stations[station].StationM && station+1 < len(l.stand) {
		other = station + 1
	}
	if !l.stand[station] || !l.stand[other] {
		return option{}, false
	}
	need := l.lipAt(axisM)
	offers, others := l.offers(station), l.offers(other)
	for k := len(offers) - 1; k >= 0; k-- {
		offer := offers[k]
		if offer.HeightM > mostM || others[k].Fault != nil {
			continue
		}
		offer.RockT, offer.CrestWidthM = max(offer.RockT, others[k].RockT), max(offer.CrestWidthM, others[k].CrestWidthM)
		if o, fault := l.option(station, axisM, offer, need); fault == nil {
			return o, true
		}
	}
	return option{}, false
}
