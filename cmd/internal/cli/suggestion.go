package cli

import (
	"fmt"

	"siltstep/cmd/internal/settings"
)

// didYouMean returns a clause that offers the known name nearest to a mistyped one, or
// nothing where more than a third of its letters and one would have to change.
func didYouMean(typed string, known []string, prefix string) string {
	best := settings.Nearest(typed, known, len(typed)/3+1)
	if best == "" {
		return ""
	}
	return fmt.Sprintf("; did you mean %s%s?", prefix, best)
}
