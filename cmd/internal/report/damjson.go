package report

import (
	"encoding/json"
	"io"
	"math"
	"strconv"

	"siltstep/hydro/checkdam"
)

// nullable is a value in JSON with at most six decimals; null for what is not known.
type nullable float64

// MarshalJSON returns the value, or null where it is NaN or infinite.
func (n nullable) MarshalJSON() ([]byte, error) {
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
	EffectiveHeightM nullable      `json:"effective_height_m"`
	DamTopM          nullable      `json:"dam_top_m"`
	SpacingM         nullable      `json:"spacing_m"`
	SpacingSlopeM    nullable      `json:"spacing_along_slope_m"`
	SpacingRule      string        `json:"spacing_rule"`
	SpacingBranch    *string       `json:"spacing_branch"`
	Dams             *int          `json:"dams"`
	CrestLengthM     nullable      `json:"crest_length_m"`
	CrestWidthM      nullable      `json:"crest_width_m"`
	Notch            *notchJSON    `json:"notch"`
	Stone            []stoneJSON   `json:"stone"`
	StoneD50M        nullable      `json:"stone_d50_m"`
	StoneMethod      *string       `json:"stone_method"`
	Rock             rockJSON      `json:"rock"`
	ApronLengthM     nullable      `json:"apron_length_m"`
	ApronWidthM      nullable      `json:"apron_width_m"`
	ApronThicknessM  nullable      `json:"apron_thickness_m"`
	KeyBedM          nullable      `json:"key_bed_m"`
	KeyBankM         nullable      `json:"key_bank_m"`
	PondM3           nullable      `json:"pond_m3"`
	SedimentM3       nullable      `json:"sediment_m3"`
	BodyInPondM3     nullable      `json:"body_in_pond_m3"`
	FillYearsLow     nullable      `json:"fill_years_low"`
	FillYearsHigh    nullable      `json:"fill_years_high"`
	Bring            []itemJSON    `json:"bring"`
	Findings         []findingJSON `json:"findings"`
}

type notchJSON struct {
	Shape        string   `json:"shape"`
	WidthM       nullable `json:"width_m"`
	SideSlope    nullable `json:"side_slope"`
	HeadM        nullable `json:"head_m"`
	DepthM       nullable `json:"depth_m"`
	FreeboardM   nullable `json:"freeboard_m"`
	CapacityM3s  nullable `json:"capacity_m3s"`
	CapacityRate nullable `json:"capacity_over_peak"`
	MiddleM      nullable `json:"middle_offset_m"`
}

type stoneJSON struct {
	Method      string   `json:"method"`
	D50M        nullable `json:"d50_m"`
	WithFactorM nullable `json:"with_factor_m"`
	Valid       bool     `json:"valid"`
	Note        string   `json:"note"`
	Source      string   `json:"source"`
}

type rockJSON struct {
	BodyM3      nullable `json:"body_m3"`
	KeyM3       nullable `json:"key_m3"`
	ApronM3     nullable `json:"apron_m3"`
	TotalM3     nullable `json:"total_m3"`
	Tonnes      nullable `json:"tonnes"`
	OrderTonnes nullable `json:"order_tonnes"`
}

type itemJSON struct {
	Name     string   `json:"name"`
	Quantity nullable `json:"quantity"`
	Unit     string   `json:"unit"`
}

// findingJSON is what must be known beside a number.
type findingJSON struct {
	Rule     string   `json:"rule"`
	Fail     bool     `json:"fail"`
	Got      nullable `json:"got"`
	Limit    nullable `json:"limit"`
	Text     string   `json:"text"`
	Source   *string  `json:"source"`
	Recalled bool     `json:"recalled"`
}

// WriteDamJSON writes one sized dam for a program: SI, null for what was not computed. Error: w failed.
func WriteDamJSON(w io.Writer, d checkdam.Design) error {
	r, rock, st := d.Request, d.Rock, d.Storage
	out := damJSON{
		Kind: string(r.Kind), Buildable: d.Buildable, EffectiveHeightM: nullable(r.HeightM), DamTopM: nullable(d.TopM),
		SpacingM: nullable(d.Spacing.HorizontalM), SpacingSlopeM: nullable(d.Spacing.AlongSlopeM), SpacingRule: string(d.Spacing.Rule), SpacingBranch: textOrNull(d.Spacing.Branch),
		CrestLengthM: nullable(d.CrestM), CrestWidthM: nullable(r.CrestWidthM), StoneD50M: nullable(d.StoneM), StoneMethod: textOrNull(d.StoneBy),
		Rock:         rockJSON{nullable(rock.BodyM3), nullable(rock.KeyM3), nullable(rock.ApronM3), nullable(rock.TotalM3), nullable(rock.Tonnes), nullable(rock.OrderTonnes)},
		ApronLengthM: nullable(d.Found.ApronLengthM), ApronWidthM: nullable(d.Found.ApronWidthM), ApronThicknessM: nullable(d.Found.ApronThickM),
		KeyBedM: nullable(d.Found.KeyBedM), KeyBankM: nullable(d.Found.KeyBankM),
		PondM3: nullable(st.PondM3), SedimentM3: nullable(st.SedimentM3), BodyInPondM3: nullable(st.BodyM3), FillYearsLow: nullable(st.FillYearsLow), FillYearsHigh: nullable(st.FillYearsHigh),
		Bring: []itemJSON{}, Findings: []findingJSON{},
	}
	if d.Dams > 0 {
		out.Dams = &d.Dams
	}
	if n := d.Notch; n != nil {
		out.Notch = &notchJSON{string(n.Shape), nullable(n.WidthM), nullable(n.SideSlope), nullable(n.HeadM), nullable(n.DepthM), nullable(n.FreeboardM), nullable(n.CapacityM3s), nullable(n.CapacityM3s / r.PeakM3s), nullable(r.Section.BedMiddleM())}
	}
	for _, s := range d.Stones {
		out.Stone = append(out.Stone, stoneJSON{s.Method, nullable(s.D50M), nullable(s.WithFactorM), s.Valid, s.Note.String(), s.Source})
	}
	for _, item := range d.Items {
		out.Bring = append(out.Bring, itemJSON{item.Name.String(), nullable(item.Quantity), item.Unit})
	}
	for _, n := range d.Notes {
		out.Findings = append(out.Findings, findingJSON{string(n.Rule), n.Fail, nullable(n.Got), nullable(n.Limit), n.Says.String(), textOrNull(n.Source), n.Recalled})
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
