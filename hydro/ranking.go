package hydro

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"siltstep/hydro/erosion"
	"siltstep/hydro/siting"
)

// When a finding is worth telling. Source: our own choice.
const (
	resolvedShare = 0.5 // of the cross-sections; under it they are told to be unresolved
	firmShare     = 0.8 // of draws in the first ten; under it a rank there is not firm
	likelyShare   = 0.2 // of draws in the first ten; from it on a drainage further down may belong there
	differM       = 0.5 // m; median difference of the two measures of incision from which they are told to differ ...
	differShare   = 0.5 // ... if it is this share of the mean incision, or more
	mostIDs       = 10  // drainages that a finding names
	pieceM        = 30  // m; incised length of a sound drainage from which it is told, that of the shortest drainages
	gullyCells    = 3   // cells across a channel under which banks and bed run together
)

// notJudged tells which drainages have no severity, and why.
func notJudged(p *Plan) (Finding, bool) {
	ids := p.drainagesWhere(func(j *erosion.Judgement) bool { return j.Severity.Rank == 0 })
	return Finding{Rule: FindingUnjudged,
		Text: fmt.Sprintf("Not judged: %s. How far the bed is cut into the land is known along less than %.0f %% of the length (the bed is not seen, the data ends beside it, or it lies between the banks of the drainage it joins), or no part of the severity that counts is known. They have no severity and no rank: that is not to say that they are sound. %s", listed(ids), 100*erosion.MinKnownShare, unjudgedAdvice(p)),
	}, len(ids) > 0
}

// unjudgedAdvice says what to do about drainages that are not judged.
func unjudgedAdvice(p *Plan) string {
	if !topHatTells(p) {
		return fmt.Sprintf("Cells of %.4g m, larger than half the window (erosion.window, %.4g m), show nothing of a gully but what cross-sections resolve: bring finer data.", p.Grid.Transform.CellM, p.Config.Erosion.WindowM)
	}
	return "Walk them."
}

// topHatTells reports whether the window of the top-hat holds enough cells to tell a gully from the valley.
func topHatTells(p *Plan) bool {
	return 2*p.Grid.Transform.CellM <= p.Config.Erosion.WindowM
}

// noShear tells that the ranking stands without the shear of a storm, what is missing for it, or where it is not known.
func noShear(p *Plan) (Finding, bool) {
	if p.Config.Erosion.Shear.Weight == 0 || len(p.Erosion) == 0 {
		return Finding{}, false
	}
	var needs []string
	if !p.Config.Storm.given() {
		needs = append(needs, "no storm was given")
	}
	if p.Config.Erosion.Material == "" {
		needs = append(needs, "no bed material was chosen (erosion.bed_material)")
	}
	var without []string
	known := false
	for i, j := range p.Erosion {
		if known = known || !math.IsNaN(j.Power.ShearRatio); math.IsNaN(j.Power.ShearRatio) && j.Severity.Rank > 0 {
			without = append(without, p.Network.Drainages[i].ID)
		}
	}
	if len(needs) == 0 || known {
		return Finding{Rule: FindingShear,
			Text: fmt.Sprintf("The severity of %d of %d drainages is without what storm water can do to the bed: %s. Along them the storm peak is not known, or no cross-section with banks is resolved. The part shear is empty (null), and the weights of their other parts are scaled up to make the whole.", len(without), len(p.Erosion), listed(without)),
		}, len(without) > 0
	}
	return Finding{Rule: FindingShear,
		Text: fmt.Sprintf("The ranking is without what storm water can do to the bed: %s. The part shear is empty (null), and the weights of the other parts are scaled up to make the whole.", strings.Join(needs, " and ")),
	}, true
}

