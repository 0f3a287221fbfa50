package chart

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"hash/crc32"
	"image/png"
	"io"

	"siltstep/cmd/internal/units"
)

// Pixels of a map that is an image. Our own choice: 300 to an inch is common practice for print.
const (
	imageDPI    = 300
	pixelsPoint = imageDPI / 72.0 // pixels to a point
	pixelsMetre = 11811           // 300 / 0.0254 m, rounded
)

// WriteMapPNG draws the map of WriteMap as a PNG of 300 pixels an inch: it paints that very drawing, so
// both show the same. The file says how large a pixel is, so that the scale is true when it is printed
// at full size. Same map, same bytes. Errors: those of WriteMap.
func WriteMapPNG(w io.Writer, m Map, system units.System) error {
	var drawing bytes.Buffer
	if err := WriteMap(&drawing, m, system); err != nil {
		return err
	}
	root, err := readNodes(&drawing)
	if err != nil {
		return fmt.Errorf("map %s: %w", m.Title, err)
	}
	p, err := paintNodes(root)
	if err != nil {
		return fmt.Errorf("map %s: %w", m.Title, err)
	}
	var coded bytes.Buffer
	if err := png.Encode(&coded, p.page.Image()); err != nil {
		return fmt.Errorf("map %s: %w", m.Title, err)
	}
	if _, err := w.Write(sized(coded.Bytes())); err != nil {
		return fmt.Errorf("map %s: %w", m.Title, err)
	}
	return nil
}

// headerEnd is where the header of a PNG ends: 8 bytes of signature, then 12 around 13 of data. Source:
// W3C, Portable Network Graphics Specification, IHDR.
const headerEnd = 8 + 12 + 13

// sized adds the size of a pixel to a PNG, right after its header. Source: W3C, Portable Network Graphics
// Specification, pHYs: pixels per unit across and down, and 1 for the metre.
func sized(coded []byte) []byte {
	chunk := []byte("pHYs")
	chunk = binary.BigEndian.AppendUint32(chunk, pixelsMetre)
	chunk = binary.BigEndian.AppendUint32(chunk, pixelsMetre)
	chunk = append(chunk, 1)
	out := append([]byte(nil), coded[:headerEnd]...)
	out = binary.BigEndian.AppendUint32(out, uint32(len(chunk)-4))
	out = append(out, chunk...)
	out = binary.BigEndian.AppendUint32(out, crc32.ChecksumIEEE(chunk))
	return append(out, coded[headerEnd:]...)
}
