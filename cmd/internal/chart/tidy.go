package chart

import (
	"bytes"
	"html"
	"regexp"
	"strconv"
)

var (
	svgNumber = regexp.MustCompile(`-?\d+\.\d+(?:e[-+]\d+)?|-?\d+e[-+]\d+`)
	svgTag    = regexp.MustCompile(`(?s)<[^>]*>`)
	svgFamily = regexp.MustCompile(`font-family:[^;]*;font-variant:[^;]*;font-weight:[^;]*;font-style:[^;"]*`)
	svgNote   = regexp.MustCompile(`<!--[^>]*-->\n?`)
)

// tidy makes the drawing the same on every machine: numbers inside tags are rounded to 0.1,
// fonts are named with others that serve as well, and a description is put in.
func tidy(svg []byte, description string) []byte {
	svg = svgNote.ReplaceAll(svg, nil)
	svg = svgTag.ReplaceAllFunc(svg, func(tag []byte) []byte {
		if bytes.HasPrefix(tag, []byte("<?")) {
			return tag
		}
		tag = svgFamily.ReplaceAll(tag, []byte("font-family:Liberation Sans,Arial,Helvetica,sans-serif"))
		return svgNumber.ReplaceAllFunc(tag, rounded)
	})
	at := bytes.Index(svg, []byte("<svg"))
	at += bytes.IndexByte(svg[at:], '>') + 1
	head := append([]byte(nil), svg[:at]...)
	head = append(head, "\n<title>"+html.EscapeString(description)+"</title>"...)
	return append(head, svg[at:]...)
}

// rounded writes a number with one decimal at most; a number that is not one stays.
func rounded(number []byte) []byte {
	v, err := strconv.ParseFloat(string(number), 64)
	if err != nil {
		return number
	}
	text := strconv.FormatFloat(v, 'f', 1, 64)
	if cut := bytes.TrimSuffix([]byte(text), []byte(".0")); !bytes.Equal(cut, []byte("-0")) {
		return cut
	}
	return []byte("0")
}
