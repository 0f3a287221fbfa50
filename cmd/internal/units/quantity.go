package units

import (
	"math"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Error says what is wrong with a quantity that a person typed.
type Error struct {
	Text string // what was typed
	Why  string // what is wrong and what is taken instead
}

// Error returns the text and the reason, "2 kg; …", with a long or unprintable text
// shortened and quoted.
func (e *Error) Error() string { return Shown(e.Text) + "; " + e.Why }

// Shown returns a text fit for one line of a message: as it is when it is short and
// printable, else cut to 40 characters and quoted where it must be.
func Shown(text string) string {
	short := cut(text)
	if text == "" || strings.TrimSpace(text) != text || !utf8.ValidString(short) || strings.ContainsFunc(short, unprintable) {
		return strconv.Quote(short)
	}
	return short
}

// cut returns the first 40 characters of a text, and "…" where there are more.
func cut(text string) string {
	const most = 40 // characters
	count := 0
	for i := range text {
		if count == most {
			return text[:i] + "…"
		}
		count++
	}
	return text
}

func unprintable(r rune) bool { return !unicode.IsPrint(r) }

// unit is a word on the way in; its SI value is num/den, both whole, so that a quantity
// is rounded once.
type unit struct {
	word     string
	num, den float64
}

// dimension is what a quantity may be.
type dimension struct {
	name    string // "length"
	article string // "a"
	example string // "0.6 m"
	units   []unit
	bare    bool // a number without a unit word is taken as the first unit
}

// words lists the unit words that a message offers. Spellings with a superscript are
// understood but left out of the list.
func (d dimension) words() string {
	var list []string
	for _, u := range d.units {
		if !strings.ContainsAny(u.word, "²³") {
			list = append(list, u.word)
		}
	}
	if len(list) == 1 {
		return list[0]
	}
	return strings.Join(list[:len(list)-1], ", ") + " or " + list[len(list)-1]
}

// hint says what the dimension takes.
func (d dimension) hint() string {
	if len(d.units) == 0 {
		return "a number without a unit is wanted, such as " + d.example
	}
	return d.article + " " + d.name + " is a number with " + d.words() + ", such as " + d.example
}

// read returns the SI value of a quantity of the dimension: finite and not negative.
func (d dimension) read(text string) (float64, error) {
	fail := func(why string) (float64, error) { return 0, &Error{Text: text, Why: why} }
	number, word := split(text)
	if number == "" {
		return fail(d.hint())
	}
	if strings.HasPrefix(word, ",") {
		return fail("write decimals with a point and thousands without a separator; " + d.hint())
	}
	if number[0] == '-' {
		return fail(d.article + " " + d.name + " is not negative")
	}
	x, err := strconv.ParseFloat(number, 64)
	if err != nil || math.IsInf(x, 0) {
		return fail("the number is too large")
	}
	u, ok := d.find(word)
	switch {
	case !ok && len(d.units) == 0:
		return fail(d.hint())
	case !ok && word == "":
		return fail("the unit is missing; " + d.hint())
	case !ok:
		return fail(strconv.Quote(cut(word)) + " is not a unit of " + d.name + "; " + d.hint())
	}
	x = x * u.num / u.den
	if math.IsInf(x, 0) {
		return fail("the number is too large")
	}
	return x, nil
}

func (d dimension) find(word string) (unit, bool) {
	if word == "" && d.bare {
		if len(d.units) == 0 {
			return unit{"", 1, 1}, true
		}
		return d.units[0], true
	}
	for _, u := range d.units {
		if u.word == word {
			return u, true
		}
	}
	return unit{}, false
}

// split parts a quantity into its number and its unit word, blanks around both removed.
// The number is empty where the text does not begin with one: a sign, digits with at most
// one point, and an exponent. Hexadecimal, "inf" and "nan" are no numbers here.
func split(text string) (number, word string) {
	text = strings.TrimSpace(text)
	first := signed(text, 0)
	end := digits(text, first)
	count := end - first
	if end < len(text) && text[end] == '.' {
		point := end
		end = digits(text, point+1)
		count += end - point - 1
	}
	if count == 0 {
		return "", text
	}
	if end < len(text) && (text[end] == 'e' || text[end] == 'E') {
		power := signed(text, end+1)
		if stop := digits(text, power); stop > power {
			end = stop
		}
	}
	return text[:end], strings.TrimSpace(text[end:])
}

// digits returns the place after the digits that begin at place i.
func digits(text string, i int) int {
	for i < len(text) && text[i] >= '0' && text[i] <= '9' {
		i++
	}
	return i
}

// signed returns the place after a sign at place i, or i where there is none.
func signed(text string, i int) int {
	if i < len(text) && (text[i] == '+' || text[i] == '-') {
		return i + 1
	}
	return i
}
