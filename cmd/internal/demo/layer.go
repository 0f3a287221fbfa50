package demo

import (
	"fmt"
	"strings"

	"github.com/paulmach/orb"
)

// Projector turns map coordinates in CRS, metres, into longitude and latitude in degrees, WGS 84.
type Projector func(x, y float64) (lon, lat float64, err error)

// PropertyGeoJSON returns the property as a GeoJSON feature collection. It returns the
// error of the projector. Source: RFC 7946 (ring direction, seven decimals our choice).
func (r *Ranch) PropertyGeoJSON(project Projector) ([]byte, error) {
	ring, err := positions(r.Property[0], project)
	if err != nil {
		return nil, fmt.Errorf("property: %w", err)
	}
	return collection("Polygon", "["+ring+"]", Name), nil
}

// RoadGeoJSON returns the road as a GeoJSON feature collection. It returns the error of
// the projector.
func (r *Ranch) RoadGeoJSON(project Projector) ([]byte, error) {
	line, err := positions(r.Road, project)
	if err != nil {
		return nil, fmt.Errorf("road: %w", err)
	}
	return collection("LineString", line, Name+" road"), nil
}

// StockPondGeoJSON returns the outline of the stock pond's water as a GeoJSON feature collection.
// It returns the error of the projector.
func (r *Ranch) StockPondGeoJSON(project Projector) ([]byte, error) {
	ring, err := positions(r.Truth.StockPond.Water[0], project)
	if err != nil {
		return nil, fmt.Errorf("stock pond: %w", err)
	}
	return collection("Polygon", "["+ring+"]", Name+" stock pond"), nil
}

// positions returns a coordinate array of places in degrees.
func positions[P ~[]orb.Point](at P, project Projector) (string, error) {
	var b strings.Builder
	for k, p := range at {
		lon, lat, err := project(p[0], p[1])
		if err != nil {
			return "", err
		}
		if k > 0 {
			b.WriteByte(',')
		}
		fmt.Fprintf(&b, "[%.7f,%.7f]", lon, lat)
	}
	return "[" + b.String() + "]", nil
}

// collection returns a feature collection of one feature with a name.
func collection(kind, coordinates, name string) []byte {
	return fmt.Appendf(nil, `{"type":"FeatureCollection","features":[
{"type":"Feature","properties":{"name":%q},"geometry":{"type":%q,"coordinates":%s}}
]}
`, name, kind, coordinates)
}
