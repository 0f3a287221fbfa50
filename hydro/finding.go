package hydro

import (
	"fmt"
	"slices"
	"strings"

	"siltstep/hydro/channel"
	"siltstep/hydro/siting"
	"siltstep/raster"

	"github.com/paulmach/orb"
)

// Finding is an answer that is usable but doubtful, or something the user must know or give.
type Finding struct {
	Rule    string // one of the Finding… names
	Subject string // drainage or dam id; empty for the whole plan
	Text    string // what, where, and what to do
	Source  string // key of Sources; empty where it is our own judgement

	Placed bool      // the finding has a place of its own
	At     orb.Point // that place on the map, m
}

// The rules of findings.
const (
	FindingRain         = "no-rainfall"
	FindingSurroundings = "surroundings-not-judged"
	FindingDeposit      = "deposit-ratio"
	FindingCoarse       = "coarse-cells"
	FindingSteps        = "height-steps"
	FindingVoids        = "voids"
	FindingCuts         = "cuts"
	FindingDepressions  = "depressions"
	FindingKept         = "kept-water"
	FindingLimits       = "cuts-not-made"
	FindingUnused       = "declared-unused"
	FindingInflow       = "inflow"
	FindingEdge         = "edge-closed"
	FindingEdgeSpill    = "edge-spill"
	FindingNoDrainage   = "no-drainage"
	FindingNoReach      = "no-eligible-reach"
	FindingTruncated    = "truncated-catchment"
	FindingWater        = "standing-water"
	FindingPools        = "small-pools"
	FindingProperty     = "property-line"
	FindingShear        = "shear-not-judged"
	FindingSections     = "sections-not-resolved"
	FindingUnjudged     = "severity-not-judged"
	FindingSteady       = "rank-not-firm"
	FindingMeasures     = "incision-measures-differ"
	FindingWorn         = "watched-for-a-piece"
	FindingSound        = "sound-drainages"

	FindingRunoff        = "runoff-number"
	FindingPeak          = "peak-not-known"
	FindingTruncatedDams = "dams-without-peak"
	FindingSpread        = "peak-spread"
	FindingConcentration = "time-of-concentration"
	FindingStorm         = "storm-to-heed"
	FindingUndesigned    = "dams-not-designed"
	FindingNotBuildable  = "dams-not-buildable"
	FindingStone         = "stone-too-heavy"
	FindingRecalled      = "handbook-recalled"
	FindingPrism         = "prism-volumes"
	FindingPrices        = "not-priced"
)

// findings lists what is to be said of a plan: first of the whole, then drainage by drainage.
func findings(p *Plan) []Finding {
	var out []Finding
	add := func(f Finding, ok bool) {
		if ok {
			out = append(out, f)
		}
	}
	add(rain(p))
	add(surroundings(p), true)
	sited := p.Layouts != nil
	if sited {
		add(depositRatio(p.Config.Siting))
		add(coarseCells(p))
	}
	if p.stairs != nil {
		out = append(out, *p.stairs)
	}
	add(voids(p.Grid))
	add(edgeClosed(p))
	add(inflows(p))
	out = append(out, blockages(p)...)
	add(edgeSpills(p))
	add(noDrainage(p))
	add(noShear(p))
	add(sections(p))
	add(notJudged(p))
	add(unsteady(p))
	add(measuresDiffer(p))
	add(worn(p))
	add(sound(p))
	if sited {
		add(noReach(p))
	}
	out = append(out, lookedUp(p.Config.Storm)...)
	add(noPeaks(p))
	add(truncatedDams(p))
	add(spread(p))
	add(floorActs(p))
	out = append(out, heeds(p)...)
	out = append(out, p.field.findings(p.Changes, p.Totals)...)
	add(undesigned(p))
	add(notBuildable(p))
	add(heavyStone(p))
	add(recalled(p))
	add(prism(p))
	add(notPriced(p))
	out = append(out, p.budget...)
	add(smallPools(p.Network.Drainages))
	for i := range p.Network.Drainages {
		d := &p.Network.Drainages[i]
		add(truncated(d))
		add(standingWater(p, d))
		if sited {
			add(propertyLine(d.ID, p.Layouts[i]))
		}
	}
	return out
}

func depositRatio(cfg siting.Config) (Finding, bool) {
	return Finding{Rule: FindingDeposit, Source: "Nichols2016",
		Text: fmt.Sprintf("Dams are spaced for a deposit at %.2g of the bed slope: wider than level ponds reach, so the bed between them lies bare until the deposit has formed. 0 gives the spacing that needs no such trust.", cfg.DepositRatio),
	}, cfg.DepositRatio > 0
}

func coarseCells(p *Plan) (Finding, bool) {
	cellM := p.Grid.Transform.CellM
	f := Finding{Rule: FindingCoarse}
	switch {
	case cellM > siting.MaxSiteCellM && p.Config.Siting.AllowCoarse:
		f.Text = fmt.Sprintf("Cells of %.4g m can screen drainages but cannot site check dams; dams are laid out all the same because coarse cells were allowed. Take them as a count for a budget, not as places.", cellM)
	case cellM > siting.MaxSiteCellM:
		f.Text = fmt.Sprintf("Cells of %.4g m can screen drainages but cannot site check dams, so none is sited. Bring elevation data of %g m cells or finer, or allow coarse cells (--allow-coarse) for a rough count.", cellM, siting.MaxSiteCellM)
	default:
		f.Text = fmt.Sprintf("Cells of %.4g m blur banks and steps, which lowers confidence in every dam. Cells of %g m or finer are better; measure spacing and drop on the ground.", cellM, siting.BestCellM)
	}
	return f, cellM > siting.BestCellM
}

