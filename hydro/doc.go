// Package hydro is the facade: from an elevation model in memory to a ranking of drainages by their
// erosion (Screen), and on to a plan of check dams (Analyze).
//
// # Assumptions
// Those of the packages below it: flow, channel, erosion, siting, storm, checkdam. Where rain is given, each dam is designed for the storm on
// its own catchment: see Design. A storm covers the whole catchment evenly.
//
// # Units
// SI, the unit at the end of each exported name.
//
// # Limits
// A plan is a planning aid and not an engineered design. No rain is assumed; where water enters over the edge of the data no peak is told
// until that is settled. What enters there by declaration adds no length of flow path, which makes peaks high.
//
// # Sources
// The list that Sources returns, which reports print.
package hydro
