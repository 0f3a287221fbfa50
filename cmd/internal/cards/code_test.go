package cards

import (
	"bytes"
	"image"
	"image/color"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"testing"

	"siltstep/cmd/internal/facts"
)

// picture renders the upper part of a page in grey, so many pixels an inch, as another program sees it.
func picture(t *testing.T, pdf []byte, page, perInch int) image.Image {
	t.Helper()
	tool, err := exec.LookPath("pdftoppm")
	if err != nil {
		t.Skip("pdftoppm (package poppler-utils) is not installed: THE SCANNABLE CODE IS NOT CHECKED")
	}
	path := filepath.Join(t.TempDir(), "cards.pdf")
	if err := os.WriteFile(path, pdf, 0o600); err != nil {
		t.Fatal(err)
	}
	n := strconv.Itoa(page)
	out, err := exec.Command(tool, "-gray", "-png", "-r", strconv.Itoa(perInch), "-f", n, "-l", n, "-x", "0", "-y", "0", "-W", strconv.Itoa(9*perInch), "-H", strconv.Itoa(2*perInch), path).Output()
	if err != nil {
		t.Fatal(err)
	}
	img, err := png.Decode(bytes.NewReader(out))
	if err != nil {
		t.Fatal(err)
	}
	return img
}

// scanned reads a code of some modules a side at a place of a picture, mm.
func scanned(img image.Image, left, top float64, side int, perInch float64) [][]bool {
	dark := make([][]bool, side)
	for row := range dark {
		dark[row] = make([]bool, side)
		for col := range dark[row] {
			x, y := left+(float64(col)+0.5)*moduleMM, top+(float64(row)+0.5)*moduleMM
			grey := color.GrayModel.Convert(img.At(int(x/25.4*perInch), int(y/25.4*perInch))).(color.Gray)
			dark[row][col] = grey.Y < 128
		}
	}
	return dark
}

// decoded reads the bytes of a code of version 2 and level M, which is one block, and of mask 0, by its own reading of ISO/IEC 18004, from memory: five
// bits of the form (level 00 is M) masked with 10101; modules in pairs of columns from the right, upward first; four bits of mode (0100
// bytes), eight of length, the bytes.
func decoded(t *testing.T, dark [][]bool) string {
	t.Helper()
	n := len(dark)
	form := 0
	for col := range 5 {
		form <<= 1
		if dark[8][col] {
			form |= 1
		}
	}
	if form ^= 0b10101; form != 0 {
		t.Fatalf("form %05b: this test reads level M and mask 0 alone", form)
	}
	var bits []bool
	for right := n - 1; right > 0; right -= 2 {
		if right == 6 {
			right--
		}
		up := (n-1-right)/2%2 == 0
		if right < 6 {
			up = (n-2-right)/2%2 == 0
		}
		for k := range n {
			row := k
			if up {
				row = n - 1 - k
			}
			for _, col := range []int{right, right - 1} {
				if !reserved(row, col, n) {
					bits = append(bits, dark[row][col] != ((row+col)%2 == 0))
				}
			}
		}
	}
	next := func(count int) (value int) {
		for range count {
			value <<= 1
			if bits[0] {
				value |= 1
			}
			bits = bits[1:]
		}
		return value
	}
	if mode := next(4); mode != 0b0100 {
		t.Fatalf("mode %04b is not bytes", mode)
	}
	text := make([]byte, next(8))
	for i := range text {
		text[i] = byte(next(8))
	}
	return string(text)
}

// reserved tells whether a module holds no data: finders with their form, timing lines, the one alignment mark.
func reserved(row, col, n int) bool {
	near := func(a, b int) bool { return max(a-b, b-a) <= 2 }
	return row < 9 && (col < 9 || col >= n-8) || row >= n-8 && col < 9 || row == 6 || col == 6 || near(row, n-7) && near(col, n-7)
}

func TestCodeIsReadBack(t *testing.T) {
	for _, row := range []struct {
		name     string
		lat, lon facts.Num
		want     string
	}{
		{"north and west", 37.2709876, -104.4512346, "geo:37.270988,-104.451235"},
		{"south and east", -33.8567, 151.215312, "geo:-33.856700,151.215312"},
		{"the longest", -45.1234567, -170.7654321, "geo:-45.123457,-170.765432"},
	} {
		t.Run(row.name, func(t *testing.T) {
			f := drawnPlan(1, 1)
			f.Sites[0].Lat, f.Sites[0].Lon = row.lat, row.lon
			const perInch = 200
			pdf := written(t, f, Options{})
			img := picture(t, pdf, len(pageObject.FindAll(pdf, -1)), perInch)
			const a4, side = 210.0, 25 // the version whose 25 modules a side hold 26 bytes at level M, as long as the longest place
			if got := decoded(t, scanned(img, a4-margin-side*moduleMM, margin, side, perInch)); got != row.want {
				t.Errorf("%q, want %q", got, row.want)
			}
		})
	}
}
