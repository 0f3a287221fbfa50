package cli

import (
	"strings"

	"github.com/urfave/cli/v2"

	"siltstep/cmd/internal/report"
	"siltstep/cmd/internal/units"
	"siltstep/hydro/storm"
)

const peakExample = "--catchment 5ha --curve-number 75 --rain-depth 60mm --rain-hours 24 --storm-type II --flow-length 400m --flow-slope 5%"

// An asking is a storm as asked for by flag.
type asking struct {
	request        storm.Request
	rainDepthM     float64
	concentrationH float64
}

// quantities lists the flags that take a quantity.
func (a *asking) quantities() []quantityFlag {
	r := &a.request
	return []quantityFlag{
		{"catchment", "land that drains to the place, as `AREA`", above0(units.ParseArea), &r.CatchmentM2},
		{"runoff-coefficient", "share of the rain that runs off, a `NUMBER` from 0 to 1, for the rational method", above0(units.ParseNumber), &r.RunoffCoefficient},
		{"curve-number", "runoff curve `NUMBER`, to 100, for the other methods", above0(units.ParseNumber), &r.CurveNumber},
		{"intensity", "rain over the time of concentration, as `RATE`", above0(units.ParseRainfallRate), &r.Rain.IntensityMMH},
		{"rain-depth", "rain of the whole storm, as `LENGTH`", above0(units.ParseLength), &a.rainDepthM},
		{"rain-hours", "length of the storm, in `HOURS`", units.ParseHours, &r.HoursH},
		{"return-period", "column of the rain table, in `YEARS`", units.ParseYears, &r.ReturnPeriodYr},
		{"time-of-concentration", "time from the farthest place, in `HOURS`, as in 1.53h or 20min", units.ParseHours, &a.concentrationH},
		{"flow-length", "length of the longest flow path, as `LENGTH`", above0(units.ParseLength), &r.FlowLengthM},
		{"flow-slope", "its mean `SLOPE`", units.ParseSlope, &r.FlowSlope},
		{"pond-and-swamp-share", "`SHARE` of the catchment that is pond or swamp, as in 1%", units.ParseSlope, &r.PondShare},
		{"peak-factor", "of the unit hydrograph, a `NUMBER`; 484 if left out, to 600 on steep land", above0(units.ParseNumber), &r.PeakFactor},
	}
}

func peakCommand(c *console) *cli.Command {
	return &cli.Command{
		Name:      "peak",
		Usage:     "find the storm peak of one catchment, by every method that applies",
		ArgsUsage: peakExample,
		Description: "Rational, graphical and unit-hydrograph peaks of one catchment from hand inputs, each with\n" +
			"its range of validity, and how far they lie apart. No rainfall is ever assumed.",
		Flags: append(append([]cli.Flag(nil), quantityFlags(new(asking).quantities())...),
			&cli.StringFlag{Name: "rain", Usage: "table of rain by duration and return period: CSV `FILE` that states its unit"},
			&cli.StringFlag{Name: "rain-curve", Usage: "rain curve i = a/(t + b)^c in mm/h and minutes, `A,B,C,LONGEST`"},
			&cli.StringFlag{Name: "measured-rain", Usage: "one storm as it fell: CSV `FILE` with minutes and rain_mm or rain_in"},
			&cli.StringFlag{Name: "storm-type", Usage: "`TYPE` of the storm: I, IA, II or III of 24 hours, nested, triangular or uniform"},
			&cli.StringFlag{Name: "cover", Usage: "ground cover in place of a curve number, `NAME` of the handbook table such as pasture or sagebrush"},
			&cli.StringFlag{Name: "condition", Usage: "`CONDITION` of the cover: poor, fair or good"},
			&cli.StringFlag{Name: "soil-group", Usage: "hydrologic soil `GROUP`: A, B, C or D"},
			&cli.StringFlag{Name: "patches", Usage: "curve numbers of parts of the catchment in place of one, `LIST` as in \"2ha:80, 3ha:72\"; runoff is weighted by area"},
			&cli.StringFlag{Name: "wetness", Usage: "`STATE` of the ground before the storm: dry, average or wet; average if left out"},
			&cli.StringFlag{Name: "abstraction-ratio", Usage: "`RATIO` of what the ground takes up first, 0.20 or 0.05; 0.20 if left out"},
			&cli.StringFlag{Name: "method", Usage: "`METHOD` to choose: rational, graphical or unit-hydrograph; else the highest valid peak"},
			formatFlag()),
		Action: c.peak,
	}
}

