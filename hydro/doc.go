// Package hydro is the facade: from an elevation model in memory to a ranking of drainages by their
// erosion (Screen), and on to a plan of check dams (Analyze).
//
// # Assumptions
// Those of the packages below it: flow, channel, erosion, siting. No storm is reckoned with yet.
//
// # Units
// SI, the unit at the end of each exported name.
//
// # Limits
// A plan is a planning aid and not an engineered design.
//
// # Sources
// The list that Sources returns, which reports print.
package hydro
