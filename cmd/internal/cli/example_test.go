package cli

import (
	"bytes"
	"context"
	"io"
	"os"
	"strings"
	"testing"

	"siltstep/raster/gdal"
)

// Every command has an example, it stands at the end of its help, and it runs. The elevation model is the gully of 47 x 403 cells, laid so
// that the place the profile starts from, at x 549857, y 4125750 m, lies in its bed. Demo itself is run by a script of its own.
func TestExamplesRun(t *testing.T) {
	t.Chdir(t.TempDir())
	g := valley(1)
	g.Transform.OriginX, g.Transform.OriginY = 549834, 4125950
	if err := gdal.WriteDEM(context.Background(), "dem.tif", g, utm); err != nil {
		t.Fatal(err)
	}
	for name, text := range map[string]string{
		"settings.yaml": "dams: {height: 0.5 m}\n",
		"property.geojson": `{"type":"FeatureCollection","crs":{"type":"name","properties":{"name":"urn:ogc:def:crs:EPSG::32613"}},"features":[{"type":"Feature","properties":{},
"geometry":{"type":"Polygon","coordinates":[[[549834,4125550],[549881,4125550],[549881,4125950],[549834,4125950],[549834,4125550]]]}}]}`,
	} {
		if err := os.WriteFile(name, []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	for _, command := range newApp(io.Discard, io.Discard).Commands {
		words := append([]string{"siltstep"}, strings.Fields(examples[command.Name])...)
		if len(words) < 2 || words[1] != command.Name {
			t.Errorf("%s has no example", command.Name)
			continue
		}
		var out, errs bytes.Buffer
		if code := Run(context.Background(), []string{"siltstep", command.Name, "--help"}, nil, &out, &errs); code != ExitDone || !strings.HasSuffix(out.String(), ":\n  "+strings.Join(words, " ")+"\n") {
			t.Errorf("help of %s ends otherwise: %s%s", command.Name, out.String(), errs.String())
		}
		if command.Name == "demo" {
			continue
		}
		out.Reset()
		if code := Run(context.Background(), words, nil, &out, &errs); code != ExitDone || out.Len() == 0 {
			t.Errorf("%s: exits %d\n%s", strings.Join(words, " "), code, errs.String())
		}
	}
}
