package page

import (
	"bytes"
	"encoding/base64"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
)

// Limits of the picture of the relief; our own choices. A larger one is made smaller and saved with a loss that the eye does not see.
const (
	mostPixels  = 2400   // a side
	mostBytes   = 600000 // as PNG
	jpegQuality = 80
)

// reliefURL returns the relief as a data URL; empty where there is none.
func reliefURL(picture []byte) (string, error) {
	if len(picture) == 0 {
		return "", nil
	}
	full, err := png.Decode(bytes.NewReader(picture))
	if err != nil {
		return "", fmt.Errorf("the picture of the relief is no PNG: %w", err)
	}
	size := full.Bounds().Size()
	if len(picture) <= mostBytes && max(size.X, size.Y) <= mostPixels {
		return "data:image/png;base64," + base64.StdEncoding.EncodeToString(picture), nil
	}
	var small bytes.Buffer
	if err := jpeg.Encode(&small, shrunk(full), &jpeg.Options{Quality: jpegQuality}); err != nil {
		return "", err
	}
	return "data:image/jpeg;base64," + base64.StdEncoding.EncodeToString(small.Bytes()), nil
}

// shrunk returns a grey picture of the same ground with at most mostPixels a side: each pixel is the mean of those it covers at least half.
func shrunk(full image.Image) *image.Gray {
	b := full.Bounds()
	long := max(b.Dx(), b.Dy())
	width, height := b.Dx(), b.Dy()
	if long > mostPixels {
		width, height = max(1, width*mostPixels/long), max(1, height*mostPixels/long)
	}
	grey := image.NewGray(image.Rect(0, 0, width, height))
	for y := range height {
		top, bottom := share(y, height, b.Dy())
		for x := range width {
			left, right := share(x, width, b.Dx())
			sum, count := 0, 0
			for v := top; v < bottom; v++ {
				for u := left; u < right; u++ {
					sum += int(color.GrayModel.Convert(full.At(b.Min.X+u, b.Min.Y+v)).(color.Gray).Y)
					count++
				}
			}
			grey.SetGray(x, y, color.Gray{Y: uint8((sum + count/2) / count)})
		}
	}
	return grey
}

// share returns which of n places the i-th of m parts covers, at least one.
func share(i, m, n int) (from, to int) {
	from, to = i*n/m, (i+1)*n/m
	return from, max(to, from+1)
}
