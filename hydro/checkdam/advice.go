package checkdam

import (
	"fmt"
	"math"
)

func (d *Design) noPeak() (Note, bool) {
	return Note{Rule: RulePeak, Got: math.NaN(), Limit: math.NaN(),
		Says: remark("No storm peak is given and none is assumed: notch and stone are left empty, and the rock is that up to the sill; the wings beside the notch come on top. Find the peak with siltstep peak.")}, d.Notch == nil
}

// narrowed tells of a notch that was made narrower than the bed, because its sides would have cut into the banks.
func (d *Design) narrowed() (Note, bool) {
	if d.Notch == nil {
		return Note{}, false
	}
	got, bed := d.Notch.WidthM, d.Request.Section.BedWidthM()
	return Note{Rule: RuleNotch, Got: got, Limit: bed,
		Says: remark("The notch is %s wide at its sill and not %s as the bed is, so that its sides stay between the banks.", metres(got), metres(bed))}, d.Request.Notch.WidthM == 0 && got < bed-1e-9
}

func (d *Design) wideNotch() (Note, bool) {
	if d.Notch == nil {
		return Note{}, false
	}
	bed := d.Request.Section.BedWidthM()
	return Note{Rule: RuleNotch, Got: d.Notch.WidthM, Limit: bed,
		Says: remark("The notch of %s is wider than the bed of %s: water would fall on the banks. Narrow it, or let the apron reach up the banks.", metres(d.Notch.WidthM), metres(bed))}, d.Notch.WidthM > bed+1e-9
}

// noWings tells of a notch from bank to bank.
func (d *Design) noWings() (Note, bool) {
	if d.Notch == nil || d.TopM > d.Request.Section.BankHeightM()+1e-9 {
		return Note{}, false
	}
	wing := (d.Request.Section.WidthM(d.TopM) - d.Notch.opensM()) / 2
	return Note{Rule: RuleNotch, Got: wing, Limit: leastWingM,
		Says: remark("The notch leaves wings of %s on each side: water runs along the banks. Line them with rock up to the wings, or narrow the notch.", metres(max(0, wing)))}, wing < leastWingM && d.Notch.fits(d.Request.Section, d.Request.HeightM)
}

// drowned tells of more water over the sill than the dam is high.
func (d *Design) drowned() (Note, bool) {
	if d.Notch == nil {
		return Note{}, false
	}
	h := d.Request.HeightM
	return Note{Rule: RuleHead, Got: d.Notch.HeadM, Limit: h,
			Says: remark("The peak stands %s over the sill, deeper than the dam is high, %s: the dam is drowned in such a storm, and holds back little. A wider notch makes it shallower.", metres(d.Notch.HeadM), metres(h))},
		d.Notch.HeadM > h && !over(d.Notch.HeadM, d.Limits.MostHeadM)
}

func (d *Design) steepFace() (Note, bool) {
	f := d.Request.FaceDown
	return Note{Rule: RuleFace, Got: f, Limit: 1 / ChuteSlopeMax, Source: "Robinson1998",
		Says: remark(fmt.Sprintf("The downstream face of %g:1 is steeper than %g:1, where the tests of stone on a face end: the velocity method alone stands for it. Lay it at 3:1.", f, 1/ChuteSlopeMax))}, d.Stones != nil && f > 0 && 1/f > ChuteSlopeMax
}

func (d *Design) highish() (Note, bool) {
	h, usual := d.Request.HeightM, d.Limits.HighM
	return Note{Rule: RuleHeight, Got: h, Limit: usual, Source: "Jepson1939",
		Says: remark(fmt.Sprintf("%%s is more than the usual %%s of a %s dam: many low dams beat one high.", d.Request.Kind), metres(h), limitM(usual))}, over(h, usual) && (!over(h, d.Limits.MostM) || d.Request.Engineer)
}

func (d *Design) largish() (Note, bool) {
	got, best := d.Request.CatchmentM2, d.Limits.BestM2
	return Note{Rule: RuleCatchment, Got: got / m2PerHa, Limit: best / m2PerHa, Source: d.Limits.BestSource, Recalled: d.Limits.BestSource != "",
		Says: remark(fmt.Sprintf("%%s drain to the dam; below %%s is best for a %s dam.", d.Request.Kind), land(got), land(best))}, over(got, best) && (!over(got, mostCatchmentM2) || d.Request.Engineer)
}

func (d *Design) steepish() (Note, bool) {
	return Note{Rule: RuleSlope, Got: d.Request.Slope, Limit: usualSlopeMost, Source: "IndianaCheckDam",
		Says: remark(fmt.Sprintf("On a bed of %.1f %%%% check dams alone are usually not enough; 2 %%%% to %.0f %%%% is best.", 100*d.Request.Slope, 100*usualSlopeMost))}, d.Request.Slope > usualSlopeMost && (d.Request.Slope <= greatestSlope || d.Request.Engineer)
}

// heavyStone tells of stone too heavy for hands, and of what would make it lighter.
func (d *Design) heavyStone() (Note, bool) {
	n := Note{Rule: RuleStone, Got: d.StoneM, Limit: liftedM,
		Says: remark("Stone of %s weighs about %s: too heavy for hands. ", stoneOf(d.StoneM), weightOf(d.StoneM, d.Request.StoneGravity))}
	if !(d.StoneM > liftedM) || d.StoneM > d.Request.HeightM || d.Request.Kind == Gabion {
		return n, false
	}
	if offer, any := d.lighter(n.Says); any {
		n.Says = offer.and("Else place it by machine, or lead water away first; a lower dam asks for the same stone.")
	} else {
		n.Says = n.Says.and(fmt.Sprintf("No notch between these banks and no face to %g:1 brings it to %%s: place it by machine, or lead water away first.", flattestRun), stoneOf(liftedM))
	}
	return n, true
}

