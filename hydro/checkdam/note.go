package checkdam

// Rule names what a note is about.
type Rule string

// The rules of notes.
const (
	RulePeak      Rule = "no-peak"     // no storm peak given
	RuleBanks     Rule = "banks"       // the banks cannot hold the dam and its notch, m
	RuleSection   Rule = "section"     // the section is not one channel; number of channels below the sill
	RuleNotch     Rule = "notch"       // width of the notch, m
	RuleHead      Rule = "head"        // depth of water over the sill, m
	RuleHeight    Rule = "height"      // effective height, m
	RuleSlope     Rule = "slope"       // bed slope, rise over run
	RuleCatchment Rule = "catchment"   // ha
	RuleGully     Rule = "gully-width" // width of the channel at the sill, m
	RuleFace      Rule = "face"        // downstream face, horizontal run a metre of height
	RuleStone     Rule = "stone"       // median stone, m; NaN where no method is inside its range
	RuleScour     Rule = "scour"       // depth of scour below an upright face, tailwater within, m
	RuleVelocity  Rule = "velocity"    // velocity for the velocity method, m/s
	RuleCrest     Rule = "crest"       // thickness of the crest along the flow, m
	RuleDeposit   Rule = "deposit"     // deposit ratio
	RuleBranch    Rule = "branch"      // of a spacing rule, bed slope
	RuleYield     Rule = "no-yield"    // no sediment yield or no catchment given
	RuleRecalled  Rule = "recalled"    // a handbook value from memory
	RuleBodies    Rule = "bodies-meet" // spacing, m
)

// Note is what must be known beside the numbers.
type Note struct {
	Rule       Rule
	Fail       bool    // the dam cannot or must not be built so
	Got, Limit float64 // in the unit of the rule; NaN where there is none
	Says       Remark
	Source     string // key of hydro.Sources; empty for our own choice
	Recalled   bool   // the value behind it is from memory: verify it in print
}
