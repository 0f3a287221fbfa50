package cli

import (
	"math"
	"strings"

	"github.com/urfave/cli/v2"

	"siltstep/cmd/internal/report"
	"siltstep/cmd/internal/units"
	"siltstep/hydro/checkdam"
)

const sizeExample = "--height 0.6m --slope 6% --bed-width 2m --side-slope 1:1 --bank-height 1.5m --peak 0.9m3/s"

// A measuring is what was measured with tape and level, by flag.
type measuring struct {
	request                           checkdam.Request
	bedWidthM, sideSlope, bankHeightM float64
}

// quantities lists the flags that take a quantity.
func (m *measuring) quantities() []quantityFlag {
	r := &m.request
	return []quantityFlag{
		{"height", "effective height of the dam, notch sill above the bed, as `LENGTH`", units.ParseLength, &r.HeightM},
		{"slope", "`SLOPE` of the bed, as in 6%", units.ParseSlope, &r.Slope},
		{"bed-width", "width of the bed, as `LENGTH`", units.ParseLength, &m.bedWidthM},
		{"side-slope", "banks, horizontal : vertical, as `H:V`", units.ParseSideSlope, &m.sideSlope},
		{"bank-height", "height of the lower bank above the bed, as `LENGTH`", units.ParseLength, &m.bankHeightM},
		{"peak", "storm peak at the dam, as `FLOW`; without it notch and stone stay empty", above0(units.ParseFlow), &r.PeakM3s},
		{"catchment", "land that drains to the dam, as `AREA`", above0(units.ParseArea), &r.CatchmentM2},
		{"length", "length of channel to treat, as `LENGTH`", above0(units.ParseLength), &r.ReachM},
		{"deposit-ratio", "slope of the deposit over that of the bed, a `NUMBER` from 0 to 0.7", units.ParseNumber, &r.DepositRatio},
		{"crest-width", "thickness of the crest along the flow, as `LENGTH`", above0(units.ParseLength), &r.CrestWidthM},
		{"face-up", "upstream face, horizontal : vertical, as `H:V`", units.ParseSideSlope, &r.FaceUp},
		{"face-down", "downstream face, as `H:V`", units.ParseSideSlope, &r.FaceDown},
		{"notch-width", "width of the notch at its sill, as `LENGTH`; else that of the bed", above0(units.ParseLength), &r.Notch.WidthM},
		{"notch-side", "sides of the notch, as `H:V`", units.ParseSideSlope, &r.Notch.SideSlope},
		{"freeboard", "least height of the wings above the water, as `LENGTH`", above0(units.ParseLength), &r.Notch.FreeboardM},
		{"velocity", "`VELOCITY` that the stone must stand; else it is found", above0(units.ParseVelocity), &r.VelocityMs},
	}
}

func newMeasuring() *measuring {
	nan := math.NaN()
	return &measuring{
		request:   checkdam.Request{HeightM: nan, Slope: nan, PeakM3s: nan, FaceUp: nan, FaceDown: nan},
		bedWidthM: nan, sideSlope: nan, bankHeightM: nan,
	}
}

func sizeCommand(c *console) *cli.Command {
	return &cli.Command{
		Name:      "size",
		Usage:     "size one dam from tape-and-level measurements",
		ArgsUsage: sizeExample,
		Description: "Spacing, notch, stone, keys, apron, rock and storage of one dam, without an elevation model.\n" +
			"Quantities carry their units: 0.6m, 2ft, 6%, 0.9m3/s, 30cfs. The peak comes from siltstep peak.",
		Flags: append(append([]cli.Flag{
			&cli.StringFlag{Name: "kind", Value: string(checkdam.LooseRock), Usage: "`KIND` of dam: loose-rock, one-rock, log, brush or gabion"},
		}, quantityFlags(newMeasuring().quantities())...),
			&cli.StringFlag{Name: "section", Usage: "measured cross-section in place of bed, sides and banks: CSV `FILE` with offset_m and ground_m, or offset_ft and ground_ft"},
			&cli.StringFlag{Name: "spacing-rule", Value: string(checkdam.ToeToCrest), Usage: "`RULE` of spacing: toe-to-crest, or heede with its two branches"},
			&cli.StringFlag{Name: "notch-shape", Usage: "`SHAPE` of the notch: trapezoidal, rectangular or parabolic; else the usual one of the kind"},
			&cli.StringFlag{Name: "sediment-yield", Usage: "yearly silt from the catchment, `LOW,HIGH` as in \"0.5 m3/ha, 3 m3/ha\""},
			toggle("engineer", "an engineer designs the dam: limits of height, slope and catchment are let through"),
			formatFlag()),
		Action: c.size,
	}
}

