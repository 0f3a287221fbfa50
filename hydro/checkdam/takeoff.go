package checkdam

import "math"

// Item is something to bring to the site.
type Item struct {
	Name     Remark // "logs of 0.20 m", "posts of 1.20 m", "loose brush", "gabion baskets of 1.0 m³"
	Quantity float64
	Unit     string // "m", "m³", "pieces"
}

// Sizes of what log and brush dams are built of, m. Source: our own choice, within common practice: logs of 0.10 m to 0.15 m and more,
// posts with a third to a half of their length in the ground (from memory).
const (
	logDiameterM  = 0.2
	postSpacingM  = 1.0
	postShareDeep = 0.5 // of a post's length, in the ground
	brushPacked   = 0.5 // of the body's volume; loose brush is packed to half
	basketM3      = 1.0 // a basket of 2 m by 1 m by 0.5 m
)

// takeOff lists what a dam of logs, brush or gabions needs beside its rock. crestM is the length of the crest from bank to bank,
// bankM how far it goes into each bank, topM the height to the top of the wings, and openM what the notch leaves open between them. Courses up to
// the sill are reckoned as long as the crest, those of the wings without the notch.
func takeOff(k Kind, heightM, topM, crestM, openM, bankM, bodyM3 float64) []Item {
	lengthM := crestM + 2*bankM
	posts := math.Ceil(lengthM/postSpacingM) + 1
	post := Item{remark("posts of %s", metres(topM/(1-postShareDeep))), posts, "pieces"}
	switch k {
	case Log:
		const slack = 1e-9 // so that 0.6 m are three logs of 0.2 m
		courses := math.Ceil(heightM/logDiameterM - slack)
		wings := math.Ceil((topM-heightM)/logDiameterM - slack)
		logsM := courses*lengthM + wings*max(0, lengthM-openM)
		return []Item{{remark("log courses to the sill"), courses, "pieces"}, {remark("log courses of the wings"), wings, "pieces"},
			{remark("logs of %s", metres(logDiameterM)), logsM, "m"}, post}
	case Brush:
		return []Item{{remark("loose brush"), bodyM3 / brushPacked, "m³"}, post}
	case Gabion:
		return []Item{{remark("gabion baskets of %s", Quantity{basketM3, OfVolume, 1}), math.Ceil(bodyM3 / basketM3), "pieces"}}
	}
	return nil
}
