package erosion

import (
	"fmt"
	"math"

	"siltstep/hydro/channel"
)

// null is a value that was not measured.
var null = math.NaN()

// seen is what was measured of a drawn drainage of even incision and banks.
type seen struct {
	lengthM, incisionM, bankSlope, shear float64
	headcutsM                            []float64
}

// sight is a drainage of 100 m that is worn without being extreme.
var sight = seen{lengthM: 100, incisionM: 1.15, bankSlope: 1.25, shear: math.NaN(), headcutsM: []float64{0.5}}

// drawn returns a drainage of the length with a station each metre, and what was measured of it.
func (s seen) drawn() (channel.Drainage, Judgement) {
	d := channel.Drainage{Into: -1}
	var j Judgement
	n := int(s.lengthM) + 1
	for i := range n {
		d.Profile.Stations = append(d.Profile.Stations, channel.Station{StationM: float64(i)})
		j.Depths.IncisionM = append(j.Depths.IncisionM, s.incisionM)
		j.Depths.BankSlope = append(j.Depths.BankSlope, s.bankSlope)
	}
	for _, h := range s.headcutsM {
		j.Headcuts = append(j.Headcuts, Headcut{HeightM: h, Cause: CauseHeadcut})
	}
	j.Power.ShearRatio = s.shear
	sumUp(&d, &j)
	return d, j
}

// sumUp sets what is told of the depths as a whole, with the default of the incised depth.
func sumUp(d *channel.Drainage, j *Judgement) {
	var sum, known, incised, all float64
	for i, lengthM := range lengthsM(d.Profile.Stations) {
		all += lengthM
		if z := j.Depths.IncisionM[i]; !math.IsNaN(z) {
			sum, known = sum+lengthM*z, known+lengthM
			if z >= Defaults().IncisedM {
				incised += lengthM
			}
		}
	}
	j.Depths.MeanM, j.Depths.IncisedShare, j.Depths.KnownShare = sum/known, incised/known, known/all
}

// network gathers drawn drainages.
func network(all ...seen) (*channel.Network, []Judgement) {
	n := &channel.Network{}
	var judged []Judgement
	for i, s := range all {
		d, j := s.drawn()
		d.ID = fmt.Sprintf("D%02d", i+1)
		n.Drainages = append(n.Drainages, d)
		judged = append(judged, j)
	}
	return n, judged
}

// ranked judges drawn drainages with the default settings as changed.
func ranked(noiseM float64, change func(*Config), all ...seen) []Severity {
	cfg := Defaults()
	if change != nil {
		change(&cfg)
	}
	n, judged := network(all...)
	Rank(n, judged, noiseM, cfg)
	var out []Severity
	for _, j := range judged {
		out = append(out, j.Severity)
	}
	return out
}
