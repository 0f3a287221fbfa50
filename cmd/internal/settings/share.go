package settings

import (
	"errors"
	"strings"

	"siltstep/cmd/internal/units"
)

// share is a part of a whole, written as 40 % or 0.4.
var share = measure{"share", parseShare, shareText}

const shareWanted = "a share is a number with % or without, such as 40 % or 0.4"

// parseShare returns a share as a number, at least 0.
func parseShare(text string) (float64, error) {
	parse := units.ParseNumber
	if strings.HasSuffix(text, "%") {
		parse = units.ParseSlope // which knows the sign alone as 1/100
	}
	x, err := parse(text)
	if err != nil || x < 0 {
		return 0, errors.New(shareWanted)
	}
	return x, nil
}

// shareText writes a share in per cent where that reads back to the same number.
func shareText(x float64) string {
	if text := units.SlopeText(x); strings.HasSuffix(text, "%") {
		return text
	}
	return units.NumberText(x)
}
