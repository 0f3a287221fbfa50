package funder

// A document is what both forms are made from.
type document struct {
	title    string
	sections []section
}

// A section has a heading and what stands under it, in order.
type section struct {
	title  string
	apart  bool // begins on a page of its own when printed
	blocks []block
}

// A block is one paragraph, list, table or figure: that of its members which is not empty.
type block struct {
	text   string
	strong bool // of text: it is read first
	list   []string
	table  *grid
	figure string // what the map shows, in words
}

// A grid is a table. Columns of numbers stand to the right.
type grid struct {
	caption string
	head    []string
	left    int // columns of words, the first ones
	rows    [][]string
	total   bool // the last row is a sum
}

func (s *section) say(text string) { s.blocks = append(s.blocks, block{text: text}) }

func (s *section) warn(text string) { s.blocks = append(s.blocks, block{text: text, strong: true}) }

func (s *section) list(items ...string) {
	if len(items) > 0 {
		s.blocks = append(s.blocks, block{list: items})
	}
}

func (s *section) table(g grid) {
	if len(g.rows) > 0 {
		s.blocks = append(s.blocks, block{table: &g})
	}
}
