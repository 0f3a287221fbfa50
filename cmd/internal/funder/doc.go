// Package funder writes the summary of a plan that a grant is asked for with: Markdown to paste from, and one HTML file to print.
//
// # Assumptions
// The plan was read back by package facts. Both forms come from one document, so that they say the same. Every number of the plan is as
// plan.json has it, or the sum of such numbers; nothing is estimated here but the split of a cost by the share that the reader gives.
//
// # Units
// Metric and US units stand side by side, those of Options.System first. A US ton is 2,000 lb. Money is in the currency of the price list.
//
// # Limits
// Prices of practices, payment rates and rules of a programme differ by state and year and are not held: where they matter the text says what
// to confirm. What the plan does not know is said to be not known.
//
// # Sources
// Of what the text claims beyond the plan: Heede 1977, Nichols and others 2016, Polyakov and others 2014, and the federal assistance listing
// 66.460; the document lists them.
package funder
