package cli

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"io"
	"iter"
	"runtime"

	"golang.org/x/sync/errgroup"

	"siltstep/cmd/internal/chart"
	"siltstep/cmd/internal/report"
	"siltstep/cmd/internal/units"
	"siltstep/geojson"
	"siltstep/hydro"
	"siltstep/hydro/channel"
	"siltstep/hydro/siting"
	"siltstep/raster/gdal"
)

// hillshadePixels is the longest side of the shaded relief, pixels. Our own choice: two
// screens wide.
const hillshadePixels = 2400

// A planWriter writes the files of one plan.
type planWriter struct {
	out    *folder
	record *report.Record
	crs    string // WKT of the grid
	units  units.System
}

// write writes every file; rasters only where asked for. Profiles are drawn by several
// goroutines while this one writes the rest. It stops between files when the context ends.
func (w planWriter) write(ctx context.Context, rasters bool, job *stages) error {
	ctx, stop := context.WithCancel(ctx)
	defer stop()
	drawing, ctx := errgroup.WithContext(ctx)
	drawing.SetLimit(runtime.GOMAXPROCS(0) + 1) // and the one that hands out
	drawing.Go(func() error {
		for _, file := range w.drawings() {
			drawing.Go(func() error { return w.draw(ctx, file) })
		}
		return nil
	})
	err := w.writeRest(ctx, rasters, job)
	if err != nil {
		stop()
	}
	drawn := drawing.Wait()
	if drawn != nil && !errors.Is(drawn, context.Canceled) {
		return drawn
	}
	return cmp.Or(err, drawn)
}

func (w planWriter) writeRest(ctx context.Context, rasters bool, job *stages) error {
	files := w.tables()
	for i, file := range files {
		if err := ctx.Err(); err != nil {
			return err
		}
		if err := w.out.write(file.name, file.fill); err != nil {
			return err
		}
		job.part(i, len(files))
	}
	path, err := w.out.path("hillshade.png")
	if err != nil {
		return fmt.Errorf("hillshade.png: %w", err)
	}
	if err := gdal.Hillshade(ctx, path, w.record.Plan.Grid, hillshadePixels); err != nil {
		return err
	}
	if rasters {
		return w.rasters(ctx)
	}
	return nil
}

// draw writes a drawing. A fault in it must not end the program with the work half done,
// as it would from a goroutine.
func (w planWriter) draw(ctx context.Context, file textFile) (err error) {
	defer func() {
		if fault := recover(); fault != nil {
			err = fmt.Errorf("%s: a fault of siltstep itself: %v (%s); please report it", file.name, fault, faultPlace())
		}
	}()
	if err := ctx.Err(); err != nil {
		return err
	}
	return w.out.write(file.name, file.fill)
}

// A textFile is a file by the name it has in the plan and what fills it.
type textFile struct {
	name string
	fill func(io.Writer) error
}

// tables lists the files of text but for the drawings.
func (w planWriter) tables() []textFile {
	layer := func(make func(*hydro.Plan, geojson.Projector) (geojson.Collection, error)) func(io.Writer) error {
		return func(to io.Writer) error {
			layer, err := make(w.record.Plan, w.record.ToLonLat)
			if err != nil {
				return err
			}
			return geojson.Write(to, layer)
		}
	}
	files := []textFile{
		{"plan.json", func(to io.Writer) error { return report.WritePlan(to, *w.record) }},
		{"summary.csv", func(to io.Writer) error { return report.WriteSummary(to, w.record.Plan) }},
		{"sites.geojson", layer(geojson.Sites)},
		{"drainages.geojson", layer(geojson.Drainages)},
		{"reaches.geojson", layer(geojson.Reaches)},
		{"catchments.geojson", layer(geojson.Catchments)},
		{"depressions.geojson", layer(geojson.Depressions)},
	}
	ratio := w.record.Plan.Config.Siting.DepositRatio
	for d, sites := range w.profiled() {
		files = append(files, textFile{"profiles/" + d.ID + ".csv", func(to io.Writer) error {
			return report.WriteProfile(to, d.Profile, sites, ratio, w.record.ToLonLat)
		}})
	}
	return files
}

// drawings lists the drawing of each profile.
func (w planWriter) drawings() (files []textFile) {
	ratio := w.record.Plan.Config.Siting.DepositRatio
	for d, sites := range w.profiled() {
		drawn := chart.Profile{Title: d.ID, Stations: d.Profile.Stations, Sites: sites, DepositRatio: ratio, Truncated: d.Truncated}
		files = append(files, textFile{"profiles/" + d.ID + ".svg", func(to io.Writer) error {
			return chart.WriteProfile(to, drawn, w.units)
		}})
	}
	return files
}

// profiled yields the drainages that have a profile of two stations or more, and their dams.
func (w planWriter) profiled() iter.Seq2[*channel.Drainage, []siting.Site] {
	plan := w.record.Plan
	return func(yield func(*channel.Drainage, []siting.Site) bool) {
		for i := range plan.Network.Drainages {
			if d := &plan.Network.Drainages[i]; len(d.Profile.Stations) >= 2 && !yield(d, plan.Layouts[i].Sites) {
				return
			}
		}
	}
}
