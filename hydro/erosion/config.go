package erosion

// Config holds the settings of the package. (To be completed: severity parts, Validate.)
type Config struct {
	WindowM   float64 // side of the square of the black top-hat, m; default 31; at least 1.5 times the widest gully
	HeadcutM  float64 // least height of a headcut, m; default 0.3
	IncisedM  float64 // depth from which a length counts as incised, m; default 0.3
	Material  string  // bed material, one of Materials; empty where none is chosen: shear is then not judged
	Roughness float64 // Manning's n of the channel; default 0.04
}

// Defaults returns the settings used where the user gives none.
func Defaults() Config {
	return Config{WindowM: 31, HeadcutM: 0.3, IncisedM: 0.3, Roughness: 0.04}
}
