package checkdam

import (
	"fmt"
	"math"
)

// What is heeded beyond the limits of a kind.
const (
	usualSlopeMost  = 0.08   // rise over run. Source: IndianaCheckDam: above it check dams alone are usually inadequate
	greatestSlope   = 0.20   // rise over run. Source: our own choice
	bestCatchmentM2 = 20_000 // Source: our own choice
	mostCatchmentM2 = 40_000 // 10 acres, rounded down. Source: EPACheckDam
	ultimateDeposit = 0.5    // deposit over bed slope. Source: Leopold1992
)

// judge notes what must be known beside the numbers, what fails first.
func (d *Design) judge() {
	for _, check := range []func() (Note, bool){
		d.banks, d.tooHigh, d.tooLarge, d.tooSteep, d.touching, d.noPeak, d.wideNotch, d.steepFace, d.noStone,
		d.highish, d.largish, d.steepish, d.heavyStone, d.deposit, d.branch, d.noYield, d.recalled,
	} {
		if n, ok := check(); ok {
			d.Notes = append(d.Notes, n)
		}
	}
	d.Buildable = true
	for _, n := range d.Notes {
		d.Buildable = d.Buildable && !n.Fail
	}
}

func (d *Design) banks() (Note, bool) {
	have, need := d.Request.Section.BankHeightM(), d.Request.HeightM
	n := Note{Rule: RuleBanks, Fail: true, Got: have}
	if d.Notch == nil {
		n.Limit = need + LeastDepthM
		n.Text = fmt.Sprintf("The banks of %.2f m cannot hold a dam of %.2f m with the least notch of %.2f m: water would go round the ends. Build lower, or choose a place with higher banks.", have, need, LeastDepthM)
		return n, have < n.Limit
	}
	n.Limit = d.TopM
	n.Text = fmt.Sprintf("The banks of %.2f m cannot hold the sill at %.2f m and a notch of %.2f m above it, %.2f m in all: water would go round the ends. ", have, need, d.Notch.DepthM, d.TopM)
	if lower := have - d.Notch.DepthM; lower >= d.Limits.LowM {
		n.Text += fmt.Sprintf("With this notch the dam may be %.2f m high.", lower)
	} else {
		n.Text += "No usual height fits with this notch: choose a place with higher banks or a wider bed, or lead water away first."
	}
	return n, have < d.TopM-1e-9
}

func (d *Design) tooHigh() (Note, bool) {
	h, most := d.Request.HeightM, d.Limits.MostM
	return Note{Rule: RuleHeight, Fail: true, Got: h, Limit: most, Source: d.Limits.HeightSource, Recalled: d.Limits.Recalled,
		Text: fmt.Sprintf("A %s dam of %.2f m is over %.2f m: several lower ones, or a licensed engineer.", d.Request.Kind, h, most)}, h > most+1e-9 && !d.Request.Engineer
}

func (d *Design) highish() (Note, bool) {
	h, usual := d.Request.HeightM, d.Limits.HighM
	return Note{Rule: RuleHeight, Got: h, Limit: usual, Source: "Jepson1939",
		Text: fmt.Sprintf("%.2f m is more than the usual %.2f m of a %s dam: many low dams beat one high.", h, usual, d.Request.Kind)}, h > usual+1e-9 && (h <= d.Limits.MostM || d.Request.Engineer)
}

func (d *Design) tooLarge() (Note, bool) {
	ha := d.Request.CatchmentM2 / 10_000
	return Note{Rule: RuleCatchment, Fail: true, Got: ha, Limit: mostCatchmentM2 / 10_000.0, Source: "EPACheckDam",
		Text: fmt.Sprintf("%.1f ha drain to the dam, and %.0f ha are the most for hand-built dams: lead water away first, or ask a licensed engineer.", ha, mostCatchmentM2/10_000.0)}, d.Request.CatchmentM2 > mostCatchmentM2 && !d.Request.Engineer
}

func (d *Design) largish() (Note, bool) {
	ha := d.Request.CatchmentM2 / 10_000
	return Note{Rule: RuleCatchment, Got: ha, Limit: bestCatchmentM2 / 10_000.0,
		Text: fmt.Sprintf("%.1f ha drain to the dam; below %.0f ha is best.", ha, bestCatchmentM2/10_000.0)}, d.Request.CatchmentM2 > bestCatchmentM2 && d.Request.CatchmentM2 <= mostCatchmentM2
}

func (d *Design) tooSteep() (Note, bool) {
	return Note{Rule: RuleSlope, Fail: true, Got: d.Request.Slope, Limit: greatestSlope,
		Text: fmt.Sprintf("A bed of %.1f %% is too steep for check dams, %.0f %% being the most: a rock chute or an engineer.", 100*d.Request.Slope, 100*greatestSlope)}, d.Request.Slope > greatestSlope && !d.Request.Engineer
}