// lighter says after a remark which notch and which face bring the stone down to what hands lift; any is false where none does.
func (d *Design) lighter(says Remark) (_ Remark, any bool) {
	wide, run, bed := d.lighterNotchM(), d.lighterFace(), d.Request.Section.BedWidthM()
	if !math.IsNaN(wide) {
		says = says.and("A notch of %s at the sill brings it to %s", limitM(wide), stoneOf(liftedM))
		if wide > bed+1e-9 {
			says = says.and(", wider than the bed of %s: the apron must then reach up the banks. ", metres(bed))
		} else {
			says = says.and(". ")
		}
	}
	if !math.IsNaN(run) {
		says = says.and(fmt.Sprintf("A downstream face of %g:1 brings it to %%s, with more rock. ", run), stoneOf(liftedM))
	}
	return says, !math.IsNaN(wide) || !math.IsNaN(run)
}

// thinCrest tells of a crest, as given, that is thinner than two stones.
func (d *Design) thinCrest() (Note, bool) {
	got, least := d.Request.CrestWidthM, crestStones*d.StoneM
	return Note{Rule: RuleCrest, Got: got, Limit: least,
		Says: remark("A crest of %s is thinner than two stones of %s: make it %s thick.", metres(got), stoneOf(d.StoneM), metres(least))}, d.Request.Kind != Gabion && got < least-1e-9
}

// mesh tells of fill that must be larger than the flow asks for.
func (d *Design) mesh() (Note, bool) {
	return Note{Rule: RuleStone, Got: d.StoneM, Limit: meshM,
		Says: remark("Gabions are filled with stone that cannot pass the mesh, %s or more whatever the flow asks for.", stoneOf(meshM))}, d.Request.Kind == Gabion && d.StoneM < meshM
}

// scourM returns how deep water that falls from heightM (pond level to bed) may scour below the tailwater's surface, m, under a flow a metre
// of width q (m²/s): 1.90·h^0.225·q^0.54, after Veronese1937, from memory. It is made for jets into a pool of loose bed; of rock faces it tells nothing.
func scourM(heightM, q float64) float64 {
	return 1.90 * math.Pow(heightM, 0.225) * math.Pow(q, 0.54)
}

// scour tells of water that falls down an upright face.
func (d *Design) scour() (Note, bool) {
	if d.Notch == nil || d.Request.FaceDown != 0 {
		return Note{}, false
	}
	deep := scourM(d.Request.HeightM+d.Notch.HeadM, stoneCaseOf(d.Request, *d.Notch).q())
	return Note{Rule: RuleScour, Got: deep, Limit: math.NaN(), Source: "Veronese1937", Recalled: true,
		Says: remark("The face is upright, and water falls on the apron: on bare bed it could scour to %s below its surface (recalled formula, a warning only). Lay the largest stones there, and look after every flow.", metres(deep))}, true
}

func (d *Design) deposit() (Note, bool) {
	r := d.Spacing.DepositRatio
	return Note{Rule: RuleDeposit, Got: r, Limit: 0, Source: "Nichols2016",
		Says: remark(fmt.Sprintf("The spacing trusts a deposit at %.2g of the bed slope: until it has formed, the bed between ponds lies bare. Deposits of 0.5 to 0.66 were measured; 0 needs no such trust.", r))}, r > 0
}

func (d *Design) branch() (Note, bool) {
	const percent = 100
	return Note{Rule: RuleBranch, Got: d.Request.Slope, Limit: heedeBranch, Source: "HeedeMufich1973", Recalled: true,
		Says: remark(fmt.Sprintf("Spacing by the branch for bed slopes %s %.0f %%%%: the deposit is taken at %.2g of the bed slope. It jumps at that slope.", branchSide(d.Request.Slope), percent*heedeBranch, d.Spacing.DepositRatio))}, d.Spacing.Branch != ""
}

// branchSide words on which side of the branch a slope lies.
func branchSide(slope float64) string {
	if slope > heedeBranch {
		return "above"
	}
	return "to"
}

func (d *Design) noYield() (Note, bool) {
	missing := "a sediment yield and the catchment"
	switch {
	case d.Request.CatchmentM2 > 0:
		missing = "a sediment yield"
	case d.Request.Yield != (Yield{}):
		missing = "the catchment"
	}
	return Note{Rule: RuleYield, Got: math.NaN(), Limit: math.NaN(),
		Says: remark("Years until full are left empty: they need " + missing + ".")}, math.IsNaN(d.Storage.FillYearsLow)
}

// recalled tells which numbers rest on values from memory.
func (d *Design) recalled() (Note, bool) {
	words := "Keys and apron follow handbook values recalled, not seen in print: verify them before building."
	if d.Notch != nil && d.Limits.Coefficient == RoughCrest {
		words = "The notch coefficient, keys and apron follow handbook values recalled, not seen in print: verify them before building."
	}
	return Note{Rule: RuleRecalled, Got: math.NaN(), Limit: math.NaN(), Says: remark(words), Source: "Heede1976", Recalled: true}, true
}