func (c *console) peak(ctx *cli.Context) error {
	if err := noFiles(ctx, peakExample); err != nil {
		return err
	}
	json, err := asJSON(ctx)
	if err != nil {
		return err
	}
	asked, ground, err := peakRequest(ctx)
	if err != nil {
		return err
	}
	found, err := storm.Peaks(asked)
	if err != nil {
		return request(err)
	}
	found.Findings = append(ground, found.Findings...)
	if json {
		return report.WritePeakJSON(c.out, found)
	}
	if c.quiet {
		return nil
	}
	return report.WritePeak(c.out, asked, found, c.units)
}

// peakRequest takes the storm from the command line, and what is to be said of a curve number from the table.
func peakRequest(ctx *cli.Context) (storm.Request, []storm.Note, error) {
	a := new(asking)
	r := &a.request
	if err := takeAll(ctx, a.quantities()); err != nil {
		return *r, nil, err
	}
	if !ctx.IsSet("catchment") {
		return *r, nil, requestf("--catchment is missing; as in siltstep peak %s", peakExample)
	}
	const mmPerM, secondsPerHour = 1000, 3600
	r.Rain.DepthMM, r.TimeOfConcentrationS = a.rainDepthM*mmPerM, a.concentrationH*secondsPerHour
	if r.TimeOfConcentrationS > 0 && r.FlowLengthM > 0 {
		return *r, nil, requestf("--time-of-concentration with --flow-length: give the time, or the path it is found from")
	}
	r.Pattern, r.Wetness, r.Ratio, r.Method = storm.Pattern(ctx.String("storm-type")), storm.Wetness(ctx.String("wetness")), storm.Ratio(ctx.String("abstraction-ratio")), storm.Method(ctx.String("method"))
	if err := a.readRain(ctx); err != nil {
		return *r, nil, err
	}
	ground, err := a.readCover(ctx)
	if err == nil {
		r.Patches, err = patchesOf(ctx.String("patches"))
	}
	return *r, ground, err
}

// patchesOf reads curve numbers of parts of a catchment from "AREA:NUMBER, AREA:NUMBER"; an empty text gives none.
func patchesOf(text string) (patches []storm.Patch, err error) {
	if text == "" {
		return nil, nil
	}
	for part := range strings.SplitSeq(text, ",") {
		area, number, two := strings.Cut(part, ":")
		if !two {
			return nil, requestf("--patches %s: each part is its area and its curve number, as in \"2ha:80, 3ha:72\"", strings.TrimSpace(part))
		}
		var p storm.Patch
		if p.AreaM2, err = above0(units.ParseArea)(area); err == nil {
			p.CurveNumber, err = above0(units.ParseNumber)(number)
		}
		if err != nil {
			return nil, requestf("--patches: %w", err)
		}
		patches = append(patches, p)
	}
	return patches, nil
}

// readRain reads the rain that stands in files or in a curve.
func (a *asking) readRain(ctx *cli.Context) (err error) {
	rain := &a.request.Rain
	if path := ctx.String("rain"); path != "" {
		if rain.Table, err = loadRain(path); err != nil {
			return err
		}
	}
	if path := ctx.String("measured-rain"); path != "" {
		if rain.Measured, err = loadMeasured(path); err != nil {
			return err
		}
	}
	if text := ctx.String("rain-curve"); text != "" {
		if rain.Curve, err = curveOf(text); err != nil {
			return err
		}
	}
	return nil
}

// readCover looks a curve number up by cover, condition and soil group.
func (a *asking) readCover(ctx *cli.Context) ([]storm.Note, error) {
	cover, condition, group := ctx.String("cover"), ctx.String("condition"), strings.ToUpper(ctx.String("soil-group"))
	switch {
	case cover == "" && condition == "" && group == "":
		return nil, nil
	case cover == "":
		return nil, requestf("--condition and --soil-group go with --cover; name the cover")
	case a.request.CurveNumber != 0:
		return nil, requestf("--cover with --curve-number: give one or the other")
	case len(group) != 1:
		return nil, requestf("--cover %s needs --soil-group A, B, C or D", cover)
	}
	number, note, err := storm.CurveNumberOf(cover, condition, rune(group[0]))
	if err != nil {
		return nil, request(err)
	}
	a.request.CurveNumber = number
	return []storm.Note{note}, nil
}
