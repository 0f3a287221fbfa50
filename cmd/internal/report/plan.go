package report

import (
	"bytes"
	"fmt"
	"io"
	"math"

	"siltstep/cmd/internal/units"
	"siltstep/geojson"
	"siltstep/hydro"
	"siltstep/raster"

	"github.com/paulmach/orb"
)

// planFormat counts versions of plan.json and screen.json; it rises when a member changes its meaning.
const planFormat = 1

// WritePlan writes plan.json, or screen.json where no sites were looked for: one object with a
// member for each table, records one a line. Both have the same members; in screen.json
// reaches, sites, designs, peaks, stones, checks, weaknesses, gradients and filling are empty. Errors: the projector failed; w failed.
func WritePlan(w io.Writer, r Record) error {
	text, err := planText(r)
	if err == nil {
		_, err = w.Write(text)
	}
	if err != nil {
		return fmt.Errorf("%s: %w", r.File(), err)
	}
	return nil
}

func planText(r Record) ([]byte, error) {
	places, err := sitePlaces(r)
	if err != nil {
		return nil, err
	}
	headcuts, err := headcutRows(r)
	if err != nil {
		return nil, err
	}
	sections, err := crossSectionRows(r)
	if err != nil {
		return nil, err
	}
	held, err := geojson.Depressions(r.Plan, r.ToLonLat)
	if err != nil {
		return nil, err
	}
	said, err := findingRows(r.Plan.Findings, r.ToLonLat)
	if err != nil {
		return nil, err
	}
	var d document
	d.object(programTable(), []any{Tool, r.Version, planFormat, r.Command()})
	d.list(textTable("cautions", ""), texts(Cautions(units.Metric)))
	d.list(inputTable(), inputRows(r.Inputs))
	d.list(settingTable(), settingRows(r.Settings))
	d.object(gridTable(), append(gridValues(r.CRS, r.Plan.Grid), r.Plan.NoiseM))
	d.list(textTable("decisions", ""), texts(r.Decisions))
	d.object(totalTable(), totalValues(r.Plan))
	d.list(drainageTable(), drainageRows(r))
	d.list(partTable(), partRows(r.Plan))
	d.list(headcutTable(), headcuts)
	d.list(crossSectionTable(), sections)
	d.list(reachTable(), reachRows(r.Plan))
	d.list(siteTable(), siteRows(r.Plan, places))
	d.list(designTable(), designRows(r.Plan))
	d.list(peakTable(), peakRows(r.Plan))
	d.list(stoneTable(), stoneSizeRows(r.Plan))
	d.list(checkTable(), checkRows(r.Plan))
	d.list(weaknessTable(), weaknessRows(r.Plan))
	d.list(loadTable(), loadRows(r.Plan))
	d.list(gradientTable(), gradientRows(r.Plan))
	d.list(fillingTable(), fillingRows(r.Plan))
	d.list(SeriesTable(), seriesRows(r.Plan, r.Plan.Series))
	d.list(ScenarioTable(), scenarioRows(r.Plan.Scenarios))
	d.list(depressionTable(), depressionRows(r.Plan, held))
	d.list(ChangeTable(), changeRows(r.Plan.Changes))
	d.list(findingTable(), said)
	d.list(sourceTable(), sourceRows(hydro.Sources()))
	d.text.WriteString("\n}\n")
	return d.text.Bytes(), nil
}

// document is a JSON object in the making.
type document struct{ text bytes.Buffer }

func (d *document) member(name string) {
	d.text.WriteString(",\n")
	if d.text.Len() == 2 {
		d.text.Reset()
		d.text.WriteString("{\n")
	}
	fmt.Fprintf(&d.text, "%q: ", name)
}

func (d *document) object(t geojson.Layer, values []any) {
	d.member(t.Name)
	d.text.Write(geojson.AppendProperties(nil, t.Fields, values))
}

func (d *document) list(t geojson.Layer, rows [][]any) {
	d.member(t.Name)
	d.text.WriteByte('[')
	for i, values := range rows {
		if i > 0 {
			d.text.WriteByte(',')
		}
		d.text.WriteByte('\n')
		d.text.Write(geojson.AppendProperties(nil, t.Fields, values))
	}
	d.text.WriteString("\n]")
}

func texts(list []string) (rows [][]any) {
	for _, s := range list {
		rows = append(rows, []any{s})
	}
	return rows
}

func inputRows(inputs []Input) (rows [][]any) {
	for _, in := range inputs {
		rows = append(rows, []any{in.Role, base(in.Path), in.SHA256})
	}
	return rows
}

func settingRows(settings []Setting) (rows [][]any) {
	for _, s := range settings {
		rows = append(rows, []any{s.Key, s.Value})
	}
	return rows
}

