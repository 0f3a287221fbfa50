package page

import (
	"reflect"
	"strings"

	"siltstep/cmd/internal/facts"
)

// A table holds records column by column, which is much shorter than record by record. A column of words is either the words themselves, or a list
// of the words that occur and the place in it of each.
type table struct {
	Rows    int                 `json:"rows"`
	Columns map[string]any      `json:"columns"`
	Words   map[string][]string `json:"words,omitempty"`
}

// columnsOf turns records with JSON tags into a table.
func columnsOf[T any](records []T) table {
	t := table{Rows: len(records), Columns: map[string]any{}, Words: map[string][]string{}}
	for _, field := range reflect.VisibleFields(reflect.TypeFor[T]()) {
		name, _, _ := strings.Cut(field.Tag.Get("json"), ",")
		if field.Anonymous || name == "" {
			continue
		}
		switch field.Type {
		case reflect.TypeFor[string]():
			t.addWords(name, columnOf[string](records, field.Index))
		case reflect.TypeFor[facts.Num]():
			t.Columns[name] = columnOf[facts.Num](records, field.Index)
		case reflect.TypeFor[int]():
			t.Columns[name] = columnOf[int](records, field.Index)
		case reflect.TypeFor[bool]():
			t.Columns[name] = columnOf[bool](records, field.Index)
		default:
			panic("page: a record with a field of type " + field.Type.String())
		}
	}
	return t
}

func columnOf[V, T any](records []T, index []int) []V {
	column := make([]V, len(records))
	for i := range records {
		column[i] = reflect.ValueOf(&records[i]).Elem().FieldByIndex(index).Interface().(V)
	}
	return column
}

// addWords adds a column of words, listed once each where they repeat.
func (t *table) addWords(name string, column []string) {
	var words []string
	place := map[string]int{}
	at := make([]int, len(column))
	for i, word := range column {
		k, seen := place[word]
		if !seen {
			k = len(words)
			place[word] = k
			words = append(words, word)
		}
		at[i] = k
	}
	if 2*len(words) > len(column) {
		t.Columns[name] = column
		return
	}
	t.Columns[name], t.Words[name] = at, words
}
