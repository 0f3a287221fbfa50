package hydro

import (
	"errors"
	"fmt"

	"siltstep/hydro/checkdam"
)

// validate returns every fault, joined: those that checkdam finds at a dam of the usual kind in an easy place, and those
// of the prices.
func (w Works) validate() error {
	errs := []error{w.Prices.validate()}
	easy, err := checkdam.TrapezoidSection(2, 1, 2)
	if err == nil {
		r := w.request(checkdam.LooseRock)
		r.HeightM, r.Slope, r.Section, r.PeakM3s = 0.6, 0.05, easy, 0.1
		_, err = checkdam.Size(r)
	}
	if err != nil {
		errs = append(errs, fmt.Errorf("dams: %w", err))
	}
	return errors.Join(errs...)
}

// request returns a dam of a kind as the works have it; where it stands is left out.
func (w Works) request(kind checkdam.Kind) checkdam.Request {
	return checkdam.Request{
		Kind:         kind,
		CrestWidthM:  w.CrestWidthM,
		FaceUp:       w.FaceUp,
		FaceDown:     w.FaceDown,
		Notch:        w.Notch,
		StoneGravity: w.StoneGravity,
		Voids:        w.Voids,
		Waste:        w.Waste,
		Rule:         checkdam.ToeToCrest,
		Yield:        w.Yield,
	}
}

func (p Prices) validate() error {
	return errors.Join(
		zeroAndUp("price of rock", p.RockPerTonne, "a tonne"),
		zeroAndUp("price of a day's work", p.PerDay, "a day"),
		zeroAndUp("work to place rock", p.DaysPerM3, "person-days a m³"),
	)
}
