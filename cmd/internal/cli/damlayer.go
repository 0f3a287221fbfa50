package cli

import (
	"github.com/paulmach/orb"

	"siltstep/hydro/siting"
	"siltstep/raster/gdal"
)

// damLayers lists the files that dams heed, by role.
func (d declared) damLayers() [][2]string {
	return [][2]string{
		{"exclusions", d.files.Path(d.files.Exclusions)},
		{"buildings", d.files.Path(d.files.Buildings)},
		{"live streams", d.files.Path(d.files.LiveStreams)},
		{"base level", d.files.Path(d.files.BaseLevel)},
	}
}

// heeded returns what the files that dams heed declare, and the roads, which are those of flow. Errors name file and feature.
func (d declared) heeded(dem *gdal.DEM, roads []orb.LineString) (all siting.Features, err error) {
	takes := []func(*siting.Features, string, []gdal.Shape) error{takeExclusions, takeBuildings, takeLiveStreams, takeBaseLevels}
	err = readLayers(dem, d.damLayers(), takes, &all)
	all.Roads = roads
	return all, err
}

// takeExclusions takes polygons. A point or line among them is a fault: what it stands for would be left without protection.
func takeExclusions(all *siting.Features, file string, shapes []gdal.Shape) error {
	for _, s := range shapes {
		if len(pointsOf(s.Geometry)) > 0 || len(linesOf(s.Geometry)) > 0 {
			return requestf("%s: %s: not an area: dams.exclusions wants the outlines of areas to leave alone; draw one around it", file, s.Name)
		}
		all.Exclusions = append(all.Exclusions, gdal.Polygons(s.Geometry)...)
	}
	if len(all.Exclusions) == 0 {
		return requestf("%s: holds no polygons: dams.exclusions wants the outlines of areas to leave alone", file)
	}
	return nil
}

// takeBuildings takes whatever has a place.
func takeBuildings(all *siting.Features, file string, shapes []gdal.Shape) error {
	for _, s := range shapes {
		all.Buildings = append(all.Buildings, piecesOf(s.Geometry)...)
	}
	if len(all.Buildings) == 0 {
		return requestf("%s: holds no shapes: dams.buildings wants points, lines or outlines", file)
	}
	return nil
}

// takeLiveStreams takes lines and polygons. A point is a fault: how far the stream goes from it is not known.
func takeLiveStreams(all *siting.Features, file string, shapes []gdal.Shape) error {
	for _, s := range shapes {
		if len(pointsOf(s.Geometry)) > 0 {
			return requestf("%s: %s: a point: dams.live_streams wants the lines or outlines of streams", file, s.Name)
		}
		all.Streams = append(all.Streams, piecesOf(s.Geometry)...)
	}
	if len(all.Streams) == 0 {
		return requestf("%s: holds no lines or polygons: dams.live_streams wants the lines or outlines of streams", file)
	}
	return nil
}

// takeBaseLevels takes whatever has a place.
func takeBaseLevels(all *siting.Features, file string, shapes []gdal.Shape) error {
	for _, s := range shapes {
		all.BaseLevels = append(all.BaseLevels, piecesOf(s.Geometry)...)
	}
	if len(all.BaseLevels) == 0 {
		return requestf("%s: holds no shapes: dams.base_level wants points, lines or outlines of what does not wash out", file)
	}
	return nil
}

// piecesOf returns the points, lines and polygons of a geometry one by one.
func piecesOf(g orb.Geometry) (out []orb.Geometry) {
	for _, p := range pointsOf(g) {
		out = append(out, p)
	}
	for _, line := range linesOf(g) {
		out = append(out, line)
	}
	for _, p := range gdal.Polygons(g) {
		out = append(out, p)
	}
	return out
}
