package hydro

import (
	"errors"
	"fmt"
)

// GullyConfig is what is known of how the gullies of the land formed, and what their ground weighs.
type GullyConfig struct {
	FormationYears float64 // over which the gullies formed, years, to 1000; 0: not given, and no yearly load is told
	BankTPerM3     float64 // bulk density of the soil of banks and bed, t/m³, 1.2 to 1.7; default 1.4
	SedimentTPerM3 float64 // dry bulk density of the silt that dams hold, t/m³, 1.1 to 1.6; default 1.3
}

// Limits of GullyConfig. Source: our own choice, loams and sands being within them in common practice.
const (
	MostFormationYears  = 1000.0
	LeastBankTPerM3     = 1.2
	MostBankTPerM3      = 1.7
	LeastSedimentTPerM3 = 1.1
	MostSedimentTPerM3  = 1.6
)

// usualGully returns the settings used where the user gives none: no time, and densities that are our own choice within
// their limits.
func usualGully() GullyConfig { return GullyConfig{BankTPerM3: 1.4, SedimentTPerM3: 1.3} }

// validate returns every fault, joined.
func (c GullyConfig) validate() error {
	return errors.Join(
		inRange("time over which gullies formed", c.FormationYears, 0, MostFormationYears, "years"),
		inRange("density of bank soil", c.BankTPerM3, LeastBankTPerM3, MostBankTPerM3, "t/m³"),
		inRange("density of silt", c.SedimentTPerM3, LeastSedimentTPerM3, MostSedimentTPerM3, "t/m³"),
	)
}

// inRange reports a value outside lo to hi, or not a number.
func inRange(what string, got, lo, hi float64, unit string) error {
	if got >= lo && got <= hi {
		return nil
	}
	return fmt.Errorf("%s %g %s; allowed is %g to %g", what, got, unit, lo, hi)
}
