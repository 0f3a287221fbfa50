package field

import (
	"fmt"
	"strings"

	"siltstep/cmd/internal/facts"
	"siltstep/cmd/internal/units"
)

// damWords describes a dam for a person who stands near it.
func damWords(f *facts.Folder, r run, s facts.Site, t tape, system units.System) string {
	said := []string{fmt.Sprintf("Check dam %s of series %s: sill %s above the bed.", s.ID, r.id, height(s.EffectiveHeightM, system)), notchWords(s, system), rockWords(s, system), tapeWords(t, system)}
	said = append(said, "The elevation given is that of the bed at the dam axis.")
	if d := f.Design(s.ID); d != nil {
		if !d.Buildable {
			said = append(said, "Not to be built as designed: read its cautions in the plan.")
		}
		if d.Missing != "" {
			said = append(said, "Missing: "+stopped(d.Missing))
		}
	}
	if checks := f.ChecksOf(s.ID); len(checks) > 0 {
		said = append(said, "First check"+asInPlan(system)+": "+stopped(checks[0]))
	}
	return strings.Join(said, " ")
}

// asInPlan says that words of the plan stay metric where the rest is not.
func asInPlan(system units.System) string {
	if system == units.US {
		return " (metric, as in the plan)"
	}
	return ""
}

// beforeWords says what comes before the dams of a series; empty where there is nothing.
func beforeWords(r run, system units.System) string {
	if r.before == "" {
		return ""
	}
	return "Before its dams" + asInPlan(system) + ": " + r.before
}

// height shows a height to a centimetre, or to a tenth of a foot.
func height(m facts.Num, system units.System) string {
	if !m.Known() {
		return "not known"
	}
	if system == units.US {
		return system.Length(float64(m), 1)
	}
	return system.Length(float64(m), 2)
}

func notchWords(s facts.Site, system units.System) string {
	if !s.NotchWidthM.Known() || !s.NotchDepthM.Known() {
		return "Notch not known."
	}
	return fmt.Sprintf("Notch %s wide at its sill, %s deep.", height(s.NotchWidthM, system), height(s.NotchDepthM, system))
}

func rockWords(s facts.Site, system units.System) string {
	if !s.RockT.Known() {
		return "Rock not known."
	}
	text := "Rock to order " + system.Mass(float64(s.RockT), 1)
	if !s.StoneD50M.Known() {
		return text + ", stone size not known."
	}
	stone := fmt.Sprintf("%.0f mm", 1000*float64(s.StoneD50M))
	if system == units.US {
		stone = units.Scale{Unit: "in", One: units.InchMM / 1000}.Text(float64(s.StoneD50M), 1)
	}
	return text + ", median stone " + stone + "."
}

// tapeWords says how to find a dam with tape and level.
func tapeWords(t tape, system units.System) string {
	far, rise, from := t.fromBelowM, t.riseM, t.below
	if t.below == "" {
		far, rise, from = t.fromLandmarkM, t.landmarkRiseM, "the "+t.landmark
		if t.landmark == "" {
			from = "the lower end of the drainage"
		}
	} else if !t.inSeries {
		from += ", the nearest dam of the series below"
	}
	text := "Distance from the dam below not known"
	if far.Known() {
		text = fmt.Sprintf("%s upstream of %s, level distance along the channel", system.Length(float64(far), 1), from)
	}
	switch {
	case !rise.Known():
		return text + "; rise not known."
	case rise < 0:
		return text + "; the bed " + height(-rise, system) + " lower."
	}
	return text + "; the bed " + height(rise, system) + " higher."
}

// headcutWords describes a step in a bed.
func headcutWords(h facts.Headcut, system units.System) string {
	what := "Headcut"
	if h.Cause != "headcut" {
		what = "Step in the bed (" + h.Cause + ")"
	}
	text := fmt.Sprintf("%s %s high in %s", what, height(h.HeightM, system), h.Drainage)
	if h.StationM.Known() {
		text += ", station " + system.Length(float64(h.StationM), 1)
	}
	land := "catchment"
	if system == units.US {
		land = "drainage area"
	}
	if h.CatchmentHa.Known() {
		text += ", " + land + " " + system.Area(float64(h.CatchmentHa)*units.HectareM2, 2)
	}
	text += ". Go and look"
	if h.Cause == "headcut" {
		return text + ": its lip moves up the bed."
	}
	return text + "."
}

// stopped ends a sentence with a full stop.
func stopped(s string) string {
	if strings.HasSuffix(s, ".") || strings.HasSuffix(s, "?") {
		return s
	}
	return s + "."
}
