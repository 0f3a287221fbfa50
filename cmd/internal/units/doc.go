// Package units reads quantities that people type with their unit, and writes SI values
// for people to read in metric or US units.
//
// On the way in a quantity is a number and a unit word, "0.6 m", "2 ft", "8 %"; the unit
// must belong to what is asked for, so a height in hectares is an error. On the way out a
// System gives a Scale for each kind of value.
//
// # Assumptions
// A foot is the international foot; the US survey foot is meant only where "us-ft" is
// written. A ton on the way out in US units is the short ton of 2,000 lb and says so; on the way in
// it is written "us-ton".
//
// # Units
// Results are SI: metres, square metres, slope as rise over run; rainfall rates are
// millimetres an hour, weights tonnes, and times the unit in the function's name.
//
// # Limits
// Decimal point only, no thousands separators. Quantities read are finite and never
// negative. For display only: files for programs hold SI.
//
// # Sources
// NIST Special Publication 811, 2008, Thompson and Taylor, Appendix B: foot 0.3048 m,
// inch 25.4 mm, yard 0.9144 m, US survey foot 1200/3937 m, pound 0.45359237 kg (from
// memory). The acre is 43,560 square feet; with the international foot, to which the
// survey foot gave way at the end of 2022 (Federal Register 85 FR 62698, 2020, from
// memory), that is 4046.8564224 m².
package units