// sections tells how many cross-sections are resolved where many are not, and what coarse cells lose.
func sections(p *Plan) (Finding, bool) {
	all, resolved, example := 0, 0, ""
	for i, list := range p.Sections {
		for _, s := range list {
			all++
			switch {
			case s.Resolved:
				resolved++
			case example == "":
				example = fmt.Sprintf(" The first that is not, in %s at %.1f m: %s.", p.Network.Drainages[i].ID, s.StationM, s.Why)
			}
		}
	}
	cellM := p.Grid.Transform.CellM
	coarse := cellM > siting.BestCellM
	instead := "incision is by the land within the window of the top-hat alone, and widths and banks stay empty (null)."
	if !topHatTells(p) {
		instead = "incision, widths and banks stay empty (null): the window of the top-hat (erosion.window) holds too few cells of this size."
	}
	var text string
	switch {
	case len(p.Network.Drainages) == 0:
		return Finding{}, false
	case all == 0:
		text = "No cross-section was taken: " + instead
	default:
		text = fmt.Sprintf("Cross-sections resolved: %d of %d (%.0f %%).%s Where none is, %s", resolved, all, 100*float64(resolved)/float64(all), example, instead)
	}
	if coarse {
		text += fmt.Sprintf(" Cells of %.4g m lose what is small: a channel narrower than some %.4g m reads shallower than it is or not at all, its banks gentler, and a headcut lower and longer. Where severities are told at all they tend to be too low; bring cells of %g m or finer before a drainage is called sound.", cellM, gullyCells*cellM, siting.BestCellM)
	}
	return Finding{Rule: FindingSections, Text: text}, coarse || float64(resolved) < resolvedShare*float64(all) || all == 0
}

// unsteady tells which of the first ten ranks are not firm, and who else may belong there.
func unsteady(p *Plan) (Finding, bool) {
	var loose, likely []string
	for _, i := range p.byRank() {
		d, s := &p.Network.Drainages[i], p.Erosion[i].Severity
		text := fmt.Sprintf("%s (%.0f %%)", d.ID, 100*s.Steady)
		switch {
		case s.Rank <= erosion.SteadyFirst && s.Steady < firmShare:
			loose = append(loose, text)
		case s.Rank > erosion.SteadyFirst && s.Steady >= likelyShare:
			likely = append(likely, text)
		}
	}
	text := fmt.Sprintf("Not every rank is firm. Weights and heights were varied by what they may be off, %d times. Among the first ten but not in every draw: %s.", erosion.SteadyDraws, listed(loose))
	if len(likely) > 0 {
		text += fmt.Sprintf(" Further down, yet often among them: %s.", listed(likely))
	}
	return Finding{Rule: FindingSteady, Text: text + " Look at their parts before one is put before another."}, len(loose) > 0
}

// measuresDiffer tells where cross-sections and top-hat do not agree on the incision.
func measuresDiffer(p *Plan) (Finding, bool) {
	var at []int
	for i, j := range p.Erosion {
		if d := j.Depths; d.DisagreeM >= differM && d.DisagreeM >= differShare*d.MeanM {
			at = append(at, i)
		}
	}
	slices.SortStableFunc(at, func(a, b int) int {
		return cmp.Compare(p.Erosion[b].Depths.DisagreeM, p.Erosion[a].Depths.DisagreeM)
	})
	var texts []string
	for _, i := range at {
		texts = append(texts, fmt.Sprintf("%s (%.2f m)", p.Network.Drainages[i].ID, p.Erosion[i].Depths.DisagreeM))
	}
	return Finding{Rule: FindingMeasures,
		Text: fmt.Sprintf("Two measures of incision differ by half of it or more: %s. Cross-sections tell the height of the banks beside the bed, the top-hat how far the bed lies below the land within %.4g m: where the second is larger, a gully lies in a valley, or the valley itself was taken for the cut. Look at the sections.", listed(texts), p.Config.Erosion.WindowM),
	}, len(at) > 0
}

