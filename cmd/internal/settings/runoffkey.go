package settings

import (
	"strings"

	"siltstep/hydro"
	"siltstep/hydro/storm"
)

// Ground is the cover that a curve number is looked up by; empty texts where it is not given.
type Ground struct {
	Cover, Condition, SoilGroup string
}

// runoffKeys are the ground that the storm falls on.
var runoffKeys = []Key{
	key("runoff.coefficient", notGiven, "share of the rain that runs off in storms to 10 years, for the rational method",
		yourOwn,
		optional{quantity: quantity{measure: number, most: 1, at: func(c *Settings) *float64 { return &c.Storm.RunoffCoefficient }}, open: notGiven}),
	key("runoff.curve_number", notGiven, "runoff curve number at average wetness, for the other methods; or look one up by runoff.cover",
		yourOwn,
		optional{quantity: quantity{measure: number, least: 1, most: 100, at: func(c *Settings) *float64 { return &c.Storm.CurveNumber }}, open: notGiven, also: numberFault}),
	key("runoff.cover", notGiven, "ground cover, in place of a curve number; with runoff.condition and runoff.soil_group",
		"TR-55 of the Soil Conservation Service 1986 (tables in copies and from memory, as the findings say)",
		choose(notGiven, covers(), func(c *Settings) *string { return &c.Ground.Cover }, coverFault)),
	key("runoff.condition", notGiven, "condition of the cover: poor is less than 30 % ground cover, good over 70 %",
		yourOwn,
		choose(notGiven, []string{"poor", "fair", "good"}, func(c *Settings) *string { return &c.Ground.Condition }, withCover)),
	key("runoff.soil_group", notGiven, "hydrologic soil group, from A, which takes up most, to D",
		yourOwn,
		choose(notGiven, []string{"A", "B", "C", "D"}, func(c *Settings) *string { return &c.Ground.SoilGroup }, withCover)),
	key("runoff.wetness", string(storm.WetnessAverage), "wetness of the ground before the storm; it changes the curve number",
		"handbook curve numbers are those of average wetness; the change from Chow, Maidment and Mays 1988 (from memory)",
		choose(string(storm.WetnessAverage), []storm.Wetness{storm.WetnessDry, storm.WetnessWet}, func(c *Settings) *storm.Wetness { return &c.Storm.Wetness }, nil)),
	key("runoff.abstraction_ratio", string(storm.Ratio20), "what the ground takes up before any runs off, as a share of what it takes up in all",
		"TR-55 of the Soil Conservation Service 1986; 0.05 by Hawkins and others 2002",
		choose(string(storm.Ratio20), []storm.Ratio{storm.Ratio05}, func(c *Settings) *storm.Ratio { return &c.Storm.Ratio }, nil)),
	key("runoff.method", highestPeak, "peak to design for: the highest of the methods inside their range, or that of one method",
		ownChoice,
		choose(highestPeak, []storm.Method{storm.MethodRational, storm.MethodGraphical, storm.MethodUnitHydrograph}, func(c *Settings) *storm.Method { return &c.Storm.Method }, methodFault)),
}

// highestPeak stands for the highest valid peak of all methods.
const highestPeak = "highest"

// covers lists the covers of the table of curve numbers.
func covers() (names []string) {
	for _, c := range storm.Covers() {
		if len(names) == 0 || names[len(names)-1] != c.Name {
			names = append(names, c.Name)
		}
	}
	return names
}

func numberFault(c Settings) string {
	if c.Ground.Cover != "" {
		return "runoff.cover is given too; give one or the other"
	}
	return ""
}

// coverFault tells why no curve number can be looked up.
func coverFault(c Settings) string {
	switch g := c.Ground; {
	case g.Cover == "":
		return ""
	case c.Storm.CurveNumber != 0:
		return "runoff.curve_number is given too; give one or the other"
	case g.SoilGroup == "":
		return "runoff.soil_group is missing: A, B, C or D"
	}
	if _, _, err := c.Ground.look(); err != nil {
		return err.Error()
	}
	return ""
}

// withCover tells where condition or soil group stand alone.
func withCover(c Settings) string {
	if g := c.Ground; g.Cover == "" && g != (Ground{}) {
		return "it goes with runoff.cover, which is missing"
	}
	return ""
}

// methodFault tells what the method that was asked for lacks.
func methodFault(c Settings) string {
	s := c.Storm
	hasNumber := s.CurveNumber != 0 || c.Ground.Cover != ""
	switch {
	case s.Method == storm.MethodRational && s.RunoffCoefficient == 0:
		return "it needs runoff.coefficient"
	case s.Method == storm.MethodGraphical && (!hasNumber || s.HoursH != dayH || !strings.HasPrefix(string(s.Pattern), "I")):
		return "it needs a curve number, rain.hours: 24, and rain.pattern I, IA, II or III"
	case s.Method == storm.MethodUnitHydrograph && !hasNumber:
		return "it needs runoff.curve_number, or runoff.cover"
	}
	return ""
}

// look returns the curve number of the ground and where it comes from.
func (g Ground) look() (float64, storm.Note, error) {
	return storm.CurveNumberOf(g.Cover, g.Condition, rune((g.SoilGroup + " ")[0]))
}

// DesignStorm returns the storm of the settings with the curve number of the cover filled in. table is what
// Files.Rain holds; nil for none. Error: the cover has no curve number, which Parse rules out.
func (c Settings) DesignStorm(table *storm.Table) (hydro.Storm, error) {
	s := c.Storm
	if table != nil {
		s.Rain.Table = table
	}
	if c.Ground.Cover == "" {
		return s, nil
	}
	number, note, err := c.Ground.look()
	if err != nil {
		return s, err
	}
	s.CurveNumber, s.Notes = number, []storm.Note{note}
	return s, nil
}
