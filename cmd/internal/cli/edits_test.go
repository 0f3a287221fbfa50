package cli

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"siltstep/cmd/internal/report"
	"siltstep/hydro"
	"siltstep/hydro/channel"
	"siltstep/hydro/siting"
	"siltstep/raster/gdal"
)

// inKilometres stands for a projection: a degree is 100 km.
func inKilometres(points []orb.Point) ([]orb.Point, error) {
	out := make([]orb.Point, len(points))
	for i, p := range points {
		out[i] = orb.Point{100_000 * p[0], 100_000 * p[1]}
	}
	return out, nil
}

// editsOf reads a CSV table of edits.
func editsOf(text string) (hydro.Edits, error) {
	rows, err := sheetRows("f.csv", []byte(text))
	if err != nil {
		return hydro.Edits{}, err
	}
	return takeEdits("f.csv", rows, inKilometres)
}

func TestEditsFromSheet(t *testing.T) {
	got, err := editsOf("\ufeffID, Edit ,note,drainage,station_m,effective_height_m,bed_m,notch_sill_m,rock_t,lon,lat,x_m,y_m\r\n" +
		"D07-01,,looks fine,D07,12.50,0.45,101.000,101.450,2.31,0.001,0.002,,\r\n" +
		"D07-02, Reject ,\"bedrock, no keys\",D07,20.00,0.45,101.5,101.95,2,,,,\r\n" +
		",,,,,,,,,,,,\r\n" +
		"d07-3,MOVE,,D07,36.2,0.45,102,102.45,2,0.001,0.003,,\r\n" +
		"D07-04,move,,,,0.45,103,103.45,2,0.001,0.004,7,8\r\n" +
		"D07-05,height,,,40,0.5,104,104.45,2,,,,\r\n" +
		"D07-06,built,low on rock,D07,50,0.4,105,105.45,2,,,,\r\n" +
		"N1,built,by the oak,d07,60,0.3\r\n" +
		"D07-12,built,,D07,70,0.3\r\n" +
		",move,,,,,,,,0.001,0.005,,\r\n")
	if err != nil {
		t.Fatal(err)
	}
	asked := []string{
		"line 3 D07-02 reject D07 20 NaN NaN 0 bedrock, no keys",
		"line 5 D07-03 move D07 36.2 100 300 0 ",
		"line 6 D07-04 move  NaN 7 8 0 ", // x_m and y_m before lon and lat
		"line 7 D07-05 height  40 NaN NaN 0.5 ",
		"line 8 D07-06 built D07 50 NaN NaN 0.4 low on rock",
		"line 9  built D07 60 NaN NaN 0.3 N1: by the oak",
		"line 10 D07-12 built D07 70 NaN NaN 0.3 ",
		"line 11  move  NaN 100 500 0 ",
	}
	if len(got.Asked) != len(asked) {
		t.Fatalf("%d edits, want %d: %+v", len(got.Asked), len(asked), got.Asked)
	}
	for i, want := range asked {
		a := got.Asked[i]
		if text := fmt.Sprintf("%s %s %s %s %g %.6g %.6g %g %s", a.Row, a.ID, a.Action, a.Drainage, a.StationM, a.X, a.Y, a.HeightM, a.Note); text != want {
			t.Errorf("asked %q, want %q", text, want)
		}
	}
	earlier := []string{
		"D07-01 12.5 100 200 0.45 2.31 looks fine",
		"D07-02 20 NaN NaN 0.45 2 bedrock, no keys",
		"D07-03 NaN 100 300 0.45 2 ", // the point is what is left of the old place
		"D07-04 NaN NaN NaN 0.45 2 ",
		"D07-05 40 NaN NaN 0.45 2 ", // sill less bed: the column of heights says what is asked
		"D07-06 NaN NaN NaN 0.45 2 low on rock",
	}
	if len(got.Earlier) != len(earlier) {
		t.Fatalf("%d earlier dams, want %d: %+v", len(got.Earlier), len(earlier), got.Earlier)
	}
	for i, want := range earlier {
		e := got.Earlier[i]
		if text := fmt.Sprintf("%s %g %.6g %.6g %g %g %s", e.ID, e.StationM, e.X, e.Y, e.HeightM, e.RockT, e.Note); text != want {
			t.Errorf("earlier %q, want %q", text, want)
		}
	}
}