// sound tells which drainages are in good shape as a whole, in how many of them sections say so, and where a piece is
// cut all the same.
func sound(p *Plan) (Finding, bool) {
	isSound := func(j *erosion.Judgement) bool { return j.Severity.Class == erosion.Sound }
	ids := p.drainagesWhere(isSound)
	blind := p.drainagesWhere(func(j *erosion.Judgement) bool {
		return isSound(j) && !(j.Depths.ResolvedShare >= resolvedShare)
	})
	which := fmt.Sprintf("%d of %d drainages look", len(ids), len(p.Erosion))
	if len(ids) == len(p.Erosion) {
		which = "All drainages look"
	}
	text := fmt.Sprintf("%s sound as a whole, with a severity below %.0f: %s.", which, erosion.WatchFrom, listed(ids))
	if pieces := cutPieces(p); len(pieces) > 0 {
		text += fmt.Sprintf(" Yet pieces of some are cut, which the mean over their length hides: %s. Look at those on their own.", listed(pieces))
	}
	if len(blind) > 0 {
		text += fmt.Sprintf(" In %d fewer than half of the cross-sections are resolved, so that a gully may be there and not show: walk those, or bring finer data, before they are left.", len(blind))
	}
	if len(blind) < len(ids) {
		text += " Elsewhere nothing in the elevation data asks for work: leave the land be, and look again after large storms."
	}
	return Finding{Rule: FindingSound, Text: text}, len(ids) > 0
}

// worn tells which drainages are watched for one piece, their severity being that of sound ones.
func worn(p *Plan) (Finding, bool) {
	var texts []string
	for i, j := range p.Erosion {
		if m := j.Severity.WornM; m > 0 {
			texts = append(texts, fmt.Sprintf("%s (%.0f m)", p.Network.Drainages[i].ID, m))
		}
	}
	return Finding{Rule: FindingWorn,
		Text: fmt.Sprintf("Watched for one piece: %s. As a whole they have the severity of sound drainages, for the mean over their length hides it; the length is that of the longest piece that is cut %.4g m or more, and %.4g m in the mean or with a headcut. Look at it on its own: its profile shows where it lies.",
			listed(texts), p.Config.Erosion.IncisedM, erosion.WornDepthM),
	}, len(texts) > 0
}

// cutPieces lists the sound drainages of which pieceM or more is incised, with that length, the longest first.
func cutPieces(p *Plan) []string {
	lengthM := func(i int) float64 {
		d := &p.Erosion[i].Depths
		return d.IncisedShare * d.KnownShare * p.Network.Drainages[i].Profile.LengthM()
	}
	var at []int
	for i := range p.Erosion {
		if p.Erosion[i].Severity.Class == erosion.Sound && lengthM(i) >= pieceM {
			at = append(at, i)
		}
	}
	slices.SortStableFunc(at, func(a, b int) int { return cmp.Compare(lengthM(b), lengthM(a)) })
	var texts []string
	for _, i := range at {
		texts = append(texts, fmt.Sprintf("%s (%.0f m)", p.Network.Drainages[i].ID, lengthM(i)))
	}
	return texts
}

// drainagesWhere lists the ids of the drainages whose judgement is such, in their order.
func (p *Plan) drainagesWhere(is func(*erosion.Judgement) bool) []string {
	var ids []string
	for i := range p.Erosion {
		if is(&p.Erosion[i]) {
			ids = append(ids, p.Network.Drainages[i].ID)
		}
	}
	return ids
}

// byRank returns the ranked drainages, worst first, by position.
func (p *Plan) byRank() []int {
	var out []int
	for i := range p.Erosion {
		if p.Erosion[i].Severity.Rank > 0 {
			out = append(out, i)
		}
	}
	slices.SortFunc(out, func(a, b int) int {
		return cmp.Compare(p.Erosion[a].Severity.Rank, p.Erosion[b].Severity.Rank)
	})
	return out
}

// listed writes a list out, the first mostIDs of it.
func listed(texts []string) string {
	if n := len(texts); n > mostIDs {
		return fmt.Sprintf("%s and %d more", strings.Join(texts[:mostIDs], ", "), n-mostIDs)
	}
	return strings.Join(texts, ", ")
}
