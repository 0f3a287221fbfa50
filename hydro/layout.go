package hydro

import (
	"context"

	"siltstep/hydro/checkdam"
	"siltstep/hydro/siting"
)

// lay lays out every drainage.
func (p *Plan) lay(ctx context.Context, inside siting.Area) error {
	drainages := p.Network.Drainages
	p.Layouts = make([]siting.Layout, len(drainages))
	cfg := p.Config.Siting
	cfg.Body = p.body()
	return p.eachDrainage(ctx, func(i int) {
		valley := p.ground(i)
		ground := siting.Ground{
			IncisionM: p.Erosion[i].Depths.IncisionM, PlaceAt: p.placesOf(i).at, WaterM: valley.waterM,
			SiltM3: func(axisM, sillM, toM float64) float64 { return valley.siltM3(cfg.DepositRatio, axisM, sillM, toM) },
		}
		p.Layouts[i] = siting.Lay(&drainages[i], p.Grid.Transform.CellM, cfg, inside, ground, p.field.of(i))
		p.field.renumber(i, p.Layouts[i].Sites)
	})
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
