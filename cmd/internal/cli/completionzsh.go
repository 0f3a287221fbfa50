package cli

import (
	"fmt"
	"strings"

	"github.com/urfave/cli/v2"
)

// zshCompletion returns a script for zsh 5 and later, to be sourced or to lie in a folder of fpath as _siltstep.
func zshCompletion(app *cli.App) string {
	var commands, cases strings.Builder
	global := append(zshFlags(app.Flags), zshToggle("help", "show help"), zshToggle("h", "show help"))
	for _, command := range app.Commands {
		fmt.Fprintf(&commands, "\t\t%s\n", zshQuote(command.Name+":"+zshText(command.Usage)))
		specs := append(zshFlags(command.Flags), global...)
		switch {
		case takesFiles(command):
			specs = append(specs, zshQuote("*:file:_files"))
		case command.Name == "completion":
			specs = append(specs, zshQuote("1:shell:("+strings.Join(shells, " ")+")"))
		}
		fmt.Fprintf(&cases, "\t%s)\n\t\t_arguments -S \\\n\t\t\t%s ;;\n", command.Name, strings.Join(specs, " \\\n\t\t\t"))
	}
	return strings.NewReplacer("@COMMANDS@", commands.String(), "@CASES@", cases.String(),
		"@GLOBAL@", strings.Join(append(global, zshToggle("version", "print the version"), zshToggle("v", "print the version")), " \\\n\t\t")).Replace(zshScript)
}

// zshFlags describes flags to _arguments.
func zshFlags(flags []cli.Flag) (specs []string) {
	for _, f := range plainFlags(flags) {
		usage := ""
		if d, ok := f.(cli.DocGenerationFlag); ok {
			usage = d.GetUsage()
		}
		name := f.Names()[0]
		if !takesValue(f) {
			specs = append(specs, zshToggle(name, usage))
			continue
		}
		action := " "
		if words := flagWords[name]; words != nil {
			action = "(" + strings.Join(words, " ") + ")"
		} else if takesPath(f) {
			action = "_files"
		}
		specs = append(specs, zshQuote(dashed(name)+"=["+zshText(usage)+"]:"+zshText(placeholder(f))+":"+action))
	}
	return specs
}

func zshToggle(name, usage string) string { return zshQuote(dashed(name) + "[" + zshText(usage) + "]") }

// zshText escapes what _arguments gives a meaning to, and drops the marks around the name of a value.
func zshText(text string) string {
	return strings.NewReplacer("`", "", ":", "\\:", "[", "\\[", "]", "\\]").Replace(text)
}

func zshQuote(text string) string { return "'" + strings.ReplaceAll(text, "'", `'\''`) + "'" }

const zshScript = `#compdef siltstep
# Completion of siltstep for zsh.
_siltstep() {
	local curcontext=$curcontext state line
	typeset -A opt_args
	local -a commands
	commands=(
@COMMANDS@	)
	_arguments -C -S \
		@GLOBAL@ \
		'1:command:->command' \
		'*:: :->rest'
	case $state in
	command) _describe command commands; return ;;
	rest) ;;
	*) return ;;
	esac
	case $line[1] in
@CASES@	esac
}

if [[ $funcstack[1] == _siltstep ]]; then
	_siltstep "$@"
else
	compdef _siltstep siltstep
fi
`
