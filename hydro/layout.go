package hydro

import (
	"context"
	"slices"

	"siltstep/hydro/checkdam"
	"siltstep/hydro/siting"
)

// lay lays out every drainage. Errors: that of ctx; EditFaults.
func (p *Plan) lay(ctx context.Context, inside siting.Area) error {
	drainages := p.Network.Drainages
	p.Layouts = make([]siting.Layout, len(drainages))
	cfg := p.Config.Siting
	cfg.Body = p.body()
	faults := make([]EditFaults, len(drainages))
	err := p.eachDrainage(ctx, func(i int) {
		valley := p.ground(i)
		ground := siting.Ground{
			IncisionM: p.Erosion[i].Depths.IncisionM, PlaceAt: p.placesOf(i).at, WaterM: valley.waterM,
			SiltM3: func(axisM, sillM, toM float64) float64 {
				return max(0, valley.siltM3(cfg.DepositRatio, axisM, sillM, toM)-valley.bodyM3(cfg.Body, axisM, sillM, toM))
			},
		}
		if p.field != nil && p.field.partial(i) {
			faults[i] = p.field.complete(i, siting.Lay(&drainages[i], p.Grid.Transform.CellM, cfg, inside, ground, nil).Sites)
		}
		p.Layouts[i] = siting.Lay(&drainages[i], p.Grid.Transform.CellM, cfg, inside, ground, p.field.of(i))
		p.field.renumber(i, p.Layouts[i].Sites)
	})
	if all := slices.Concat(faults...); err == nil && len(all) > 0 {
		return all
	}
	return err
}

// body returns the shape of dams along the flow, as the settings have it or usual for the kind. Crests that large stones
// make thicker are told by each place.
func (p *Plan) body() checkdam.Body {
	l, err := checkdam.LimitsOf(p.Config.Siting.Kind)
	if err != nil {
		panic("hydro: " + err.Error()) // the settings were validated
	}
	w := p.Config.Works
	return checkdam.Body{
		CrestWidthM: given(w.CrestWidthM, w.CrestWidthM > 0, l.CrestWidthM),
		FaceUp:      given(w.FaceUp, w.FaceUp >= 0, l.FaceUp),
		FaceDown:    given(w.FaceDown, w.FaceDown >= 0, l.FaceDown),
	}
}

// given returns a value where it is given, or the usual one.
func given(value float64, is bool, usual float64) float64 {
	if is {
		return value
	}
	return usual
}
