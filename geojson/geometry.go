package geojson

import (
	"fmt"
	"math"

	"github.com/paulmach/orb"
)

// appendGeometry appends a geometry object.
func appendGeometry(dst []byte, g orb.Geometry) ([]byte, error) {
	var err error
	switch g := g.(type) {
	case orb.Point:
		dst, err = appendPosition(append(dst, `{"type":"Point","coordinates":`...), g)
	case orb.LineString:
		if len(g) < 2 {
			return dst, fmt.Errorf("a line of %d positions; at least 2", len(g))
		}
		dst, err = appendPositions(append(dst, `{"type":"LineString","coordinates":`...), g)
	case orb.Polygon:
		dst, err = appendPolygon(append(dst, `{"type":"Polygon","coordinates":`...), g)
	case orb.MultiPolygon:
		dst = append(dst, `{"type":"MultiPolygon","coordinates":[`...)
		for i, p := range g {
			if i > 0 {
				dst = append(dst, ',')
			}
			if dst, err = appendPolygon(dst, p); err != nil {
				return dst, err
			}
		}
		dst = append(dst, ']')
	default:
		panic(fmt.Sprintf("geojson: no writer for %T", g))
	}
	return append(dst, '}'), err
}

func appendPolygon(dst []byte, p orb.Polygon) ([]byte, error) {
	var err error
	dst = append(dst, '[')
	for i, r := range p {
		if len(r) < 4 || !r.Closed() {
			return dst, fmt.Errorf("ring %d of %d positions is not closed; at least 4, the last as the first", i+1, len(r))
		}
		if i > 0 {
			dst = append(dst, ',')
		}
		if dst, err = appendPositions(dst, r); err != nil {
			return dst, err
		}
	}
	return append(dst, ']'), nil
}

func appendPositions(dst []byte, points []orb.Point) ([]byte, error) {
	var err error
	dst = append(dst, '[')
	for i, p := range points {
		if i > 0 {
			dst = append(dst, ',')
		}
		if dst, err = appendPosition(dst, p); err != nil {
			return dst, err
		}
	}
	return append(dst, ']'), nil
}

// appendPosition refuses what cannot be a longitude and latitude: a shape in metres by mistake, or
// a point that could not be projected.
func appendPosition(dst []byte, p orb.Point) ([]byte, error) {
	if !(math.Abs(p[0]) <= 180 && math.Abs(p[1]) <= 90) {
		return dst, fmt.Errorf("position %v, %v is not longitude, latitude in degrees", p[0], p[1])
	}
	dst = AppendReal(append(dst, '['), p[0], DegreeDecimals, "")
	return append(AppendReal(append(dst, ','), p[1], DegreeDecimals, ""), ']'), nil
}
