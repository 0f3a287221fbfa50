package funder

import "strings"

// escape keeps text from being read as Markdown or HTML.
var escape = strings.NewReplacer("\\", "\\\\", "`", "\\`", "*", "\\*", "_", "\\_", "[", "\\[", "]", "\\]", "<", "&lt;", ">", "&gt;", "&", "&amp;", "|", "\\|", "#", "\\#", "\r", " ", "\n", " ")

func markdown(d document, mapFile string) string {
	var b strings.Builder
	b.WriteString("# " + escape.Replace(d.title) + "\n")
	for _, s := range d.sections {
		b.WriteString("\n## " + escape.Replace(s.title) + "\n")
		for _, x := range s.blocks {
			b.WriteByte('\n')
			switch {
			case x.table != nil:
				writeTable(&b, x.table)
			case x.list != nil:
				for _, item := range x.list {
					b.WriteString("- " + escape.Replace(item) + "\n")
				}
			case x.figure != "":
				b.WriteString("![" + escape.Replace(x.figure) + "](<" + strings.NewReplacer("<", "", ">", "", "\n", "").Replace(mapFile) + ">)\n")
			case x.strong:
				b.WriteString("**" + escape.Replace(x.text) + "**\n")
			default:
				b.WriteString(escape.Replace(x.text) + "\n")
			}
		}
	}
	return b.String()
}

func writeTable(b *strings.Builder, t *grid) {
	b.WriteString("*" + escape.Replace(t.caption) + "*\n\n")
	line := func(cells []string, strong bool) {
		b.WriteByte('|')
		for _, c := range cells {
			c = escape.Replace(c)
			if strong && c != "" {
				c = "**" + c + "**"
			}
			b.WriteString(" " + c + " |")
		}
		b.WriteByte('\n')
	}
	line(t.head, false)
	b.WriteByte('|')
	for i := range t.head {
		if i < t.left {
			b.WriteString(" --- |")
		} else {
			b.WriteString(" ---: |")
		}
	}
	b.WriteByte('\n')
	for i, row := range t.rows {
		line(row, t.total && i == len(t.rows)-1)
	}
}
