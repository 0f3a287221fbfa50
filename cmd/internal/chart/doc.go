// Package chart draws what a person reads of a plan: the longitudinal profile of a drainage
// with its dams and sediment wedges, as SVG.
//
// # Assumptions
// A profile rises with its stations; the lower end is drawn at the left.
//
// # Units
// Input in SI. Axes and header follow a units.System.
//
// # Limits
// Drawn for a page 10 inches wide, and readable in grey print: marks differ in weight and
// shape, never by colour alone. Coordinates are rounded to 0.1 pt so that files are the
// same on every machine. Text is text, in the reader's sans-serif font.
//
// # Sources
// None: what is drawn comes from the plan.
package chart
