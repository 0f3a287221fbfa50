package cli

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// A fit is what an elevation model can be used for.
type fit int

const (
	fitToSite   fit = iota // dams can be sited on it
	fitToScreen            // drainages can be found and compared on it
	unfit                  // neither
)

// String returns the word of the verdict.
func (f fit) String() string {
	switch f {
	case fitToSite:
		return "fit to site"
	case fitToScreen:
		return "fit to screen"
	case unfit:
		return "unfit"
	}
	return fmt.Sprintf("fit(%d)", int(f))
}

// A remark is what one measure found and what it means for siting.
type remark struct {
	name, found, means string
	fit                fit    // the best use that this measure leaves open
	heed               string // why, or what to take care of; empty where there is nothing
}

// verdict returns the best use that all remarks leave open, and the reasons, the gravest first.
func verdict(remarks []remark) string {
	worst := slices.MaxFunc(remarks, func(a, b remark) int { return cmp.Compare(a.fit, b.fit) }).fit
	var reasons []string
	for f := worst; f >= fitToSite; f-- {
		for _, r := range remarks {
			if r.fit == f && r.heed != "" {
				reasons = append(reasons, r.heed)
			}
		}
	}
	switch {
	case len(reasons) == 0:
		return worst.String() + ": nothing found against it"
	case worst == fitToSite:
		return worst.String() + ", with care: " + strings.Join(reasons, "; ")
	}
	return worst.String() + ": " + strings.Join(reasons, "; ")
}
