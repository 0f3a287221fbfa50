// Package report writes a finished plan or screening for programs and people: plan.json or
// screen.json, ranking.csv, summary.csv, the tables of profiles and cross-sections, the summary
// on the terminal, and the evidence for one drainage in words.
//
// Every column and every member is a row of Tables, with type, unit and meaning. What the
// map layers also hold comes from their own table in geojson, so the names agree.
//
// # Assumptions
// The plan is complete and is only read. One plan gives the same bytes each time: no clock,
// no folder, no order left to chance.
//
// # Units
// SI in files. What a person reads on the terminal follows a units.System.
//
// # Limits
// An unknown value is null in JSON and empty in CSV, never zero.
//
// # Sources
// Shafranovich 2005, Common Format and MIME Type for CSV Files, RFC 4180, with LF line ends.
package report
