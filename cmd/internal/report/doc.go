// Package report writes a finished plan for programs and people: plan.json, summary.csv,
// the profile tables and the summary on the terminal.
//
// Every column and every member is a row of Tables, with type, unit and meaning. What the
// map layers also hold comes from their own table in geojson, so the names agree.
//
// # Assumptions
// The plan is complete and is only read. One plan gives the same bytes each time: no clock,
// no folder, no order left to chance.
//
// # Units
// SI in files. The terminal summary alone follows a units.System.
//
// # Limits
// An unknown value is null in JSON and empty in CSV, never zero.
//
// # Sources
// Shafranovich 2005, Common Format and MIME Type for CSV Files, RFC 4180, with LF line ends.
package report
