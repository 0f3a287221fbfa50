package chart

import (
	"bytes"
	"encoding/binary"
	"image"
	"image/color"
	"image/png"
	"io"
	"math"
	"slices"
	"strings"
	"testing"

	"siltstep/cmd/internal/units"

	"github.com/paulmach/orb"
)

func mapPNG(t *testing.T, m Map) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := WriteMapPNG(&b, m, units.Metric); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// grey returns how light a pixel at a point of the page is, 0 to 255.
func grey(m image.Image, at orb.Point) int {
	c := color.GrayModel.Convert(m.At(int(at[0]*300/72), int(at[1]*300/72)))
	return int(c.(color.Gray).Y)
}

// Marks and lines of the drawing must be at the same places of the image, 300 pixels to 72 points.
func TestMapImageShowsTheDrawing(t *testing.T) {
	m := ranch()
	m.Shade = nil
	decoded, err := png.Decode(bytes.NewReader(mapPNG(t, m)))
	if err != nil {
		t.Fatal(err)
	}
	s := fitSheet(m.Extent, units.Metric)
	if want := image.Pt(int(math.Ceil(s.width*300/72)), int(math.Ceil(s.height*300/72))); decoded.Bounds().Max != want {
		t.Errorf("%v pixels, want %v", decoded.Bounds().Max, want)
	}
	dam := s.at(m.Dams[2])
	line := s.at(orb.Point{548775, 4125625}) // half way down the first piece of D02
	// The scale bar is the path that starts with a stroke of 10 points down, its middle 5 points below.
	svg := mapSVG(t, m, units.Metric)
	_, bar, ok := strings.Cut(svg, `stroke-width="0.8" d="`)
	if !ok {
		t.Fatal("no scale bar in the drawing")
	}
	from := numbers(bar[:strings.Index(bar, "v")])
	length := 200.0 / 6000 / 0.0254 * 72 // 200 m at 1 : 6,000 are 94.5 points
	middle := from[1] + 5
	for _, test := range []struct {
		name        string
		at          orb.Point
		least, most int
	}{
		{"dam", dam, 0, 60},
		{"white around the dam", orb.Point{dam[0] + 1.8, dam[1] - 1.8}, 240, 255},
		{"drainage", line, 50, 110}, // #8f3210 is 74 in grey
		{"white beside the drainage", orb.Point{line[0] - 0.7, line[1] + 1.9}, 240, 255},
		{"start of the scale bar", orb.Point{from[0] + 0.1, middle}, 0, 90},
		{"end of the scale bar", orb.Point{from[0] + length - 0.5, middle}, 0, 90},
		{"beyond the scale bar", orb.Point{from[0] + length + 1.2, middle}, 240, 255},
		{"margin, where a drainage leaves the frame", s.at(orb.Point{548416, 4124960}), 240, 255},
		{"corner", orb.Point{1, 1}, 255, 255},
	} {
		if got := grey(decoded, test.at); got < test.least || got > test.most {
			t.Errorf("%s: grey %d at %.1f, want %d to %d", test.name, got, test.at, test.least, test.most)
		}
	}
}

func TestMapImageIsTrueToScaleAndTheSameTwice(t *testing.T) {
	a, b := mapPNG(t, ranch()), mapPNG(t, ranch())
	if !bytes.Equal(a, b) {
		t.Error("two images of one map differ")
	}
	chunk := a[33:54] // after 8 bytes of signature and 25 of header
	if string(chunk[4:8]) != "pHYs" || binary.BigEndian.Uint32(chunk[8:]) != 11811 || binary.BigEndian.Uint32(chunk[12:]) != 11811 || chunk[16] != 1 {
		t.Errorf("no size of a pixel after the header: %q", chunk)
	}
}

func TestMapImageErrors(t *testing.T) {
	m := ranch()
	m.Shade = []byte("GIF89a")
	if err := WriteMapPNG(io.Discard, m, units.Metric); err == nil || !strings.Contains(err.Error(), m.Title) {
		t.Errorf("error %v, want one that names the map", err)
	}
}

func TestTraces(t *testing.T) {
	for _, test := range []struct {
		data   string
		points []orb.Point // of the last line
		closed bool
	}{
		{"M1.5 2l-0.5-1l3 4", []orb.Point{{1.5, 2}, {1, 1}, {4, 5}}, false},
		{"M0 -3.2L2.9 2.4H-2.9z", []orb.Point{{0, -3.2}, {2.9, 2.4}, {-2.9, 2.4}}, true},
		{"M1 1v2M5 5h-2V0", []orb.Point{{5, 5}, {3, 5}, {3, 0}}, false},
	} {
		lines := traces(test.data)
		last := lines[len(lines)-1]
		if !slices.EqualFunc(last.points, test.points, func(a, b orb.Point) bool {
			return math.Hypot(a[0]-b[0], a[1]-b[1]) < 1e-9 // rounding
		}) || last.closed != test.closed {
			t.Errorf("%s: %v, want %v", test.data, last, test.points)
		}
	}
}
