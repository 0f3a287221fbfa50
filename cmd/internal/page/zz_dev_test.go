package page

import (
	"bytes"
	"os"
	"testing"

	"siltstep/cmd/internal/facts"
	"siltstep/raster/gdal"
)

func TestDev(t *testing.T) {
	dir := os.Getenv("DEVDIR")
	if dir == "" {
		t.Skip("dev")
	}
	f, err := facts.Read(dir)
	if err != nil {
		t.Fatal(err)
	}
	p, free := gdal.Projector("EPSG:4326", "EPSG:32613")
	defer free()
	hill, _ := os.ReadFile(dir + "/hillshade.png")
	var b bytes.Buffer
	if err := Write(&b, f, Options{Title: "Demo ranch", Hillshade: hill, ToGrid: p}); err != nil {
		t.Fatal(err)
	}
	t.Log(b.Len())
	os.WriteFile(os.Getenv("DEVOUT"), b.Bytes(), 0o644)
}