func (d *Design) steepish() (Note, bool) {
	return Note{Rule: RuleSlope, Got: d.Request.Slope, Limit: usualSlopeMost, Source: "IndianaCheckDam",
		Text: fmt.Sprintf("On a bed of %.1f %% check dams alone are usually not enough; 2 %% to %.0f %% is best.", 100*d.Request.Slope, 100*usualSlopeMost)}, d.Request.Slope > usualSlopeMost && d.Request.Slope <= greatestSlope
}

// touching tells of dams so near that the bodies meet.
func (d *Design) touching() (Note, bool) {
	length := d.Body.LengthM(d.Request.HeightM)
	return Note{Rule: RuleBodies, Fail: true, Got: d.Spacing.HorizontalM, Limit: length,
		Text: fmt.Sprintf("Dams every %.1f m would touch: each is %.1f m long at its base. Build higher with fewer, or not here.", d.Spacing.HorizontalM, length)}, d.Spacing.HorizontalM < length && d.Dams != 1
}

func (d *Design) noPeak() (Note, bool) {
	return Note{Rule: RulePeak, Got: math.NaN(), Limit: math.NaN(),
		Text: "No storm peak is given and none is assumed: notch and stone are left empty, and the rock is that up to the sill; the wings beside the notch come on top. Find the peak with siltstep peak."}, d.Notch == nil
}

func (d *Design) wideNotch() (Note, bool) {
	if d.Notch == nil {
		return Note{}, false
	}
	bed := d.Request.Section.BedWidthM()
	return Note{Rule: RuleNotch, Got: d.Notch.WidthM, Limit: bed,
		Text: fmt.Sprintf("The notch of %.2f m is wider than the bed of %.2f m: water would fall on the banks. Narrow it, or let the apron reach up the banks.", d.Notch.WidthM, bed)}, d.Notch.WidthM > bed+1e-9
}

func (d *Design) steepFace() (Note, bool) {
	f := d.Request.FaceDown
	return Note{Rule: RuleFace, Got: f, Limit: 1 / ChuteSlopeMax, Source: "Robinson1998",
		Text: fmt.Sprintf("The downstream face of %g:1 is steeper than %g:1, where the tests of stone on a face end: no stone size is known for it. Lay it at 3:1.", f, 1/ChuteSlopeMax)}, d.Stones != nil && f > 0 && 1/f > ChuteSlopeMax
}

func (d *Design) noStone() (Note, bool) {
	return Note{Rule: RuleStone, Fail: true, Got: math.NaN(), Limit: math.NaN(),
		Text: "No method of stone size is inside its range here: do not guess; change the face or the notch, or ask an engineer."}, d.Stones != nil && math.IsNaN(d.StoneM)
}

// liftedM is the largest stone that hands can lift and place, m. Source: our own choice: 0.3 m of stone weighs 37 kg.
const liftedM = 0.3

func (d *Design) heavyStone() (Note, bool) {
	return Note{Rule: RuleStone, Got: d.StoneM, Limit: liftedM,
		Text: fmt.Sprintf("Stone of %.2f m is too heavy for hands: a machine, a wider notch, a flatter face, or lower dams.", d.StoneM)}, d.StoneM > liftedM
}

func (d *Design) deposit() (Note, bool) {
	r := d.Spacing.DepositRatio
	return Note{Rule: RuleDeposit, Got: r, Limit: 0, Source: "Nichols2016",
		Text: fmt.Sprintf("The spacing trusts a deposit at %.2g of the bed slope: until it has formed, the bed between ponds lies bare. Deposits of 0.5 to 0.66 were measured; 0 needs no such trust.", r)}, r > 0
}

func (d *Design) branch() (Note, bool) {
	return Note{Rule: RuleBranch, Got: d.Request.Slope, Limit: heedeBranch, Source: "HeedeMufich1973", Recalled: true,
		Text: "Spacing by the branch for " + d.Spacing.Branch + "; it jumps at 20 %."}, d.Spacing.Branch != ""
}

func (d *Design) noYield() (Note, bool) {
	return Note{Rule: RuleYield, Got: math.NaN(), Limit: math.NaN(),
		Text: "Years until full are left empty: they need a sediment yield and a catchment."}, math.IsNaN(d.Storage.FillYearsLow)
}

// recalled tells which numbers rest on values from memory.
func (d *Design) recalled() (Note, bool) {
	text := "Keys and apron follow handbook values recalled, not seen in print: verify them before building."
	if d.Notch != nil && d.Limits.Coefficient == RoughCrest {
		text = "The notch coefficient, keys and apron follow handbook values recalled, not seen in print: verify them before building."
	}
	return Note{Rule: RuleRecalled, Got: math.NaN(), Limit: math.NaN(), Text: text, Source: "Heede1976", Recalled: true}, true
}
