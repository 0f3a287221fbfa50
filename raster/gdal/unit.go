package gdal

import (
	"encoding/xml"
	"fmt"
	"io"
	"math"
	"strings"

	"github.com/airbusgeo/godal"
)

// heightUnit is a unit of height; num/den millimetres are one unit, both exact in binary
// where the unit is one of the three that users name.
type heightUnit struct {
	name     string // "m", "ft", "us-ft", or as the file calls it
	num, den float64
}

// metres returns the length of one unit, m.
func (u heightUnit) metres() float64 { return u.num / u.den / 1000 }

var (
	metre      = heightUnit{"m", 1000, 1}
	foot       = heightUnit{"ft", 3048, 10}         // 0.3048 m, exact by definition
	surveyFoot = heightUnit{"us-ft", 1200000, 3937} // 1200/3937 m, exact by definition
)

// unitWords lists how files and people write units of height.
var unitWords = map[string]heightUnit{
	"m": metre, "metre": metre, "metres": metre, "meter": metre, "meters": metre,
	"ft": foot, "foot": foot, "feet": foot, "international foot": foot, "international feet": foot,
	"us-ft": surveyFoot, "us survey foot": surveyFoot, "us survey feet": surveyFoot, "ftus": surveyFoot,
	"survey foot": surveyFoot, "survey feet": surveyFoot, "foot_us": surveyFoot, "us_survey_foot": surveyFoot,
	"mm": {"mm", 1, 1}, "millimetre": {"mm", 1, 1}, "millimeter": {"mm", 1, 1},
	"cm": {"cm", 10, 1}, "centimetre": {"cm", 10, 1}, "centimeter": {"cm", 10, 1},
	"dm": {"dm", 100, 1}, "decimetre": {"dm", 100, 1}, "decimeter": {"dm", 100, 1},
	"km": {"km", 1e6, 1}, "kilometre": {"km", 1e6, 1}, "kilometer": {"km", 1e6, 1},
}

func unitByWord(word string) (heightUnit, bool) {
	u, ok := unitWords[strings.ToLower(strings.TrimSpace(word))]
	return u, ok
}

// unitByMetres names a factor of a coordinate system. The two feet differ by 2 parts in a
// million, so 1 in 10 million tells them apart.
func unitByMetres(factor float64, name string) heightUnit {
	for _, u := range []heightUnit{metre, foot, surveyFoot} {
		if math.Abs(factor-u.metres()) < 1e-7*factor {
			return u
		}
	}
	return heightUnit{name, factor * 1000, 1}
}

func (u heightUnit) same(v heightUnit) bool {
	return math.Abs(u.metres()-v.metres()) < 1e-7*u.metres()
}

// chooseUnit finds the unit of heights: what the coordinate system or the band states,
// else the user's flag, else metres where the map unit is metres or degrees. A flag that
// contradicts a file which is at one with itself is an error: the safe choice, because
// one of the two is wrong by a factor of three. from says where the unit was found.
func chooseUnit(path string, c crs, band, flag string) (u heightUnit, from string, err error) {
	var wanted heightUnit
	if flag != "" {
		if flag != "m" && flag != "ft" && flag != "us-ft" {
			return u, "", wrong("--elevation-unit %q is not known: give m, ft or us-ft", flag)
		}
		wanted, _ = unitByWord(flag)
	}
	bandUnit, bandKnown := unitByWord(band)
	switch {
	case c.heightM > 0 && bandKnown && !bandUnit.same(unitByMetres(c.heightM, c.heightName)):
		if flag == "" {
			return u, "", wrong("%s: its coordinate system states heights in %q but its band in %q: say which is true with --elevation-unit m, ft or us-ft",
				path, c.heightName, band)
		}
		return wanted, "--elevation-unit, because coordinate system and band disagree", nil
	case c.heightM > 0:
		u, from = unitByMetres(c.heightM, c.heightName), "the coordinate system"
	case bandKnown:
		u, from = bandUnit, "the band"
	case strings.TrimSpace(band) != "" && flag == "":
		return u, "", wrong("%s: heights are in %q, a unit that is not known: say what it is with --elevation-unit m, ft or us-ft", path, band)
	case flag != "":
		return wanted, "--elevation-unit", nil
	case c.geographic || math.Abs(c.unitM-1) < 1e-9:
		return metre, "the map unit (" + c.unitName + "), as the files state no unit of height", nil
	default:
		return u, "", wrong("%s: the unit of heights is not stated and map positions are in %q: give --elevation-unit m, ft or us-ft", path, c.unitName)
	}
	if flag != "" && !wanted.same(u) {
		return u, "", wrong("%s: --elevation-unit %s contradicts %s, which states %q: leave the option out, or correct the file if its label is wrong",
			path, flag, from, u.name)
	}
	return u, from, nil
}

// bandUnit returns the unit that a band states, or nothing. The binding does not know
// band units, so the header goes through a virtual file whose text does.
func bandUnit(ds *godal.Dataset) (string, error) {
	var j journal
	name := memoryName("unit.vrt")
	defer unlink(name)
	vrt, err := ds.Translate(name, []string{"-of", "VRT"}, godal.ErrLogger(j.note))
	if err != nil {
		return "", fmt.Errorf("reading the unit of heights: %s", j.said(err))
	}
	if err := vrt.Close(godal.ErrLogger(j.note)); err != nil {
		return "", fmt.Errorf("reading the unit of heights: %s", j.said(err))
	}
	file, err := godal.VSIOpen(name, godal.ErrLogger(j.note))
	if err != nil {
		return "", fmt.Errorf("reading the unit of heights: %s", j.said(err))
	}
	defer file.Close()
	text, err := io.ReadAll(file)
	if err != nil {
		return "", fmt.Errorf("reading the unit of heights: %w", err)
	}
	var doc struct {
		Bands []struct {
			UnitType string `xml:"UnitType"`
		} `xml:"VRTRasterBand"`
	}
	if err := xml.Unmarshal(text, &doc); err != nil {
		return "", fmt.Errorf("reading the unit of heights: %w", err)
	}
	if len(doc.Bands) == 0 {
		return "", nil
	}
	return strings.TrimSpace(doc.Bands[0].UnitType), nil
}
