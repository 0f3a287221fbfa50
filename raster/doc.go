// Package raster holds an elevation model in memory: a grid of whole millimetres
// on square, north-up cells in a metric coordinate system, and what can be asked of it:
// also how far it can be trusted (noise, steps, stripes, seams, holes, what stands on the ground).
//
// # Assumptions
// Rows run from north to south, columns from west to east. A cell stands for its
// centre; its value is the elevation there. Cell (0,0) is the north-west one.
//
// # Units
// Elevations int32 millimetres, so sums and comparisons are exact; map coordinates
// float64 metres. Only names that end in M are metres.
//
// # Limits
// Elevations within ±2,147 km; fewer than 2^31 cells a grid. Grids are not safe for
// writing by several goroutines, and safe for reading by any number. What is asked about trust is
// read from an evenly spread part of large grids.
//
// # Sources
// Definitions, and Savitzky and Golay 1964 for stripes.
package raster
