package page

import (
	"crypto/sha256"
	"embed"
	"encoding/base64"
	"regexp"
	"strings"
)

//go:embed assets
var assets embed.FS

// Scripts and styles of the page, in the order in which they are joined.
var (
	scripts = []string{"element", "unpack", "units", "link", "mark", "map", "layer", "label", "pointer", "profile", "drawing", "table", "column", "section", "value", "dam", "drainage", "answer", "works", "workbench", "print", "start"}
	styles  = []string{"base", "bench", "map", "table", "panel", "print"}
)

// scriptText joins the libraries with their licences and our own scripts, which share one scope and nothing with the rest.
func scriptText() (string, error) {
	var b strings.Builder
	for _, library := range []string{"leaflet", "uplot"} {
		licence, err := assets.ReadFile("assets/vendor/" + library + ".LICENSE")
		if err != nil {
			return "", err
		}
		text, err := assets.ReadFile("assets/vendor/" + library + ".js")
		if err != nil {
			return "", err
		}
		b.WriteString("/*! " + library + "\n" + string(licence) + "*/\n" + sourceMap.ReplaceAllString(string(text), "") + "\n")
	}
	b.WriteString("(() => {\n\"use strict\";\n")
	for _, name := range scripts {
		text, err := assets.ReadFile("assets/" + name + ".js")
		if err != nil {
			return "", err
		}
		b.Write(text)
	}
	b.WriteString("})();\n")
	return plainLines(b.String()), nil
}

// styleText joins the styles of the libraries, without the pictures they name, and our own.
func styleText() (string, error) {
	var b strings.Builder
	for _, library := range []string{"leaflet", "uplot"} {
		text, err := assets.ReadFile("assets/vendor/" + library + ".css")
		if err != nil {
			return "", err
		}
		b.WriteString(picture.ReplaceAllString(string(text), "") + "\n")
	}
	for _, name := range styles {
		text, err := assets.ReadFile("assets/" + name + ".css")
		if err != nil {
			return "", err
		}
		b.Write(text)
	}
	return plainLines(b.String()), nil
}

// plainLines ends lines as a browser does before it takes the hash of a text.
func plainLines(text string) string { return strings.ReplaceAll(text, "\r\n", "\n") }

// What points to files that are not in the page.
var (
	sourceMap = regexp.MustCompile(`(?m)^//# sourceMappingURL=.*$`)
	picture   = regexp.MustCompile(`(?:background-image|behavior):\s*url\([^)]*\);`)
)

// policy lets the page run its own script, use its own styles and show pictures it holds, and nothing else.
func policy(script, style string) string {
	return "default-src 'none'; script-src " + hash(script) + "; style-src " + hash(style) + "; img-src data:; base-uri 'none'; form-action 'none'"
}

func hash(text string) string {
	sum := sha256.Sum256([]byte(text))
	return "'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'"
}
