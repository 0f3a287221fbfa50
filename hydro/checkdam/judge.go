package checkdam

import (
	"fmt"
	"math"
)

// What is heeded beyond the limits of a kind.
const (
	usualSlopeMost  = 0.08   // rise over run. Source: IndianaCheckDam: above it check dams alone are usually inadequate
	greatestSlope   = 0.20   // rise over run. Source: our own choice
	mostCatchmentM2 = 40_000 // 10 acres, rounded down. Source: EPACheckDam
	leastWingM      = 0.15   // of a wing beside the notch. Source: our own choice
	meshM           = 0.10   // stone that a gabion's mesh holds; fill of 0.10 m to 0.25 m was read in a copy of a trade sheet
	roundingShare   = 1.02   // limits are rounded from feet and acres: 2 ft is 0.61 m, 3 ft 0.91 m, 10 acres 4.05 ha
)

// over tells whether a value is beyond a limit that is rounded from feet or acres.
func over(got, limit float64) bool { return got > limit*roundingShare }

// A check tells of one thing that must be known beside the numbers; not where it does not hold.
type check func() (Note, bool)

// judge notes what must be known beside the numbers, what fails first.
func (d *Design) judge() {
	d.note(append(d.failing(), d.noPeak, d.narrowed, d.wideNotch, d.noWings, d.drowned, d.steepFace, d.highish, d.largish, d.steepish, d.heavyStone,
		d.thinCrest, d.mesh, d.scour, d.deposit, d.branch, d.noYield, d.recalled))
}

// failing returns the checks that a dam fails by.
func (d *Design) failing() []check {
	return []check{d.banks, d.twoChannels, d.notchInBank, d.tooDeep, d.tooHigh, d.tooLarge, d.tooSteep, d.tooWide, d.touching, d.noStone, d.slowVelocity, d.stoneOverDam}
}

// note makes the checks, and tells whether the dam can be built.
func (d *Design) note(checks []check) {
	d.Buildable = true
	for _, check := range checks {
		if n, ok := check(); ok {
			d.Notes = append(d.Notes, n)
			d.Buildable = d.Buildable && !n.Fail
		}
	}
}

func (d *Design) banks() (Note, bool) {
	have, need := d.Request.Section.BankHeightM(), d.Request.HeightM
	n := Note{Rule: RuleBanks, Fail: true, Got: have}
	if d.Notch == nil {
		n.Limit = need + LeastDepthM
		n.Says = remark("The banks of %s cannot hold a dam of %s with the least notch of %s: water would go round the ends. Build lower, or choose a place with higher banks.", metres(have), metres(need), metres(LeastDepthM))
		return n, have < n.Limit
	}
	n.Limit = d.TopM
	n.Says = remark("The banks of %s cannot hold the sill at %s and a notch of %s above it, %s in all: water would go round the ends. ", metres(have), metres(need), metres(d.Notch.DepthM), metres(d.TopM))
	if lower := have - d.Notch.DepthM; lower >= d.Limits.LowM {
		n.Says = n.Says.and("With this notch the dam may be %s high.", metres(lower))
	} else {
		n.Says = n.Says.and("No usual height fits with this notch: choose a place with higher banks or a wider bed, or lead water away first.")
	}
	return n, have < d.TopM-1e-9
}

// twoChannels tells of a measured section with a second low part: the sums take the dam for one across both, with one notch.
func (d *Design) twoChannels() (Note, bool) {
	count := d.Request.Section.channels(d.Request.HeightM)
	if count <= 1 {
		return Note{}, false
	}
	return Note{Rule: RuleSection, Fail: true, Got: float64(count), Limit: 1,
		Says: remark("The section dips below the sill in " + fmt.Sprint(count) + " places, with higher ground between: water would take the one without a notch. Measure one channel, from bank top to bank top, or choose a place where they are one.")}, true
}

func (d *Design) notchInBank() (Note, bool) {
	if d.Notch == nil {
		return Note{}, false
	}
	s := d.Request.Section
	n := Note{Rule: RuleNotch, Fail: true, Got: d.Notch.opensM(), Limit: s.WidthM(d.TopM),
		Says: remark("The notch, %s wide at its sill and %s at the wings, would cut into the banks, which are %s apart at the sill and %s at the wings: its sums do not hold, and water would wash the banks. Make it narrower, or its sides steeper.",
			metres(d.Notch.WidthM), metres(d.Notch.opensM()), metres(s.WidthM(d.Request.HeightM)), metres(s.WidthM(d.TopM)))}
	// Above the banks there is nothing to compare with: that is told by banks.
	return n, d.TopM <= s.BankHeightM()+1e-9 && !d.Notch.fits(s, d.Request.HeightM)
}

