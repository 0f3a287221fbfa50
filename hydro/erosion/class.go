package erosion

import "math"

// Severities at which the class changes. Source: this project's judgement.
const (
	WatchFrom   = 20.0 // from here on watch
	ErodingOver = 40.0 // above it eroding
	SevereOver  = 60.0 // above it severe
)

// ClassOf returns the class of a severity from 0 to 100; empty for NaN.
func ClassOf(total float64) Class {
	switch {
	case math.IsNaN(total):
		return ""
	case total < WatchFrom:
		return Sound
	case total <= ErodingOver:
		return Watch
	case total <= SevereOver:
		return Eroding
	}
	return Severe
}
