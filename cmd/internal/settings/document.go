package settings

import (
	"errors"
	"fmt"

	"github.com/goccy/go-yaml"
	"github.com/goccy/go-yaml/ast"
	"github.com/goccy/go-yaml/parser"
)

// entry is one key of the file with its value as it was written.
type entry struct {
	section, key string // dams, height
	line         int
	value        value
}

// name returns the full name, such as dams.height.
func (e entry) name() string { return e.section + "." + e.key }

// document returns the entries of a settings text in the order of the file, and the faults
// of its form: what YAML or these settings do not allow wherever it stands.
func document(text string) ([]entry, []*Fault) {
	file, err := parser.ParseBytes([]byte(text), 0, parser.AllowDuplicateMapKey())
	if err != nil {
		return nil, []*Fault{syntax(err)}
	}
	if len(file.Docs) == 0 {
		return nil, nil
	}
	for _, d := range file.Docs {
		if d.Body != nil && d.Body.Type() == ast.DirectiveType {
			return nil, []*Fault{{Line: lineOf(d.Body), Allowed: "a YAML directive; settings take none, remove the line"}}
		}
	}
	if len(file.Docs) > 1 {
		return nil, []*Fault{{Line: startOf(file.Docs[1]), Allowed: "a second YAML document; settings are one, remove the line ---"}}
	}
	return sections(file.Docs[0].Body)
}

// sections reads the top level: groups of keys.
func sections(body ast.Node) (entries []entry, faults []*Fault) {
	if isNothing(body) {
		return nil, nil
	}
	pairs, ok := pairsOf(body)
	if !ok {
		return nil, []*Fault{{Line: lineOf(body), Value: valueOf(body).shown(), Allowed: "a settings file is sections with keys, such as dams: {height: 0.6 m}"}}
	}
	first := map[string]int{}
	for _, p := range pairs {
		section, fault := keyOf(p)
		switch {
		case fault != nil:
			faults = append(faults, fault)
			continue
		case first[section] != 0:
			faults = append(faults, twice(lineOf(p.Key), section, first[section]))
		default:
			first[section] = lineOf(p.Key)
			if f := sectionFault(section, lineOf(p.Key)); f != nil {
				faults = append(faults, f)
				continue
			}
		}
		e, f := keys(section, p)
		entries, faults = append(entries, e...), append(faults, f...)
	}
	return entries, faults
}

// keys reads one section.
func keys(section string, p *ast.MappingValueNode) (entries []entry, faults []*Fault) {
	if isNothing(p.Value) {
		return nil, nil
	}
	pairs, ok := pairsOf(p.Value)
	if !ok {
		return nil, []*Fault{{Line: lineOf(p.Key), Key: section, Value: valueOf(p.Value).shown(), Allowed: "a section holds keys: " + inSection(section)}}
	}
	first := map[string]int{}
	for _, q := range pairs {
		key, fault := keyOf(q)
		if fault != nil {
			faults = append(faults, fault)
			continue
		}
		e := entry{section: section, key: key, line: lineOf(q.Key), value: valueOf(q.Value)}
		if first[key] != 0 {
			faults = append(faults, twice(e.line, e.name(), first[key]))
			continue
		}
		first[key] = e.line
		entries = append(entries, e)
	}
	return entries, faults
}

func twice(line int, key string, first int) *Fault {
	return &Fault{Line: line, Key: key, Allowed: fmt.Sprintf("given twice, first on line %d; keep one", first)}
}

// syntax tells a YAML error in one line, with its place.
func syntax(err error) *Fault {
	f := &Fault{Allowed: "not YAML: " + oneLine(err.Error()), cause: err}
	var at yaml.Error
	if errors.As(err, &at) {
		f.Allowed = "not YAML: " + oneLine(at.GetMessage())
		if t := at.GetToken(); t != nil && t.Position != nil {
			f.Line = t.Position.Line
		}
	}
	return f
}