func (c *console) size(ctx *cli.Context) error {
	if err := noFiles(ctx, sizeExample); err != nil {
		return err
	}
	json, err := asJSON(ctx)
	if err != nil {
		return err
	}
	asked, err := sizeRequest(ctx)
	if err != nil {
		return err
	}
	design, err := checkdam.Size(asked)
	if err != nil {
		return request(err)
	}
	if json {
		return report.WriteDamJSON(c.out, design)
	}
	if c.quiet {
		return nil
	}
	return report.WriteDam(c.out, design, c.units)
}

// sizeRequest takes the dam from the command line.
func sizeRequest(ctx *cli.Context) (checkdam.Request, error) {
	m := newMeasuring()
	r := &m.request
	if err := takeAll(ctx, m.quantities()); err != nil {
		return *r, err
	}
	r.Kind, r.Rule, r.Notch.Shape = checkdam.Kind(ctx.String("kind")), checkdam.SpacingRule(ctx.String("spacing-rule")), checkdam.Shape(ctx.String("notch-shape"))
	r.Engineer = ctx.Bool("engineer")
	if err := oneOf("kind", string(r.Kind), kindNames()...); err != nil {
		return *r, err
	}
	if err := oneOf("spacing-rule", string(r.Rule), string(checkdam.ToeToCrest), string(checkdam.Heede)); err != nil {
		return *r, err
	}
	if r.Notch.Shape != "" {
		if err := oneOf("notch-shape", string(r.Notch.Shape), string(checkdam.Trapezoidal), string(checkdam.Rectangular), string(checkdam.Parabolic)); err != nil {
			return *r, err
		}
	}
	if r.Rule == checkdam.Heede && ctx.IsSet("deposit-ratio") {
		return *r, requestf("--deposit-ratio with --spacing-rule heede: the rule has a deposit ratio of its own; leave one out")
	}
	if ctx.IsSet("notch-side") && r.Notch.SideSlope == 0 && r.Notch.Shape != checkdam.Parabolic {
		r.Notch.Shape = checkdam.Rectangular // a trapezoid with upright sides
	}
	for _, must := range []string{"height", "slope"} {
		if !ctx.IsSet(must) {
			return *r, requestf("--%s is missing; as in siltstep size %s", must, sizeExample)
		}
	}
	var err error
	if r.Section, err = m.section(ctx); err != nil {
		return *r, err
	}
	r.Yield, err = yieldOf(ctx.String("sediment-yield"))
	return *r, err
}

func kindNames() (names []string) {
	for _, l := range checkdam.Kinds() {
		names = append(names, string(l.Kind))
	}
	return names
}

// section returns the measured section, or the trapezoid of bed, sides and banks.
func (m *measuring) section(ctx *cli.Context) (checkdam.Section, error) {
	plain := []string{"bed-width", "side-slope", "bank-height"}
	var given, missing []string
	for _, name := range plain {
		if ctx.IsSet(name) {
			given = append(given, "--"+name)
		} else {
			missing = append(missing, "--"+name)
		}
	}
	if path := ctx.String("section"); path != "" {
		if len(given) > 0 {
			return checkdam.Section{}, requestf("--section with %s: the section is measured or a trapezoid, not both", strings.Join(given, ", "))
		}
		return loadSection(path)
	}
	if len(missing) > 0 {
		return checkdam.Section{}, requestf("%s missing: the cross-section needs %s, or --section with a file", strings.Join(missing, ", "), "--bed-width, --side-slope and --bank-height")
	}
	s, err := checkdam.TrapezoidSection(m.bedWidthM, m.sideSlope, m.bankHeightM)
	return s, request(err)
}

// yieldOf reads "LOW,HIGH"; an empty text gives none.
func yieldOf(text string) (y checkdam.Yield, err error) {
	if text == "" {
		return y, nil
	}
	low, high, two := strings.Cut(text, ",")
	if !two {
		return y, requestf("--sediment-yield %s: two values are wanted, low and high, as in \"0.5 m3/ha, 3 m3/ha\"", text)
	}
	if y.LowM3PerHa, err = units.ParseYield(low); err == nil {
		y.HighM3PerHa, err = units.ParseYield(high)
	}
	if err != nil {
		return y, requestf("--sediment-yield: %w", err)
	}
	return y, nil
}