func (d *Design) tooDeep() (Note, bool) {
	if d.Notch == nil || !over(d.Notch.HeadM, d.Limits.MostHeadM) || d.Request.Engineer {
		return Note{}, false
	}
	return Note{Rule: RuleHead, Fail: true, Got: d.Notch.HeadM, Limit: d.Limits.MostHeadM,
		Says: remark(fmt.Sprintf("The peak would stand %%s over the sill, and %%s is the most for a %s dam: this is too much water for it. Choose a wider place, lead water away first, or ask a licensed engineer.", d.Request.Kind), metres(d.Notch.HeadM), metres(d.Limits.MostHeadM))}, true
}

func (d *Design) tooHigh() (Note, bool) {
	h, most := d.Request.HeightM, d.Limits.MostM
	if !over(h, most) || d.Request.Engineer {
		return Note{}, false
	}
	return Note{Rule: RuleHeight, Fail: true, Got: h, Limit: most, Source: d.Limits.HeightSource, Recalled: d.Limits.Recalled,
		Says: remark(fmt.Sprintf("A %s dam of %%s is over %%s: several lower ones, or a licensed engineer.", d.Request.Kind), metres(h), limitM(most))}, true
}

func (d *Design) tooLarge() (Note, bool) {
	got := d.Request.CatchmentM2
	return Note{Rule: RuleCatchment, Fail: true, Got: got / m2PerHa, Limit: mostCatchmentM2 / m2PerHa, Source: "EPACheckDam",
		Says: remark("%s drain to the dam, and %s are the most for hand-built dams: lead water away first, or ask a licensed engineer.", land(got), land(mostCatchmentM2))}, over(got, mostCatchmentM2) && !d.Request.Engineer
}

func (d *Design) tooSteep() (Note, bool) {
	if !(d.Request.Slope > greatestSlope) || d.Request.Engineer {
		return Note{}, false
	}
	return Note{Rule: RuleSlope, Fail: true, Got: d.Request.Slope, Limit: greatestSlope,
		Says: remark(fmt.Sprintf("A bed of %.1f %%%% is too steep for check dams, %.0f %%%% being the most: a rock chute or an engineer.", 100*d.Request.Slope, 100*greatestSlope))}, true
}

// tooWide tells of a channel wider than dams of the kind are built across.
func (d *Design) tooWide() (Note, bool) {
	got, most := d.Request.Section.WidthM(d.Request.HeightM), d.Limits.MostWidthM
	if most == 0 || !over(got, most) || d.Request.Engineer {
		return Note{}, false
	}
	return Note{Rule: RuleGully, Fail: true, Got: got, Limit: most, Source: d.Limits.WidthSource,
		Says: remark(fmt.Sprintf("The channel is %%s wide at the sill, and %s dams are for less than %%s: take rock, or a narrower place.", d.Request.Kind), metres(got), limitM(most))}, true
}

// touching tells of dams so near that the bodies meet.
func (d *Design) touching() (Note, bool) {
	length := d.Body.LengthM(d.Request.HeightM)
	return Note{Rule: RuleBodies, Fail: true, Got: d.Spacing.HorizontalM, Limit: length,
		Says: remark("Dams every %s would touch: each is %s long at its base. Build one alone, lay its faces steeper, or not here.", metres(d.Spacing.HorizontalM), metres(length))}, d.Spacing.HorizontalM < length && d.Dams != 1
}

func (d *Design) noStone() (Note, bool) {
	return Note{Rule: RuleStone, Fail: true, Got: math.NaN(), Limit: math.NaN(),
		Says: remark("No method of stone size is inside its range here: do not guess; change the face or the notch, or ask an engineer.")}, d.Stones != nil && math.IsNaN(d.StoneM)
}

// slowVelocity tells of a velocity, as given, that the peak exceeds already in the notch.
func (d *Design) slowVelocity() (Note, bool) {
	if d.Stones == nil {
		return Note{}, false
	}
	got, least := d.Request.VelocityMs, d.Notch.CriticalMs
	return Note{Rule: RuleVelocity, Fail: true, Got: got, Limit: least,
		Says: remark("The velocity given, %s, is less than that of the peak in the notch, %s, and the stone sized from it too small: give the velocity on the face, or none.", Quantity{got, OfVelocity, 2}, Quantity{least, OfVelocity, 2})}, got > 0 && got < least
}

// stoneOverDam tells of stones larger than the dam; a gabion's are held by wire.
func (d *Design) stoneOverDam() (Note, bool) {
	h := d.Request.HeightM
	n := Note{Rule: RuleStone, Fail: true, Got: d.StoneM, Limit: h,
		Says: remark("The stone that the peak asks for, %s, is larger than the dam is high, %s: no such dam can be built of it. Spread the water over a wider notch, or lead some away first. ", stoneOf(d.StoneM), metres(h))}
	if d.Request.Kind == Gabion || !(d.StoneM > h) {
		return n, false
	}
	if h >= liftedM {
		n.Says, _ = d.lighter(n.Says)
	}
	return n, true
}
