package cards

import (
	"fmt"
	"strings"
	"time"
	"unicode/utf8"

	"codeberg.org/go-fonts/liberation/liberationsansbold"
	"codeberg.org/go-fonts/liberation/liberationsansregular"
	"codeberg.org/go-pdf/fpdf"
)

// Measures of the paper, mm.
const (
	margin     = 10.0
	footerRoom = 6.0
	mmPerPoint = 25.4 / 72
	leading    = 1.2 // line pitch over size of the letters
)

// Sizes of letters, points.
const (
	leastSize = 8.0
	plainSize = 9.0
	headSize  = 10.5
	nameSize  = 30.0
)

// Greys, 0 black to 255 white.
const (
	black    = 0
	darkGrey = 90
	paleGrey = 225
	white    = 255
)

const family = "Sans"

// A sheet is a paper with a pen: positions in mm from the upper left corner.
type sheet struct {
	pdf         *fpdf.Fpdf
	wide, high  float64 // of the paper
	size        float64 // of the letters in use
	bold, start bool
}

// newSheet opens a paper. Its dates are pinned.
func newSheet(paper, title string) (*sheet, error) {
	sizes := map[string]string{"": "A4", "a4": "A4", "letter": "Letter"}
	name, ok := sizes[strings.ToLower(paper)]
	if !ok {
		return nil, fmt.Errorf("paper %q is not known: take a4 or letter", paper)
	}
	pdf := fpdf.New("P", "mm", name, "")
	pinned := time.Date(2000, time.January, 1, 0, 0, 0, 0, time.UTC)
	pdf.SetCreationDate(pinned)
	pdf.SetModificationDate(pinned)
	pdf.SetCatalogSort(true)
	pdf.SetProducer("siltstep", true)
	pdf.SetTitle(title+": crew cards", true)
	pdf.SetLang("en")
	pdf.SetMargins(margin, margin, margin)
	pdf.SetCellMargin(0)
	pdf.SetAutoPageBreak(false, 0)
	pdf.AddUTF8FontFromBytes(family, "", liberationsansregular.TTF)
	pdf.AddUTF8FontFromBytes(family, "B", liberationsansbold.TTF)
	wide, high := pdf.GetPageSize()
	return &sheet{pdf: pdf, wide: wide, high: high}, pdf.Error()
}

// right and bottom are where the paper's margins begin; bottom leaves room for the footer.
func (s *sheet) right() float64  { return s.wide - margin }
func (s *sheet) bottom() float64 { return s.high - margin - footerRoom }
func (s *sheet) inner() float64  { return s.wide - 2*margin }

// page begins a page with its footer.
func (s *sheet) page(footer string) {
	s.pdf.AddPage()
	s.start = true
	s.pdf.SetLineCapStyle("butt")
	s.pdf.SetLineJoinStyle("round")
	s.line(0.2, darkGrey, margin, s.high-margin-3.6, s.right(), s.high-margin-3.6)
	s.text(margin, s.high-margin, leastSize, false, s.short(footer, s.inner(), leastSize))
}

// letters sets size and weight.
func (s *sheet) letters(size float64, bold bool) {
	if !s.start && s.size == size && s.bold == bold {
		return
	}
	style := ""
	if bold {
		style = "B"
	}
	s.pdf.SetFont(family, style, size)
	s.size, s.bold, s.start = size, bold, false
}

// text writes a line with its base at y.
func (s *sheet) text(x, y, size float64, bold bool, words string) {
	s.letters(size, bold)
	s.pdf.Text(x, y, printable(words))
}

// textRight writes a line that ends at x; textMid one with its middle there.
func (s *sheet) textRight(x, y, size float64, bold bool, words string) {
	s.text(x-s.width(size, bold, words), y, size, bold, words)
}

func (s *sheet) textMid(x, y, size float64, bold bool, words string) {
	s.text(x-s.width(size, bold, words)/2, y, size, bold, words)
}

// width returns the width of a line, mm.
func (s *sheet) width(size float64, bold bool, words string) float64 {
	s.letters(size, bold)
	return s.pdf.GetStringWidth(printable(words))
}

// printable replaces what the letters cannot show.
func printable(words string) string {
	return strings.Map(func(r rune) rune {
		if r > 0xFFFF || r == utf8.RuneError {
			return '?'
		}
		return r
	}, words)
}

// short cuts a line to a width.
func (s *sheet) short(words string, wide, size float64) string {
	lines := s.wrapped(words, wide, size, false)
	if len(lines) < 2 {
		return words
	}
	return s.wrapped(words, wide-s.width(size, false, " …"), size, false)[0] + " …"
}

// pitch returns the distance between lines of a size, mm.
func pitch(size float64) float64 { return size * mmPerPoint * leading }

// wrapped breaks words into lines of at most some width, mm. A word that is wider is broken.
func (s *sheet) wrapped(words string, wide, size float64, bold bool) (lines []string) {
	s.letters(size, bold)
	line := ""
	for word := range strings.FieldsSeq(printable(words)) {
		for _, piece := range s.pieces(word, wide) {
			with := piece
			if line != "" {
				with = line + " " + piece
			}
			if line != "" && s.pdf.GetStringWidth(with) > wide {
				lines = append(lines, line)
				with = piece
			}
			line = with
		}
	}
	if line != "" {
		lines = append(lines, line)
	}
	return lines
}

// pieces breaks a word that is wider than a line.
func (s *sheet) pieces(word string, wide float64) (list []string) {
	for s.pdf.GetStringWidth(word) > wide {
		letters := []rune(word)
		n := len(letters) - 1
		for n > 1 && s.pdf.GetStringWidth(string(letters[:n])) > wide {
			n--
		}
		if n == 0 {
			break
		}
		list, word = append(list, string(letters[:n])), string(letters[n:])
	}
	return append(list, word)
}

// block writes words in lines from a first base line and returns the base of the next line.
func (s *sheet) block(x, y, wide, size float64, bold bool, words string) float64 {
	for _, line := range s.wrapped(words, wide, size, bold) {
		s.text(x, y, size, bold, line)
		y += pitch(size)
	}
	return y
}
