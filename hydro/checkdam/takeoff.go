package checkdam

import "math"

// Item is something to bring to the site.
type Item struct {
	Name     string // "logs", "posts", "brush", "gabion baskets"
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
// bankM how far it goes into each bank.
func takeOff(k Kind, heightM, crestM, bankM, bodyM3 float64) []Item {
	lengthM := crestM + 2*bankM
	posts := math.Ceil(lengthM/postSpacingM) + 1
	post := []Item{{"posts", posts, "pieces"}, {"post length, each", heightM / (1 - postShareDeep), "m"}}
	switch k {
	case Log:
		courses := math.Ceil(heightM / logDiameterM)
		return append([]Item{{"log courses", courses, "pieces"}, {"logs of 0.2 m", courses * lengthM, "m"}}, post...)
	case Brush:
		return append([]Item{{"loose brush", bodyM3 / brushPacked, "m³"}}, post...)
	case Gabion:
		return []Item{{"gabion baskets of 1 m³", math.Ceil(bodyM3 / basketM3), "pieces"}}
	}
	return nil
}
