package cards

import (
	"fmt"

	"siltstep/cmd/internal/facts"

	"rsc.io/qr"
)

// Measures of the scannable code. The quiet zone of 4 modules is what ISO/IEC 18004 asks for, from memory.
const (
	moduleMM  = 0.82
	quietZone = 4
)

// geoText is the text of a dam's code: latitude and longitude, WGS 84, as RFC 5870 writes them.
func geoText(s facts.Site) string {
	if !s.Lat.Known() || !s.Lon.Known() {
		return ""
	}
	lat, lon := degrees(s)
	return fmt.Sprintf("geo:%s,%s", lat, lon)
}

// code draws the code with its upper right corner at a place, and returns its left side. A dam without a place has none.
func (d *document) code(s facts.Site, right, top float64) float64 {
	words := geoText(s)
	if words == "" {
		return right
	}
	code, err := qr.Encode(words, qr.M)
	if err != nil {
		d.pdf.SetError(fmt.Errorf("code of %s: %w", s.ID, err))
		return right
	}
	// The paper's margin is white, so that the quiet zone may reach into it.
	left := right - float64(code.Size)*moduleMM
	d.pdf.SetFillColor(black, black, black)
	for row := range code.Size {
		for col := 0; col < code.Size; col++ {
			from := col
			for col < code.Size && code.Black(col, row) {
				col++
			}
			if col > from {
				d.pdf.Rect(left+float64(from)*moduleMM, top+float64(row)*moduleMM, float64(col-from)*moduleMM, moduleMM, "F")
			}
		}
	}
	return left - quietZone*moduleMM
}
