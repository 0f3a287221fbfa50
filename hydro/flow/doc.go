// Package flow finds where water goes on an elevation model: blockages cut, depressions filled,
// one of eight directions a cell, flats drained, and the catchment of every cell.
//
// The stages run in this order, each once: cuts, fill, directions (with flats), accumulation.
// Run does them all.
//
// A declared culvert is cut as it is given. Then each pit, from the lowest up, is cut along the path of least
// excavation to lower ground or an end of flow, where one keeps within the limits of length and depth; a pit of one cell is
// no case of its own. A pit of what looks like a stock pond is left for review, away from roads and declared culverts. What is left is filled. Declared stock ponds and playas are never cut: a stock pond is
// filled and passed through, flow ends in the lowest cell of a playa.
//
// # Assumptions
// Water follows the steepest of eight neighbours of the filled surface. Cells at the
// border of the grid, or beside a void, may be ends of flow by the border rule.
// Equal slopes are settled by the order E, S, W, N, SE, SW, NW, NE; equal paths of a cut by length, then by cell.
// What lies near a road, or how deep and large a depression is, tells its likely cause and no more.
//
// # Units
// Elevations int32 millimetres; catchments whole cells, the cell itself included. Lengths and depths of settings in
// metres, features in map coordinates.
//
// # Limits
// Fewer than 2^31 cells. Every answer is exact integer arithmetic and does not depend
// on the number of workers. A level place of more than 10,000 cells is filled and never cut: it is water, or elevations
// in whole metres.
//
// # Sources
// Keys of hydro.Source: Barnes2014Fill, Barnes2014Flats, Barnes2016, GarbrechtMartz1997,
// MartzGarbrecht1999, OCallaghanMark1984, ZhouWeiFu2019.
package flow
