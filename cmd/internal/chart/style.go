package chart

import (
	"image/color"

	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/font/liberation"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Colours. In grey print the wedge is a light tone, the ground a mid one, the rest black.
var (
	white     = color.Gray{0xff}
	ink       = color.Gray{0x1c}
	midGrey   = color.Gray{0x80}
	paleGrey  = color.Gray{0xe4}
	silt      = color.RGBA{0xe4, 0xd9, 0xbd, 0xff}
	siltHatch = color.RGBA{0x6b, 0x58, 0x2c, 0xff}
)

var (
	groundLine = draw.LineStyle{Color: midGrey, Width: vg.Points(0.7)}
	bedLine    = draw.LineStyle{Color: ink, Width: vg.Points(1.2)}
	unseenLine = draw.LineStyle{Color: ink, Width: vg.Points(0.9), Dashes: []vg.Length{3, 3}}
	damLine    = draw.LineStyle{Color: ink, Width: vg.Points(2.4)}
	siltLine   = draw.LineStyle{Color: siltHatch, Width: vg.Points(0.6)}
	ruleLine   = draw.LineStyle{Color: paleGrey, Width: vg.Points(0.5)}
)

// faces measures text with the fonts that come with the plotting library.
var faces = text.Plain{Fonts: font.NewCache(liberation.Collection())}

func sans(points float64) font.Font {
	return font.Font{Typeface: "Liberation", Variant: "Sans", Size: vg.Points(points)}
}

func style(points float64, c color.Color) text.Style {
	return text.Style{Color: c, Font: sans(points), Handler: faces, XAlign: draw.XLeft, YAlign: draw.YBottom}
}
