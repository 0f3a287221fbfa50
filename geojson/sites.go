package geojson

import (
	"fmt"
	"strings"

	"siltstep/hydro"
	"siltstep/hydro/siting"

	"github.com/paulmach/orb"
)

// squareMetresPerHectare turns the areas of a plan into those of the files.
const squareMetresPerHectare = 10_000

// Sites returns the layer of check dams, drainage by drainage, each from the bottom.
// Errors: the projector failed.
func Sites(p *hydro.Plan, to Projector) (Collection, error) {
	c := Collection{Layer: SitesLayer()}
	var at []orb.Point
	for i, l := range p.Layouts {
		for k, s := range l.Sites {
			at = append(at, orb.Point{s.X, s.Y})
			c.Features = append(c.Features, Feature{Values: SiteValues(p, i, k)})
		}
	}
	points, err := to.Project(at)
	if err != nil {
		return Collection{}, fmt.Errorf("sites: %w", err)
	}
	for i, pt := range points {
		c.Features[i].Geometry = pt
	}
	return c, nil
}

// SiteValues returns the values of dam k of drainage i in the order of SitesLayer. Widths and
// bank heights are those of the depths at its station; null where they cannot be told there; what has to do with its
// design is null where the plan holds none.
func SiteValues(p *hydro.Plan, i, k int) []any {
	s := p.Layouts[i].Sites[k]
	named := map[string]any{
		"id": s.ID, "drainage": s.Drainage, "series": s.Series, "number": s.Number,
		"station_m": s.StationM, "bed_m": s.BedM, "notch_sill_m": s.SillM, "effective_height_m": s.EffectiveHeightM,
		"slope": s.Slope, "catchment_ha": s.CatchmentM2 / squareMetresPerHectare,
		"spacing_down_m": s.SpacingDownM, "rise_from_below_m": s.RiseM, "spacing_up_m": s.SpacingUpM,
		"cautions": Joined(s.Cautions),
	}
	if i < len(p.Erosion) {
		profile, d := p.Network.Drainages[i].Profile, p.Erosion[i].Depths
		named["bed_width_m"] = AtStation(profile, d.BedWidthM, s.StationM)
		named["bank_to_bank_m"] = AtStation(profile, d.BankToBankM, s.StationM)
		named["bank_height_m"] = min(AtStation(profile, d.BankLeftM, s.StationM), AtStation(profile, d.BankRightM, s.StationM))
	}
	addHaul(named, p.Haul(i, k))
	if design, ok := DesignOf(p, i, k); ok {
		named["confidence"] = string(p.ConfidenceAt(i, k).Level)
		addDesign(named, p, design, s)
	}
	return inOrder(SitesLayer(), named)
}

// Joined returns the sentences of reasons as one text, "; " between them in place of their
// full stops; "" for none.
func Joined(reasons []siting.Reason) string {
	texts := make([]string, len(reasons))
	for i, r := range reasons {
		texts[i] = strings.TrimSuffix(r.Text, ".")
	}
	return strings.Join(texts, "; ")
}

// inOrder sets named values in the order of the layer, null where there is none. A name
// that the layer does not have panics.
func inOrder(l Layer, named map[string]any) []any {
	values := make([]any, len(l.Fields))
	found := 0
	for i, f := range l.Fields {
		if v, ok := named[f.Name]; ok {
			values[i] = v
			found++
		}
	}
	if found != len(named) {
		panic(fmt.Sprintf("geojson: layer %s has only %d of %d named fields", l.Name, found, len(named)))
	}
	return values
}
