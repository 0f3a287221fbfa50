package workbook

import (
	"fmt"
	"math"

	"siltstep/cmd/internal/facts"
	"siltstep/geojson"

	"github.com/xuri/excelize/v2"
)

// roundingStep is by how much the figure of a dam may be off because it is rounded to two decimals, and a total likewise.
const roundingStep = 0.005

// A summed quantity is a column of the dams with the plan's own sums of it.
type summed struct {
	column   string // of Dams, and of Quantities
	of       func(facts.Site) facts.Num
	drainage func(facts.Drainage) facts.Num // nil where the plan has no sum by drainage
	total    func(facts.Totals) facts.Num
}

func summedQuantities() []summed {
	return []summed{
		{"rock_m3", func(s facts.Site) facts.Num { return s.RockM3 }, nil, func(t facts.Totals) facts.Num { return t.RockM3 }},
		{"rock_t", func(s facts.Site) facts.Num { return s.RockT }, func(d facts.Drainage) facts.Num { return d.RockT }, func(t facts.Totals) facts.Num { return t.RockT }},
		{"pond_m3", func(s facts.Site) facts.Num { return s.PondM3 }, func(d facts.Drainage) facts.Num { return d.PondM3 }, func(t facts.Totals) facts.Num { return t.PondM3 }},
		{"sediment_m3", func(s facts.Site) facts.Num { return s.SedimentM3 }, func(d facts.Drainage) facts.Num { return d.SedimentM3 }, func(t facts.Totals) facts.Num { return t.SedimentM3 }},
		{"person_days", func(s facts.Site) facts.Num { return s.PersonDays }, nil, func(t facts.Totals) facts.Num { return t.PersonDays }},
		{"cost", func(s facts.Site) facts.Num { return s.Cost }, func(d facts.Drainage) facts.Num { return d.Cost }, func(t facts.Totals) facts.Num { return t.Cost }},
	}
}

// quantitySheet returns sums over the sheet of dams that follow it, by drainage and in all, with the plan's own sums beside them.
func quantitySheet(f *facts.Folder, dams *sheet) *sheet {
	q := quantityTable{sheet: &sheet{name: "Quantities", fields: quantityFields(dams)}, dams: dams, list: summedQuantities()}
	for _, d := range f.Drainages {
		if d.Dams == 0 {
			continue
		}
		plan := []facts.Num{facts.Num(d.Dams)}
		for _, one := range q.list {
			if one.drainage == nil {
				plan = append(plan, facts.Num(math.NaN()))
			} else {
				plan = append(plan, one.drainage(d))
			}
		}
		q.add(d.ID, f.SitesOf(d.ID), plan)
	}
	plan := []facts.Num{facts.Num(f.Totals.Dams)}
	for _, one := range q.list {
		plan = append(plan, one.total(f.Totals))
	}
	q.add("", f.Sites, plan)
	return q.sheet
}

func quantityFields(dams *sheet) []geojson.Field {
	fields := []geojson.Field{
		{Name: "drainage", Type: geojson.Text, Meaning: "drainage with dams, then one row \"all\""},
		{Name: "dams", Type: geojson.Int, Meaning: "number of rows of the sheet Dams"},
	}
	plan := []geojson.Field{{Name: "plan_dams", Type: geojson.Int, Meaning: "number of dams as plan.json has it"}}
	for _, one := range summedQuantities() {
		field := dams.fields[dams.column(one.column)-1]
		of := field.Meaning
		field.Meaning, field.Null = "live sum over the sheet Dams: "+of, "not known of any of the dams"
		fields = append(fields, field)
		field.Name, field.Meaning, field.Null = "plan_"+one.column, "sum as plan.json has it: "+of, "not known, or the plan has no such sum by drainage"
		plan = append(plan, field)
	}
	return append(append(fields, plan...), geojson.Field{Name: "check", Type: geojson.Text,
		Meaning: "agrees, where each live sum equals the plan's own beside it within what rounding leaves (0.005 a dam and 0.005); else differs: a figure of a dam was changed, or the file is damaged"})
}

// A quantityTable is the sheet of quantities in the making.
type quantityTable struct {
	*sheet
	dams *sheet
	list []summed
}

// add appends the row of a drainage, or of all where its id is empty, with what the plan has: dams, then each quantity.
func (q *quantityTable) add(drainage string, sites []facts.Site, plan []facts.Num) {
	name, at := drainage, len(q.rows)+2
	if drainage == "" {
		name = "all"
	}
	row := []any{name, formula{q.countText(drainage, at), len(sites)}}
	sums := []float64{float64(len(sites))}
	for _, one := range q.list {
		sum, any := 0.0, false
		for _, s := range sites {
			if x := one.of(s); x.Known() {
				sum, any = sum+float64(x), true
			}
		}
		now := formula{text: q.sumText(one.column, drainage, at)}
		if any {
			now.now = sum
		}
		row, sums = append(row, now), append(sums, sum)
	}
	agrees := true
	for i, x := range plan {
		row = append(row, number(x, i == 0))
		if i == 0 || x.Known() {
			agrees = agrees && math.Abs(sums[i]-float64(x)) <= roundingStep*(1+sums[0])
		}
	}
	q.rows = append(q.rows, append(row, formula{q.checkText(at), word(agrees)}))
}

// number returns a number of the plan for a cell; nil where it is not known.
func number(x facts.Num, whole bool) any {
	switch {
	case !x.Known():
		return nil
	case whole:
		return int(x)
	}
	return float64(x)
}

func word(agrees bool) string {
	if agrees {
		return "agrees"
	}
	return "differs"
}

// column returns a column of the dams as a range; one row where there are no dams.
func (q *quantityTable) column(name string) string {
	letters, err := excelize.ColumnNumberToName(q.dams.column(name))
	if err != nil {
		panic("workbook: " + err.Error())
	}
	return fmt.Sprintf("%s!$%s$2:$%s$%d", q.dams.name, letters, letters, max(2, len(q.dams.rows)+1))
}

func (q *quantityTable) countText(drainage string, at int) string {
	if drainage == "" {
		return "COUNTA(" + q.column("id") + ")"
	}
	return fmt.Sprintf("COUNTIF(%s,$A%d)", q.column("drainage"), at)
}

// sumText adds what is known; it leaves the cell empty where nothing is.
func (q *quantityTable) sumText(column, drainage string, at int) string {
	cells := q.column(column)
	if drainage == "" {
		return fmt.Sprintf(`IF(COUNT(%s)=0,"",SUM(%s))`, cells, cells)
	}
	of := q.column("drainage")
	return fmt.Sprintf(`IF(COUNTIFS(%s,$A%d,%s,"<>")=0,"",SUMIFS(%s,%s,$A%d))`, of, at, cells, cells, of, at)
}

// checkText compares each sum with that of the plan where the plan has one.
func (q *quantityTable) checkText(at int) string {
	text := "IF(AND(" + cellName(q.sheet.column("dams"), at) + "=" + cellName(q.sheet.column("plan_dams"), at)
	for _, one := range q.list {
		sum, plan := cellName(q.sheet.column(one.column), at), cellName(q.sheet.column("plan_"+one.column), at)
		text += fmt.Sprintf(",OR(NOT(ISNUMBER(%s)),ABS(N(%s)-N(%s))<=%g*(1+$B%d))", plan, sum, plan, roundingStep, at)
	}
	return text + `),"agrees","differs")`
}
