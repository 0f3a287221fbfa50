package cli

import (
	"context"
	"fmt"

	"siltstep/cmd/internal/report"
	"siltstep/cmd/internal/settings"
	"siltstep/cmd/internal/units"
	"siltstep/hydro"
	"siltstep/raster/gdal"
)

// planStages is how many stages makePlan goes through: read, cuts, fill, direction,
// accumulation, channels, sites, files.
const planStages = 8

// A planning is what a plan is to be made from.
type planning struct {
	elevation gdal.Request
	config    settings.Settings
	property  string // polygon file; empty for none
	inflow    string // point file; empty for none
	settings  string // file that config was read from; empty for none
	rasters   bool
	units     units.System
}

// makePlan plans and writes all files into an output folder, which it does not commit.
func makePlan(ctx context.Context, p planning, out *folder, job *stages) (*report.Record, error) {
	dem, err := gdal.Open(ctx, p.elevation)
	if err != nil {
		return nil, err
	}
	inside, err := readProperty(p.property, dem)
	if err != nil {
		return nil, err
	}
	said := declared{p.config.Files, p.inflow}
	cfg := p.config.Config
	if cfg.Flow.Features, err = said.read(dem); err != nil {
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
	plan, err := hydro.Analyze(ctx, grid, cfg, inside, job.begin)
	if err != nil {
		return nil, said.fault(err)
	}
	read, err := inputs()
	if err != nil {
		return nil, err
	}
	project, free := dem.ToLonLat()
	defer free()
	record := &report.Record{
		Version:   Version,
		CRS:       dem.Info().GridCRSName,
		Inputs:    read,
		Settings:  settingsOf(p.config),
		Decisions: append(dem.Info().Decisions, settled...),
		Plan:      plan,
		ToLonLat:  project,
	}
	job.begin("files")
	w := planWriter{out: out, record: record, crs: dem.WKT(), units: p.units}
	return record, w.write(ctx, p.rasters, job)
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
	for _, other := range []struct{ role, path string }{{"property", p.property}, {"settings", p.settings}} {
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

// settingsOf lists the settings as they were used.
func settingsOf(cfg settings.Settings) (list []report.Setting) {
	for _, key := range settings.Keys() {
		list = append(list, report.Setting{Key: key.Name, Value: key.ValueIn(cfg)})
	}
	return append(list, report.Setting{Key: "--allow-coarse", Value: fmt.Sprint(cfg.Siting.AllowCoarse)})
}
