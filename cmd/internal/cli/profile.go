package cli

import (
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"github.com/paulmach/orb"
	"github.com/urfave/cli/v2"

	"siltstep/cmd/internal/chart"
	"siltstep/cmd/internal/report"
	"siltstep/cmd/internal/settings"
	"siltstep/geojson"
	"siltstep/hydro"
	"siltstep/hydro/channel"
	"siltstep/hydro/erosion"
	"siltstep/hydro/flow"
	"siltstep/raster"
	"siltstep/raster/gdal"
)

// searchM is how far a point may lie from a channel, m: enough for a phone's position and
// for a finger on a map. Our own choice.
const searchM = 25

func profileCommand(c *console) *cli.Command {
	return &cli.Command{
		Name:      "profile",
		Usage:     "draw the longitudinal profile downstream of a point",
		ArgsUsage: "DEM... --from LON,LAT --out DIR",
		Description: "Moves the point to the nearest channel, within 25 m, and follows the water to where flow ends.\n" +
			"Writes profile.csv, profile.svg and profile.json into DIR.",
		Flags: append([]cli.Flag{
			&cli.StringFlag{Name: "from", Usage: "`LON,LAT` of the point in degrees, WGS 84, longitude first, as in -105.2,36.4"},
			&cli.StringFlag{Name: "out", Usage: "folder `DIR` to make"},
			toggle("replace", "replace an earlier profile in DIR; files that siltstep did not write stay"),
			settingsFlag(),
			inflowFlag(),
		}, elevationFlags()...),
		Action: c.profile,
	}
}

func (c *console) profile(ctx *cli.Context) error {
	cfg, err := configuration(ctx)
	if err != nil {
		return err
	}
	elevation, err := elevationRequest(ctx)
	if err != nil {
		return err
	}
	asked, err := parseLonLat(ctx.String("from"))
	if err != nil {
		return err
	}
	out, err := openFolder(ctx.String("out"), ctx.Bool("replace"))
	if err != nil {
		return err
	}
	defer out.discard()
	if err := out.guard("profile.json", append(elevation.Paths, ctx.String("settings"))...); err != nil {
		return err
	}
	job := c.watch(7)
	defer job.close()
	t, err := trace(ctx, elevation, cfg, asked, job)
	if err != nil {
		return err
	}
	defer t.free()
	if err := t.write(out, c); err != nil {
		return err
	}
	if err := ctx.Context.Err(); err != nil {
		return err
	}
	if err := out.commit(); err != nil {
		return err
	}
	job.close()
	c.printDecisions(t.decisions)
	c.printf("The point was moved %s to the nearest channel.\n%s of channel, falling %s; files are in %s\n",
		c.units.Length(t.movedM, 1), c.units.Length(t.path.LengthM(), 1), c.units.Length(t.path.DropM(), 1), out.target)
	return nil
}

// parseLonLat reads "LON,LAT" in degrees.
func parseLonLat(text string) (orb.Point, error) {
	if text == "" {
		return orb.Point{}, requestf("--from is missing; give longitude and latitude, as in --from -105.2,36.4")
	}
	lonText, latText, _ := strings.Cut(text, ",")
	lon, errLon := strconv.ParseFloat(strings.TrimSpace(lonText), 64)
	lat, errLat := strconv.ParseFloat(strings.TrimSpace(latText), 64)
	if errLon != nil || errLat != nil || !(lon >= -180 && lon <= 180 && lat >= -90 && lat <= 90) {
		return orb.Point{}, requestf("--from %s is no position; give longitude and latitude in degrees, as in --from -105.2,36.4", text)
	}
	return orb.Point{lon, lat}, nil
}

// A tracing is the path of water from a point, and where it came from.
type tracing struct {
	asked, start orb.Point // longitude and latitude asked for, and of the channel cell
	movedM       float64
	path         channel.Profile
	erosion      erosion.Judgement // of the path; without severity
	truncated    bool
	catchmentM2  float64 // at the lower end
	crs          string
	inputs       []report.Input
	decisions    []string // what was decided about the grid
	toLonLat     geojson.Projector
	free         func()
}