func TestEditsSheetFaults(t *testing.T) {
	const header = "id,edit,station_m,effective_height_m,lon,lat,note\n"
	rows := []struct{ name, text, says string }{
		{"empty", "", "f.csv: is empty"},
		{"semicolons", "id;edit;station_m\nD01-01;reject;3\n", "f.csv: line 1: columns are parted by semicolons"},
		{"Latin-1", "id,edit\nD01-01,r\xe9ject\n", "f.csv: is not UTF-8"},
		{"no edits", "id,station_m\nD01-01,3\n", "f.csv: line 1: has no column edit"},
		{"two columns of one name", "id,edit,Edit\n", "f.csv: line 1: has two columns edit"},
		{"a quote left open", header + "D01-01,\"reject,3\n", "f.csv: "},
		{"a comma in a note", header + "D01-01,reject,3,,,,soft, and deep\n", "f.csv: line 2: has 8 cells under 7 columns"},
		{"unknown edit", header + "D01-01,delete,3\n", `f.csv: line 2: edit says "delete"; allowed are reject, move, height, built, or nothing`},
		{"no id", header + "\n,reject,3\n", "f.csv: line 3: has no id"},
		{"a row that says nothing", header + ",,3\n", "f.csv: line 2: has no id"},
		{"another id", header + "N1,reject,3\n", `f.csv: line 2: id "N1" is not that of a dam`},
		{"id twice", header + "D01-01,,3\nD1-1,reject,3\n", "f.csv: line 3: D01-01 stands in line 2 already"},
		{"no place", header + "D01-01,reject\n", "f.csv: line 2: has no place: keep the point, or station_m"},
		{"half a place", header + "D01-01,move,,,5,,\n", "f.csv: line 2: gives only one of lon and lat"},
		{"latitude first", header + "D01-01,move,,,36,-105,\n", "f.csv: line 2: lon 36, lat -105 is no place"},
		{"decimal comma", header + "D01-01,move,\"3,5\"\n", `f.csv: line 2: station_m "3,5" is no number`},
		{"endless", header + "D01-01,move,Inf\n", `f.csv: line 2: station_m "Inf" is no number`},
		{"no height", header + "D01-01,height,3\n", "f.csv: line 2: edit says height: give the height in effective_height_m"},
		{"height of a new dam", header + ",built,3\n", "f.csv: line 2: edit says built: give the height"},
		{"too low", header + "D01-01,built,3,0.04\n", "f.csv: line 2: effective_height_m 0.04 m; allowed is 0.05 to 2"},
		{"too high", header + "D01-01,height,3,2.1\n", "allowed is 0.05 to 2"},
		{"two faults", header + "D01-01,height,3\nD01-02,no,3\n", "f.csv: line 3: edit says"},
	}
	for _, r := range rows {
		t.Run(r.name, func(t *testing.T) {
			_, err := editsOf(r.text)
			if err == nil || !strings.Contains(err.Error(), r.says) || exitCode(context.Background(), err) != ExitRequest {
				t.Errorf("%v, want %q and a fault of the request", err, r.says)
			}
		})
	}
	if got, err := editsOf("id,edit\n"); err != nil || len(got.Asked)+len(got.Earlier) != 0 {
		t.Errorf("a header alone: %+v, %v", got, err)
	}
}

