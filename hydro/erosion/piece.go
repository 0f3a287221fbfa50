package erosion

import "siltstep/hydro/channel"

// Pieces of a drainage that are worn, whatever its mean over all of its length. Source: this project's judgement.
const (
	WornM      = 30.0 // m; least length of such a piece: some check dams in a row
	WornDepthM = 1.0  // m; mean depth from which such a piece is worn without a headcut
	headBeyond = 10.0 // m; above the upper end of a piece that a headcut may lie: its lip is not yet cut. Source: our own choice.
	pieceGapM  = 10.0 // m; along which a piece may be less cut, or unknown, and go on. Source: our own choice.
)

// piece is a part of a drainage, from its lower end upstream, by stations in metres.
type piece struct {
	fromM, toM float64
	meanM      float64 // incision by known length
}

// incisedPieces returns the pieces that are cut by limitM or more, from the lower end upstream; two that are no more than pieceGapM apart
// are one.
func incisedPieces(stations []channel.Station, incisionM []float64, limitM float64) []piece {
	var out []piece
	var sum, lengthM float64
	lengths := lengthsM(stations)
	for i, s := range stations {
		if !known(incisionM, i) || incisionM[i] < limitM {
			continue
		}
		if n := len(out); n == 0 || s.StationM-out[n-1].toM > pieceGapM {
			out = append(out, piece{fromM: s.StationM})
			sum, lengthM = 0, 0
		}
		p := &out[len(out)-1]
		sum += lengths[i] * incisionM[i]
		lengthM += lengths[i]
		p.toM, p.meanM = s.StationM, sum/lengthM
	}
	return out
}

// wornM returns the length in metres of the longest piece that is worn by itself: cut by cfg.IncisedM or more for WornM at least, and
// WornDepthM deep in the mean or with a headcut in it or at its head. 0 where there is none.
func wornM(stations []channel.Station, j *Judgement, cfg Config) float64 {
	longest := 0.0
	for _, p := range incisedPieces(stations, j.Depths.IncisionM, cfg.IncisedM) {
		lengthM := p.toM - p.fromM
		if lengthM >= WornM && (p.meanM >= WornDepthM || p.holds(j.Headcuts)) {
			longest = max(longest, lengthM)
		}
	}
	return longest
}

// holds reports whether one of the headcuts, no road or pond being its cause, lies in a piece or at its head.
func (p piece) holds(all []Headcut) bool {
	for _, h := range all {
		if h.Cause == CauseHeadcut && p.fromM <= h.StationM && h.StationM <= p.toM+headBeyond {
			return true
		}
	}
	return false
}
