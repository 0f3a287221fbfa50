// Package settings turns a settings file, YAML with a unit at every quantity, into a
// hydro.Config, the names of the layers it points to, and how the plan is handed over and paid for; and writes all of it as such a file.
//
// One table, Keys, drives reading, writing and the documentation.
//
// # Assumptions
// A key that is left out keeps its default, so an empty file is the defaults. Whatever is
// not understood is an error: no key, unit or value is passed over in silence.
//
// # Units
// Values carry their unit and become SI.
//
// # Limits
// One YAML document of at most MaxBytes in UTF-8; no anchors, aliases, merge keys, tags,
// directives or blocks of text. Fields of hydro.Config without a key (the number of
// workers, leave to use coarse cells, rain as it was measured, what stands in the land, the body that siting counts with) keep their
// defaults here: flags or callers set them. Layers and a table of rain are named here and read by the caller. A price of nothing cannot be said: 0 is refused.
//
// # Sources
// Named at each key in the table.
package settings
