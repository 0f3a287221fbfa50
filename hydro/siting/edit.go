package siting

// Action is what the field asks of a dam.
type Action string

// The actions.
const (
	Reject Action = "reject" // no dam stands here
	Move   Action = "move"   // a dam stands here, its height is free
	Fix    Action = "height" // a dam stands here, as high as it says
	Built  Action = "built"  // a dam stands here already, as high as it says
)

// Edit is what the field asks of one place of a drainage.
type Edit struct {
	ID       string // of the dam, as an earlier plan named it; empty for a new one
	Action   Action
	StationM float64 // where the dam is to stand, or not to, m
	HeightM  float64 // effective height of Fix and Built, m; else 0
}

// RuleEdit is a caution: the field asked for the dam, and limits were not held against it. RuleBase is one too: the dam needs a footer.
const (
	RuleEdit Rule = "field-edit"
	RuleBase Rule = "base-level"
)
