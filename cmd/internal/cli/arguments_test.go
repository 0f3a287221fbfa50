package cli

import (
	"bytes"
	"context"
	"io"
	"slices"
	"strings"
	"testing"

	"github.com/urfave/cli/v2"
)

func TestArrange(t *testing.T) {
	for _, row := range []struct{ name, typed, want string }{
		{"flags after the files", "plan a.tif b.tif --out x --replace", "plan --out x --replace -- a.tif b.tif"},
		{"a flag that is said to be true", "plan a.tif --replace=true", "plan --replace=true -- a.tif"},
		{"flags before the files", "plan --out x a.tif", "plan --out x -- a.tif"},
		{"flags between the files", "plan a.tif --out=x b.tif", "plan --out=x -- a.tif b.tif"},
		{"global flags after the command", "plan a.tif --units us --out x --quiet", "--units us --quiet plan --out x -- a.tif"},
		{"command's flags before it", "--out x plan a.tif", "plan --out x -- a.tif"},
		{"a value that begins with a minus", "profile a.tif --from -105.2,36.4 --out x", "profile --from -105.2,36.4 --out x -- a.tif"},
		{"a file that looks like a flag", "plan --out x -- --odd.tif", "plan --out x -- --odd.tif"},
		{"a lone minus is a file", "plan - --out x", "plan --out x -- -"},
		{"help of a command", "plan --help", "plan --help"},
		{"help on a command", "help plan", "plan --help"},
		{"help amid other words", "plan a.tif -h --out x", "plan -h --out x"},
		{"help on nothing", "help", "--help"},
		{"nothing", "", ""},
		{"version", "--version", "--version"},
	} {
		t.Run(row.name, func(t *testing.T) {
			got, err := arrange(newApp(io.Discard, io.Discard), append([]string{"siltstep"}, strings.Fields(row.typed)...))
			if err != nil {
				t.Fatal(err)
			}
			if want := append([]string{"siltstep"}, strings.Fields(row.want)...); !slices.Equal(got, want) {
				t.Errorf("got  %q\nwant %q", got, want)
			}
		})
	}
}

func TestArrangeRefuses(t *testing.T) {
	for _, row := range []struct{ name, typed, want string }{
		{"a value for a flag that takes none", "plan a.tif --out x --replace=maybe", "--replace takes no value, got --replace=maybe; give it alone, or leave it out"},
		{"a mistyped command", "plam a.tif", `there is no command "plam"; did you mean plan?; the commands are inspect, screen, plan, profile, size, peak, report, demo, completion`},
		{"a command like no other", "xylophone", `there is no command "xylophone"; the commands are inspect, screen, plan, profile, size, peak, report, demo, completion`},
		{"a mistyped flag", "plan a.tif --uot x", "siltstep plan has no flag --uot; did you mean --out?; see siltstep plan --help"},
		{"a flag of another command", "plan a.tif --from 1,2", "siltstep plan has no flag --from; see siltstep plan --help"},
		{"a mistyped global flag", "--quit plan", "siltstep plan has no flag --quit; did you mean --quiet?; see siltstep plan --help"},
		{"a flag of no command, before a word that is none", "--ot x plan", "siltstep has no flag --ot; did you mean --out?; see siltstep --help"},
		{"a flag of a command, without one", "--out x", "--out needs a command; the commands are inspect, screen, plan, profile, size, peak, report, demo, completion"},
		{"a flag without its value", "plan a.tif --out", "--out needs a value; see siltstep plan --help"},
		{"a flag in place of a value", "plan a.tif --out --replace", "--out needs a value; see siltstep plan --help"},
		{"a flag given twice", "plan a.tif --out x --out y", "--out is given twice; give it once"},
	} {
		t.Run(row.name, func(t *testing.T) {
			_, err := arrange(newApp(io.Discard, io.Discard), append([]string{"siltstep"}, strings.Fields(row.typed)...))
			if err == nil || err.Error() != row.want {
				t.Errorf("got  %v\nwant %s", err, row.want)
			}
			if exitCode(context.Background(), err) != ExitRequest {
				t.Errorf("exit code %d, want %d", exitCode(context.Background(), err), ExitRequest)
			}
		})
	}
}

// Flags are told apart before the command is known, so one name must not take a value in
// one command and none in another.
func TestFlagsOfOneNameAreAlike(t *testing.T) {
	app := newApp(io.Discard, io.Discard)
	takes := map[string]bool{}
	for _, flags := range append([][]cli.Flag{app.Flags}, flagsOf(app.Commands)...) {
		for _, f := range flags {
			for _, name := range f.Names() {
				if before, ok := takes[name]; ok && before != takesValue(f) {
					t.Errorf("--%s takes a value in one place and none in another", name)
				}
				takes[name] = takesValue(f)
			}
		}
	}
}

func flagsOf(commands []*cli.Command) (all [][]cli.Flag) {
	for _, c := range commands {
		all = append(all, c.Flags)
	}
	return all
}

// FuzzArrange types anything: no panic, and what comes out is arranged already.
func FuzzArrange(f *testing.F) {
	f.Add("plan a.tif --out x -- --odd.tif")
	f.Add("--units us profile --from -1,2 a.tif")
	f.Add("- -- --")
	f.Fuzz(func(t *testing.T, typed string) {
		once, err := arrange(newApp(io.Discard, io.Discard), append([]string{"siltstep"}, strings.Fields(typed)...))
		if err != nil {
			return
		}
		twice, err := arrange(newApp(io.Discard, io.Discard), once)
		if err != nil || !slices.Equal(once, twice) {
			t.Errorf("%q: arranged %q, again %q, %v", typed, once, twice, err)
		}
	})
}

func TestRunRecoversFromAPanic(t *testing.T) {
	var stderr bytes.Buffer
	code := Run(context.Background(), []string{"siltstep", "plan", "--print-settings"}, nil, panicWriter{}, &stderr)
	if code != ExitFailed || !strings.Contains(stderr.String(), "siltstep: a fault of siltstep itself") ||
		strings.Contains(stderr.String(), "goroutine") {
		t.Errorf("exit code %d, message %q", code, stderr.String())
	}
}

// panicWriter stands for any fault below Run.
type panicWriter struct{}

func (panicWriter) Write([]byte) (int, error) { panic("drawn fault") }
