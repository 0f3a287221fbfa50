package cli

import (
	"fmt"
	"slices"
	"strings"

	"github.com/urfave/cli/v2"
)

// bashCompletion returns a script for bash 3.2 and later. It knows commands and flags by heart, so that no program runs at each key.
func bashCompletion(app *cli.App) string {
	var flags, values, files strings.Builder
	for _, command := range app.Commands {
		fmt.Fprintf(&flags, "\t\t%s) flags+=\" %s\" ;;\n", command.Name, strings.Join(dashedNames(plainFlags(command.Flags)), " "))
		if takesFiles(command) {
			fmt.Fprintf(&files, "|%s", command.Name)
		}
	}
	all := allFlags(app)
	fmt.Fprintf(&values, "\t\t%s) _siltstep_offer -f; return ;;\n", bashCase(all, takesPath))
	for _, f := range uniqueFlags(all) {
		if words := flagWords[f.Names()[0]]; words != nil {
			fmt.Fprintf(&values, "\t\t%s) _siltstep_offer -W '%s'; return ;;\n", dashed(f.Names()[0]), strings.Join(words, " "))
		}
	}
	return strings.NewReplacer(
		"@COMMANDS@", strings.Join(commandNames(app), " "), "@VALUED@", bashCase(all, takesValue), "@SHELLS@", strings.Join(shells, " "),
		"@GLOBAL@", strings.Join(append(dashedNames(plainFlags(app.Flags)), "--help", "-h"), " "),
		"@FLAGS@", strings.TrimRight(flags.String(), "\n"), "@VALUES@", strings.TrimRight(values.String(), "\n"), "@FILES@", strings.TrimPrefix(files.String(), "|"),
	).Replace(bashScript)
}

// uniqueFlags returns the first flag of each name.
func uniqueFlags(flags []cli.Flag) (list []cli.Flag) {
	for _, f := range flags {
		if !isOf(list, f.Names()[0]) {
			list = append(list, f)
		}
	}
	return list
}

// bashCase returns the pattern that the names of some flags match.
func bashCase(flags []cli.Flag, of func(cli.Flag) bool) string {
	var names []string
	for _, f := range uniqueFlags(flags) {
		if of(f) {
			names = append(names, dashedNames([]cli.Flag{f})...)
		}
	}
	slices.Sort(names)
	return strings.Join(names, "|")
}

const bashScript = `# Completion of siltstep for bash.
_siltstep_offer() {
	local one
	while IFS= read -r one; do
		COMPREPLY+=("$one")
	done < <(compgen "$@" -- "$word")
}

_siltstep() {
	local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD-1]} command= only_files= flags='@GLOBAL@' i
	COMPREPLY=()
	# bash takes --flag=value apart at the sign
	if [[ $word == = ]]; then
		word=
	elif [[ $before == = ]]; then
		before=${COMP_WORDS[COMP_CWORD-2]}
	fi
	for ((i = 1; i < COMP_CWORD; i++)); do
		case ${COMP_WORDS[i]} in
		--) only_files=yes ;;
		@VALUED@)
			if [[ ${COMP_WORDS[i+1]} == = ]]; then ((i++)); fi
			((i++)) ;;
		-*) ;;
		*) if [[ -z $command ]]; then command=${COMP_WORDS[i]}; fi ;;
		esac
	done
	if [[ -z $only_files ]]; then
		case $before in
@VALUES@
		@VALUED@) return ;;
		esac
		case $command in
		'') flags+=' --version -v' ;;
@FLAGS@
		esac
		if [[ $word == -* ]]; then
			_siltstep_offer -W "$flags"
			return
		fi
	fi
	case $command in
	'') _siltstep_offer -W '@COMMANDS@ help' ;;
	help) _siltstep_offer -W '@COMMANDS@' ;;
	completion) _siltstep_offer -W '@SHELLS@' ;;
	@FILES@) _siltstep_offer -f ;;
	esac
}

complete -o filenames -F _siltstep siltstep
`
