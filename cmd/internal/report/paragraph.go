package report

import (
	"bytes"
	"strings"
	"unicode/utf8"
)

// paragraph writes a text broken at blanks into lines of terminalCols characters at most,
// the first after lead, the others under it. A longer word keeps a line to itself.
func paragraph(out *bytes.Buffer, lead, text string) {
	indent := utf8.RuneCountInString(lead)
	out.WriteString(lead)
	at := indent
	for _, word := range strings.Fields(text) {
		n := utf8.RuneCountInString(word)
		switch {
		case at == indent:
		case at+1+n > terminalCols:
			out.WriteString("\n" + strings.Repeat(" ", indent))
			at = indent
		default:
			out.WriteByte(' ')
			at++
		}
		out.WriteString(word)
		at += n
	}
	out.WriteByte('\n')
}
