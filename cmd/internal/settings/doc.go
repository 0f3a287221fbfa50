// Package settings turns a settings file, YAML with a unit at every quantity, into a
// hydro.Config and the names of the layers it points to, and writes both as such a file.
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
// workers, the reach of a road, the least height of a lowered dam, leave to use coarse cells) keep their
// defaults here: flags or callers set them.
//
// # Sources
// Named at each key in the table.
package settings
