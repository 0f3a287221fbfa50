package erosion

import (
	"bytes"
	"encoding/binary"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"testing"

	"siltstep/raster"
	"siltstep/raster/rastertest"
)

// python returns an interpreter that has the packages the reference needs. Without one the test is skipped, or fails where
// the environment requires references.
func python(t *testing.T) string {
	t.Helper()
	var last []byte
	for _, name := range []string{"python3", "/usr/bin/python3"} { // the second is the system's, where packages of the system are
		out, err := exec.Command(name, "-c", "import numpy, scipy.ndimage").CombinedOutput()
		if err == nil {
			return name
		}
		last = append(last, out...)
	}
	if os.Getenv("SILTSTEP_REFERENCES") == "required" {
		t.Fatalf("references are required, and no python3 has numpy and scipy:\n%s", last)
	}
	t.Skip("no python3 with numpy and scipy")
	return ""
}

// referenceTopHat returns the black top-hat of a grid by scipy.ndimage.
func referenceTopHat(t *testing.T, python string, g *raster.Grid, side int) []int32 {
	t.Helper()
	dir := t.TempDir()
	var raw bytes.Buffer
	if err := binary.Write(&raw, binary.LittleEndian, g.MM); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(dir, "ground.i32"), raw.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(python, "-B", "../../testdata/reference/closing.py", dir, strconv.Itoa(g.Cols), strconv.Itoa(side))
	if out, err := cmd.CombinedOutput(); err != nil {
		t.Fatalf("reference: %v\n%s", err, out)
	}
	answer, err := os.ReadFile(filepath.Join(dir, "tophat.i32"))
	if err != nil {
		t.Fatal(err)
	}
	mm := make([]int32, len(g.MM))
	if err := binary.Read(bytes.NewReader(answer), binary.LittleEndian, mm); err != nil {
		t.Fatal(err)
	}
	return mm
}

// The top-hat is that of scipy.ndimage, to the millimetre, on rough country with holes and up to its edges.
func TestTopHatOfAnOutsideLibrary(t *testing.T) {
	python := python(t)
	tests := []struct {
		name       string
		cols, rows int
		voidsOneIn int // 0 for none
		cellM      float64
		windowM    float64
		side       int // cells
	}{
		{"a window of 15 m", 600, 430, 0, 1, 15, 15},
		{"holes", 600, 430, 40, 1, 15, 15},
		{"half-metre cells", 500, 300, 200, 0.5, 15, 31}, // 30 cells lie between 29 and 31: the larger
		{"a square of three cells", 80, 300, 10, 5, 15, 3},
		{"as wide as the grid", 31, 90, 6, 1, 31, 31},
	}
	for k, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			g := rastertest.Pepper(uint64(k), rastertest.Fractal(uint64(20+k), tt.cols, tt.rows, 20_000), tt.voidsOneIn)
			g.Transform.CellM = tt.cellM
			want := referenceTopHat(t, python, g, tt.side)
			deepest := int32(0)
			for i, got := range TopHatMM(g, tt.windowM, 2) {
				col, row := g.ColRow(i)
				if got != want[i] {
					t.Fatalf("cell (%d, %d): got %d mm, want %d", col, row, got, want[i])
				}
				deepest = max(deepest, got)
			}
			if deepest < 100 {
				t.Errorf("deepest %d mm: too smooth to tell", deepest)
			}
		})
	}
}
