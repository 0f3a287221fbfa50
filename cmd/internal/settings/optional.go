package settings

import (
	"math"
	"slices"
)

// Words that leave a value open.
const (
	notGiven = "none"  // and nothing is put in its place
	asUsual  = "usual" // what is usual for the kind of dam
)

// optional is a quantity above 0 that may be left open by a word.
type optional struct {
	quantity
	open  string                // notGiven or asUsual
	blank float64               // what stands for it; 0 or NaN
	also  func(Settings) string // what is wrong beside other keys; nil for nothing
}

// isOpen tells whether the word stands for a value.
func (o optional) isOpen(c Settings) bool {
	x := *o.at(&c)
	return x == o.blank || math.IsNaN(x) && math.IsNaN(o.blank)
}

func (o optional) allowed() string {
	if o.least == 0 {
		return "more than 0, at most " + o.text(o.most) + "; or " + o.open
	}
	return o.quantity.allowed() + "; or " + o.open
}

func (o optional) read(c *Settings, v value) string {
	if slices.Equal(v.texts, []string{o.open}) && !v.list {
		*o.at(c) = o.blank
		return ""
	}
	if _, fault := single(v, o.allowed()); fault != "" {
		return fault
	}
	fault := o.quantity.read(c, v)
	if fault == "" && o.isOpen(*c) {
		return "more than 0; or " + o.open
	}
	return fault
}

func (o optional) check(c Settings) string {
	if o.isOpen(c) {
		return ""
	}
	if fault := o.quantity.check(c); fault != "" || o.also == nil {
		return fault
	}
	return o.also(c)
}

func (o optional) show(c Settings) string {
	if o.isOpen(c) {
		return o.open
	}
	return o.quantity.show(c)
}

// optionalSpan is a range of quantities that may be left open by the word none; open, both are 0.
type optionalSpan struct{ span }

func (o optionalSpan) allowed() string { return o.span.allowed() + "; or " + notGiven }

func (o optionalSpan) read(c *Settings, v value) string {
	if slices.Equal(v.texts, []string{notGiven}) && !v.list {
		low, high := o.at(c)
		*low, *high = 0, 0
		return ""
	}
	fault := o.span.read(c, v)
	if low, high := o.at(c); fault == "" && *low == 0 && *high == 0 {
		return "the higher is more than 0; or " + notGiven
	}
	return fault
}

func (o optionalSpan) check(c Settings) string {
	if low, high := o.at(&c); *low == 0 && *high == 0 {
		return ""
	}
	return o.span.check(c)
}

func (o optionalSpan) show(c Settings) string {
	if low, high := o.at(&c); *low == 0 && *high == 0 {
		return notGiven
	}
	return o.span.show(c)
}

// choice is a word from a list, or the word that leaves it open; open, it is empty.
type choice struct {
	word
	also func(Settings) string // what is wrong beside other keys; nil for nothing
}

// choose returns the choice of a text of the settings.
func choose[T ~string](open string, list []T, at func(*Settings) *T, also func(Settings) string) choice {
	words := []string{open}
	for _, w := range list {
		words = append(words, string(w))
	}
	return choice{word{list: words,
		get: func(c Settings) string {
			if *at(&c) == "" {
				return open
			}
			return string(*at(&c))
		},
		set: func(c *Settings, text string) {
			if text == open {
				text = ""
			}
			*at(c) = T(text)
		}}, also}
}

func (w choice) check(c Settings) string {
	if fault := w.word.check(c); fault != "" || w.also == nil {
		return fault
	}
	return w.also(c)
}
