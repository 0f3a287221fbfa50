package checkdam

// Rule names what a note is about.
type Rule string

// The rules of notes.
const (
	RulePeak      Rule = "no-peak"     // no storm peak given
	RuleBanks     Rule = "banks"       // the banks cannot hold the dam and its notch, m
	RuleNotch     Rule = "notch"       // width of the notch, m
	RuleHeight    Rule = "height"      // effective height, m
	RuleSlope     Rule = "slope"       // bed slope, rise over run
	RuleCatchment Rule = "catchment"   // ha
	RuleFace      Rule = "face"        // downstream face, horizontal run a metre of height
	RuleStone     Rule = "stone"       // no method is inside its range
	RuleDeposit   Rule = "deposit"     // deposit ratio
	RuleBranch    Rule = "branch"      // of a spacing rule, bed slope
	RuleWaste     Rule = "waste"       // rock to order over rock in place
	RuleYield     Rule = "no-yield"    // no sediment yield given
	RuleRecalled  Rule = "recalled"    // a handbook value from memory
	RuleBodies    Rule = "bodies-meet" // spacing, m
)

// Note is what must be known beside the numbers.
type Note struct {
	Rule       Rule
	Fail       bool    // the dam cannot or must not be built so
	Got, Limit float64 // in the unit of the rule; NaN where there is none
	Text       string  // plain sentences
	Source     string  // key of hydro.Sources; empty for our own choice
	Recalled   bool    // the value behind it is from memory: verify it in print
}
