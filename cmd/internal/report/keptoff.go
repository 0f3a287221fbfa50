package report

import (
	"bytes"
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"siltstep/cmd/internal/units"
	"siltstep/hydro"
	"siltstep/hydro/siting"
)

// mostKeptOff is how many reasons are told of on a terminal. Source: our own choice.
const mostKeptOff = 5

// keptOff is what keeps dams off some of the channel.
type keptOff struct {
	rule    siting.Rule
	lengthM float64
	longest siting.Reach
	why     siting.Reason // of the longest piece
}

// writeKeptOff tells where no dam stands and why: the saving of the layout, then the reasons by the length of channel they hold on, with
// the longest piece of each.
func writeKeptOff(out *bytes.Buffer, p *hydro.Plan, system units.System) {
	writeSaving(out, p, system)
	byRule := map[siting.Rule]*keptOff{}
	for _, l := range p.Layouts {
		for _, r := range l.Reaches {
			for _, why := range r.Reasons {
				k := byRule[why.Rule]
				if k == nil {
					k = &keptOff{rule: why.Rule}
					byRule[why.Rule] = k
				}
				k.lengthM += r.LengthM()
				if k.lengthM == r.LengthM() || r.LengthM() > k.longest.LengthM() {
					k.longest, k.why = r, why
				}
			}
		}
	}
	all := make([]*keptOff, 0, len(byRule))
	for _, k := range byRule {
		all = append(all, k)
	}
	slices.SortFunc(all, func(a, b *keptOff) int {
		return cmp.Or(cmp.Compare(b.lengthM, a.lengthM), cmp.Compare(a.rule, b.rule))
	})
	if len(all) == 0 {
		return
	}
	out.WriteString("\nWhere no dam may stand\n")
	paragraph(out, "  ", "By reason; a piece may have several, and every piece with its reasons is in reaches.geojson.")
	for i, k := range all {
		if i == mostKeptOff {
			fmt.Fprintf(out, "  and %d more reasons\n", len(all)-i)
			break
		}
		paragraph(out, "  - ", fmt.Sprintf("%s, %s: the longest is %s from station %s to %s. %s.", k.rule, system.Length(k.lengthM, 0), k.longest.Drainage,
			system.Length(k.longest.FromM, 1), system.Length(k.longest.ToM, 1), strings.TrimSuffix(k.why.Text, ".")))
	}
}

// writeSaving tells what the layout saves over a plain march from the bottom up.
func writeSaving(out *bytes.Buffer, p *hydro.Plan, system units.System) {
	var chosen, march siting.Alternative
	for _, l := range p.Layouts {
		if l.Chosen.Name != "" && l.March.Name == "" {
			return // the field asked for dams, and no march was looked for
		}
		for of, one := range map[*siting.Alternative]siting.Alternative{&chosen: l.Chosen, &march: l.March} {
			of.Dams += one.Dams
			of.RockT += one.RockT
			of.OpenM += one.OpenM
		}
	}
	if march.Dams == 0 {
		return
	}
	saved := march.RockT - chosen.RockT
	what := "less"
	if saved < 0 {
		what = "more"
	}
	text := fmt.Sprintf("Beside a plain march from the bottom up, each dam as high as its banks allow, this layout (%s) takes %s %s rock, %.0f %%",
		p.Config.Siting.Objective, system.Mass(math.Abs(saved), 1), what, 100*math.Abs(saved)/march.RockT)
	switch bare := march.OpenM - chosen.OpenM; {
	case bare >= 0.5:
		text += fmt.Sprintf(", and leaves %s less of the eligible channel without cover", system.Length(bare, 1))
	case bare <= -0.5:
		text += fmt.Sprintf(", and leaves %s more of the eligible channel without cover", system.Length(-bare, 1))
	}
	out.WriteByte('\n')
	paragraph(out, "  ", fmt.Sprintf("%s (%d dams, the march %d: lower ones take less).", text, chosen.Dams, march.Dams))
}

// knownText writes a number, or a dash where it is not known.
func knownText(x float64, decimals int) string {
	if math.IsNaN(x) {
		return "–"
	}
	return fmt.Sprintf("%.*f", decimals, x)
}

// costUnit names the currency of a column of costs.
func costUnit(p *hydro.Plan) string {
	if c := p.Config.Works.Prices.Currency; c != "" {
		return ", cost in " + c
	}
	return ""
}

// quantitiesOf returns the sums of a drainage; not known where nothing was designed.
func quantitiesOf(p *hydro.Plan, i int) hydro.Quantities {
	if i >= len(p.Designs) {
		nan := math.NaN()
		return hydro.Quantities{RockT: nan, SedimentM3: nan, Cost: nan}
	}
	return hydro.QuantitiesOf(p.Designs[i])
}
