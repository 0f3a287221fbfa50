package cli

import (
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"

	"siltstep/raster/rastertest"
)

// TestMain lets scripts call siltstep as the program it is.
func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"siltstep": func() {
		ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
		defer stop()
		os.Exit(Run(ctx, os.Args, os.Stdin, os.Stdout, os.Stderr))
	}})
}

// TestScripts runs each file of testdata/script: commands as a person types them, and what
// is printed, written and left behind.
func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir:                 "testdata/script",
		UpdateScripts:       *rastertest.Update,
		RequireExplicitExec: true,
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"elevation": scriptElevation,
			"exits":     scriptExits,
			"holds":     scriptHolds,
			"same":      scriptSame,
		},
	})
}

// elevation KIND FILE writes one of the elevations of elevation_test.go.
func scriptElevation(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 2 || elevations[args[0]] == nil {
		ts.Fatalf("usage: elevation KIND FILE; KIND is one of %s", strings.Join(elevationKinds(), ", "))
	}
	ts.Check(elevations[args[0]](ts.MkAbs(args[1])))
}

// exits CODE COMMAND… runs a command that must exit with the code.
func scriptExits(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: exits CODE COMMAND...")
	}
	got := 0
	if err := ts.Exec(args[1], args[2:]...); err != nil {
		var ended *exec.ExitError
		if !errors.As(err, &ended) {
			ts.Fatalf("%v", err)
		}
		got = ended.ExitCode()
	}
	if want, err := strconv.Atoi(args[0]); err != nil || got != want {
		ts.Fatalf("%s exits %d, want %s", args[1], got, args[0])
	}
}

// holds DIR NAME… checks that a folder holds just these, hidden files included.
func scriptHolds(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) == 0 {
		ts.Fatalf("usage: holds DIR NAME...")
	}
	entries, err := os.ReadDir(ts.MkAbs(args[0]))
	ts.Check(err)
	var got []string
	for _, e := range entries {
		got = append(got, e.Name())
	}
	want := slices.Sorted(slices.Values(args[1:]))
	if !slices.Equal(got, want) {
		ts.Fatalf("%s holds %q, want %q", args[0], got, want)
	}
}

// same DIR DIR checks that two folders hold the same files with the same bytes.
func scriptSame(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 2 {
		ts.Fatalf("usage: same DIR DIR")
	}
	ts.Check(sameFolders(ts.MkAbs(args[0]), ts.MkAbs(args[1])))
}

// sameFolders returns an error that names the first difference between two folders.
func sameFolders(a, b string) error {
	count := 0
	for _, pair := range [][2]string{{a, b}, {b, a}} {
		err := filepath.WalkDir(pair[0], func(place string, entry os.DirEntry, err error) error {
			if err != nil || entry.IsDir() {
				return err
			}
			name, err := filepath.Rel(pair[0], place)
			if err != nil {
				return err
			}
			one, err := os.ReadFile(place)
			if err != nil {
				return err
			}
			two, err := os.ReadFile(filepath.Join(pair[1], name))
			if err != nil {
				return err
			}
			if string(one) != string(two) {
				return fmt.Errorf("%s differs", name)
			}
			count++
			return nil
		})
		if err != nil {
			return err
		}
	}
	if count == 0 {
		return errors.New("both folders are empty")
	}
	return nil
}
