package field

import (
	"bytes"
	"encoding/base64"
	"image"
	"image/color"
	"image/png"
)

// iconSize is the side of an icon, pixels.
const iconSize = 32

// Icons as drawings of 16 by 16: '#' is black, 'o' white, '.' clear. A white rim keeps them apart from dark ground, and they differ in
// shape. Source: our own drawings.
var (
	// damDrawing is a wall with a notch between two banks, seen from downstream.
	damDrawing = [iconSize / 2]string{
		"................",
		"................",
		"................",
		"oooooo....oooooo",
		"o####o....o####o",
		"o####o....o####o",
		"o####oooooo####o",
		"o##############o",
		"o##############o",
		"o##############o",
		"o##############o",
		"oo############oo",
		".oo##########oo.",
		"..oo########oo..",
		"...oooooooooo...",
		"................",
	}
	// headcutDrawing is a step in a bed with a pool below it, seen from the side.
	headcutDrawing = [iconSize / 2]string{
		"................",
		"ooooooooo.......",
		"o#######oo......",
		"o########o......",
		"ooooooo##o......",
		"......o##o......",
		"......o##o......",
		"......o##o......",
		"......o##o......",
		"......o##o......",
		"......o##oo..ooo",
		"......o###oooo#o",
		"......oo#######o",
		".......oo####ooo",
		"........oooooo..",
		"................",
	}
)

// icon returns a drawing as a PNG inside a data: address. Each place of the drawing is 2 by 2 pixels.
func icon(drawing [iconSize / 2]string) string {
	return "data:image/png;base64," + base64.StdEncoding.EncodeToString(iconPNG(drawing))
}

func iconPNG(drawing [iconSize / 2]string) []byte {
	colours := map[byte]uint8{'.': 0, 'o': 1, '#': 2}
	picture := image.NewPaletted(image.Rect(0, 0, iconSize, iconSize), color.Palette{color.NRGBA{}, color.NRGBA{255, 255, 255, 255}, color.NRGBA{0, 0, 0, 255}})
	for y := range iconSize {
		for x := range iconSize {
			picture.SetColorIndex(x, y, colours[drawing[y/2][x/2]])
		}
	}
	var b bytes.Buffer
	if err := png.Encode(&b, picture); err != nil {
		panic("field: " + err.Error()) // a buffer takes all
	}
	return b.Bytes()
}
