package chart

import "strings"

// textWidth returns the most that a text takes across the page, points.
func textWidth(words string, size float64) float64 {
	return fontSlack * float64(style(size, ink).Width(words))
}

// shortened cuts a text that is wider than the room, and says so by an ellipsis.
func shortened(words string, size, room float64) string {
	if textWidth(words, size) <= room {
		return words
	}
	letters := []rune(words)
	for n := len(letters) - 1; n > 0; n-- {
		if cut := strings.TrimRight(string(letters[:n]), " ,") + "…"; textWidth(cut, size) <= room {
			return cut
		}
	}
	return "…"
}

// wrapped breaks a text between words into lines no wider than the room; what does not fit into the most
// lines is cut.
func wrapped(words string, size, room float64, most int) []string {
	var lines []string
	for _, word := range strings.Fields(words) {
		last := len(lines) - 1
		if last >= 0 && (textWidth(lines[last]+" "+word, size) <= room || len(lines) == most) {
			lines[last] += " " + word
			continue
		}
		lines = append(lines, word)
	}
	for i := range lines {
		lines[i] = shortened(lines[i], size, room)
	}
	return lines
}
