package report

import (
	"math"

	"siltstep/geojson"
	"siltstep/hydro"
	"siltstep/hydro/erosion"

	"github.com/paulmach/orb"
)

// unjudged stands for the judgement of a drainage that has none.
var unjudged = erosion.Judgement{
	Depths:   erosion.Depths{MeanM: math.NaN(), MaxM: math.NaN(), IncisedShare: math.NaN(), KnownShare: math.NaN(), ResolvedShare: math.NaN(), DisagreeM: math.NaN()},
	Severity: erosion.Severity{Total: math.NaN(), Steady: math.NaN()},
}

// judgementValues returns what the table of drainages holds beyond the layer.
func judgementValues(r Record, i int) []any {
	j := r.judgement(i)
	d := j.Depths
	return []any{countOrNull(j.Severity.Rank), j.Severity.Steady, d.IncisedShare, d.KnownShare, d.ResolvedShare, d.DisagreeM, r.propertyShare(i)}
}

// partRows returns the parts of every severity.
func partRows(p *hydro.Plan) (rows [][]any) {
	for i, j := range p.Erosion {
		for _, part := range j.Severity.Parts {
			rows = append(rows, []any{p.Network.Drainages[i].ID, part.Name, part.Value, part.Unit, part.Score, part.Weight, points(part, j.Severity)})
		}
	}
	return rows
}

// knownWeight returns the sum of the weights of the parts that were judged.
func knownWeight(s erosion.Severity) float64 {
	sum := 0.0
	for _, part := range s.Parts {
		if !math.IsNaN(part.Score) {
			sum += part.Weight
		}
	}
	return sum
}

// points returns what a part adds to a severity; NaN where either was not judged.
func points(part erosion.Part, s erosion.Severity) float64 {
	if math.IsNaN(s.Total) {
		return math.NaN()
	}
	return part.Score * part.Weight / knownWeight(s)
}

// scaleOf returns the limits that turn the value of a part into a score.
func scaleOf(cfg erosion.Config, part string) erosion.Scale {
	switch part {
	case "incision":
		return cfg.Incision
	case "headcuts":
		return cfg.Headcuts
	case "shear":
		return cfg.Shear
	case "bank-slope":
		return cfg.BankSlope
	case "incised-length":
		return cfg.IncisedLength
	}
	panic("report: there is no part of a severity called " + part)
}

// headcutRows returns every headcut with its place.
func headcutRows(r Record) ([][]any, error) {
	var at []orb.Point
	for _, j := range r.Plan.Erosion {
		for _, h := range j.Headcuts {
			at = append(at, orb.Point{h.X, h.Y})
		}
	}
	places, err := r.ToLonLat.Project(at)
	if err != nil {
		return nil, err
	}
	var rows [][]any
	for i, j := range r.Plan.Erosion {
		for _, h := range j.Headcuts {
			n := len(rows)
			rows = append(rows, append(geojson.HeadcutValues(n+1, r.Plan.Network.Drainages[i].ID, h), places[n][0], places[n][1], h.X, h.Y))
		}
	}
	return rows, nil
}

// A count is how many drainages are of a class; the empty class holds those of which nothing could be told.
type count struct {
	class erosion.Class
	n     int
}

// classes counts the drainages of a plan by class, the worst first.
func classes(p *hydro.Plan) []count {
	counts := []count{{class: erosion.Severe}, {class: erosion.Eroding}, {class: erosion.Watch}, {class: erosion.Sound}, {}}
	for i := range p.Network.Drainages {
		var class erosion.Class
		if i < len(p.Erosion) {
			class = p.Erosion[i].Severity.Class
		}
		for k := range counts {
			if counts[k].class == class {
				counts[k].n++
			}
		}
	}
	return counts
}
