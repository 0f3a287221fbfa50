// Package geojson turns a plan into layers that any mapping program opens: check-dam
// sites, drainages, reaches, catchments, headcuts and depressions, as RFC 7946 feature
// collections.
//
// One table, Schema, holds every property: its name, type, unit, decimals and meaning.
// The writers follow it, and so do the documents and tables made elsewhere.
//
// # Assumptions
// Positions come from a Projector as WGS 84 longitude and latitude. Lines run downstream.
//
// # Units
// SI, the unit at the end of each property name; catchments in hectares. A value that was
// not computed is null. Degrees carry 7 decimals, about 0.01 m on the ground.
//
// # Limits
// Cells of at least 0.1 m, so that vertices stay apart at 7 decimals. Shapes that cross the
// 180th meridian are not split. A reader that guesses types cannot type a column of nulls.
//
// # Sources
// Butler et al. 2016, The GeoJSON Format, RFC 7946: longitude first (3.1.1), outer rings
// anticlockwise (3.1.6), no crs member (4).
package geojson
