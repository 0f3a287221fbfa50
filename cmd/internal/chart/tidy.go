package chart

import (
	"bytes"
	"html"
	"regexp"
	"strconv"
)

var (
	svgFamily = regexp.MustCompile(`font-family:[^;]*;font-variant:[^;]*;font-weight:[^;]*;font-style:[^;"]*`)
	svgNote   = regexp.MustCompile(`<!--[^>]*-->\n?`)
)

// tidy makes the drawing the same on every machine: numbers inside tags are rounded to 0.1,
// fonts are named with others that serve as well, and a description is put in.
func tidy(svg []byte, description string) []byte {
	svg = svgNote.ReplaceAll(svg, nil)
	out := make([]byte, 0, len(svg))
	for first := true; ; {
		open := bytes.IndexByte(svg, '<')
		if open < 0 {
			return append(out, svg...)
		}
		size := bytes.IndexByte(svg[open:], '>') + 1
		if size == 0 {
			return append(out, svg...)
		}
		out = append(out, svg[:open]...)
		tag := svg[open : open+size]
		svg = svg[open+size:]
		if bytes.HasPrefix(tag, []byte("<?")) {
			out = append(out, tag...)
			continue
		}
		if bytes.Contains(tag, []byte("font-family:")) {
			tag = svgFamily.ReplaceAll(tag, []byte("font-family:Liberation Sans,Arial,Helvetica,sans-serif"))
		}
		out = appendRounded(out, tag)
		if first && bytes.HasPrefix(tag, []byte("<svg")) {
			out = append(out, "\n<title>"+html.EscapeString(description)+"</title>"...)
			first = false
		}
	}
}

// appendRounded appends a tag with its fractions rounded to 0.1; whole numbers stay.
func appendRounded(out, tag []byte) []byte {
	for at := 0; at < len(tag); {
		size, fraction := numberAt(tag[at:])
		switch {
		case fraction:
			out = append(out, rounded(tag[at:at+size])...)
			at += size
		case size > 0:
			out = append(out, tag[at:at+size]...)
			at += size
		default:
			out = append(out, tag[at])
			at++
		}
	}
	return out
}

// numberAt returns the length of the number that a text begins with, 0 for none, and whether it
// has a fraction or an exponent.
func numberAt(text []byte) (size int, fraction bool) {
	digits := func() int {
		from := size
		for size < len(text) && text[size] >= '0' && text[size] <= '9' {
			size++
		}
		return size - from
	}
	if len(text) > 0 && text[0] == '-' {
		size++
	}
	if digits() == 0 {
		return 0, false
	}
	if whole := size; size < len(text) && text[size] == '.' {
		if size++; digits() == 0 {
			return whole, false
		}
		fraction = true
	}
	if whole := size; size+1 < len(text) && text[size] == 'e' && (text[size+1] == '-' || text[size+1] == '+') {
		if size += 2; digits() == 0 {
			return whole, fraction
		}
		fraction = true
	}
	return size, fraction
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
