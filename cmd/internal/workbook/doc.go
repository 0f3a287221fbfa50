// Package workbook writes a finished plan as one workbook for people who count in sheets: cautions, dams, drainages, series, quantities
// with live sums, scenarios, findings, settings, sources, and a dictionary of every column.
//
// # Assumptions
// Everything comes from a finished plan, read back. Columns have the names, units and meanings of the plan's own tables, and a column
// that is not described there is not written.
//
// # Units
// As in plan.json: SI, the unit at the end of each name. What is not known is an empty cell, never 0.
//
// # Limits
// Sums add the figures of dams as they are shown, so they may differ from the plan's own totals by what rounding leaves, at most 0.005 a
// dam: the sheet says where they differ by more. Dates inside are pinned, so the same plan gives the same bytes.
//
// # Sources
// Ecma International, 2016. Office Open XML file formats, ECMA-376, part 1: formulas beside the value that they had when written.
package workbook
