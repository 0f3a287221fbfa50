// Package chart draws what a person reads of a plan, as SVG: the longitudinal profile of a
// drainage with its dams, sediment wedges and incision, cross-sections, and the map of a
// property with its drainages by severity. The map is drawn as PNG too.
//
// # Assumptions
// A profile rises with its stations; the lower end is drawn at the left. A cross-section is
// seen looking downstream. A map is in a metric coordinate system, grid north up.
//
// # Units
// Input in SI. Axes, header and scale follow a units.System; the grid of a map is in metres.
//
// # Limits
// Drawn for a page of 10 by 7.5 inches at most, and readable in grey print: marks differ in
// weight and shape, never by colour alone. Coordinates are rounded to 0.1 pt so that files
// are the same on every machine. Text is text, in the reader's sans-serif font. On a crowded
// map lines get thinner and names are left out, the worst drainages named first. The PNG has 300 pixels an inch and smooth edges: its bytes may differ between kinds of processor.
//
// # Sources
// None: what is drawn comes from the plan.
package chart
