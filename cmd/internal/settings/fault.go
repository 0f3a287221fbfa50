package settings

import (
	"errors"
	"fmt"
	"slices"
	"strings"
)

// ErrInput marks every error of Load and Parse: what the user gave is wrong, not the program.
var ErrInput = errors.New("settings: wrong input")

// Fault is one thing wrong with a settings file. It matches ErrInput.
type Fault struct {
	File    string // as the user named it; empty when there is no file
	Line    int    // from 1; 0 when the whole file is meant
	Key     string // such as dams.height; empty when no key is meant
	Value   string // what was given; empty when no value is meant
	Allowed string // what is wrong and what is allowed

	cause error
}

// Error returns "FILE:LINE: KEY: VALUE; ALLOWED" without the parts that are empty.
func (f *Fault) Error() string {
	var b strings.Builder
	if f.File != "" {
		b.WriteString(f.File)
		if f.Line > 0 {
			fmt.Fprintf(&b, ":%d", f.Line)
		}
		b.WriteString(": ")
	}
	if f.Key != "" {
		b.WriteString(f.Key + ": ")
	}
	if f.Value != "" {
		b.WriteString(f.Value + "; ")
	}
	b.WriteString(f.Allowed)
	return b.String()
}

// Unwrap returns ErrInput and the cause, if there is one.
func (f *Fault) Unwrap() []error {
	if f.cause == nil {
		return []error{ErrInput}
	}
	return []error{ErrInput, f.cause}
}

// mostFaults is how many faults one error lists. Source: our own choice, about a screen.
const mostFaults = 20

// join returns the faults by line as one error, nil for none; beyond mostFaults only their
// number is told.
func join(file string, faults []*Fault) error {
	slices.SortStableFunc(faults, func(a, b *Fault) int { return a.Line - b.Line })
	var list []error
	for i, f := range faults {
		f.File = file
		if i == mostFaults {
			rest := fmt.Sprintf("%d more faults are not listed; mend these first", len(faults)-mostFaults)
			list = append(list, &Fault{File: file, Allowed: rest})
			break
		}
		list = append(list, f)
	}
	return errors.Join(list...)
}
