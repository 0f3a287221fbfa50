package hydro

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"siltstep/hydro/siting"
)

// Edits is what came back from the field: what is asked, and the dams of the plan that it was asked of. The zero value asks
// nothing and knows of no earlier dam. Map coordinates are those of the grid, m.
type Edits struct {
	Asked   []Asked
	Earlier []Earlier // each ID once
}

// Asked is what the field asks of one place. The place is StationM of Drainage or, where StationM is NaN, what lies nearest to
// X, Y on Drainage, or on any drainage where that is empty.
type Asked struct {
	Row      string // where it was asked, for messages: "line 4"
	ID       string // of the dam, D07-03; empty for a new one
	Action   siting.Action
	Drainage string  // empty: not said
	StationM float64 // NaN: not said
	X, Y     float64 // NaN: not said
	HeightM  float64 // effective height of siting.Fix and siting.Built, m; else 0
	Note     string  // the field's own words
}

// Earlier is a dam of the plan that went to the field, rejected ones among them. NaN stands for what is not known.
type Earlier struct {
	Row      string // where it is listed, for messages
	ID       string // D07-03
	StationM float64
	X, Y     float64
	HeightM  float64 // effective height as planned, m
	RockT    float64 // rock to order, t
	Note     string
}

// EditFault is what is wrong with one row of Edits.
type EditFault struct {
	Row   string
	Text  string   // what is wrong and what to do
	Wrong string   // id of a drainage that is not there; empty for other faults
	Known []string // ids of those that are; nil for other faults
}

// EditFaults are all that is wrong with Edits, an error that the user can cure.
type EditFaults []EditFault

// Error lists the faults, one a line.
func (f EditFaults) Error() string {
	lines := make([]string, len(f))
	for i, one := range f {
		lines[i] = one.Row + ": " + one.Text
	}
	return strings.Join(lines, "\n")
}

// damID takes an id apart; six digits are more than any plan has.
var damID = regexp.MustCompile(`^[Dd]([0-9]{1,6})-([0-9]{1,6})$`)

// ParseDamID reads the id of a dam in any case and with any number of leading zeros: its drainage and its number, 1 and up. ok
// is false for any other text. DamID writes it as plans do.
func ParseDamID(text string) (drainage string, number int, ok bool) {
	parts := damID.FindStringSubmatch(strings.TrimSpace(text))
	if parts == nil {
		return "", 0, false
	}
	d, _ := strconv.Atoi(parts[1]) // digits alone, and few of them
	number, _ = strconv.Atoi(parts[2])
	if d < 1 || number < 1 {
		return "", 0, false
	}
	return fmt.Sprintf("D%02d", d), number, true
}

// DamID returns the id of a dam: drainage and number, D07-03.
func DamID(drainage string, number int) string { return fmt.Sprintf("%s-%02d", drainage, number) }
