// Package gdal carries elevation models, property lines and results between files and
// the in-memory grid. It is the only package that needs the GDAL library.
//
// # Assumptions
// Each file holds one band of heights. Several files are one elevation model: they share
// pixel size, pixel phase, coordinate system, height unit and band type, and where they
// overlap the file named first counts. A projected system in metres is kept when its cells
// are square, the grid is north-up, and its scale lies within 0.2 % of 1 both ways at the
// centre and the corners; anything else is resampled (bilinear, at the exact position of
// each cell) to the UTM zone of the centre of the data. Every choice is a sentence in
// Info.Decisions.
//
// # Units
// Heights leave this package as int32 millimetres, rounded once, half away from zero.
// Map coordinates are metres; longitude and latitude are degrees of WGS 84, longitude first.
//
// # Limits
// At least 3 x 3 cells and fewer than 2^31. Between 80° S and 84° N where a warp is needed.
// Heights stay in their vertical datum: only their unit changes. Positions of an old datum
// are as good as the shift grids that PROJ finds on the machine; nothing is downloaded. A
// mosaic does not cross the 180° meridian. A DEM is safe for one goroutine at a time; Read
// itself uses two.
//
// # Sources
// UTM zones with the exceptions of Norway and Svalbard: NGA, "The Universal Grids and the
// Transverse Mercator and Polar Stereographic Map Projections", NGA.SIG.0012, 2014 (from
// memory). Feet: 0.3048 m exactly since 1959; the US survey foot 1200/3937 m, NIST Handbook
// 44, appendix C (from memory).
package gdal
