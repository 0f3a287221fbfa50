package cli

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"github.com/urfave/cli/v2"

	"siltstep/cmd/internal/report"
	"siltstep/cmd/internal/settings"
	"siltstep/hydro/flow"
	"siltstep/raster"
	"siltstep/raster/gdal"
)

// Attributes of declared layers.
const (
	endsFlowAttribute  = "ends_flow"    // of a stock pond: true marks a playa
	catchmentAttribute = "catchment_ha" // of an inflow point
)

// inflowFlag names a layer of known inflows.
func inflowFlag() cli.Flag {
	return &cli.StringFlag{Name: "inflow", Usage: "point layer `FILE`; water of the land given in catchment_ha enters at each point"}
}

// A declared is where the layers stand that say what an elevation model does not tell.
type declared struct {
	files  settings.Files
	inflow string // file; empty for none
}

// named lists the files by role: those of flow, then those that dams heed.
func (d declared) named() [][2]string {
	return slices.Concat(d.flowLayers(), d.damLayers())
}

// flowLayers lists what water meets.
func (d declared) flowLayers() [][2]string {
	return [][2]string{
		{"roads", d.files.Path(d.files.Roads)},
		{"culverts", d.files.Path(d.files.Culverts)},
		{"stock ponds", d.files.Path(d.files.StockPonds)},
		{"inflow", d.inflow},
	}
}

// inputs returns the checksums of the files.
func (d declared) inputs() (inputs []report.Input, err error) {
	for _, file := range d.named() {
		if file[1] == "" {
			continue
		}
		input, err := inputOf(file[0], file[1])
		if err != nil {
			return nil, err
		}
		inputs = append(inputs, input)
	}
	return inputs, nil
}

// read returns what the files of flow declare. Errors name file and feature.
func (d declared) read(dem *gdal.DEM) (all flow.Features, err error) {
	takes := []func(*flow.Features, string, []gdal.Shape) error{takeRoads, takeCulverts, takeStockPonds, takeInflows}
	err = readLayers(dem, d.flowLayers(), takes, &all)
	return all, err
}

// readLayers reads those files that are named, and takes each in its own way.
func readLayers[T any](dem *gdal.DEM, files [][2]string, takes []func(*T, string, []gdal.Shape) error, all *T) error {
	for i, file := range files {
		if file[1] == "" {
			continue
		}
		shapes, err := gdal.ReadShapes(file[1], dem)
		if err != nil {
			return err
		}
		if err := takes[i](all, file[1], shapes); err != nil {
			return err
		}
		if !slices.ContainsFunc(shapes, func(s gdal.Shape) bool { return dem.Touches(s.Geometry) }) {
			return requestf("%s: does not touch the elevation model: check that both are of the same place, and the coordinate system of each", file[1])
		}
	}
	return nil
}

// takeRoads takes every line; points are passed over, and the outlines of areas are no roads.
func takeRoads(all *flow.Features, file string, shapes []gdal.Shape) error {
	for _, s := range shapes {
		all.Roads = append(all.Roads, linesOf(s.Geometry)...)
	}
	if len(all.Roads) == 0 {
		return requestf("%s: holds no lines: flow.roads wants the centre lines of roads", file)
	}
	return nil
}

// takeCulverts takes points and lines.
func takeCulverts(all *flow.Features, file string, shapes []gdal.Shape) error {
	for _, s := range shapes {
		for _, p := range pointsOf(s.Geometry) {
			all.Culverts = append(all.Culverts, orb.LineString{p})
		}
		for _, line := range linesOf(s.Geometry) {
			if m := planar.Length(line); m > flow.MostCulvertM {
				return requestf("%s: %s: the culvert is %.1f m long, and the most is %g m: draw it from inlet to outlet, or give a point on the fill", file, s.Name, m, flow.MostCulvertM)
			}
			all.Culverts = append(all.Culverts, line)
		}
	}
	if len(all.Culverts) == 0 {
		return requestf("%s: holds no points or lines: flow.culverts wants a point on the fill, or a line from inlet to outlet", file)
	}
	return nil
}

