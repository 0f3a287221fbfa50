package siting

import (
	"fmt"
	"slices"
	"strings"
)

// Objective is what is sought among the layouts that cover the most eligible ground.
type Objective string

// The objectives.
const (
	LeastRock            Objective = "least-rock"              // least rock to order, plus Config.DamCostT for each dam
	FewestDams           Objective = "fewest-dams"             // fewest dams, and of those the least rock
	MostSedimentPerTonne Objective = "most-sediment-per-tonne" // most silt held a tonne of rock, Config.DamCostT counted for each dam
)

// Objectives returns every objective, the usual one first.
func Objectives() []Objective { return []Objective{LeastRock, FewestDams, MostSedimentPerTonne} }

func (o Objective) validate() error {
	if slices.Contains(Objectives(), o) {
		return nil
	}
	words := make([]string, 0, 3)
	for _, known := range Objectives() {
		words = append(words, string(known))
	}
	return fmt.Errorf("objective %q is not known; take %s", o, strings.Join(words, ", "))
}
