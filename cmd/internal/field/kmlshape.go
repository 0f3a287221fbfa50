package field

import (
	"strings"

	"siltstep/cmd/internal/facts"

	"github.com/paulmach/orb"
)

// Shapes of KML 2.2: longitude first, on the ground.
type (
	kmlPoint struct {
		Coordinates string `xml:"coordinates"`
	}
	kmlLine struct {
		Tessellate  int    `xml:"tessellate"`
		Coordinates string `xml:"coordinates"`
	}
	kmlPolygon struct {
		Tessellate int       `xml:"tessellate"`
		Outer      string    `xml:"outerBoundaryIs>LinearRing>coordinates"`
		Inner      []kmlHole `xml:"innerBoundaryIs"`
	}
	kmlHole struct {
		Coordinates string `xml:"LinearRing>coordinates"`
	}
	kmlShapes struct {
		Polygons []kmlPolygon `xml:"Polygon"`
	}
)

// positions writes positions as longitude and latitude.
func positions(list []orb.Point) string {
	var b strings.Builder
	for i, p := range list {
		if i > 0 {
			b.WriteByte(' ')
		}
		b.WriteString(degrees(facts.Num(p[0])))
		b.WriteByte(',')
		b.WriteString(degrees(facts.Num(p[1])))
	}
	return b.String()
}

// polygons returns the outlines of land; nil where there is none.
func polygons(g orb.Geometry) *kmlShapes {
	var many orb.MultiPolygon
	switch g := g.(type) {
	case orb.Polygon:
		many = orb.MultiPolygon{g}
	case orb.MultiPolygon:
		many = g
	}
	var out kmlShapes
	for _, one := range many {
		if len(one) == 0 {
			continue
		}
		p := kmlPolygon{Tessellate: 1, Outer: positions(one[0])}
		for _, hole := range one[1:] {
			p.Inner = append(p.Inner, kmlHole{positions(hole)})
		}
		out.Polygons = append(out.Polygons, p)
	}
	if len(out.Polygons) == 0 {
		return nil
	}
	return &out
}