func voids(g *raster.Grid) (Finding, bool) {
	n := len(g.MM) - g.ValidCells()
	return Finding{Rule: FindingVoids,
		Text: fmt.Sprintf("%d of %d cells (%.1f %%) hold no data. Flow ends at a hole and what enters from one is unknown; fill the holes from another survey if one touches a drainage that matters.", n, len(g.MM), 100*float64(n)/float64(len(g.MM))),
	}, n > 0
}

func edgeSpills(p *Plan) (Finding, bool) {
	n := len(p.Flow.EdgeSpills)
	if n == 0 {
		return Finding{}, false
	}
	x, y := p.Grid.CenterOf(p.Flow.EdgeSpills[0])
	return Finding{Rule: FindingEdgeSpill, Placed: true, At: orb.Point{x, y},
		Text: fmt.Sprintf("Standing water leaves over the edge of the data at %d places, the first at x %.1f, y %.1f m: a drainage may be cut short or dammed there. Look at what lies beyond, or bring more data.", n, x, y),
	}, true
}

func noDrainage(p *Plan) (Finding, bool) {
	if len(p.Network.Drainages) > 0 {
		return Finding{}, false
	}
	cellM2 := p.Grid.Transform.CellM * p.Grid.Transform.CellM
	largest := float64(slices.Max(p.Flow.Cells)) * cellM2
	start := max(p.Config.Channels.StartAreaM2, channel.MinStartCells*cellM2)
	return Finding{Rule: FindingNoDrainage,
		Text: fmt.Sprintf("No drainage was found: the largest catchment is %.2f ha, a channel begins at %.2f ha, and one shorter than %.4g m does not count. Bring data of a larger piece of land, or lower the start area or the least length.", largest/10_000, start/10_000, p.Config.Channels.MinLengthM),
	}, true
}

// noReach tells which rules keep every reach from being eligible, by length. On cells too
// coarse to site a dam that is said already.
func noReach(p *Plan) (Finding, bool) {
	tooCoarse := p.Grid.Transform.CellM > siting.MaxSiteCellM && !p.Config.Siting.AllowCoarse
	if p.Totals.EligibleM > 0 || p.Totals.Drainages == 0 || tooCoarse {
		return Finding{}, false
	}
	lengths := map[siting.Rule]float64{}
	for _, l := range p.Layouts {
		for _, r := range l.Reaches {
			for _, rule := range distinctRules(r.Reasons) {
				lengths[rule] += r.LengthM()
			}
		}
	}
	var parts []string
	for rule, m := range lengths {
		parts = append(parts, fmt.Sprintf("%s %.0f m", rule, m))
	}
	slices.Sort(parts)
	return Finding{Rule: FindingNoReach,
		Text: fmt.Sprintf("No reach is eligible for a dam. Of %.0f m of channel, by reason (a reach may have several): %s. See the reaches for each, and the limits in the settings.", p.Totals.ChannelM, strings.Join(parts, ", ")),
	}, true
}

func distinctRules(reasons []siting.Reason) []siting.Rule {
	var out []siting.Rule
	for _, r := range reasons {
		if !slices.Contains(out, r.Rule) {
			out = append(out, r.Rule)
		}
	}
	return out
}

func truncated(d *channel.Drainage) (Finding, bool) {
	return Finding{Rule: FindingTruncated, Subject: d.ID,
		Text: fmt.Sprintf("Water enters the catchment of %s over the edge of the data at %d border cells: its areas and flows read \"at least\", and no notch or stone can be sized for the dams below the place of entry. Bring data beyond that edge, give what flows in there (--inflow), or declare that nothing does (flow.edge: closed).", d.ID, d.TruncatedCells),
	}, d.Truncated
}

// propertyLine gathers what the march had to lower or drop in a drainage.
func propertyLine(id string, l siting.Layout) (Finding, bool) {
	var texts []string
	for _, r := range l.Reaches {
		for _, n := range r.Notes {
			if n.Rule == siting.RuleProperty {
				texts = append(texts, n.Text+".")
			}
		}
	}
	return Finding{Rule: FindingProperty, Subject: id,
		Text: fmt.Sprintf("The property line limits dams in %s. %s Survey the line before building, or agree with the neighbour.", id, strings.Join(texts, " ")),
	}, len(texts) > 0
}

// surroundings tells what near the dams is not judged: what was not declared, and what no layer is taken of.
func surroundings(p *Plan) Finding {
	f, missing := p.Config.Siting.Features, []string{}
	for _, kind := range []struct {
		name  string
		given bool
	}{{"roads", len(f.Roads) > 0}, {"houses", len(f.Buildings) > 0}, {"live streams", len(f.Streams) > 0}} {
		if !kind.given {
			missing = append(missing, kind.name)
		}
	}
	what := strings.Join(append(missing, "utilities"), ", ")
	what = strings.ToUpper(what[:1]) + what[1:]
	return Finding{Rule: FindingSurroundings, Text: what + " and cultural sites are not in the data and are not judged: dams near them need a licensed engineer or a permit. Walk every site and confirm with the local authority."}
}
