package cli

import (
	"context"
	"io"
	"path/filepath"

	"github.com/paulmach/orb"
	"github.com/urfave/cli/v2"

	"siltstep/cmd/internal/demo"
	"siltstep/cmd/internal/settings"
	"siltstep/raster/gdal"
)

func demoCommand(c *console) *cli.Command {
	return &cli.Command{
		Name:      "demo",
		Usage:     "make an invented ranch and plan it",
		ArgsUsage: "--out DIR",
		Description: "Writes the ranch into DIR (dem.tif, property.geojson, roads.geojson, stock_ponds.geojson,\n" +
			"rain.csv, settings.yaml, and truth.json, which holds what is known of it) and its plan into\n" +
			"DIR/plan.",
		Flags: []cli.Flag{
			&cli.StringFlag{Name: "out", Usage: "folder `DIR` to make"},
			toggle("replace", "replace an earlier demo in DIR; files that siltstep did not write stay"),
		},
		Action: c.demo,
	}
}

func (c *console) demo(ctx *cli.Context) error {
	if ctx.Args().Present() {
		return requestf("demo takes no files, got %s; to plan your own land: siltstep plan %[1]s --out DIR", ctx.Args().First())
	}
	out, err := openFolder(ctx.String("out"), ctx.Bool("replace"))
	if err != nil {
		return err
	}
	defer out.discard()
	if err := out.guard("truth.json"); err != nil {
		return err
	}
	job := c.watch(planStages + 2)
	defer job.close()
	made, err := c.makeDemo(ctx.Context, out, demo.DefaultSize, job)
	if err != nil {
		return err
	}
	if err := ctx.Context.Err(); err != nil {
		return err
	}
	if err := out.commit(); err != nil {
		return err
	}
	job.close()
	c.printf("%s, an invented place, is in %s: dem.tif, property.geojson, roads.geojson, stock_ponds.geojson, rain.csv, settings.yaml, truth.json\n\n", demo.Name, out.target)
	return c.tell(made, filepath.Join(out.target, "plan"))
}

// makeDemo writes a ranch of some size and its plan into an output folder, which it does
// not commit.
func (c *console) makeDemo(ctx context.Context, out *folder, size demo.Size, job *stages) (*made, error) {
	job.begin("ranch")
	ranch, err := demo.Generate(size, demo.DefaultSeed)
	if err != nil {
		return nil, err
	}
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	job.begin("ranch files")
	if err := writeRanch(ctx, ranch, out); err != nil {
		return nil, err
	}
	said := filepath.Join(out.stage, "settings.yaml")
	cfg, err := settings.Load(said)
	if err != nil {
		return nil, err
	}
	plan := out.inner("plan")
	made, err := makePlan(ctx, planning{
		elevation: gdal.Request{Paths: []string{filepath.Join(out.stage, "dem.tif")}},
		config:    cfg,
		property:  filepath.Join(out.stage, "property.geojson"),
		settings:  said,
		units:     c.units,
	}, plan, job)
	if err != nil {
		return nil, err
	}
	return made, writeManifest(plan.stage)
}

// ranchSettings is the settings file of the demo. It names what a rancher knows: the road, so that
// its fill is cut by the limits of roads, the stock pond, so that it is kept, and rain and ground, so that dams are designed.
// Where the culvert is stays undeclared, as it does on most land.
const ranchSettings = `# Settings of the demo plan: all that differs from what "siltstep plan --print-settings" prints.
flow:
  roads: roads.geojson
  stock_ponds: stock_ponds.geojson
erosion:
  bed_material: ` + ranchBed + `
# Rain and ground are as invented as the ranch. Bring your own: without a table of rain for the place, and its ground, no plan
# holds a peak, a notch or a size of stone.
rain:
  table: rain.csv
  return_period: 10 yr
  hours: 24
runoff:
  coefficient: 0.35
  cover: pasture
  condition: poor
  soil_group: B
# So are silt, age and prices: without your own, years to fill, loads a year and costs stay empty.
sediment:
  yield: [0.5 m3/ha, 3 m3/ha]
gully:
  formation_years: 40 yr
prices:
  currency: USD
  rock: 40
  day: 160
  days_per_m3: 0.8
  load: 12 t
  barrow: 0.1 t
handover:
  title: ` + demo.Name + `
`

// ranchBed is what the beds of the ranch are made of.
const ranchBed = "sandy-loam"

// ranchRain is the table of rain of the demo. No place has it: it only rises and falls as such tables do.
const ranchRain = `# An invented table for an invented place; bring your own.
unit, mm
duration, 2 yr, 10 yr, 25 yr
5 min, 5.5, 9.5, 12
10 min, 8.5, 14.5, 18.5
15 min, 10.5, 18, 22.8
30 min, 13.5, 23.5, 29.5
1 h, 16.5, 28.5, 36
2 h, 19, 32.5, 41
6 h, 24, 39.5, 49
12 h, 28, 45.5, 56
24 h, 32.5, 52, 64
`

// writeRanch writes the files of a ranch.
func writeRanch(ctx context.Context, ranch *demo.Ranch, out *folder) error {
	path, err := out.path("dem.tif")
	if err != nil {
		return err
	}
	if err := gdal.WriteDEM(ctx, path, ranch.Grid, demo.CRS); err != nil {
		return err
	}
	points, free := gdal.Projector(demo.CRS, "EPSG:4326")
	defer free()
	project := func(x, y float64) (lon, lat float64, err error) {
		at, err := points([]orb.Point{{x, y}})
		if err != nil {
			return 0, 0, err
		}
		return at[0][0], at[0][1], nil
	}
	layer := func(make func(demo.Projector) ([]byte, error)) func(io.Writer) error {
		return func(w io.Writer) error {
			text, err := make(project)
			if err != nil {
				return err
			}
			_, err = w.Write(text)
			return err
		}
	}
	for _, file := range []textFile{
		{"property.geojson", layer(ranch.PropertyGeoJSON)},
		{"roads.geojson", layer(ranch.RoadGeoJSON)},
		{"stock_ponds.geojson", layer(ranch.StockPondGeoJSON)},
		{"rain.csv", func(w io.Writer) error { _, err := io.WriteString(w, ranchRain); return err }},
		{"settings.yaml", func(w io.Writer) error { _, err := io.WriteString(w, ranchSettings); return err }},
		{"truth.json", ranch.Truth.WriteJSON},
	} {
		if err := out.write(file.name, file.fill); err != nil {
			return err
		}
	}
	return nil
}
