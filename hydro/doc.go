// Package hydro is the facade: from an elevation model in memory to a plan of check dams.
//
// # Assumptions
// Those of the packages below it: flow, channel, siting.
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
