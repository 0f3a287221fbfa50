package page

import (
	"bytes"
	"encoding/base64"
	"image"
	"image/color"
	"strings"
	"testing"
)

func TestReliefURL(t *testing.T) {
	rows := []struct {
		name          string
		picture       []byte
		kind          string
		width, height int
	}{
		{"none", nil, "", 0, 0},
		{"small, kept as it is", shade(t, 120, 80), "png", 120, 80},
		{"too wide: 2,400 is the most, and the height goes with it", shade(t, 4800, 100), "jpeg", 2400, 50},
		{"too high, one wide", shade(t, 1, 2500), "jpeg", 1, 2400},
	}
	for _, r := range rows {
		t.Run(r.name, func(t *testing.T) {
			got, err := reliefURL(r.picture)
			if err != nil {
				t.Fatal(err)
			}
			if r.kind == "" {
				if got != "" {
					t.Errorf("got %.30s…, want nothing", got)
				}
				return
			}
			text, ok := strings.CutPrefix(got, "data:image/"+r.kind+";base64,")
			if !ok {
				t.Fatalf("got %.30s…", got)
			}
			raw, err := base64.StdEncoding.DecodeString(text)
			if err != nil {
				t.Fatal(err)
			}
			c, kind, err := image.DecodeConfig(bytes.NewReader(raw))
			if err != nil || kind != r.kind || c.Width != r.width || c.Height != r.height {
				t.Errorf("%s of %d by %d, %v; want %s of %d by %d", kind, c.Width, c.Height, err, r.kind, r.width, r.height)
			}
		})
	}
}

// Each pixel of a smaller picture is the mean of those it stands for.
func TestShrunk(t *testing.T) {
	full := image.NewGray(image.Rect(0, 0, 2*mostPixels, 2))
	for x := range 2 * mostPixels {
		full.SetGray(x, 0, color.Gray{Y: uint8(100 * (x % 2))})
		full.SetGray(x, 1, color.Gray{Y: 50})
	}
	small := shrunk(full)
	if small.Rect.Dx() != mostPixels || small.Rect.Dy() != 1 {
		t.Fatalf("size %v", small.Rect)
	}
	if got := small.GrayAt(7, 0).Y; got != 50 { // (0 + 100 + 50 + 50) / 4
		t.Errorf("mean %d, want 50", got)
	}
}
