package cli

import "fmt"

// didYouMean returns a clause that offers the known name nearest to a mistyped one, or
// nothing where none is near: more than a third of its letters would have to change.
func didYouMean(typed string, known []string, prefix string) string {
	best, least := "", len(typed)/3+2
	for _, name := range known {
		if d := editDistance(typed, name); d < least {
			best, least = name, d
		}
	}
	if best == "" {
		return ""
	}
	return fmt.Sprintf("; did you mean %s%s?", prefix, best)
}

// editDistance returns how many letters must be put in, left out or changed to turn a into b.
func editDistance(a, b string) int {
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := range len(a) {
		diagonal := row[0]
		row[0] = i + 1
		for j := range len(b) {
			change := diagonal
			if a[i] != b[j] {
				change++
			}
			diagonal = row[j+1]
			row[j+1] = min(change, row[j]+1, row[j+1]+1)
		}
	}
	return row[len(b)]
}
