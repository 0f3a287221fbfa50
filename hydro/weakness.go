package hydro

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"siltstep/hydro/channel"
	"siltstep/hydro/checkdam"
	"siltstep/hydro/erosion"
	"siltstep/hydro/siting"
)

// FailureMode names a way in which dams fail.
type FailureMode string

// The failure modes.
const (
	FailPeak      FailureMode = "peak"      // no peak is known
	FailNotch     FailureMode = "notch"     // the notch is too small for a larger storm
	FailFlank     FailureMode = "flank"     // water goes round an end
	FailStone     FailureMode = "stone"     // stone is carried away
	FailApron     FailureMode = "apron"     // falling water digs out the toe
	FailHeadcut   FailureMode = "headcut"   // a step below eats its way up
	FailToe       FailureMode = "toe"       // no silt of a dam below holds the toe
	FailCatchment FailureMode = "catchment" // more land than such dams are for
)

// Where each margin is 1: so far from its limit nothing need be said. Together with the limits this is the scoring of WeaknessesAt;
// all of it is this project's judgement, so that unlike things can be set in order.
const (
	amplePeaks       = 2.0  // flow up to the tops of the wings over the highest peak: without a gauge the true one may be twice as large
	ampleBankM       = 0.3  // of bank above the wings
	mostDropM        = 1.2  // m of fall where none is left: from pond to the end of the apron. NRCSTechNote40 leaves steps under 1.2 m to hands
	ampleHeadcutM    = 30.0 // to a headcut below
	mostBareM        = 0.3  // m of fall of bare bed below the toe where none is left: that of a headcut
	footerMargin     = 0.3  // of the lowest dam of a series on bare bed
	confluenceMargin = 0.6  // of one just above a confluence
	liftedStoneM     = 0.3  // m, of stone that hands lift, as in package checkdam: a round one weighs 37 kg
	mostWeaknesses   = 3
)

// Weakness is one thing that would make a dam fail.
type Weakness struct {
	Mode   FailureMode
	Margin float64 // to its limit: 0 at or beyond it, or where it is not known; 1 would be ample
	Text   string  // one or two sentences with the numbers of the dam
}

// WeaknessesAt returns up to three things that would make a dam fail, by the number of its drainage and its place in Layouts and
// Designs, the nearest to its limit first. Margins are this project's judgement. Cost: linear in the headcuts and the dams below.
func (p *Plan) WeaknessesAt(drainage, dam int) []Weakness {
	sites, d := p.Layouts[drainage].Sites, &p.Designs[drainage][dam]
	s := &sites[dam]
	w := weak{s, d, sites[:dam]}
	var out []Weakness
	for _, r := range []Weakness{w.peak(), w.notch(), w.flank(), w.stone(), w.apron(), w.headcut(p.Erosion[drainage].Headcuts), w.toe(p.Network.Drainages[drainage].Profile.Stations), w.catchment()} {
		if r.Margin < 1 {
			r.Margin = max(0, r.Margin)
			out = append(out, r)
		}
	}
	slices.SortStableFunc(out, func(a, b Weakness) int { return cmp.Compare(a.Margin, b.Margin) })
	return out[:min(len(out), mostWeaknesses)]
}

// ample is a reason that need not be given.
var ample = Weakness{Margin: 1}

// weak is a dam, and those below it in its drainage.
type weak struct {
	site   *siting.Site
	design *Design
	below  []siting.Site
}

func (w weak) peak() Weakness {
	switch {
	case !math.IsNaN(w.design.PeakM3s):
		return ample
	case w.design.noPeak != "":
		return Weakness{FailPeak, 0, "The flow it must stand is not known: " + sentence(w.design.noPeak)}
	}
	return Weakness{FailPeak, 0, "The flow it must stand is not known."}
}

// dam returns the sized dam and its notch; nil where there is none.
func (w weak) dam() (*checkdam.Design, *checkdam.Notch) {
	if w.design.Dam == nil {
		return nil, nil
	}
	return w.design.Dam, w.design.Dam.Notch
}

func (w weak) notch() Weakness {
	_, n := w.dam()
	if n == nil {
		return ample
	}
	peakM3s, most := w.design.PeakM3s, n.FlowM3s(n.DepthM)
	if w.design.HighM3s > peakM3s {
		peakM3s = w.design.HighM3s
	}
	times := most / peakM3s
	r := Weakness{FailNotch, (times - 1) / (amplePeaks - 1),
		fmt.Sprintf("A flow of %.2g m³/s, %.1f times the highest peak, fills the notch to the tops of the wings: a larger one runs over them and round the ends.", most, times)}
	if times < 1 {
		r.Text = fmt.Sprintf("The notch carries %.2g m³/s to the tops of the wings, and the highest peak is %.2g m³/s: it runs over them and round the ends.", most, peakM3s)
	}
	return r
}

