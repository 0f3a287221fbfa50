package cards

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"siltstep/cmd/internal/facts"
	"siltstep/hydro/checkdam"
)

// faces are the slopes of a dam's faces, horizontal run a metre of height; NaN where not known.
type faces struct{ up, down float64 }

// facesOf returns the faces that the settings of a plan ask for: "usual" is what is usual for the kind of dam.
func facesOf(f *facts.Folder) faces {
	usual := faces{math.NaN(), math.NaN()}
	if limits, err := checkdam.LimitsOf(checkdam.Kind(f.Setting("dams.kind"))); err == nil {
		usual = faces{limits.FaceUp, limits.FaceDown}
	}
	return faces{faceOf(f.Setting("dams.face_up"), usual.up), faceOf(f.Setting("dams.face_down"), usual.down)}
}

// faceOf reads a face, "1.5:1".
func faceOf(setting string, usual float64) float64 {
	if setting == "usual" {
		return usual
	}
	run, rise, ok := strings.Cut(setting, ":")
	x, errX := strconv.ParseFloat(run, 64)
	y, errY := strconv.ParseFloat(rise, 64)
	if !ok || errX != nil || errY != nil || y <= 0 {
		return math.NaN()
	}
	return x / y
}

// text words both faces.
func (f faces) text() string {
	return fmt.Sprintf("%s upstream, %s downstream", faceText(f.up), faceText(f.down))
}

func faceText(run float64) string {
	switch {
	case math.IsNaN(run):
		return notKnown
	case run == 0:
		return "upright"
	}
	return strconv.FormatFloat(run, 'g', -1, 64) + ":1"
}
