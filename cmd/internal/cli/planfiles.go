package cli

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"io"
	"runtime"

	"github.com/paulmach/orb"
	"golang.org/x/sync/errgroup"

	"siltstep/cmd/internal/report"
	"siltstep/cmd/internal/units"
	"siltstep/geojson"
	"siltstep/hydro"
	"siltstep/raster/gdal"
)

// hillshadePixels is the longest side of the shaded relief, pixels. Our own choice: two
// screens wide.
const hillshadePixels = 2400

// A planWriter writes the files of one plan or screening.
type planWriter struct {
	out      *folder
	record   *report.Record
	crs      string // WKT of the grid
	title    string // of the map
	property property
	units    units.System
}

// write writes every file, what is handed over last; rasters only where asked for. Drawings are made by several
// goroutines while this one writes the rest. It stops between files when the context ends.
func (w planWriter) write(ctx context.Context, rasters bool, job *stages) error {
	whole := ctx
	ctx, stop := context.WithCancel(ctx)
	defer stop()
	drawing, ctx := errgroup.WithContext(ctx)
	drawing.SetLimit(runtime.GOMAXPROCS(0) + 1) // and the one that hands out
	drawing.Go(func() error {
		for _, file := range w.drawings(ctx) {
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
	if err := cmp.Or(err, drawn); err != nil || w.record.ScreenedOnly() {
		return err
	}
	return w.handOver(whole)
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
	if err := w.geopackage(ctx); err != nil {
		return err
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

// tables lists the files of text but for the drawings. Those of a screening come first.
func (w planWriter) tables() []textFile {
	plan := w.record.Plan
	files := []textFile{
		{w.record.File(), func(to io.Writer) error { return report.WritePlan(to, *w.record) }},
		{"ranking.csv", func(to io.Writer) error { return report.WriteRanking(to, *w.record) }},
		{"summary.csv", func(to io.Writer) error { return report.WriteSummary(to, plan) }},
	}
	for _, l := range w.mapLayers() {
		files = append(files, textFile{l.name + ".geojson", w.layer(l.of)})
	}
	if !w.record.ScreenedOnly() {
		files = append(files, textFile{"limits.geojson", w.layer(func(p *hydro.Plan, to geojson.Projector) (geojson.Collection, error) {
			return geojson.Limits(p, orb.MultiPolygon(w.property), to)
		})})
		files = append(files, textFile{"series.csv", func(to io.Writer) error { return report.WriteSeries(to, plan, plan.Series) }},
			textFile{"scenarios.csv", func(to io.Writer) error { return report.WriteScenarios(to, plan.Scenarios) }})
	}
	if !w.record.ScreenedOnly() {
		files = append(files, textFile{"edits.csv", func(to io.Writer) error { return report.WriteEdits(to, plan, plan.Changes) }})
	}
	if len(plan.Changes) > 0 {
		files = append(files, textFile{"changes.csv", func(to io.Writer) error { return report.WriteChanges(to, plan.Changes) }})
	}
	for i := range plan.Network.Drainages {
		files = append(files, w.drainageTables(i)...)
	}
	return files
}

// layer fills a map layer.
func (w planWriter) layer(make func(*hydro.Plan, geojson.Projector) (geojson.Collection, error)) func(io.Writer) error {
	return func(to io.Writer) error {
		layer, err := make(w.record.Plan, w.record.ToLonLat)
		if err != nil {
			return err
		}
		return geojson.Write(to, layer)
	}
}

// drawings lists the map and the drawings of each drainage.
func (w planWriter) drawings(ctx context.Context) []textFile {
	files := w.maps(ctx)
	for i := range w.record.Plan.Network.Drainages {
		files = append(files, w.drainageDrawings(i)...)
	}
	return files
}
