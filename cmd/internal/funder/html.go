package funder

import (
	"crypto/sha256"
	_ "embed"
	"encoding/base64"
	"encoding/xml"
	"errors"
	"fmt"
	"html/template"
	"io"
	"strings"
)

//go:embed summary.css
var css string

//go:embed summary.html
var sheet string

// writePage writes a document as one file.
func writePage(w io.Writer, d document, mapSVG []byte) error {
	style := strings.ReplaceAll(css, "\r\n", "\n")
	sum := sha256.Sum256([]byte(style))
	t, err := template.New("summary").Parse(sheet)
	if err != nil {
		return err
	}
	return t.Execute(w, view{
		Title: d.title, Style: template.CSS(style), Sections: viewOf(d),
		Policy: "default-src 'none'; style-src 'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'; img-src data:; base-uri 'none'; form-action 'none'",
		Map:    template.URL("data:image/svg+xml;base64," + base64.StdEncoding.EncodeToString(mapSVG)),
	})
}

type view struct {
	Title, Policy string
	Style         template.CSS
	Map           template.URL
	Sections      []viewSection
}

type viewSection struct {
	Title  string
	Apart  bool
	Blocks []viewBlock
}

type viewBlock struct {
	Text, Figure, Caption string
	Strong                bool
	List                  []string
	Head                  []viewCell
	Rows                  []viewRow
}

type viewRow struct {
	Total bool
	Cells []viewCell
}

type viewCell struct {
	Text  string
	Words bool // left; numbers stand to the right
	Name  bool // heads its row
}

func viewOf(d document) (list []viewSection) {
	for _, s := range d.sections {
		v := viewSection{Title: s.title, Apart: s.apart}
		for _, b := range s.blocks {
			one := viewBlock{Text: b.text, Strong: b.strong, List: b.list, Figure: b.figure}
			if t := b.table; t != nil {
				one.Caption, one.Head = t.caption, cellsOf(t.head, t.left)
				for i, row := range t.rows {
					cells := cellsOf(row, t.left)
					cells[0].Name = true
					one.Rows = append(one.Rows, viewRow{t.total && i == len(t.rows)-1, cells})
				}
			}
			v.Blocks = append(v.Blocks, one)
		}
		list = append(list, v)
	}
	return list
}

func cellsOf(row []string, left int) (cells []viewCell) {
	for i, text := range row {
		cells = append(cells, viewCell{Text: text, Words: i < left})
	}
	return cells
}

// checkMap refuses what is no picture alone: a map is well-formed SVG without scripts, handlers or anything outside of it.
func checkMap(svg []byte) error {
	if len(svg) == 0 {
		return nil
	}
	read := xml.NewDecoder(strings.NewReader(string(svg)))
	root := ""
	for {
		token, err := read.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return fmt.Errorf("map figure: %w", err)
		}
		e, ok := token.(xml.StartElement)
		if !ok {
			continue
		}
		if root == "" {
			root = e.Name.Local
		}
		if name := strings.ToLower(e.Name.Local); name == "script" || name == "foreignobject" {
			return fmt.Errorf("map figure: it holds a %s; give a plain SVG", e.Name.Local)
		}
		for _, a := range e.Attr {
			outside := a.Name.Local == "href" && !strings.HasPrefix(a.Value, "#") && !strings.HasPrefix(a.Value, "data:image/")
			if outside || strings.HasPrefix(strings.ToLower(a.Name.Local), "on") {
				return fmt.Errorf("map figure: %s=%.40q; give a plain SVG that points to nothing outside", a.Name.Local, a.Value)
			}
		}
	}
	if root != "svg" {
		return fmt.Errorf("map figure: the root is %q; give an SVG", root)
	}
	return nil
}