// takeStockPonds takes polygons, ponds and playas apart.
func takeStockPonds(all *flow.Features, file string, shapes []gdal.Shape) error {
	for _, s := range shapes {
		ends, fault := truth(s.Attributes[endsFlowAttribute])
		if fault != "" {
			return requestf("%s: %s: %s %s: true marks a playa, where flow ends; false or nothing a pond with a spillway", file, s.Name, endsFlowAttribute, fault)
		}
		if ends {
			all.Playas = append(all.Playas, gdal.Polygons(s.Geometry)...)
		} else {
			all.StockPonds = append(all.StockPonds, gdal.Polygons(s.Geometry)...)
		}
	}
	if len(all.Playas)+len(all.StockPonds) == 0 {
		return requestf("%s: holds no polygons: flow.stock_ponds wants the outlines of ponds", file)
	}
	return nil
}

// takeInflows takes points with their catchment.
func takeInflows(all *flow.Features, file string, shapes []gdal.Shape) error {
	for _, s := range shapes {
		points := pointsOf(s.Geometry)
		if len(points) != 1 {
			return requestf("%s: %s: an inflow is one point, where the water enters", file, s.Name)
		}
		ha, fault := amount(s.Attributes[catchmentAttribute])
		if fault != "" {
			return requestf("%s: %s: %s %s: give the land in hectares that drains in at the point", file, s.Name, catchmentAttribute, fault)
		}
		all.Inflows = append(all.Inflows, flow.Inflow{X: points[0][0], Y: points[0][1], CatchmentM2: ha * squareMetresPerHectare})
	}
	if len(all.Inflows) == 0 {
		return requestf("%s: holds no points: --inflow wants a point with %s for each place where water enters", file, catchmentAttribute)
	}
	return nil
}

// onData checks that each inflow lies on a cell that holds data.
func (d declared) onData(g *raster.Grid, inflows []flow.Inflow) error {
	for i, in := range inflows {
		col, row := g.Transform.ColRow(in.X, in.Y)
		if !g.Inside(col, row) || g.At(col, row) == raster.VoidMM {
			return requestf("%s: feature %d: the inflow lies where the elevation model holds no data: move it to where the water enters the data", d.inflow, i+1)
		}
	}
	return nil
}

// fault marks an error of the analysis that a declared inflow caused as the fault of its file.
func (d declared) fault(err error) error {
	if errors.Is(err, flow.ErrInflow) {
		return requestf("%s: %w", d.inflow, err)
	}
	return err
}

// linesOf returns the lines of a geometry of two places or more.
func linesOf(g orb.Geometry) (out []orb.LineString) {
	switch g := g.(type) {
	case orb.LineString:
		if len(g) > 1 {
			out = append(out, g)
		}
	case orb.MultiLineString:
		for _, line := range g {
			out = append(out, linesOf(line)...)
		}
	case orb.Collection:
		for _, part := range g {
			out = append(out, linesOf(part)...)
		}
	}
	return out
}

// pointsOf returns the points of a geometry.
func pointsOf(g orb.Geometry) (out []orb.Point) {
	switch g := g.(type) {
	case orb.Point:
		out = append(out, g)
	case orb.MultiPoint:
		out = append(out, g...)
	case orb.Collection:
		for _, part := range g {
			out = append(out, pointsOf(part)...)
		}
	}
	return out
}

// amount reads an attribute as a number above 0; text will do.
func amount(value any) (x float64, fault string) {
	switch v := value.(type) {
	case nil:
		return 0, "is missing"
	case float64:
		x = v
	case string:
		var err error
		if x, err = strconv.ParseFloat(strings.TrimSpace(v), 64); err != nil {
			return 0, fmt.Sprintf("%q is no number", v)
		}
	default:
		return 0, fmt.Sprintf("%v is no number", v)
	}
	if !(x > 0 && x <= math.MaxFloat64) {
		return 0, fmt.Sprintf("%v is not a number above 0", x)
	}
	return x, ""
}

// truth reads an attribute as yes or no; nothing is no.
func truth(value any) (is bool, fault string) {
	switch v := value.(type) {
	case nil:
		return false, ""
	case bool:
		return v, ""
	case float64:
		if v == 0 || v == 1 {
			return v == 1, ""
		}
	case string:
		switch strings.ToLower(strings.TrimSpace(v)) {
		case "true", "yes", "t", "y", "1":
			return true, ""
		case "", "false", "no", "f", "n", "0":
			return false, ""
		}
	}
	return false, fmt.Sprintf("%v is neither true nor false", value)
}
