package settings

import (
	"strings"

	"siltstep/hydro/storm"
)

// rainCurve is the list a, b, c and longest duration of a curve of rain, or none.
type rainCurve struct{}

func (rainCurve) kind() string { return "list" }
func (rainCurve) allowed() string {
	return "a list [a, b, c, longest], the first three plain numbers, the longest duration with min or h, such as [1200, 10, 0.8, 120 min]; or " + notGiven
}

func (r rainCurve) read(c *Settings, v value) string {
	switch {
	case v.wrong != "":
		return v.wrong + "; " + r.allowed()
	case !v.list && len(v.texts) == 1 && v.texts[0] == notGiven:
		c.Storm.Rain.Curve = nil
		return ""
	case !v.list || len(v.texts) != 4:
		return r.allowed()
	}
	var curve storm.Curve
	for i, to := range []*float64{&curve.A, &curve.B, &curve.C, &curve.LongestMin} {
		m := number
		if i == 3 {
			m = minutes
		}
		x, fault := m.read(v.texts[i])
		if fault != "" {
			return [...]string{"first", "second", "third", "fourth"}[i] + " value: " + fault
		}
		*to = x
	}
	c.Storm.Rain.Curve = &curve
	return ""
}

func (rainCurve) check(c Settings) string {
	curve := c.Storm.Rain.Curve
	switch {
	case curve == nil:
		return ""
	case c.Files.Rain != "":
		return "rain.table is given too; give one or the other"
	}
	if err := curve.Validate(); err != nil {
		return strings.ReplaceAll(err.Error(), "\n", "; ")
	}
	return ""
}

func (rainCurve) show(c Settings) string {
	curve := c.Storm.Rain.Curve
	if curve == nil {
		return notGiven
	}
	return "[" + strings.Join([]string{number.text(curve.A), number.text(curve.B), number.text(curve.C), minutes.text(curve.LongestMin)}, ", ") + "]"
}
