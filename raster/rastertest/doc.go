// Package rastertest draws landforms whose answers are known in closed form, and keeps
// the one flag by which golden files are renewed. It is for tests only.
//
// # Assumptions
// Rows run from north to south. Every landform lies at the same place on the map, with
// its outer north-west corner at (CornerX, CornerY).
//
// # Units
// Elevations in whole millimetres where a name ends in MM, metres where it ends in M.
// Cells are 1 m unless a cell size is asked for.
//
// # Limits
// Sizes must be positive; a bad size panics in raster.New.
//
// # Sources
// None: the sums behind each closed-form answer stand in its comment.
package rastertest
