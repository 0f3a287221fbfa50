// Package demo makes an invented ranch: country shaped by flowing water, with trenches,
// headcuts, a road fill, a stock pond and a property line whose places and measures are
// known because they were put there.
//
// The ground is worn on coarse cells by streams and by soil creep, laid out smoothly on
// the cells asked for, and then worked like real ground: silt floors in the valleys,
// trenches cut into them, an embankment heaped, a pond dug, and the roughness of a survey
// added. What is known is kept in Truth.
//
// # Assumptions
// Erosion runs for long enough that valleys are connected, not until it rests. Trenches
// follow valley lines of the coarse ground. Ranch places inside the package run east and
// south from the north-west corner of the data.
//
// # Units
// Metres; elevations of the grid whole millimetres; slope as rise over run. Time of
// erosion has a unit of its own.
//
// # Limits
// An invented place: no rain, soil or cost can be learned from it. Drainages lie where the
// seed puts them, and about one seed in eight has no place for the road fill or for the
// property line to cross a trench, which is an error. The same size and seed give the same ranch for any number of processors; products
// are rounded before they are added, so that processors which could fuse the two agree.
//
// # Sources
// Braun, Willett 2013 (stream erosion); Steele, Lea, Flood 2014 (random numbers); de Boor
// 1978 (spline). Measures of the ranch are our own choice.
package demo
