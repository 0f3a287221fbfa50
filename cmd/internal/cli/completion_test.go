package cli

import (
	"io"
	"os/exec"
	"slices"
	"strings"
	"testing"
)

// bash is asked as it asks at the tabulator key: the words so far, of which the last is unfinished, and what it then offers.
func TestBashCompletion(t *testing.T) {
	bash, err := exec.LookPath("bash")
	if err != nil {
		t.Skip("bash is not there")
	}
	app := newApp(io.Discard, io.Discard)
	app.Setup() // as before a command runs
	script := bashCompletion(app)
	t.Chdir(t.TempDir())
	if err := exec.Command(bash, "-c", `touch "my dem.tif" dem.tif settings.yaml`).Run(); err != nil {
		t.Fatal(err)
	}
	commands := "inspect screen plan profile size peak report demo completion"
	for _, row := range []struct{ name, typed, want string }{
		{"commands", "siltstep|", strings.ReplaceAll(commands+" help", " ", "|")},
		{"begun command", "siltstep|pl", "plan"},
		{"after a global flag and its value", "siltstep|--units|us|pe", "peak"},
		{"a value that is the name of a command", "siltstep|--out|plan|pr", "profile"},
		{"flag of a command", "siltstep|plan|dem.tif|--prop", "--property"},
		{"flag of all", "siltstep|plan|--un", "--units"},
		{"help, once", "siltstep|plan|--h", "--help"},
		{"version, of the program alone", "siltstep|--vers", "--version"},
		{"no version of a command", "siltstep|plan|--vers", ""},
		{"no flag of another command", "siltstep|inspect|--prop", ""},
		{"words of a flag", "siltstep|--units|", "metric|us"},
		{"words behind the sign", "siltstep|plan|--units|=|u", "us"},
		{"words right behind the sign", "siltstep|plan|--units|=", "metric|us"},
		{"file of a flag", "siltstep|plan|dem.tif|--settings|s", "settings.yaml"},
		{"no file for a number", "siltstep|plan|--budget|s", ""},
		{"files", "siltstep|plan|", "dem.tif|my dem.tif|settings.yaml"},
		{"a file with a blank", "siltstep|inspect|my", "my dem.tif"},
		{"files after the end of flags", "siltstep|plan|--|d", "dem.tif"},
		{"no files where none are taken", "siltstep|size|", ""},
		{"shells", "siltstep|completion|", "bash|zsh|fish"},
		{"help on", "siltstep|help|sc", "screen"},
		{"readers", "siltstep|report|my-plan|--for|c", "crew"},
	} {
		t.Run(row.name, func(t *testing.T) {
			ask := exec.Command(bash, append([]string{"-c", script + `
COMP_WORDS=("$@") COMP_CWORD=$(($# - 1))
_siltstep
((${#COMPREPLY[@]})) && printf '%s\n' "${COMPREPLY[@]}"
exit 0`, "bash"}, strings.Split(row.typed, "|")...)...)
			text, err := ask.CombinedOutput()
			if err != nil {
				t.Fatalf("%v: %s", err, text)
			}
			got := strings.FieldsFunc(string(text), func(r rune) bool { return r == '\n' })
			want := strings.FieldsFunc(row.want, func(r rune) bool { return r == '|' })
			slices.Sort(got)
			slices.Sort(want)
			if !slices.Equal(got, want) {
				t.Errorf("%q, want %q", got, want)
			}
		})
	}
}

// Each shell is told every command and every flag.
func TestCompletionIsWhole(t *testing.T) {
	for _, shell := range shells {
		app := newApp(io.Discard, io.Discard)
		app.Setup() // as before a command runs
		text, err := completionOf(app, shell)
		if err != nil {
			t.Fatal(err)
		}
		for _, name := range commandNames(app) {
			if !strings.Contains(text, name) {
				t.Errorf("%s: no command %s", shell, name)
			}
		}
		for _, f := range allFlags(app) {
			wanted := "--" + f.Names()[0]
			if shell == "fish" {
				wanted = " -l " + f.Names()[0]
			}
			if !strings.Contains(text, wanted) {
				t.Errorf("%s: no flag %s", shell, wanted)
			}
		}
	}
}

// Words that are offered for a flag are words that its help names, so that none is offered that is not taken.
func TestWordsOfFlags(t *testing.T) {
	all := allFlags(newApp(io.Discard, io.Discard))
	for name, words := range flagWords {
		f := findFlag(all, name)
		if f == nil {
			t.Errorf("there is no flag %s", name)
			continue
		}
		for _, word := range words {
			if !strings.Contains(f.String(), word) {
				t.Errorf("the help of %s does not name %s: %s", name, word, f)
			}
		}
	}
}

// What shells are told parses, in those that are there.
func TestCompletionParses(t *testing.T) {
	for _, shell := range shells {
		program, err := exec.LookPath(shell)
		if err != nil {
			t.Logf("%s is not there", shell)
			continue
		}
		app := newApp(io.Discard, io.Discard)
		app.Setup()
		text, err := completionOf(app, shell)
		if err != nil {
			t.Fatal(err)
		}
		check := exec.Command(program, "-n", "/dev/stdin")
		check.Stdin = strings.NewReader(text)
		if said, err := check.CombinedOutput(); err != nil {
			t.Errorf("%s: %v: %s", shell, err, said)
		}
	}
}
