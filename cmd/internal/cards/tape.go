package cards

import (
	"fmt"
	"math"

	"siltstep/cmd/internal/facts"
)

// A tape is the way to a dam with tape and level.
type tape struct {
	near  string   // from the dam below or a landmark, the first thing a crew reads
	lines []string // more ways to check the place
}

// tapeTo returns the way to dam i of a run.
func (d *document) tapeTo(r run, i int) tape {
	s := r.dams[i]
	t := tape{near: d.nearText(r, i)}
	if i > 1 {
		first := r.dams[0]
		t.lines = append(t.lines, fmt.Sprintf("From %s, the lowest dam of the series: %s along the channel; %s.", first.ID, d.length(s.StationM-first.StationM, d.tapeDecimals(r)), d.riseText(s.BedM-first.BedM)))
	}
	if i == 0 && d.nearestBelow(s) == nil {
		return t
	}
	t.lines = append(t.lines, fmt.Sprintf("Station %s: along the channel from %s.", d.length(s.StationM, 1), d.lowerEnd(s.Drainage)))
	return t
}

// nearText says how far a dam stands from the one below, or from a landmark.
func (d *document) nearText(r run, i int) string {
	s := r.dams[i]
	if i > 0 {
		below := r.dams[i-1]
		return fmt.Sprintf("%s upstream of %s, level distance; %s.", d.length(spacing(s, below), d.tapeDecimals(r)), below.ID, d.riseText(riseFrom(s, below)))
	}
	if below := d.nearestBelow(s); below != nil {
		return fmt.Sprintf("%s upstream of %s, the nearest dam of the series below, level distance; %s.", d.length(spacing(s, *below), d.tapeDecimals(r)), below.ID, d.riseText(riseFrom(s, *below)))
	}
	rise := "rise not known"
	if profile := d.f.Profiles[s.Drainage]; len(profile) > 0 && !math.IsNaN(profile[0].BedM) {
		rise = d.riseText(s.BedM - facts.Num(profile[0].BedM))
	}
	return fmt.Sprintf("%s upstream of %s, level distance along the channel; %s.", d.length(s.StationM, d.tapeDecimals(r)), d.lowerEnd(s.Drainage), rise)
}

// spacing returns the distance to the dam below as the plan has it, m: between the stations where it gives none.
func spacing(s, below facts.Site) facts.Num {
	if s.SpacingDownM.Known() && below.Series == s.Series {
		return s.SpacingDownM
	}
	return s.StationM - below.StationM
}

// riseFrom returns the rise of the bed from the dam below likewise, m.
func riseFrom(s, below facts.Site) facts.Num {
	if s.RiseFromBelowM.Known() && below.Series == s.Series {
		return s.RiseFromBelowM
	}
	return s.BedM - below.BedM
}

// riseText words a rise of the bed.
func (d *document) riseText(m facts.Num) string {
	switch {
	case !m.Known():
		return "rise not known"
	case m < 0:
		return d.length(-m, 2) + " lower"
	}
	return d.length(m, 2) + " higher"
}

// nearestBelow returns the next dam below in the same drainage, of another series; nil where there is none.
func (d *document) nearestBelow(s facts.Site) (below *facts.Site) {
	for _, r := range d.runs {
		for i := range r.dams {
			o := &r.dams[i]
			if o.Drainage == s.Drainage && o.StationM < s.StationM && (below == nil || o.StationM > below.StationM) {
				below = o
			}
		}
	}
	return below
}

// lowerEnd names the place where stations of a drainage begin.
func (d *document) lowerEnd(id string) string {
	for _, one := range d.f.Drainages {
		if one.ID == id && one.Into != "" {
			return fmt.Sprintf("the lower end of %s, its confluence with %s", id, one.Into)
		}
	}
	return fmt.Sprintf("the lower end of %s, where its line ends on the map", id)
}

// tapeShare is how far distances on the cards may add up to more or less than the run's own length.
const tapeShare = 0.01

// tapeDecimals returns with how many decimals distances in a run are shown: so many that they add up to its length within tapeShare.
func (d *document) tapeDecimals(r run) int {
	if len(r.dams) < 2 {
		return 1
	}
	long := float64(r.dams[len(r.dams)-1].StationM - r.dams[0].StationM)
	if math.Abs(d.tapeSumM(r, 1)-long) > tapeShare*long {
		return 2
	}
	return 1
}

// tapeSumM adds the distances of a run as they are shown, m.
func (d *document) tapeSumM(r run, decimals int) (sum float64) {
	unit := d.system.LengthScale()
	part := math.Pow(10, float64(decimals))
	for i := 1; i < len(r.dams); i++ {
		sum += math.Round(unit.Value(float64(spacing(r.dams[i], r.dams[i-1])))*part) / part * unit.One
	}
	return sum
}

// tapeFault says that the distances of a run and its stations differ; empty where they agree.
func (d *document) tapeFault(r run) string {
	if len(r.dams) < 2 {
		return ""
	}
	long := r.dams[len(r.dams)-1].StationM - r.dams[0].StationM
	sum := facts.Num(d.tapeSumM(r, 2))
	if !sum.Known() || !long.Known() || math.Abs(float64(sum-long)) <= tapeShare*float64(long) {
		return ""
	}
	return fmt.Sprintf("The distances of this series add up to %s and its stations to %s: tape from the lowest dam again before you set a stake.", d.length(sum, 1), d.length(long, 1))
}
