package report

import (
	"fmt"

	"siltstep/cmd/internal/units"
	"siltstep/hydro/siting"
)

// Cautions returns what stands on every plan, in order, with limits in the units of the system.
func Cautions(system units.System) []string {
	return []string{
		"This is a planning aid, not an engineered design.",
		"Walk every site before anything is built: an elevation model shows neither soil, rock, roots nor what was built since.",
		"Dams can fail and hurt people downstream. Look at what lies below each series before choosing it.",
		"Follow local codes, and get the permits for work in a channel: confirm with the local authority.",
		fmt.Sprintf("Structures over %s, with a catchment over %s, near roads or houses, or in live streams need a licensed engineer.",
			system.Length(siting.RefusedHeightM, 1), system.Area(siting.Defaults().CatchmentMaxM2, 1)),
	}
}
