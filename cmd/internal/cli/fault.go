package cli

import (
	"context"
	"errors"
	"fmt"

	"siltstep/raster/gdal"
)

// Exit codes of siltstep.
const (
	ExitDone    = 0 // the work is done
	ExitFailed  = 1 // the work failed or was stopped
	ExitRequest = 2 // the request or the input is wrong; nothing was done
)

// requestError marks an error that the user can cure by asking or giving something else.
type requestError struct{ err error }

func (e requestError) Error() string { return e.err.Error() }
func (e requestError) Unwrap() error { return e.err }

// request marks err as the fault of the request or the input; nil stays nil.
func request(err error) error {
	if err == nil {
		return nil
	}
	return requestError{err}
}

// requestf is fmt.Errorf for a fault of the request or the input.
func requestf(format string, args ...any) error {
	return requestError{fmt.Errorf(format, args...)}
}

// exitCode returns the exit code for what a command returned. A stop by the user is a
// failure, whatever error it came out as.
func exitCode(ctx context.Context, err error) int {
	var wrong requestError
	switch {
	case err == nil:
		return ExitDone
	case ctx.Err() != nil:
		return ExitFailed
	case errors.As(err, &wrong), errors.Is(err, gdal.ErrInput):
		return ExitRequest
	}
	return ExitFailed
}

// message returns what the user reads of an error.
func message(ctx context.Context, err error) string {
	if ctx.Err() != nil {
		return "stopped; what was begun has been removed"
	}
	return err.Error()
}
