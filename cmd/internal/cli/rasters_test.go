package cli

import (
	"context"
	"io"
	"os"
	"path/filepath"
	"testing"

	"siltstep/raster/gdal"
)

// The depth raster of the valley. Over a bed cell the lowest level square of 31 cells that touches the
// ground has the cell in its uppermost row and reaches 15 cells to either side, where the ground lies
// 1.46 + 12 x 0.2 = 3.86 m above the bed of that row. The cells beside the middle lie under the same
// square, 0.13 m above it.
func TestIncisionRaster(t *testing.T) {
	top := t.TempDir()
	valley, dir := filepath.Join(top, "valley.tif"), filepath.Join(top, "out")
	if err := elevations["valley"](valley); err != nil {
		t.Fatal(err)
	}
	said := filepath.Join(top, "window.yaml")
	if err := os.WriteFile(said, []byte("erosion: {window: 31 m}\n"), 0o666); err != nil {
		t.Fatal(err)
	}
	if code := Run(context.Background(), []string{"siltstep", "screen", valley, "--settings", said, "--out", dir, "--rasters"}, nil, io.Discard, io.Discard); code != ExitDone {
		t.Fatalf("exit code %d", code)
	}
	dem, err := gdal.Open(context.Background(), gdal.Request{Paths: []string{filepath.Join(dir, "rasters", "incision.tif")}, ElevationUnit: "m"})
	if err != nil {
		t.Fatal(err)
	}
	grid, err := dem.Read(context.Background(), func(int, int) {})
	if err != nil {
		t.Fatal(err)
	}
	if grid.Cols != 47 || grid.Rows != 403 {
		t.Fatalf("%d x %d cells, want those of the data", grid.Cols, grid.Rows)
	}
	for col, want := range map[int]int32{23: 3860, 22: 3730, 24: 3730} {
		if got := grid.At(col, 200); got != want {
			t.Errorf("column %d: %d mm, want %d", col, got, want)
		}
	}
}
