// Package facts reads a finished plan back from its folder: the one table of facts that report, cards, field lists and summaries are
// made from, so that no two of them differ.
//
// # Assumptions
// The folder was written by this version of siltstep: plan.json says its format. Files beside it (layers, profiles, cross-sections) belong to
// the same plan.
//
// # Units
// As in plan.json: SI, the unit at the end of each name. A value that is not known is NaN.
//
// # Limits
// What plan.json does not hold is not known here. Nothing is computed anew.
//
// # Sources
// None: what a plan rests on stands in Plan.Sources.
package facts
