package cards

import (
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"siltstep/cmd/internal/facts"
)

// mostWeaknesses is how many reasons why a dam may fail stand on a card.
const mostWeaknesses = 3

// A remark is a heading or one item under it.
type remark struct {
	words string
	head  bool
}

// A remarkLine is a line of a remark as it is set.
type remarkLine struct {
	words  string
	head   bool
	remark int // which
	first  bool
}

// remarksOf returns what to heed, to check and to fear at a dam.
func (d *document) remarksOf(s facts.Site) (list []remark) {
	part := func(head string, items []string, none string) {
		list = append(list, remark{head, true})
		if len(items) == 0 && none != "" {
			items = []string{none}
		}
		for _, one := range items {
			list = append(list, remark{d.sentence(one), false})
		}
	}
	cautions := split(s.Cautions)
	if design := d.f.Design(s.ID); design != nil && design.Missing != "" {
		cautions = append([]string{"Not known yet: " + design.Missing}, cautions...)
	}
	part("Cautions", cautions, "None of its own. Those of the cover hold here too.")
	part("Check on the ground first", d.f.ChecksOf(s.ID), "The plan asks for nothing special: look at bed, banks, rock and what lies below.")
	var weak []string
	for _, w := range d.f.WeaknessesOf(s.ID) {
		if len(weak) < mostWeaknesses {
			weak = append(weak, w.Text)
		}
	}
	part("What may make it fail", weak, "Not judged in this plan.")
	return list
}

// split takes joined sentences apart: "; " before a capital letter.
func split(joined string) (list []string) {
	for part := range strings.SplitSeq(joined, "; ") {
		first, _ := utf8.DecodeRuneInString(part)
		switch {
		case part == "":
		case len(list) > 0 && !unicode.IsUpper(first):
			list[len(list)-1] += "; " + part
		default:
			list = append(list, part)
		}
	}
	for i, one := range list {
		if !strings.HasSuffix(one, ".") {
			list[i] = one + "."
		}
	}
	return list
}

// remarks sets the remarks in two columns between two heights, in letters as large as fit. What does not fit at the least size is cut,
// and the card says how many remarks are left and where they are.
func (d *document) remarks(list []remark, s facts.Site, top, foot float64) {
	half := d.remarkWide()
	var lines []remarkLine
	var per int
	size := plainSize
	for ; ; size -= 0.5 {
		lines, per = d.setRemarks(list, half, size), int((foot-top)/pitch(size)+0.01)
		if fits(lines, per) || size <= leastSize {
			break
		}
	}
	left := 0
	if !fits(lines, per) {
		list, left = d.pruned(list, half, size, per)
		lines = d.setRemarks(list, half, size)
	}
	lines = cut(lines, per, s.ID, left)
	column := columnBreak(lines, per)
	for i, one := range lines {
		x, n := margin, i
		if i >= column {
			x, n = margin+half+3*partGap, i-column
		}
		y := top + float64(n)*pitch(size) + size*mmPerPoint
		switch {
		case one.head:
			d.text(x, y, size, true, one.words)
		default:
			if one.first {
				d.box(0, black, x+0.6, y-1.7, 1.1, 1.1)
			}
			d.text(x+bulletRoom, y, size, false, one.words)
		}
	}
}

// remarkWide is the width of a column, mm.
func (d *document) remarkWide() float64 { return (d.inner() - 3*partGap) / 2 }

// remarksHigh returns the height that remarks take at their plain size, mm.
func (d *document) remarksHigh(list []remark) float64 {
	lines := d.setRemarks(list, d.remarkWide(), plainSize)
	left := columnBreak(lines, len(lines))
	return float64(max(left, len(lines)-left)) * pitch(plainSize)
}

// bulletRoom is what stands before an item, mm.
const bulletRoom = 3.0

// setRemarks breaks remarks into lines.
func (d *document) setRemarks(list []remark, wide, size float64) (lines []remarkLine) {
	for i, one := range list {
		room := wide - bulletRoom
		if one.head {
			room = wide
		}
		for k, words := range d.wrapped(one.words, room, size, one.head) {
			lines = append(lines, remarkLine{words, one.head, i, k == 0})
		}
	}
	return lines
}

// columnBreak returns how many lines stand in the left column: about half, between two remarks, where a column of per lines allows it, and
// no heading last.
func columnBreak(lines []remarkLine, per int) int {
	half := min((len(lines)+1)/2, per)
	best := half
	for left := max(1, len(lines)-per); left <= min(per, len(lines)-1); left++ {
		whole := lines[left].remark != lines[left-1].remark && !lines[left-1].head
		if whole && (best == half || abs(left-half) < abs(best-half)) {
			best = left
		}
	}
	for best > 1 && lines[best-1].head && len(lines)-(best-1) <= per {
		best--
	}
	return best
}

func abs(n int) int { return max(n, -n) }

// fits tells whether lines fit two columns.
func fits(lines []remarkLine, per int) bool {
	return len(lines)-columnBreak(lines, per) <= per
}

// pruned leaves out the last items of the longest parts until what remains, and a notice, fits two columns; at least one item of each
// part stays. It returns how many it left out.
func (d *document) pruned(list []remark, wide, size float64, per int) (kept []remark, left int) {
	kept = slices.Clone(list)
	for {
		lines := d.setRemarks(kept, wide, size)
		if fits(slices.Concat(lines, make([]remarkLine, noticeLines)), per) {
			return kept, left
		}
		at := longest(kept, lines)
		if at < 0 {
			return kept, left
		}
		kept = slices.Delete(kept, at, at+1)
		left++
	}
}

// longest returns the last item of the part with most lines, of those with more than one item; -1 for none.
func longest(list []remark, lines []remarkLine) int {
	tall := make([]int, len(list))
	for _, one := range lines {
		tall[one.remark]++
	}
	best, most := -1, 0
	for from := 0; from < len(list); {
		to, sum := from+1, 0
		for ; to < len(list) && !list[to].head; to++ {
			sum += tall[to]
		}
		if to-from > 2 && sum > most {
			best, most = to-1, sum
		}
		from = to
	}
	return best
}

// noticeLines is what a card needs to say that remarks are missing.
const noticeLines = 2

// cut leaves as many lines as fit, the last two saying what is missing: the items left out before and those that lose lines here.
func cut(lines []remarkLine, per int, id string, left int) []remarkLine {
	if left == 0 && fits(lines, per) {
		return lines
	}
	kept, missing := slices.Clone(lines), map[int]bool{}
	for n := len(kept); n > 0 && (!fits(slices.Concat(kept, make([]remarkLine, noticeLines)), per) || kept[n-1].head); n = len(kept) {
		if !kept[n-1].head {
			missing[kept[n-1].remark] = true
		}
		kept = kept[:n-1]
	}
	if n := len(kept); n > 0 && missing[kept[n-1].remark] {
		kept[n-1].words += " …"
	}
	return append(kept,
		remarkLine{words: fmt.Sprintf("%s cut or left out: read them in plan.json,", plural(len(missing)+left, "remark")), head: true, remark: -1},
		remarkLine{words: fmt.Sprintf("sites, checks and weaknesses of %s.", id), head: true, remark: -1})
}