func TestEditsFromLayer(t *testing.T) {
	path := filepath.Join(t.TempDir(), "valley.tif")
	if err := elevations["valley"](path); err != nil {
		t.Fatal(err)
	}
	dem, err := gdal.Open(context.Background(), gdal.Request{Paths: []string{path}})
	if err != nil {
		t.Fatal(err)
	}
	turn, free := dem.ToLonLat()
	defer free()
	at, err := turn([]orb.Point{{548_020, 4_126_100}, {548_020, 4_126_150}})
	if err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(t.TempDir(), "edited.geojson")
	feature := func(id, edit string, p orb.Point, more string) string {
		return fmt.Sprintf(`{"type":"Feature","properties":{"id":%q,"edit":%s,"drainage":"D01","station_m":40.0,"effective_height_m":0.45,"bed_m":101.0,"notch_sill_m":101.45%s},"geometry":{"type":"Point","coordinates":[%.9f,%.9f]}}`,
			id, edit, more, p[0], p[1])
	}
	write := func(features ...string) {
		text := `{"type":"FeatureCollection","features":[` + strings.Join(features, ",") + `]}`
		if err := os.WriteFile(file, []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	write(feature("D01-01", "null", at[0], ""), feature("D01-02", `"Move"`, at[1], `,"note":"off the bend","rock_t":2.5`))
	got, err := readEdits(file, dem)
	if err != nil {
		t.Fatal(err)
	}
	if len(got.Asked) != 1 || len(got.Earlier) != 2 {
		t.Fatalf("%+v: want one edit and two dams", got)
	}
	a, was := got.Asked[0], got.Earlier[1]
	// 9 decimals of a degree are 0.1 mm.
	if math.Hypot(a.X-548_020, a.Y-4_126_150) > 0.01 || !math.IsNaN(a.StationM) || a.ID != "D01-02" || a.Action != siting.Move || a.Row != "feature 2" || a.Note != "off the bend" {
		t.Errorf("asked %+v", a)
	}
	if was.StationM != 40 || !math.IsNaN(was.X) || was.HeightM != 0.45 || was.RockT != 2.5 {
		t.Errorf("moved: stood %+v", was)
	}
	if still := got.Earlier[0]; still.StationM != 40 || math.Hypot(still.X-548_020, still.Y-4_126_100) > 0.01 {
		t.Errorf("not moved: stood %+v", still)
	}

	write(strings.Replace(feature("D01-01", "null", at[0], ""), `"edit":null,`, "", 1))
	if _, err := readEdits(file, dem); err == nil || !strings.Contains(err.Error(), "edited.geojson: has no column edit") || exitCode(context.Background(), err) != ExitRequest {
		t.Errorf("no edits: %v", err)
	}
	for _, missing := range []string{"none.csv", "none.geojson"} {
		if _, err := readEdits(missing, dem); exitCode(context.Background(), err) != ExitRequest {
			t.Errorf("%s: %v", missing, err)
		}
	}
	if got, err := readEdits("", dem); err != nil || len(got.Asked)+len(got.Earlier) != 0 {
		t.Errorf("no file: %+v, %v", got, err)
	}
}

func TestShapeRows(t *testing.T) {
	point := orb.Point{1, 2}
	rows, err := shapeRows("f", []gdal.Shape{
		{Name: "feature 1", Geometry: orb.MultiPoint{point}, Attributes: map[string]any{"id": "D01-01", "EDIT": "built", "effective_": 0.4, "notch_sill": 101.45, "bed_m": 101.0}}, // as a Shapefile has them
		{Name: "feature 2", Geometry: orb.LineString{{0, 0}, {1, 1}}, Attributes: map[string]any{"id": "D01"}},                                                                     // of another layer
		{Name: "feature 3", Geometry: point, Attributes: map[string]any{"id": "H01"}},
		{Name: "feature 4", Geometry: point, Attributes: map[string]any{"id": "D01-02"}},
		{Name: "feature 5", Attributes: map[string]any{"id": "D01-03", "edit": nil, "station_m": 7.0}},
	})
	if err != nil || len(rows) != 3 || rows[1].name != "feature 4" || rows[2].point != nil || *rows[0].point != point {
		t.Fatalf("%+v, %v", rows, err)
	}
	got, err := takeEdits("f", rows, inKilometres)
	if err != nil || len(got.Earlier) != 3 || got.Asked[0].HeightM != 0.4 || got.Earlier[0].HeightM != 0.45 || got.Earlier[2].StationM != 7 {
		t.Errorf("%+v, %v", got, err)
	}
	if _, err := shapeRows("f", []gdal.Shape{{Name: "feature 1", Geometry: orb.MultiPoint{point, {3, 4}}, Attributes: map[string]any{"edit": "move"}}}); err == nil || !strings.Contains(err.Error(), "f: feature 1: a dam is one point") {
		t.Errorf("two points: %v", err)
	}
}

// Faults that show only on the channels keep file and row, and offer the drainage that was meant.
func TestEditsFault(t *testing.T) {
	err := editsFault("f.csv", fmt.Errorf("field edits: %w", hydro.EditFaults{
		{Row: "line 4", Text: "there is no drainage D11", Wrong: "D11", Known: []string{"D01", "D02"}},
		{Row: "line 7", Text: "has no place"},
	}))
	if want := "f.csv: line 4: there is no drainage D11; did you mean D01?\nf.csv: line 7: has no place"; err.Error() != want {
		t.Errorf("%q, want %q", err, want)
	}
	if exitCode(context.Background(), err) != ExitRequest {
		t.Error("not a fault of the request")
	}
	other := errors.New("disk full")
	if editsFault("f.csv", other) != other {
		t.Error("another error changed")
	}
}

func FuzzEdits(f *testing.F) {
	f.Add("id,edit,note,drainage,station_m,effective_height_m\nD07-03,built,\"a, b\",D07,41.2,0.4\nD07-04,,,D07,50,0.45\n")
	f.Add("\ufeffid,EDIT,lon,lat\r\n,move,0.001,0.002\r\nD1-1,Reject,0,0\r\n")
	f.Add("id;edit\n")
	f.Add("edit,x_m,y_m,bed_m,notch_sill_m,effective_height_m\nheight,1,2,3,4,5\n")
	f.Fuzz(func(t *testing.T, text string) {
		got, err := editsOf(text)
		if err != nil {
			if exitCode(context.Background(), err) != ExitRequest {
				t.Fatalf("%v is no fault of the request", err)
			}
			return
		}
		seen := map[string]bool{}
		for _, e := range got.Earlier {
			drainage, number, ok := hydro.ParseDamID(e.ID)
			if !ok || seen[e.ID] || hydro.DamID(drainage, number) != e.ID || math.IsInf(e.StationM, 0) {
				t.Fatalf("earlier dam %+v", e)
			}
			seen[e.ID] = true
		}
		for _, a := range got.Asked {
			if _, err := actionOf(string(a.Action)); err != nil || a.Action == "" || a.Row == "" {
				t.Fatalf("edit %+v", a)
			}
			if high := a.Action == siting.Fix || a.Action == siting.Built; high != (a.HeightM != 0) || high && !(a.HeightM >= leastEditM && a.HeightM <= mostEditM) {
				t.Fatalf("height of %+v", a)
			}
			if math.IsNaN(a.StationM) && (math.IsNaN(a.X) || math.IsNaN(a.Y)) {
				t.Fatalf("no place: %+v", a)
			}
		}
	})
}

// The sheet that a plan writes comes back as what it holds, and so does what the field writes over it.
func TestEditsSheetComesBack(t *testing.T) {
	plan := &hydro.Plan{
		Network: &channel.Network{Drainages: []channel.Drainage{{ID: "D01"}, {ID: "D02"}}},
		Layouts: []siting.Layout{{Sites: []siting.Site{
			{ID: "D01-01", Drainage: "D01", StationM: 12.344, EffectiveHeightM: 0.45},
			{ID: "D01-04", Drainage: "D01", StationM: 30, EffectiveHeightM: 0.3},
		}}, {}},
	}
	nan := math.NaN()
	changes := []hydro.Change{
		{ID: "D01-01", Drainage: "D01", Kind: hydro.ChangeKept},
		{ID: "D01-02", Drainage: "D01", Kind: hydro.ChangeRejected, FromM: 21.5, ToM: nan, Note: "bedrock; \"no, thanks\""},
		{ID: "D01-04", Drainage: "D01", Kind: hydro.ChangeBuilt, Note: "short of rock"},
	}
	var sheet bytes.Buffer
	if err := report.WriteEdits(&sheet, plan, changes); err != nil {
		t.Fatal(err)
	}
	text := sheet.String()
	for _, row := range []struct{ name, edited, want string }{
		{"as it is", text, "D01-04 built 30 0.3 short of rock|D01-02 reject 21.5 0 bedrock; \"no, thanks\"|stood 12.34 0.45, 30 0.3, 21.5 NaN"},
		{"D01-01 moved", strings.Replace(text, "D01-01,,,D01,12.34,", "D01-01,move,,D01,14.1,", 1),
			"D01-01 move 14.1 0 |D01-04 built 30 0.3 short of rock|D01-02 reject 21.5 0 bedrock; \"no, thanks\"|stood 12.34 0.45, 30 0.3, 21.5 NaN"},
		{"D01-01 built lower", strings.Replace(text, "D01-01,,,D01,12.34,0.450,", "D01-01,built,,D01,12.34,0.4,", 1),
			"D01-01 built 12.34 0.4 |D01-04 built 30 0.3 short of rock|D01-02 reject 21.5 0 bedrock; \"no, thanks\"|stood 12.34 0.45, 30 0.3, 21.5 NaN"},
	} {
		e, err := editsOf(row.edited)
		if err != nil {
			t.Fatalf("%s: %v\n%s", row.name, err, row.edited)
		}
		var parts, stood []string
		for _, a := range e.Asked {
			parts = append(parts, fmt.Sprintf("%s %s %g %g %s", a.ID, a.Action, a.StationM, a.HeightM, a.Note))
		}
		for _, was := range e.Earlier {
			stood = append(stood, fmt.Sprintf("%g %g", was.StationM, was.HeightM))
		}
		if got := strings.Join(parts, "|") + "|stood " + strings.Join(stood, ", "); got != row.want {
			t.Errorf("%s:\n%s, want\n%s", row.name, got, row.want)
		}
	}
}
