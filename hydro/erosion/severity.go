package erosion

import "siltstep/hydro/channel"

// Rank gives every drainage its severity and its rank. judged has one for each drainage, in order, all but Severity filled in.
func Rank(n *channel.Network, judged []Judgement, noiseM float64, cfg Config) {
}
