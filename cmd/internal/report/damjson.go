package report

import (
	"encoding/json"
	"io"
	"math"
	"strconv"

	"siltstep/hydro/checkdam"
)

// number is a value in JSON with at most six decimals; null for what is not known.
type number float64

// MarshalJSON returns the value, or null where it is NaN or infinite.
func (n number) MarshalJSON() ([]byte, error) {
	x := float64(n)
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return []byte("null"), nil
	}
	const scale = 1e6
	if math.Abs(x) < 1e9 {
		x = math.Round(x*scale) / scale
	}
	return strconv.AppendFloat(nil, x+0, 'f', -1, 64), nil
}

type damJSON struct {
	Kind             string        `json:"kind"`
	Buildable        bool          `json:"buildable"`
	EffectiveHeightM number        `json:"effective_height_m"`
	DamTopM          number        `json:"dam_top_m"`
	SpacingM         number        `json:"spacing_m"`
	SpacingSlopeM    number        `json:"spacing_along_slope_m"`
	SpacingRule      string        `json:"spacing_rule"`
	SpacingBranch    *string       `json:"spacing_branch"`
	Dams             *int          `json:"dams"`
	CrestLengthM     number        `json:"crest_length_m"`
	CrestWidthM      number        `json:"crest_width_m"`
	Notch            *notchJSON    `json:"notch"`
	Stone            []stoneJSON   `json:"stone"`
	StoneD50M        number        `json:"stone_d50_m"`
	StoneMethod      *string       `json:"stone_method"`
	Rock             rockJSON      `json:"rock"`
	ApronLengthM     number        `json:"apron_length_m"`
	ApronWidthM      number        `json:"apron_width_m"`
	ApronThicknessM  number        `json:"apron_thickness_m"`
	KeyBedM          number        `json:"key_bed_m"`
	KeyBankM         number        `json:"key_bank_m"`
	PondM3           number        `json:"pond_m3"`
	SedimentM3       number        `json:"sediment_m3"`
	BodyInPondM3     number        `json:"body_in_pond_m3"`
	FillYearsLow     number        `json:"fill_years_low"`
	FillYearsHigh    number        `json:"fill_years_high"`
	Bring            []itemJSON    `json:"bring"`
	Findings         []findingJSON `json:"findings"`
}

type notchJSON struct {
	Shape        string `json:"shape"`
	WidthM       number `json:"width_m"`
	SideSlope    number `json:"side_slope"`
	HeadM        number `json:"head_m"`
	DepthM       number `json:"depth_m"`
	FreeboardM   number `json:"freeboard_m"`
	CapacityM3s  number `json:"capacity_m3s"`
	CapacityRate number `json:"capacity_over_peak"`
	MiddleM      number `json:"middle_offset_m"`
}

type stoneJSON struct {
	Method      string `json:"method"`
	D50M        number `json:"d50_m"`
	WithFactorM number `json:"with_factor_m"`
	Valid       bool   `json:"valid"`
	Note        string `json:"note"`
	Source      string `json:"source"`
}

type rockJSON struct {
	BodyM3      number `json:"body_m3"`
	KeyM3       number `json:"key_m3"`
	ApronM3     number `json:"apron_m3"`
	TotalM3     number `json:"total_m3"`
	Tonnes      number `json:"tonnes"`
	OrderTonnes number `json:"order_tonnes"`
}

type itemJSON struct {
	Name     string `json:"name"`
	Quantity number `json:"quantity"`
	Unit     string `json:"unit"`
}

// findingJSON is what must be known beside a number.
type findingJSON struct {
	Rule     string  `json:"rule"`
	Fail     bool    `json:"fail"`
	Got      number  `json:"got"`
	Limit    number  `json:"limit"`
	Text     string  `json:"text"`
	Source   *string `json:"source"`
	Recalled bool    `json:"recalled"`
}

// WriteDamJSON writes one sized dam for a program: SI, null for what was not computed. Error: w failed.
func WriteDamJSON(w io.Writer, d checkdam.Design) error {
	r, rock, st := d.Request, d.Rock, d.Storage
	out := damJSON{
		Kind: string(r.Kind), Buildable: d.Buildable, EffectiveHeightM: number(r.HeightM), DamTopM: number(d.TopM),
		SpacingM: number(d.Spacing.HorizontalM), SpacingSlopeM: number(d.Spacing.AlongSlopeM), SpacingRule: string(d.Spacing.Rule), SpacingBranch: textOrNull(d.Spacing.Branch),
		CrestLengthM: number(d.CrestM), CrestWidthM: number(r.CrestWidthM), StoneD50M: number(d.StoneM), StoneMethod: textOrNull(d.StoneBy),
		Rock:         rockJSON{number(rock.BodyM3), number(rock.KeyM3), number(rock.ApronM3), number(rock.TotalM3), number(rock.Tonnes), number(rock.OrderTonnes)},
		ApronLengthM: number(d.Found.ApronLengthM), ApronWidthM: number(d.Found.ApronWidthM), ApronThicknessM: number(d.Found.ApronThickM),
		KeyBedM: number(d.Found.KeyBedM), KeyBankM: number(d.Found.KeyBankM),
		PondM3: number(st.PondM3), SedimentM3: number(st.SedimentM3), BodyInPondM3: number(st.BodyM3), FillYearsLow: number(st.FillYearsLow), FillYearsHigh: number(st.FillYearsHigh),
		Bring: []itemJSON{}, Findings: []findingJSON{},
	}
	if d.Dams > 0 {
		out.Dams = &d.Dams
	}
	if n := d.Notch; n != nil {
		out.Notch = &notchJSON{string(n.Shape), number(n.WidthM), number(n.SideSlope), number(n.HeadM), number(n.DepthM), number(n.FreeboardM), number(n.CapacityM3s), number(n.CapacityM3s / r.PeakM3s), number(r.Section.BedMiddleM())}
	}
	for _, s := range d.Stones {
		out.Stone = append(out.Stone, stoneJSON{s.Method, number(s.D50M), number(s.WithFactorM), s.Valid, s.Note.String(), s.Source})
	}
	for _, item := range d.Items {
		out.Bring = append(out.Bring, itemJSON{item.Name.String(), number(item.Quantity), item.Unit})
	}
	for _, n := range d.Notes {
		out.Findings = append(out.Findings, findingJSON{string(n.Rule), n.Fail, number(n.Got), number(n.Limit), n.Says.String(), textOrNull(n.Source), n.Recalled})
	}
	return writeJSON(w, out)
}

// textOrNull returns nil for an empty text.
func textOrNull(s string) *string {
	if s == "" {
		return nil
	}
	return &s
}

// writeJSON writes a value as indented JSON.
func writeJSON(w io.Writer, v any) error {
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	return e.Encode(v)
}
