package settings

import (
	"strings"

	"siltstep/cmd/internal/units"

	"github.com/goccy/go-yaml/ast"
)

// value is what stands behind a key: one text, a list of texts, or a form that settings do
// not take.
type value struct {
	texts []string
	list  bool
	wrong string // why no key takes it; empty where it is a text or a list of texts
}

// shown returns the value as a message shows it.
func (v value) shown() string {
	const most = 4 // items
	switch {
	case v.wrong != "" || len(v.texts) == 0 && !v.list:
		return ""
	case !v.list:
		return units.Shown(v.texts[0])
	}
	var items []string
	for i, t := range v.texts {
		if i == most {
			items = append(items, "…")
			break
		}
		items = append(items, units.Shown(t))
	}
	return "[" + strings.Join(items, ", ") + "]"
}

// valueOf returns the value in a node.
func valueOf(n ast.Node) value {
	list, ok := n.(*ast.SequenceNode)
	if !ok {
		text, wrong := textOf(n)
		if wrong != "" {
			return value{wrong: wrong}
		}
		return value{texts: []string{text}}
	}
	v := value{list: true}
	for _, item := range list.Values {
		text, wrong := textOf(item)
		if wrong != "" {
			return value{wrong: "in the list: " + wrong}
		}
		v.texts = append(v.texts, text)
	}
	return v
}

// textOf returns the text of a single value as it was typed, or why it is none.
func textOf(n ast.Node) (text, wrong string) {
	switch n := n.(type) {
	case nil, *ast.NullNode:
		return "", "no value"
	case *ast.StringNode:
		return n.Value, ""
	case *ast.IntegerNode, *ast.FloatNode, *ast.BoolNode, *ast.InfinityNode, *ast.NanNode:
		return n.GetToken().Value, ""
	case *ast.AnchorNode, *ast.AliasNode, *ast.MergeKeyNode:
		return "", "an anchor or alias (& or *), which settings do not take"
	case *ast.TagNode:
		return "", "a tag (!), which settings do not take"
	case *ast.LiteralNode:
		return "", "a block of text, where one line is wanted"
	case *ast.SequenceNode:
		return "", "a list, where a single value is wanted"
	}
	return "", "keys, where a value is wanted"
}

// isNothing reports whether nothing was written.
func isNothing(n ast.Node) bool { return n == nil || n.Type() == ast.NullType }

// pairsOf returns the keys and values of a node that holds some.
func pairsOf(n ast.Node) ([]*ast.MappingValueNode, bool) {
	switch n := n.(type) {
	case *ast.MappingNode:
		return n.Values, true
	case *ast.MappingValueNode:
		return []*ast.MappingValueNode{n}, true
	}
	return nil, false
}

// keyOf returns the key of a pair, fit to be shown, or why it is none.
func keyOf(p *ast.MappingValueNode) (string, *Fault) {
	if text, wrong := textOf(p.Key); wrong == "" {
		return units.Shown(text), nil
	}
	return "", &Fault{Line: lineOf(p.Key), Allowed: "a key is a plain word; <<, ?, &, * and ! are not taken"}
}

// lineOf returns the line of a node from 1, or 0 where it is not known.
func lineOf(n ast.Node) int {
	if n == nil {
		return 0
	}
	if t := n.GetToken(); t != nil && t.Position != nil {
		return t.Position.Line
	}
	return 0
}

// startOf returns the line on which a document begins, or 0.
func startOf(d *ast.DocumentNode) int {
	if d.Start != nil && d.Start.Position != nil {
		return d.Start.Position.Line
	}
	return lineOf(d.Body)
}

// oneLine joins the lines of a message and cuts a long one.
func oneLine(text string) string {
	const most = 200 // characters
	r := []rune(strings.Join(strings.Fields(strings.ReplaceAll(text, "\t", `\t`)), " "))
	if len(r) > most {
		return string(r[:most]) + "…"
	}
	return string(r)
}
