package siting

import "github.com/paulmach/orb"

// Features are what stands in the land that dams keep clear of, in map coordinates, m. The zero value declares nothing.
type Features struct {
	Exclusions []orb.Polygon    // no dam, pond or silt inside
	Buildings  []orb.Geometry   // points, lines or polygons: Config.BuildingM
	Roads      []orb.LineString // centre lines: Config.RoadM
	Streams    []orb.Geometry   // live streams, lines or polygons: Config.StreamM
	BaseLevels []orb.Geometry   // bedrock, grade control: points, lines or polygons; a series may stand on one
}
