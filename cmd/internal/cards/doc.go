// Package cards makes the papers of the crew as PDF: a cover with cautions, safety, build order and maps, then one card a dam, on one page
// each, in the order in which dams are built.
//
// # Assumptions
// Everything comes from a finished plan, read back; nothing is computed anew but units for display, differences of two figures of the
// plan (a rise, a top above its bed), and sketches drawn to scale from its curves. Series are built whole, each from its lowest dam upstream. A crew finds a dam with tape and level from the
// dam below; a receiver only brings it near.
//
// # Units
// Input in SI. A document is metric or US throughout, also inside the plan's sentences; coordinates are degrees, and metres of the plan's grid in both; scale bars show both.
//
// # Limits
// A4 or Letter, in black and grey, no letter below 8 points. Remarks that do not fit a card are cut, with their number and where to read
// them. Sketches are to scale with the exaggeration they state, never for measuring. Dates are pinned, so the same plan gives the same bytes.
//
// # Sources
// Mayrhofer, A. and Spanring, C., 2010. A uniform resource identifier for geographic locations ("geo" URI). RFC 5870: the text of the
// scannable code. Letters are Liberation Sans, SIL Open Font License 1.1, of which the letters used are embedded.
package cards
