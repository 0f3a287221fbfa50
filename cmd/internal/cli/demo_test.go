package cli

import (
	"context"
	"io"
	"path/filepath"
	"slices"
	"testing"

	"siltstep/cmd/internal/demo"
)

func TestDemoIsTheSameTwice(t *testing.T) {
	if testing.Short() {
		t.Skip("makes two ranches")
	}
	top := t.TempDir()
	c := &console{out: io.Discard, err: io.Discard, quiet: true}
	for _, name := range []string{"one", "two"} {
		out, err := openFolder(filepath.Join(top, name), false)
		if err != nil {
			t.Fatal(err)
		}
		defer out.discard()
		made, err := c.makeDemo(context.Background(), out, demo.DefaultSize, c.watch(1))
		if err != nil {
			t.Fatal(err)
		}
		if err := out.commit(); err != nil {
			t.Fatal(err)
		}
		if s := made.Plan.Totals; s.Dams == 0 || s.Drainages == 0 || s.Truncated == 0 || s.TreatedM <= 0 {
			t.Errorf("an empty plan: %+v", s)
		}
	}
	if err := sameFolders(filepath.Join(top, "one"), filepath.Join(top, "two")); err != nil {
		t.Error(err)
	}
	got := tree(t, filepath.Join(top, "one"))
	for _, want := range []string{manifestName, "dem.tif", "property.geojson", "rain.csv", "roads.geojson", "settings.yaml", "stock_ponds.geojson", "truth.json", "plan/plan.json",
		"plan/sites.geojson", "plan/profiles/D01.svg", "plan/hillshade.png", "plan/" + manifestName} {
		if !slices.Contains(got, want) {
			t.Errorf("no %s in the demo", want)
		}
	}
}
