// Package siting decides where along a drainage check dams may stand and lays out series
// of them, toe to crest, on the real bed.
//
// Lay does the whole job for one drainage: it judges every station, gathers stations of
// one verdict into reaches, marches up each eligible reach from its lowest station, and
// measures what the sediment wedges will cover.
//
// # Assumptions
// The pond behind a dam is level: the next dam upstream stands where the bed reaches the
// notch sill of the one below, plus what a deposit slope adds. The bed is a straight line
// from station to station. A dam body is as long as its height, faces of 1.5:1 and 3:1 and a top
// of 0.5 m make it, and as wide until its section is known. Where dams placed toe to crest would
// stand nearer than that, the bed counts as too steep for them.
//
// A dam never stands on the face of a step (a headcut, say). Where the bed reaches the sill
// on such a face, the dam goes to the foot of it, so that its pond drowns the face. Where a
// dam already stands there and is lower than the step, the series ends and a new one begins
// above the lip.
//
// Nor does a dam stand just above the lip of a step that the dam beneath does not drown: it moves
// up, into a new series, until a body length and 2 m more lie between lip and axis, and is left
// out with a note where the reach holds no such place. Above the lip it stands safe for now and
// slows what falls over it; below, the step is left to be treated first, and every dam whose toe
// has a lip within StepLookM below it says so, however the march got there.
//
// No dam stands on a cut (a culvert, a road fill that was cut through), in a stock pond, or in
// standing water (a pit, the pool behind a road fill) and on what holds it; its body keeps clear
// of them, and a wedge ends where one of these begins. Pools and cuts no deeper or longer than
// the noise of a survey makes do not count.
//
// # Units
// Metres, m², slope as rise over run. Stations rise upstream.
//
// # Limits
// Whether the banks hold a notch is not judged yet. Incision is judged as a mean over 10 m or 5
// cells, so a cut shorter than that is not told from the land beside it.
// Of a property line only the channel line and the body of a dam are tried: how wide a pond
// spreads, and how far it backs up a tributary, is not known yet. A step is told by the stations
// of its own drainage: one that hides between two of them, or lies below the confluence in the
// larger drainage, is not seen.
//
// # Sources
// Keys of hydro.Source: EPACheckDam, Jepson1939, CVCSwale, IndianaCheckDam, Leopold1992,
// Nichols2016, HeedeMufich1973, Wilkinson2015.
package siting
