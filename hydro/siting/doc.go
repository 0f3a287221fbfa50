// Package siting decides where along a drainage check dams may stand, and lays out the series that protect the most ground for the
// least.
//
// Lay does the whole job for one drainage. It judges every station and gathers stations of one verdict into
// reaches; it lists the dams that may stand, each a place with a height; and of all layouts that leave the least
// eligible ground uncovered it returns the best: the least rock with a fixed cost for each dam, the fewest dams, or the most silt a
// tonne of rock. The layout is exact over the places listed, by dynamic programming; a ratio is found by Dinkelbach's method.
// Pick chooses among whole series what a budget allows.
//
// Read in this order: siting, config, ground; eligible, place, reach, verdict; option, layer, lay; optimum, programme; march, bare, caution.
//
// # Assumptions
// The pond behind a dam is level, and its silt lies no flatter: the next dam upstream stands no higher than where the bed reaches the
// notch sill of the one below, plus what a deposit slope adds. What lies from an axis to there is covered. The bed is a straight line
// from station to station.
//
// Dams are listed at each station that can hold one, at each height that its banks and the storm allow, and where dams of one
// height would stand if placed toe to crest. Their bodies do not overlap, and each sill is higher than the one below. The
// uppermost metre of a reach asks for no dam.
//
// The land makes a station eligible: slope, catchment, incision, water, what was declared. The place keeps a dam off a station
// that a wedge may still cover: banks, widths, a bend, a confluence, a cross-section that cannot be told. Only where
// places keep dams off over 10 m or 5 cells is the piece not eligible for that.
//
// A dam never stands on the face of a step (a headcut, say), nor nearer above its lip than a body length and 2 m, unless the dam
// beneath is high enough to drown the lip. So a step is drowned by a dam at its foot or kept clear of, whichever is best, and the
// dams beside it say so.
//
// No dam stands on a cut (a culvert, a road fill that was cut through), in a stock pond, or in
// standing water (a pit, the pool behind a road fill) and on what holds it; its body keeps clear
// of them, and a wedge ends where one of these begins. Pools and cuts no deeper or longer than
// the noise of a survey makes do not count. Body, keys, pond and silt lie inside the property and outside exclusions.
//
// The lowest dam of a series stands on a declared base level or just above a confluence, or it says that it needs a footer.
//
// # Units
// Metres, m², slope as rise over run. Stations rise upstream.
//
// # Limits
// Incision is judged as a mean over 10 m or 5
// cells, so a cut shorter than that is not told from the land beside it. How far a pond backs up a tributary is not known.
// A step is told by the stations of its own drainage: one that hides between two of them, or lies below the confluence in the
// larger drainage, is not seen. Rock is that of the section nearest to a station, for the largest storm among the stations that
// share it, so that the dam as designed takes a little less. Most silt a tonne is sought for stretches of channel that bear on
// each other, not for the drainage as a whole. Where the field asks for a dam inside the longer wedge of another that it asks for, what the
// upper one covers counts from there on.
//
// # Sources
// Keys of hydro.Source: EPACheckDam, Jepson1939, CVCSwale, IndianaCheckDam, Leopold1992,
// Nichols2016, HeedeMufich1973, Wilkinson2015, Dinkelbach1967,
// NemhauserUllmann1969.
package siting