// trace reads the data, finds flow and follows it from the channel nearest to a point.
func trace(ctx *cli.Context, elevation gdal.Request, cfg settings.Settings, asked orb.Point, job *stages) (*tracing, error) {
	dem, err := gdal.Open(ctx.Context, elevation)
	if err != nil {
		return nil, err
	}
	said := declared{cfg.Files, ctx.String("inflow")}
	if cfg.Flow.Features, err = said.read(dem); err != nil {
		return nil, err
	}
	if err := cfg.Validate(); err != nil {
		return nil, request(err)
	}
	inputs := beside(func() ([]report.Input, error) { return tracingInputs(ctx, elevation, said) })
	grid, err := readElevation(ctx.Context, dem, job)
	if err != nil {
		return nil, err
	}
	settled := settle(grid)
	if err := said.onData(grid, cfg.Flow.Features.Inflows); err != nil {
		return nil, err
	}
	at, err := placeOn(grid, dem, asked)
	if err != nil {
		return nil, err
	}
	field, err := flow.Run(ctx.Context, grid, cfg.Flow, job.begin)
	if err != nil {
		return nil, said.fault(err)
	}
	job.begin("profile")
	cell, movedM, ok := channel.Nearest(grid, field, cfg.Channels, at[0], at[1], searchM)
	if !ok {
		return nil, requestf("no channel lies within %d m of --from %v,%v; choose a point on a drainage (plan writes them to drainages.geojson), "+
			"or lower channels.start_area in the settings", searchM, asked[0], asked[1])
	}
	read, err := inputs()
	if err != nil {
		return nil, err
	}
	t := &tracing{asked: asked, movedM: movedM, path: channel.Downstream(grid, field, cell), crs: dem.Info().GridCRSName, inputs: read,
		decisions: append(dem.Info().Decisions, settled...)}
	if len(t.path.Stations) < 2 {
		return nil, requestf("the channel at --from %v,%v ends where it begins, at the edge of the data; choose a point further up", asked[0], asked[1])
	}
	job.begin("erosion")
	t.erosion = erosionAlong(grid, t.path, cfg.Config)
	end := t.path.Stations[0]
	t.truncated, t.catchmentM2 = field.Truncated(end.Cell), end.CatchmentM2
	t.toLonLat, t.free = dem.ToLonLat()
	x, y := grid.CenterOf(cell)
	places, err := t.toLonLat.Project([]orb.Point{{x, y}})
	if err != nil {
		t.free()
		return nil, err
	}
	t.start = places[0]
	return t, nil
}

// erosionAlong measures depths and headcuts along a path. Severity ranks drainages and is not
// judged of a path alone.
func erosionAlong(grid *raster.Grid, path channel.Profile, cfg hydro.Config) (j erosion.Judgement) {
	alone := &channel.Network{Drainages: []channel.Drainage{{Into: -1, IntoCell: -1, Profile: path}}}
	topHat := erosion.Survey(grid, alone, cfg.Erosion.WindowM, cfg.Flow.Workers)[0]
	noiseM := grid.NoiseM()
	if math.IsNaN(noiseM) {
		noiseM = 0
	}
	j.Depths = erosion.Measure(&alone.Drainages[0], channel.Sections(grid, path, cfg.Sections), topHat, cfg.Erosion)
	j.Headcuts = erosion.NetworkHeadcuts(grid, alone, noiseM, cfg.Erosion)[0]
	return j
}

// tracingInputs returns the checksums of all files that a profile is made from.
func tracingInputs(ctx *cli.Context, elevation gdal.Request, said declared) ([]report.Input, error) {
	inputs, err := elevationInputs(elevation.Paths)
	if err != nil {
		return nil, err
	}
	if path := ctx.String("settings"); path != "" {
		input, err := inputOf("settings", path)
		if err != nil {
			return nil, err
		}
		inputs = append(inputs, input)
	}
	more, err := said.inputs()
	return append(inputs, more...), err
}

// placeOn turns a position into map coordinates on the grid.
func placeOn(grid *raster.Grid, dem *gdal.DEM, asked orb.Point) (orb.Point, error) {
	fromLonLat, free := dem.FromLonLat()
	defer free()
	info := dem.Info()
	outside := requestf("--from %v,%v lies outside the data, which covers longitude %.5f to %.5f and latitude %.5f to %.5f; longitude comes first",
		asked[0], asked[1], info.West, info.East, info.South, info.North)
	at, err := fromLonLat([]orb.Point{asked})
	if err != nil {
		return orb.Point{}, outside
	}
	if col, row := grid.Transform.ColRow(at[0][0], at[0][1]); !grid.Inside(col, row) {
		return orb.Point{}, outside
	}
	return at[0], nil
}

// write writes the files of a profile.
func (t *tracing) write(out *folder, c *console) error {
	drawn := profileOf(&channel.Drainage{ID: fmt.Sprintf("Downstream of %.5f, %.5f", t.start[0], t.start[1]), Profile: t.path, Truncated: t.truncated}, t.erosion)
	for _, file := range []textFile{
		{"profile.csv", func(w io.Writer) error { return report.WriteProfile(w, t.path, t.erosion.Depths, nil, 0, t.toLonLat) }},
		{"profile.svg", func(w io.Writer) error {
			return chart.WriteProfile(w, drawn, c.units)
		}},
		{"profile.json", t.writeJSON},
	} {
		if err := out.write(file.name, file.fill); err != nil {
			return err
		}
	}
	return nil
}