func sourceRows(sources []hydro.Source) (rows [][]any) {
	for _, s := range sources {
		rows = append(rows, []any{s.Key, s.Text})
	}
	return rows
}

// findingRows returns the findings, with longitude and latitude where they have a place.
func findingRows(findings []hydro.Finding, to geojson.Projector) (rows [][]any, err error) {
	var at []orb.Point
	for _, f := range findings {
		if f.Placed {
			at = append(at, f.At)
		}
	}
	places, err := to.Project(at)
	if err != nil {
		return nil, fmt.Errorf("findings: %w", err)
	}
	for _, f := range findings {
		var lon, lat any
		if f.Placed {
			lon, lat, places = places[0][0], places[0][1], places[1:]
		}
		rows = append(rows, []any{f.Rule, orNull(f.Subject), f.Text, orNull(f.Source), lon, lat})
	}
	return rows, nil
}

// depressionRows returns the values of the layer of depressions with their places.
func depressionRows(p *hydro.Plan, layer geojson.Collection) (rows [][]any) {
	for i, f := range layer.Features {
		at := f.Geometry.(orb.Point)
		rows = append(rows, append(f.Values, at[0], at[1], p.Depressions[i].X, p.Depressions[i].Y))
	}
	return rows
}

func gridValues(crs string, g *raster.Grid) []any {
	lo, hi, ok := g.RangeMM()
	lowest, highest := float64(lo)/1000, float64(hi)/1000
	if !ok {
		lowest, highest = math.NaN(), math.NaN()
	}
	t := g.Transform
	return []any{orNull(crs), g.Cols, g.Rows, t.CellM, t.OriginX, t.OriginY, g.ValidCells(), lowest, highest}
}

func totalValues(p *hydro.Plan) []any {
	t := p.Totals
	values := []any{t.Drainages, t.Truncated}
	for _, c := range classes(p) {
		values = append(values, c.n)
	}
	if p.Layouts == nil {
		return append(values, nil, nil, t.ChannelM, nil, nil, geojson.TreatedMeaning, nil, nil, nil, nil, nil, nil, nil, nil, nil, nil, nil)
	}
	values = append(values, t.Dams, t.Series, t.ChannelM, t.EligibleM, t.TreatedM, geojson.TreatedMeaning)
	if p.Designs == nil {
		return append(values, nil, nil, nil, nil, nil, nil, nil, nil, nil, nil, nil)
	}
	return append(values, t.RockM3, t.RockT, t.PondM3, t.SedimentM3, t.SedimentLowM3, t.SedimentHighM3, t.PersonDays, t.Cost, orNull(p.Config.Works.Prices.Currency),
		t.Undesigned, len(sumDesigns(p).unbuildable))
}

func drainageRows(r Record) (rows [][]any) {
	p := r.Plan
	for i, d := range p.Network.Drainages {
		var into any
		if d.Into >= 0 {
			into = p.Network.Drainages[d.Into].ID
		}
		row := append(geojson.DrainageValues(p, i), d.TruncatedCells, into, seriesOf(p, i))
		rows = append(rows, append(row, judgementValues(r, i)...))
	}
	return rows
}

// seriesOf returns the number of series in a drainage, nil where none were looked for.
func seriesOf(p *hydro.Plan, i int) any {
	if i >= len(p.Layouts) {
		return nil
	}
	n, last := 0, 0
	for _, s := range p.Layouts[i].Sites {
		if s.Series != last {
			n, last = n+1, s.Series
		}
	}
	return n
}

func reachRows(p *hydro.Plan) (rows [][]any) {
	for _, l := range p.Layouts {
		for _, r := range l.Reaches {
			rows = append(rows, append(geojson.ReachValues(r), geojson.Joined(r.Notes)))
		}
	}
	return rows
}

// sitePlaces projects all dams in one batch, in the order of the plan.
func sitePlaces(r Record) ([]orb.Point, error) {
	var at []orb.Point
	for _, l := range r.Plan.Layouts {
		for _, s := range l.Sites {
			at = append(at, orb.Point{s.X, s.Y})
		}
	}
	return r.ToLonLat.Project(at)
}

func siteRows(p *hydro.Plan, places []orb.Point) (rows [][]any) {
	for i, l := range p.Layouts {
		for k, s := range l.Sites {
			at := places[len(rows)]
			rows = append(rows, append(geojson.SiteValues(p, i, k), at[0], at[1], s.X, s.Y, s.WedgeEndM))
		}
	}
	return rows
}

// orNull returns nil for an empty text.
func orNull(s string) any {
	if s == "" {
		return nil
	}
	return s
}
