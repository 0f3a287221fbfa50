package facts

import (
	"encoding/json"
	"math"
)

// Num is a number that may not be known.
type Num float64

// UnmarshalJSON takes null for not known.
func (n *Num) UnmarshalJSON(text []byte) error {
	if string(text) == "null" {
		*n = Num(math.NaN())
		return nil
	}
	return json.Unmarshal(text, (*float64)(n))
}

// MarshalJSON writes null for what is not known.
func (n Num) MarshalJSON() ([]byte, error) {
	if !n.Known() {
		return []byte("null"), nil
	}
	return json.Marshal(float64(n))
}

// Known tells whether the number is known.
func (n Num) Known() bool { return !math.IsNaN(float64(n)) && !math.IsInf(float64(n), 0) }
