package cli

import (
	"context"
	"fmt"
	"io"
	"runtime"
	"strings"
)

// Run runs one command line, args[0] being the name of the program, and returns its exit
// code: ExitDone, ExitFailed or ExitRequest. Results for people go to stdout, progress and
// messages to stderr; stdin is not read. When ctx ends the work stops and what was begun
// is removed. No panic leaves Run.
func Run(ctx context.Context, args []string, _ io.Reader, stdout, stderr io.Writer) (code int) {
	defer func() {
		if fault := recover(); fault != nil {
			fmt.Fprintf(stderr, "siltstep: a fault of siltstep itself, not of your data: %v (%s); "+
				"nothing was written; please report it with the command you gave\n", fault, faultPlace())
			code = ExitFailed
		}
	}()
	keepHeapTight()
	err := runApp(ctx, args, stdout, stderr)
	if err != nil {
		fmt.Fprintf(stderr, "siltstep: %s\n", message(ctx, err))
	}
	return exitCode(ctx, err)
}

func runApp(ctx context.Context, args []string, stdout, stderr io.Writer) error {
	app := newApp(stdout, stderr)
	words, err := arrange(app, args)
	if err != nil {
		return err
	}
	return app.RunContext(ctx, words)
}

// faultPlace returns the innermost function of siltstep on the stack of a panic, for a
// report of a fault.
func faultPlace() string {
	var pcs [64]uintptr
	frames := runtime.CallersFrames(pcs[:runtime.Callers(3, pcs[:])])
	for {
		frame, more := frames.Next()
		if strings.HasPrefix(frame.Function, "siltstep/") {
			return fmt.Sprintf("%s, line %d", frame.Function, frame.Line)
		}
		if !more {
			return "place unknown"
		}
	}
}
