package geojson

import "siltstep/hydro"

const (
	needsRoads  = "no flow.roads was given"
	needsBarrow = "no prices.barrow was given, or the dam stands already; or " + needsSection
)

// haulFields describes the way of the rock to a dam.
func haulFields() []Field {
	return []Field{
		{"road_m", Real, "m", 1, "distance on the map from the axis straight to the nearest line of flow.roads; the way on foot is longer, and not known", needsRoads},
		{"haul", Text, "", 0, "hand to 300 m from the road, where rock is carried or wheeled; beyond it machine; this project's judgement", needsRoads},
		{"barrows", Int, "", 0, "wheelbarrows of prices.barrow for the rock to order, the last one counted whole", needsBarrow},
	}
}

// addHaul adds the values of haulFields by name.
func addHaul(named map[string]any, h hydro.Haul) {
	named["road_m"] = h.RoadM
	if h.Class != "" {
		named["haul"] = string(h.Class)
	}
	if h.Barrows > 0 {
		named["barrows"] = h.Barrows
	}
}
