package funder

import (
	"fmt"
	"math"

	"siltstep/cmd/internal/units"
)

// Base is what a share of match is a share of.
type Base string

const (
	OfTotal   Base = "total"   // of the whole cost of the project
	OfFederal Base = "federal" // of the money asked for
)

// Match is the part of the cost that does not come from the programme that is asked. The zero value says that none is given.
type Match struct {
	Share   float64 // match over Base, above 0; below 1 where that is the total
	Base    Base
	Federal float64 // money asked for; 0 where it follows from the cost of the plan
	InKind  float64 // of the match, worth of work and goods that are given; 0 for none
}

// Options say how the summary is written.
type Options struct {
	System     units.System // whose units stand first
	Title      string       // of the project; a plain one where empty
	Match      Match
	MapSVG     []byte // map figure; none where empty
	MapFile    string // name that the Markdown gives to that figure; "map.svg" where empty
	Works      *Works // footprints of the dams; nil where they are not known
	HidePlaces bool   // leaves coordinates out of the text; MapSVG is shown as it is
}

// check tells what is wrong with a match.
func (m Match) check() error {
	for _, x := range []float64{m.Share, m.Federal, m.InKind} {
		if math.IsNaN(x) || math.IsInf(x, 0) || x < 0 {
			return fmt.Errorf("match: %v is no share or amount; give 0 or more", x)
		}
	}
	switch {
	case m.Share == 0 && (m.Base != "" || m.Federal > 0 || m.InKind > 0):
		return fmt.Errorf("match: there is no share; give one above 0 with its base")
	case m.Share == 0:
		return nil
	case m.Base != OfTotal && m.Base != OfFederal:
		return fmt.Errorf("match: base %q; give %q or %q, for they are not the same", m.Base, OfTotal, OfFederal)
	case m.Base == OfTotal && m.Share >= 1:
		return fmt.Errorf("match: %v of the total leaves nothing to ask for; give a share below 1", m.Share)
	}
	return nil
}

// Split is a cost parted in cents: Federal and Match add to Total.
type Split struct {
	Total, Federal, Match int64
}

// OfCost parts a cost. The match is rounded up to a cent, so that it is never short.
func (m Match) OfCost(total float64) Split {
	share := m.Share
	if m.Base == OfFederal {
		share = m.Share / (1 + m.Share)
	}
	s := Split{Total: cents(total)}
	s.Match = upCents(share * total)
	s.Federal = s.Total - s.Match
	return s
}

// OfFederal returns what goes with an amount that is asked for: at 0.40 of the total, 60,000 take a match of 40,000.
func (m Match) OfFederal(federal float64) Split {
	ratio := m.Share
	if m.Base == OfTotal {
		ratio = m.Share / (1 - m.Share)
	}
	s := Split{Federal: cents(federal), Match: upCents(ratio * federal)}
	s.Total = s.Federal + s.Match
	return s
}

func cents(money float64) int64 { return int64(math.Round(money * 100)) }

// upCents rounds up, but not for what the arithmetic of the machine adds, far below a cent.
func upCents(money float64) int64 { return int64(math.Ceil(money*100 - 1e-4)) }
