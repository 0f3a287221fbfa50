package gdal

import (
	"math"
	"strconv"
	"strings"

	"github.com/airbusgeo/godal"
)

// lonLat is the system of every position that leaves the program: WGS 84, longitude first.
const lonLat = "EPSG:4326"

// crs is what must be known of a coordinate system.
type crs struct {
	full       string // WKT as given, with its vertical part if it has one
	horizontal string // WKT of the horizontal part
	name       string // of the horizontal part
	base       string // WKT of the geographic system below; empty where it is not plain
	baseName   string
	baseCode   string // EPSG code of the geographic system, may be empty
	geographic bool
	unitM      float64 // metres in a map unit; 0 for degrees
	unitName   string
	heightM    float64 // metres in a unit of height; 0 where not stated
	heightName string
}

// parseCRS reads a coordinate system from WKT or any user text such as "EPSG:32613".
func parseCRS(text string) (c crs, err error) {
	start()
	var j journal
	sr, err := godal.NewSpatialRef(text, godal.ErrLogger(j.note))
	if err != nil {
		return c, wrong("coordinate system %q is not known: give a code such as EPSG:32613 (%s)", clip(text), j.said(err))
	}
	defer sr.Close()
	if c.full, err = sr.WKT(godal.ErrLogger(j.note)); err != nil {
		return c, wrong("coordinate system %q cannot be written as text (%s)", clip(text), j.said(err))
	}
	c.horizontal = horizontalPart(c.full)
	c.name = firstQuoted(c.horizontal)
	c.geographic = sr.Geographic()
	if !c.geographic && !sr.Projected() {
		return c, wrong("coordinate system %q is neither projected nor longitude and latitude, so its place on the Earth is not known: give one with --crs", c.name)
	}
	c.unitName = "degree"
	if !c.geographic {
		c.unitM, c.unitName = unitOf(sr, "PROJCS|UNIT")
		if c.unitM == 0 {
			return c, wrong("coordinate system %q states no unit of length: give another with --crs", c.name)
		}
	}
	c.heightM, c.heightName = unitOf(sr, "VERT_CS|UNIT")
	c.setBase(sr)
	return c, nil
}

// setBase keeps the geographic system if it counts degrees from Greenwich.
func (c *crs) setBase(sr *godal.SpatialRef) {
	text, ok := node(c.horizontal, "GEOGCS[")
	if !ok {
		return
	}
	meridian, _ := sr.AttrValue("PRIMEM", 1)
	if m, err := strconv.ParseFloat(meridian, 64); err != nil || m != 0 {
		return
	}
	degree, _ := sr.AttrValue("GEOGCS|UNIT", 1)
	if d, err := strconv.ParseFloat(degree, 64); err != nil || math.Abs(d-math.Pi/180) > 1e-9 {
		return
	}
	c.base = text
	c.baseName = firstQuoted(text)
	c.baseCode = sr.AuthorityCode("GEOGCS")
}

// unitOf returns factor and name of a unit node; 0 where there is none.
func unitOf(sr *godal.SpatialRef, path string) (factor float64, name string) {
	text, ok := sr.AttrValue(path, 1)
	if !ok {
		return 0, ""
	}
	factor, err := strconv.ParseFloat(text, 64)
	if err != nil || !(factor > 0) {
		return 0, ""
	}
	name, _ = sr.AttrValue(path, 0)
	return factor, name
}

// horizontalPart cuts the vertical part off a compound system.
func horizontalPart(wkt string) string {
	if !strings.HasPrefix(wkt, "COMPD_CS[") && !strings.HasPrefix(wkt, "COMPOUNDCRS[") {
		return wkt
	}
	for _, key := range []string{"PROJCS[", "PROJCRS[", "GEOGCS[", "GEOGCRS["} {
		if text, ok := node(wkt, key); ok {
			return text
		}
	}
	return wkt
}

// node returns the first node of WKT that begins with key, brackets balanced.
func node(wkt, key string) (string, bool) {
	from := strings.Index(wkt, key)
	if from < 0 {
		return "", false
	}
	depth, quoted := 0, false
	for i := from; i < len(wkt); i++ {
		switch ch := wkt[i]; {
		case ch == '"':
			quoted = !quoted
		case quoted:
		case ch == '[':
			depth++
		case ch == ']':
			if depth--; depth == 0 {
				return wkt[from : i+1], true
			}
		}
	}
	return "", false
}

// firstQuoted returns the first text in quotes: the name of a node.
func firstQuoted(wkt string) string {
	parts := strings.SplitN(wkt, `"`, 3)
	if len(parts) < 3 {
		return "unnamed"
	}
	return parts[1]
}

// sameCRS reports whether two texts describe the same coordinate system.
func sameCRS(a, b string) bool {
	if a == b {
		return true
	}
	var j journal
	one, err := godal.NewSpatialRef(a, godal.ErrLogger(j.note))
	if err != nil {
		return false
	}
	defer one.Close()
	two, err := godal.NewSpatialRef(b, godal.ErrLogger(j.note))
	if err != nil {
		return false
	}
	defer two.Close()
	return one.IsSame(two)
}

// CRSName returns the name of a coordinate system given as WKT or user text such as
// "EPSG:32613". Errors: a text that names none (ErrInput).
func CRSName(text string) (name string, err error) {
	defer guard(&err)
	c, err := parseCRS(text)
	return c.name, err
}

// clip shortens a text for a message.
func clip(text string) string {
	if len(text) > 80 {
		return text[:77] + "..."
	}
	return text
}