func (w weak) flank() Weakness {
	d, _ := w.dam()
	if d == nil {
		return Weakness{FailFlank, 0, "No cross-section near it shows banks: whether they hold the water is not known."}
	}
	bankM, topM := d.Request.Section.BankHeightM(), wingsM(d)
	r := Weakness{FailFlank, (bankM - topM) / ampleBankM,
		fmt.Sprintf("The lower bank stands only %.2f m above the wings: where it is lower than measured, or wears down, water goes round that end. Key the wings %.2f m into both banks.", bankM-topM, d.Found.KeyBankM)}
	if bankM <= topM {
		r.Text = fmt.Sprintf("The lower bank, %.2f m high, ends %.2f m below the tops of the wings: water goes round that end.", bankM, topM-bankM)
	}
	return r
}

func (w weak) stone() Weakness {
	d, n := w.dam()
	if n == nil || d.Stones == nil || d.Request.Kind == checkdam.Gabion { // wire holds its stone
		return ample
	}
	if math.IsNaN(d.StoneM) {
		return Weakness{FailStone, 0, "No method tells what stone would stay here."}
	}
	mostM := min(liftedStoneM, d.Request.HeightM)
	return Weakness{FailStone, 1 - d.StoneM/mostM,
		fmt.Sprintf("The peak asks for stone of %.2f m, and %.2f m is the most that hands lift or the dam takes: built of smaller stone it is carried away.", d.StoneM, mostM)}
}

func (w weak) apron() Weakness {
	d, n := w.dam()
	if d == nil {
		return ample
	}
	fallM := d.Request.HeightM + d.Request.Slope*d.Found.ApronLengthM
	if n != nil {
		fallM += n.HeadM
	}
	return Weakness{FailApron, 1 - fallM/mostDropM,
		fmt.Sprintf("Water falls %.2f m from the pond to the end of the apron: where the apron is shorter than %.2f m or thinner than %.2f m it digs out the toe.", fallM, d.Found.ApronLengthM, d.Found.ApronThickM)}
}

// headcut tells of the nearest one below that no silt of a dam below will drown.
func (w weak) headcut(headcuts []erosion.Headcut) Weakness {
	out := ample
	for _, h := range headcuts {
		awayM := w.site.StationM - h.StationM
		drowned := slices.ContainsFunc(w.below, func(s siting.Site) bool { return s.StationM <= h.StationM && h.StationM <= s.WedgeEndM })
		if h.Cause != erosion.CauseHeadcut || awayM < 0 || drowned {
			continue
		}
		if margin := awayM / ampleHeadcutM; margin < out.Margin {
			out = Weakness{FailHeadcut, margin, fmt.Sprintf("A headcut of %.1f m stands %.1f m below it: treat that first, or it eats its way up and undermines the dam.", h.HeightM, awayM)}
		}
	}
	return out
}

// toe tells of bare bed below the dam. stations are those of its drainage.
func (w weak) toe(stations []channel.Station) Weakness {
	toeM, last := w.site.StationM-w.site.BodyDownM, len(w.below)-1
	if last >= 0 && w.below[last].WedgeEndM >= toeM {
		return ample
	}
	if last >= 0 && w.below[last].Series == w.site.Series {
		bareM := bedAtM(stations, toeM) - bedAtM(stations, w.below[last].WedgeEndM)
		return Weakness{FailToe, 1 - bareM/mostBareM,
			fmt.Sprintf("The silt of the dam below ends %.1f m short of its toe, and the bed between falls %.2f m: it may cut there and undermine the dam.", toeM-w.below[last].WedgeEndM, bareM)}
	}
	switch w.site.Base {
	case siting.OnDeclared:
		return ample
	case siting.OnConfluence:
		return Weakness{FailToe, confluenceMargin, "It is the lowest dam of its series, and only the bed of the drainage that it joins holds its toe: if that cuts down, the dam is undermined."}
	}
	return Weakness{FailToe, footerMargin, "It is the lowest dam of its series, and no silt will hold its toe: stand it on rock or a grade that cannot cut, or give it a footer."}
}

func (w weak) catchment() Weakness {
	const m2PerHa = 10_000
	got, most := w.site.CatchmentM2/m2PerHa, siting.EngineerCatchmentM2/m2PerHa
	return Weakness{FailCatchment, 1 - got/most,
		fmt.Sprintf("%.1f ha drain to it, and %.3g ha are the most for dams built by hand: a great storm may bring more water than such a dam stands.", got, most)}
}
