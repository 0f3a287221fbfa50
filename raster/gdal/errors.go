package gdal

import (
	"errors"
	"fmt"
	"strings"

	"github.com/airbusgeo/godal"
)

// ErrInput marks an error whose cause is the request or its data and not the machine:
// errors.Is(err, ErrInput) is true. It is never returned by itself.
var ErrInput = errors.New("gdal: wrong input")

// inputError is a sentence for the user that carries ErrInput and its cause.
type inputError struct {
	text  string
	cause error
}

func (e *inputError) Error() string { return e.text }

func (e *inputError) Is(target error) bool { return target == ErrInput }

func (e *inputError) Unwrap() error { return e.cause }

// wrong formats an input error; %w keeps a cause.
func wrong(format string, args ...any) error {
	err := fmt.Errorf(format, args...)
	return &inputError{text: err.Error(), cause: errors.Unwrap(err)}
}

// guard turns a panic of the library's binding into an error. Panics that name this
// package are a programmer's mistake and go on.
func guard(err *error) {
	r := recover()
	if r == nil {
		return
	}
	if text, ok := r.(string); ok && strings.HasPrefix(text, "gdal: ") {
		panic(r)
	}
	*err = fmt.Errorf("the raster library stopped: %v", r)
}

// journal collects what the library says during one operation.
type journal struct {
	warnings []string
	first    string // first failure
}

// note is an error handler for godal: warnings are kept, failures become errors.
func (j *journal) note(ec godal.ErrorCategory, _ int, msg string) error {
	switch {
	case ec >= godal.CE_Failure:
		if j.first == "" {
			j.first = msg
		}
		return errors.New(msg)
	case ec == godal.CE_Warning:
		j.warnings = append(j.warnings, msg)
	}
	return nil
}

// strict is an error handler that takes warnings for errors: for creating files, where a
// misspelt option only warns.
func strict(ec godal.ErrorCategory, _ int, msg string) error {
	if ec >= godal.CE_Warning {
		return errors.New(msg)
	}
	return nil
}

// said returns the first failure as one line, to stand in brackets behind our own words.
func (j *journal) said(err error) string {
	text := j.first
	if text == "" && err != nil {
		text = err.Error()
	}
	text, _, _ = strings.Cut(text, "\n")
	return strings.TrimSpace(text)
}
