// Command siltstep turns an elevation model of a property into a plan of check dams.
package main

import (
	"context"
	"os"
	"os/signal"
	"syscall"

	"siltstep/cmd/internal/cli"
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM, syscall.SIGHUP)
	signal.Ignore(syscall.SIGPIPE) // a reader that goes away is an error of writing, and leaves nothing behind
	code := cli.Run(ctx, os.Args, os.Stdin, os.Stdout, os.Stderr)
	stop()
	os.Exit(code)
}
