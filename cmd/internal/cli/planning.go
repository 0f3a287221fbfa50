package cli

import (
	"bytes"
	"context"
	"fmt"

	"siltstep/cmd/internal/report"
	"siltstep/cmd/internal/settings"
	"siltstep/cmd/internal/units"
	"siltstep/hydro"
	"siltstep/hydro/siting"
	"siltstep/raster"
	"siltstep/raster/gdal"
)

// Stages of makePlan: read, cuts, fill, direction, accumulation, channels, sections, erosion, files; and sites, of a plan alone.
const (
	screenStages = 9
	planStages   = screenStages + 1
)

// A planning is what a plan or a screening is to be made from.
type planning struct {
	screenOnly bool // judge the drainages and site nothing
	elevation  gdal.Request
	config     settings.Settings
	property   string // polygon file; empty for none
	inflow     string // point file; empty for none
	edits      string // file of field edits; empty for none
	settings   string // file that config was read from; empty for none
	rasters    bool
	explain    string // drainage whose evidence is wanted; empty for none
	units      units.System
}

// A made is what was written, and the evidence that was asked for in words.
type made struct {
	*report.Record
	evidence string // empty where none was asked for
}

// makePlan plans or screens and writes all files into an output folder, which it does not commit.
func makePlan(ctx context.Context, p planning, out *folder, job *stages) (*made, error) {
	rain, err := designStorm(p.config)
	if err != nil {
		return nil, err
	}
	dem, err := gdal.Open(ctx, p.elevation)
	if err != nil {
		return nil, err
	}
	land, err := readProperty(p.property, dem)
	if err != nil {
		return nil, err
	}
	said := declared{p.config.Files, p.inflow}
	cfg := p.config.Config
	cfg.Storm = rain
	if cfg.Flow.Features, err = said.read(dem); err != nil {
		return nil, err
	}
	if cfg.Siting.Features, err = said.heeded(dem, cfg.Flow.Features.Roads); err != nil {
		return nil, err
	}
	if cfg.Edits, err = readEdits(p.edits, dem); err != nil {
		return nil, err
	}
	if err := cfg.Validate(); err != nil {
		return nil, request(err)
	}
	inputs := beside(p.inputs)
	grid, err := readElevation(ctx, dem, job)
	if err != nil {
		return nil, err
	}
	settled := settle(grid)
	if err := said.onData(grid, cfg.Flow.Features.Inflows); err != nil {
		return nil, err
	}
	plan, err := p.analyse(ctx, grid, cfg, land.area(), job)
	if err != nil {
		return nil, editsFault(p.edits, said.fault(err))
	}
	read, err := inputs()
	if err != nil {
		return nil, err
	}
	project, free := dem.ToLonLat()
	defer free()
	record := &report.Record{
		Version:       Version,
		CRS:           dem.Info().GridCRSName,
		Inputs:        read,
		Settings:      p.settingsUsed(),
		Decisions:     append(dem.Info().Decisions, settled...),
		Plan:          plan,
		ToLonLat:      project,
		PropertyShare: land.shares(plan.Network),
	}
	evidence, err := p.evidence(record)
	if err != nil {
		return nil, err
	}
	job.begin("files")
	w := planWriter{out: out, record: record, crs: dem.WKT(), title: titleOf(p.elevation.Paths), property: land, units: p.units}
	return &made{record, evidence}, w.write(ctx, p.rasters, job)
}

// analyse runs the job on a grid.
func (p planning) analyse(ctx context.Context, grid *raster.Grid, cfg hydro.Config, inside siting.Area, job *stages) (*hydro.Plan, error) {
	if p.screenOnly {
		return hydro.Screen(ctx, grid, cfg, job.begin)
	}
	return hydro.Analyze(ctx, grid, cfg, inside, job.begin)
}

// evidence returns in words what the severity of the wanted drainage rests on. An id that is
// not there is a fault of the request.
func (p planning) evidence(record *report.Record) (string, error) {
	if p.explain == "" {
		return "", nil
	}
	var ids []string
	for i, d := range record.Plan.Network.Drainages {
		if d.ID == p.explain {
			var text bytes.Buffer
			err := report.WriteEvidence(&text, *record, i, p.units)
			return text.String(), err
		}
		ids = append(ids, d.ID)
	}
	if len(ids) == 0 {
		return "", requestf("--explain %s: no drainage was found on this elevation model", p.explain)
	}
	return "", requestf("--explain %s: there is no such drainage, they run from %s to %s%s", p.explain, ids[0], ids[len(ids)-1], didYouMean(p.explain, ids, ""))
}

// beside begins work on a goroutine of its own and returns what waits for its result. Checksums take
// their time from the disk, which the analysis does not need.
func beside[T any](work func() (T, error)) (wait func() (T, error)) {
	type result struct {
		value T
		err   error
	}
	done := make(chan result, 1)
	go func() {
		value, err := work()
		done <- result{value, err}
	}()
	return func() (T, error) {
		r := <-done
		return r.value, r.err
	}
}

// inputs returns the checksums of all files that the plan is made from.
func (p planning) inputs() ([]report.Input, error) {
	inputs, err := elevationInputs(p.elevation.Paths)
	if err != nil {
		return nil, err
	}
	for _, other := range []struct{ role, path string }{{"property", p.property}, {"settings", p.settings}, {"field edits", p.edits}, {"rain table", p.config.Files.Path(p.config.Files.Rain)}} {
		if other.path == "" {
			continue
		}
		input, err := inputOf(other.role, other.path)
		if err != nil {
			return nil, err
		}
		inputs = append(inputs, input)
	}
	more, err := declared{p.config.Files, p.inflow}.inputs()
	return append(inputs, more...), err
}

// settingsUsed lists the settings as they were used.
func (p planning) settingsUsed() (list []report.Setting) {
	for _, key := range settings.Keys() {
		list = append(list, report.Setting{Key: key.Name, Value: key.ValueIn(p.config)})
	}
	if p.screenOnly {
		return list
	}
	if b := p.config.Budget; b.Given() {
		list = append(list, report.Setting{Key: "--budget", Value: budgetText(b, p.config.Works.Prices.Currency)}, report.Setting{Key: "--years", Value: fmt.Sprint(b.Years)})
	}
	return append(list, report.Setting{Key: "--allow-coarse", Value: fmt.Sprint(p.config.Siting.AllowCoarse)})
}
