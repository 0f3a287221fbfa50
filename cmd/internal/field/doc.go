// Package field makes the files that go out on phones, receivers and survey controllers: waypoints and routes (GPX), a map with its own
// marks (KML), and two lists (CSV), one for people with tape and level and one for controllers.
//
// # Assumptions
// Everything comes from a finished plan, read back; nothing is computed anew but units for display and differences of two figures of the
// plan (from the dam below, from the lower end). Dams are in build order: series by series, in each from its lowest dam upstream.
//
// # Units
// Columns and elevations are SI, the unit at the end of each name; degrees are WGS 84 with 7 decimals, about 0.01 m on the ground. What
// a person reads, names and descriptions, is metric or US. Elevations are those of the elevation model, in its own datum.
//
// # Limits
// A receiver in the hand cannot tell neighbouring dams apart: its waypoints bring a crew near, and tape and level do the rest. What has
// no position in the plan is left out, and the head of the file says how many. No file holds a date, so the same plan gives the same bytes.
// Some map programs do not draw icons that are embedded in the file: names stand beside them.
//
// # Sources
// GPX 1.1 schema, 2004, topografix.com. Wilson, T., 2008, OGC KML 2.2, OGC 07-147r2: both for element names and their order.
package field
