package siting

// Rule names a reason or a caution, in the words of the trade.
type Rule string

// The rules. Each serves as a reason why a reach is not eligible, as a note on a march, or as
// a caution at a dam; some serve as more than one.
const (
	RuleSlope      Rule = "slope"               // bed slope, rise over run
	RuleCatchment  Rule = "catchment"           // m²
	RuleIncision   Rule = "incision"            // depth of the bed below the land beside it, m
	RuleWater      Rule = "standing-water"      // depth of the filled surface above the ground, m
	RuleCut        Rule = "cut"                 // a blockage was cut through here
	RuleStockPond  Rule = "stock-pond"          // inside a stock pond or playa, declared or likely
	RuleProperty   Rule = "property"            // outside the property, or over its line
	RuleCoarse     Rule = "coarse-cells"        // cell size, m
	RuleConfluence Rule = "confluence"          // distance, m
	RuleShort      Rule = "short"               // length of a reach, m
	RuleTruncated  Rule = "truncated-catchment" // border cells over which water enters
	RuleHeight     Rule = "height"              // effective height, m
	RuleEngineer   Rule = "engineer"            // a licensed engineer is needed: height, m, or catchment, m²
	RuleStep       Rule = "step"                // grade of the bed under a dam, rise over run, or height of a step, m
	RuleClose      Rule = "close"               // spacing, m
	RuleWedge      Rule = "wedge"               // the wedge does not end within the drainage
	RuleLowerEnd   Rule = "lower-end"           // distance to where the data ends, m
	RuleReachEnd   Rule = "reach-end"           // station of the next dam, had there been room, m
	RuleSection    Rule = "section"             // no dam can be sized on the cross-section
	RuleBanks      Rule = "banks"               // height of the banks, m
	RuleBedWidth   Rule = "bed-width"           // m
	RuleTopWidth   Rule = "top-width"           // from bank top to bank top, m
	RuleBend       Rule = "bend"                // radius of the channel line, m
	RuleRoad       Rule = "road"                // distance, m
	RuleBuilding   Rule = "building"            // distance, m
	RuleLiveStream Rule = "live-stream"         // distance, m
	RuleExclusion  Rule = "exclusion"           // inside an area closed to dams, or distance from it, m
	RuleDesign     Rule = "design"              // the dam cannot be built as it is designed: in the unit of the first reason
)

// Reason says why a piece of a drainage is not eligible, or what to heed at a dam.
type Reason struct {
	Rule  Rule
	Got   float64 // measured value, in the unit of the rule; NaN where there is none
	Limit float64 // the limit it broke; NaN where there is none
	Text  string  // one plain sentence, without a full stop
}
