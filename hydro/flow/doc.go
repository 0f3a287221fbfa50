// Package flow finds where water goes on an elevation model: depressions filled,
// one of eight directions a cell, flats drained, and the catchment of every cell.
//
// The stages run in this order, each once: Fill, Directions (with flats), Accumulate.
// Run does all three.
//
// # Assumptions
// Water follows the steepest of eight neighbours of the filled surface. Cells at the
// border of the grid, or beside a void, may be ends of flow by the border rule.
// Equal slopes are settled by the order E, S, W, N, SE, SW, NW, NE.
//
// # Units
// Elevations int32 millimetres; catchments whole cells, the cell itself included.
//
// # Limits
// Fewer than 2^31 cells. Every answer is exact integer arithmetic and does not depend
// on the number of workers.
//
// # Sources
// Keys of hydro.Source: Barnes2014Fill, Barnes2014Flats, Barnes2016, GarbrechtMartz1997,
// OCallaghanMark1984, ZhouWeiFu2019.
package flow
