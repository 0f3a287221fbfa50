package settings

import "siltstep/hydro"

// ValueIn returns the value that settings hold for the key, as it is written in a file,
// "0.6 m". The settings must be within the ranges of the keys.
func (k Key) ValueIn(cfg hydro.Config) string { return k.rule.show(cfg) }
