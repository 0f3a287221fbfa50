package cli

import (
	"bytes"
	"context"
	"io"
	"path/filepath"
	"strings"
	"testing"
)

// stopAfter cancels once the line of a stage has been written, as Ctrl-C would just then.
type stopAfter struct {
	bytes.Buffer
	stage  string
	cancel func()
}

func (s *stopAfter) Write(p []byte) (int, error) {
	if strings.HasPrefix(string(p), s.stage+" ") {
		s.cancel()
	}
	return s.Buffer.Write(p)
}

func TestInterruptLeavesNothing(t *testing.T) {
	for _, stage := range []string{"read", "fill", "direction", "accumulation", "channels", "sections", "erosion", "sites"} {
		t.Run(stage, func(t *testing.T) {
			top := t.TempDir()
			dem := filepath.Join(top, "valley.tif")
			if err := elevations["valley"](dem); err != nil {
				t.Fatal(err)
			}
			ctx, cancel := context.WithCancel(context.Background())
			defer cancel()
			stderr := stopAfter{stage: stage, cancel: cancel}
			code := Run(ctx, []string{"siltstep", "plan", dem, "--out", filepath.Join(top, "new", "plan")}, nil, io.Discard, &stderr)
			if code != ExitFailed || !strings.HasSuffix(stderr.String(), "siltstep: stopped; what was begun has been removed\n") {
				t.Errorf("exit code %d, message %q", code, stderr.String())
			}
			wantTree(t, top, "valley.tif")
		})
	}
}

func TestInterruptKeepsTheEarlierPlan(t *testing.T) {
	top := t.TempDir()
	dem, dir := filepath.Join(top, "valley.tif"), filepath.Join(top, "plan")
	if err := elevations["valley"](dem); err != nil {
		t.Fatal(err)
	}
	args := []string{"siltstep", "plan", dem, "--out", dir}
	if code := Run(context.Background(), args, nil, io.Discard, io.Discard); code != ExitDone {
		t.Fatalf("exit code %d", code)
	}
	before := tree(t, top)
	ctx, cancel := context.WithCancel(context.Background())
	defer cancel()
	if code := Run(ctx, append(args, "--replace"), nil, io.Discard, &stopAfter{stage: "sites", cancel: cancel}); code != ExitFailed {
		t.Fatalf("exit code %d", code)
	}
	wantTree(t, top, before...)
}
