package cli

import (
	"slices"
	"strings"

	"github.com/urfave/cli/v2"
)

// A flagWord is a flag as it was typed, with its value if it takes one.
type flagWord struct {
	name    string
	words   []string
	lacking bool // it takes a value and none followed
	valued  bool // something other than true or false stands behind its "="
}

// arrange puts a command line into the order the flag parser needs: program, global
// flags, command, its flags, "--", the rest. Flags may stand anywhere; after "--" nothing
// is a flag. "help plan" becomes "plan --help". Errors, all of the request: unknown command or flag (the nearest name is
// offered), a flag without its value or given twice, a value for a flag that takes none, a flag of another command.
func arrange(app *cli.App, args []string) ([]string, error) {
	flags, rest := split(app, args[1:])
	if len(rest) > 0 && rest[0] == "help" {
		flags, rest = append(flags, flagWord{name: "help", words: []string{"--help"}}), rest[1:]
	}
	command, unknown := commandOf(app, rest)
	global, own := []string{args[0]}, []string{}
	for i, f := range flags {
		ofAll, ofCommand := isOf(app.Flags, f.name), command != nil && isOf(command.Flags, f.name)
		asked := isHelp(f.name) || isVersion(f.name)
		switch {
		case !ofAll && !ofCommand && !asked && (unknown == nil || !isOfAny(app, f.name)):
			return nil, noSuchFlag(app, command, f.name)
		case f.valued && isToggle(app, f.name):
			return nil, requestf("%s takes no value, got %s; give it alone, or leave it out", dashed(f.name), f.words[0])
		case f.lacking:
			return nil, requestf("%s needs a value; see %s --help", dashed(f.name), called(command))
		case slices.ContainsFunc(flags[:i], func(o flagWord) bool { return o.name == f.name }):
			return nil, requestf("%s is given twice; give it once", dashed(f.name))
		case ofCommand || (command != nil && isHelp(f.name)):
			own = append(own, f.words...)
		default:
			global = append(global, f.words...)
		}
	}
	if unknown != nil || len(rest) == 0 {
		return global, unknown
	}
	words := append(append(global, rest[0]), own...)
	if slices.ContainsFunc(flags, func(f flagWord) bool { return isHelp(f.name) }) {
		return words, nil // a word after it would be taken for a topic
	}
	return append(append(words, "--"), rest[1:]...), nil
}

// split parts flags, with their values, from other words. A flag that no command knows is
// taken to have no value.
func split(app *cli.App, words []string) (flags []flagWord, rest []string) {
	known := allFlags(app)
	for len(words) > 0 {
		word := words[0]
		words = words[1:]
		if word == "--" {
			return flags, append(rest, words...)
		}
		if len(word) < 2 || word[0] != '-' {
			rest = append(rest, word)
			continue
		}
		name, joinedTo, joined := strings.Cut(strings.TrimLeft(word, "-"), "=")
		f := flagWord{name: name, words: []string{word}, valued: joined && joinedTo != "true" && joinedTo != "false"}
		if flag := findFlag(known, name); flag != nil && takesValue(flag) && !joined {
			if f.lacking = len(words) == 0 || strings.HasPrefix(words[0], "--"); !f.lacking {
				f.words = append(f.words, words[0])
				words = words[1:]
			}
		}
		flags = append(flags, f)
	}
	return flags, rest
}

// commandOf returns the command that the first word names; nil where there is no word.
func commandOf(app *cli.App, rest []string) (*cli.Command, error) {
	if len(rest) == 0 {
		return nil, nil
	}
	for _, c := range app.Commands {
		if c.HasName(rest[0]) {
			return c, nil
		}
	}
	names := commandNames(app)
	return nil, requestf("there is no command %q%s; the commands are %s",
		rest[0], didYouMean(rest[0], names, ""), strings.Join(names, ", "))
}

func commandNames(app *cli.App) (names []string) {
	for _, c := range app.Commands {
		names = append(names, c.Name)
	}
	return names
}

// noSuchFlag offers the nearest flag: of the command, or of any where none is known.
func noSuchFlag(app *cli.App, command *cli.Command, name string) error {
	known := allFlags(app)
	if command == nil && isOf(known, name) {
		return requestf("%s needs a command; the commands are %s", dashed(name), strings.Join(commandNames(app), ", "))
	}
	if command != nil {
		known = slices.Concat(command.Flags, app.Flags)
	}
	var names []string
	for _, f := range known {
		names = append(names, f.Names()...)
	}
	return requestf("%s has no flag %s%s; see %[1]s --help", called(command), dashed(name), didYouMean(name, names, "--"))
}

// called returns how a command is called; a nil one is the program alone.
func called(command *cli.Command) string {
	if command == nil {
		return "siltstep"
	}
	return "siltstep " + command.Name
}

func allFlags(app *cli.App) []cli.Flag {
	all := slices.Clone(app.Flags)
	for _, c := range app.Commands {
		all = append(all, c.Flags...)
	}
	return all
}

func isOf(flags []cli.Flag, name string) bool { return findFlag(flags, name) != nil }
func isOfAny(app *cli.App, name string) bool  { return isOf(allFlags(app), name) }

func findFlag(flags []cli.Flag, name string) cli.Flag {
	for _, f := range flags {
		if slices.Contains(f.Names(), name) {
			return f
		}
	}
	return nil
}

func takesValue(f cli.Flag) bool {
	d, ok := f.(cli.DocGenerationFlag)
	return ok && d.TakesValue()
}

// isToggle reports whether a flag takes no value; so do those for help and version.
func isToggle(app *cli.App, name string) bool {
	f := findFlag(allFlags(app), name)
	return f != nil && !takesValue(f) || isHelp(name) || isVersion(name)
}

func isHelp(name string) bool    { return name == "help" || name == "h" }
func isVersion(name string) bool { return name == "version" || name == "v" }

func dashed(name string) string {
	if len(name) == 1 {
		return "-" + name
	}
	return "--" + name
}
