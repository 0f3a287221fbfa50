package gdal

import (
	"fmt"
	"math"
)

// utmZone returns the UTM zone of a position in degrees, with the wider zones of southern
// Norway and Svalbard, and whether it lies south of the equator. Errors: beyond 80° S or
// 84° N, where UTM is not defined (ErrInput).
func utmZone(lon, lat float64) (zone int, south bool, err error) {
	if !(lat >= -80 && lat <= 84) {
		return 0, false, wrong("the centre of the data lies at latitude %.3f, outside the UTM zones (80 S to 84 N): "+
			"warp it to a metric system first", lat)
	}
	lon = math.Mod(math.Mod(lon+180, 360)+360, 360) - 180
	zone = int(math.Floor((lon+180)/6)) + 1
	switch {
	case lat >= 56 && lat < 64 && lon >= 3 && lon < 12:
		zone = 32
	case lat >= 72 && lon >= 0 && lon < 42:
		zone = []int{31, 33, 35, 37}[svalbardBand(lon)]
	}
	return zone, lat < 0, nil
}

// svalbardBand counts the four zones north of 72° N from 0 to 42° E.
func svalbardBand(lon float64) int {
	switch {
	case lon < 9:
		return 0
	case lon < 21:
		return 1
	case lon < 33:
		return 2
	}
	return 3
}

// utmText returns the UTM zone on the datum of a system: by its EPSG code where the datum
// is a common one, else written out on the datum's own geographic system. A system that
// does not count degrees from Greenwich gets WGS 84.
func utmText(c crs, zone int, south bool) string {
	switch {
	case c.base == "" || c.baseCode == "4326": // WGS 84
		if south {
			return fmt.Sprintf("EPSG:%d", 32700+zone)
		}
		return fmt.Sprintf("EPSG:%d", 32600+zone)
	case c.baseCode == "4269" && !south && zone <= 23: // NAD83
		return fmt.Sprintf("EPSG:%d", 26900+zone)
	case c.baseCode == "4258" && !south && zone >= 28 && zone <= 38: // ETRS89
		return fmt.Sprintf("EPSG:%d", 25800+zone)
	}
	side, northing := "N", 0
	if south {
		side, northing = "S", 10000000
	}
	return fmt.Sprintf(`PROJCS["%s / UTM zone %d%s",%s,PROJECTION["Transverse_Mercator"],`+
		`PARAMETER["latitude_of_origin",0],PARAMETER["central_meridian",%d],PARAMETER["scale_factor",0.9996],`+
		`PARAMETER["false_easting",500000],PARAMETER["false_northing",%d],UNIT["metre",1],`+
		`AXIS["Easting",EAST],AXIS["Northing",NORTH]]`, c.baseName, zone, side, c.base, zone*6-183, northing)
}
