package main

import (
	"context"
	"path/filepath"
	"strings"
	"testing"

	"siltstep/raster/gdal"
)

func TestRanchFile(t *testing.T) {
	place := filepath.Join(t.TempDir(), "dem.tif")
	if err := run([]string{"1.5", place}); err != nil {
		t.Fatal(err)
	}
	info, err := gdal.Inspect(context.Background(), gdal.Request{Paths: []string{place}})
	// 1000·√1.5 is 1224.7.
	if err != nil || info.Cols != 1225 || info.Rows != 1225 || info.GridCellM != 1 {
		t.Errorf("%d x %d cells of %g m, %v", info.Cols, info.Rows, info.GridCellM, err)
	}
}

func TestWrongWords(t *testing.T) {
	for _, words := range [][]string{nil, {"4"}, {"many", "dem.tif"}, {"1", "dem.tif"}, {"NaN", "dem.tif"}} {
		if err := run(words); err == nil || !strings.Contains(err.Error(), "give") {
			t.Errorf("%q: %v", words, err)
		}
	}
}
