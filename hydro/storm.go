package hydro

import (
	"errors"
	"fmt"

	"siltstep/hydro/storm"
)

// validate returns every fault, joined. No rain at all is none.
func (s Storm) validate() error {
	probe := s.request()
	probe.CatchmentM2 = 1 // m²; any catchment has the same faults
	var errs []error
	if err := probe.Validate(); err != nil {
		errs = append(errs, fmt.Errorf("storm: %w", err))
	}
	if s.given() && s.Method == storm.MethodRational && s.RunoffCoefficient == 0 {
		errs = append(errs, errors.New("storm: the rational method was asked for and needs a runoff coefficient"))
	}
	if s.given() && (s.Method == storm.MethodGraphical || s.Method == storm.MethodUnitHydrograph) && s.CurveNumber == 0 {
		errs = append(errs, fmt.Errorf("storm: the %s method was asked for and needs a curve number", s.Method))
	}
	return errors.Join(errs...)
}

// request returns the storm as it is; catchment and flow path are left out.
func (s Storm) request() storm.Request {
	return storm.Request{
		RunoffCoefficient: s.RunoffCoefficient,
		CurveNumber:       s.CurveNumber,
		Wetness:           s.Wetness,
		Ratio:             s.Ratio,
		Rain:              s.Rain,
		ReturnPeriodYr:    s.ReturnPeriodYr,
		HoursH:            s.HoursH,
		Pattern:           s.Pattern,
		Method:            s.Method,
	}
}

// given tells whether there is rain.
func (s Storm) given() bool { return s.Rain != (storm.Rain{}) }
