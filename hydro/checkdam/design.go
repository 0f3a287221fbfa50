package checkdam

import (
	"math"
)

// Design is a sized dam. What was not computed is NaN or nil, and a note says why.
type Design struct {
	Request   Request // defaults filled in
	Limits    Limits
	Spacing   Spacing
	Dams      int // to treat Request.ReachM; 0 where none is given
	Body      Body
	TopM      float64 // top of the wings above the bed; NaN without a peak
	CrestM    float64 // length of the crest from bank to bank, at the top, or at the sill without a peak
	Notch     *Notch  // nil without a peak
	Stones    []Stone // nil without a peak, or where the dam has no rock
	StoneM    float64 // median stone: the largest of the methods inside their range, factor within; NaN where none
	StoneBy   string  // its method
	Rock      Rock
	Found     Foundation
	Storage   Storage
	Items     []Item // other than rock
	Notes     []Note
	Buildable bool // no note says that the dam fails
}

// Rock is the rock of a dam in place.
type Rock struct {
	BodyM3, KeyM3, ApronM3 float64
	TotalM3                float64
	Tonnes                 float64 // in place, voids left out
	OrderTonnes            float64 // with waste
}

// crestStones is how many median stones the crest is thick along the flow, at least. Source: our own choice.
const crestStones = 2

// Size sizes a dam. A dam that can be reckoned but not built comes back with notes that say so. Errors: the kind is not known; values
// out of range.
func Size(r Request) (Design, error) {
	d, err := shaped(r)
	if err != nil {
		return Design{}, err
	}
	d.quantities()
	d.Storage = storage(d.Body, d.Request.Section, d.Request.HeightM, d.Request.Slope, d.Spacing, d.Request.Yield, d.Request.CatchmentM2)
	d.judge()
	return d, nil
}

// Appraise sizes a dam as Size does and leaves out what it holds and every note that does not fail, for where many are compared.
func Appraise(r Request) (Design, error) {
	d, err := shaped(r)
	if err != nil {
		return Design{}, err
	}
	d.quantities()
	d.note(d.failing())
	return d, nil
}

// shaped gives a dam its body, and notch and stone where the peak is known.
func shaped(r Request) (Design, error) {
	l, err := LimitsOf(r.Kind)
	if err != nil {
		return Design{}, err
	}
	openCrest := r.CrestWidthM == 0
	r = r.withDefaults(l)
	if err := r.validate(); err != nil {
		return Design{}, err
	}
	d := Design{Request: r, Limits: l, Body: Body{r.CrestWidthM, r.FaceUp, r.FaceDown}, TopM: math.NaN(), StoneM: math.NaN()}
	if d.Spacing, err = SpacingOf(r.Rule, r.HeightM, r.Slope, r.DepositRatio); err != nil {
		return Design{}, err
	}
	if r.ReachM > 0 {
		d.Dams = d.Spacing.Count(r.ReachM)
	}
	if !math.IsNaN(r.PeakM3s) {
		if err := d.passStorm(); err != nil {
			return Design{}, err
		}
	}
	if openCrest && r.Kind != Gabion && !math.IsNaN(d.StoneM) {
		d.Body.CrestWidthM = max(r.CrestWidthM, crestStones*d.StoneM)
		d.Request.CrestWidthM = d.Body.CrestWidthM
	}
	return d, nil
}

// passStorm sizes notch and stone for the peak.
func (d *Design) passStorm() error {
	r := d.Request
	n, err := fittedNotch(r, d.Limits)
	if err != nil {
		return err
	}
	d.Notch, d.TopM = &n, r.HeightM+n.DepthM
	if !d.Limits.Rock {
		return nil
	}
	d.Stones = stones(stoneCaseOf(r, n))
	if best, ok := chosen(d.Stones); ok {
		d.StoneM, d.StoneBy = best.WithFactorM, best.Method
	}
	return nil
}

// quantities measures the dam over its section: to the wings with the notch left out, or to the sill where no notch is known.
func (d *Design) quantities() {
	r := d.Request
	crest, topM, opensM := levelCrest(r.Section, r.HeightM), r.HeightM, r.Section.BedWidthM()
	if d.Notch != nil {
		crest, topM, opensM = notchedCrest(r.Section, r.HeightM, *d.Notch), d.TopM, d.Notch.opensM()
	}
	bodyM3 := d.Body.VolumeM3(r.Section, crest)
	d.CrestM = r.Section.WidthM(min(topM, r.Section.BankHeightM()))
	d.Found = foundation(r.HeightM, topM, r.Slope, d.StoneM, r.Section.BedWidthM(), opensM)
	d.Items = takeOff(r.Kind, r.HeightM, topM, d.CrestM, opensM, d.Found.KeyBankM, bodyM3)
	d.Rock = Rock{ApronM3: d.Found.ApronM3}
	if d.Limits.Rock {
		d.Rock.BodyM3, d.Rock.KeyM3 = bodyM3, d.Found.KeyM3
	}
	d.Rock.TotalM3 = d.Rock.BodyM3 + d.Rock.KeyM3 + d.Rock.ApronM3
	d.Rock.Tonnes = d.Rock.TotalM3 * r.StoneGravity * waterTPerM3 * (1 - r.Voids)
	d.Rock.OrderTonnes = d.Rock.Tonnes * (1 + r.Waste)
}
