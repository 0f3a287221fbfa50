package field

import (
	"bytes"
	"encoding/csv"
	"errors"
	"image/png"
	"io"
	"math"
	"strconv"
	"strings"
	"testing"

	"siltstep/cmd/internal/facts"
	"siltstep/geojson"
)

// rowsOf reads a list back as columns by name.
func rowsOf(t *testing.T, write func(io.Writer, *facts.Folder) error, f *facts.Folder) (rows []map[string]string) {
	t.Helper()
	var b bytes.Buffer
	if err := write(&b, f); err != nil {
		t.Fatal(err)
	}
	all, err := csv.NewReader(&b).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, line := range all[1:] {
		row := map[string]string{}
		for i, name := range all[0] {
			row[name] = line[i]
		}
		rows = append(rows, row)
	}
	return rows
}

func TestSitesStandInBuildOrder(t *testing.T) {
	rows := rowsOf(t, WriteSites, invented())
	for i, want := range []struct{ id, build, below, from, rise, landmarkRise string }{
		{"D02-01", "1", "", "", "", ""},
		{"D02-02", "2", "D02-01", "7.50", "0.375", ""},
		{"D01-01", "3", "", "", "", "0.500"},
		{"D01-02", "4", "D01-01", "8.00", "0.400", "0.900"},
		{"D01-03", "", "D01-02", "42.00", "2.100", "3.000"}, // of another series: 60 - 18 m, at 5 %
	} {
		r := rows[i]
		got := []string{r["id"], r["build_order"], r["below_id"], r["from_below_m"], r["rise_from_below_m"], r["rise_from_landmark_m"]}
		if wanted := []string{want.id, want.build, want.below, want.from, want.rise, want.landmarkRise}; strings.Join(got, "|") != strings.Join(wanted, "|") {
			t.Errorf("row %d: %v, want %v", i, got, wanted)
		}
	}
	if rows[3]["lon"] != "-103.9996591" || rows[3]["x_m"] != "500030.00" || rows[3]["grid_crs"] != "an invented plane" {
		t.Errorf("D01-02: %v", rows[3])
	}
	if r := rows[4]; r["lon"] != "" || r["rock_t"] != "" || r["notch_width_m"] != "" {
		t.Errorf("D01-03: what is not known is not empty: %v", r)
	}
}

// Distances from dam to dam, from the landmark to the highest, add up to its station within 1 %.
func TestTapeAddsUp(t *testing.T) {
	sums, stations := map[string]float64{}, map[string]float64{}
	for _, r := range rowsOf(t, WriteSites, invented()) {
		from, station := r["from_below_m"], number(t, r["station_m"])
		if from == "" {
			from = r["from_landmark_m"]
		}
		sums[r["drainage"]] += number(t, from)
		stations[r["drainage"]] = max(stations[r["drainage"]], station)
	}
	for id, station := range stations {
		if math.Abs(sums[id]-station) > 0.01*station {
			t.Errorf("%s: %.2f m by tape, %.2f m by station", id, sums[id], station)
		}
	}
}

func number(t *testing.T, text string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatal(err)
	}
	return x
}

func TestStakeoutPoints(t *testing.T) {
	var b bytes.Buffer
	if err := WriteStakeout(&b, invented()); err != nil {
		t.Fatal(err)
	}
	// Order of columns: point, northing, easting, height, description. D01-03 has no position.
	const want = "point,northing_m,easting_m,height_m,description\n" +
		"D02-01,4100005.00,500030.00,1600.250,BED AT DAM AXIS D02-S1 SILL 1600.650 WHICH IS 0.400 UP\n" +
		"D02-02,4100012.50,500030.00,1600.625,BED AT DAM AXIS D02-S1 SILL 1601.025 WHICH IS 0.400 UP\n" +
		"D01-01,4100010.00,500030.00,1600.500,BED AT DAM AXIS D01-S1 SILL 1600.900 WHICH IS 0.400 UP\n" +
		"D01-02,4100018.00,500030.00,1600.900,BED AT DAM AXIS D01-S1 SILL 1601.300 WHICH IS 0.400 UP\n"
	if b.String() != want {
		t.Errorf("got\n%s", b.String())
	}
}

func TestListsAreDescribed(t *testing.T) {
	for _, l := range Tables() {
		seen := map[string]bool{}
		for _, f := range l.Fields {
			if f.Name == "" || f.Meaning == "" || seen[f.Name] || (f.Type == geojson.Real) != (f.Unit != "") {
				t.Errorf("%s.%s: name, meaning or unit is missing, or it comes twice", l.Name, f.Name)
			}
			seen[f.Name] = true
		}
	}
	// Empty values must have a meaning.
	for _, list := range []struct {
		table geojson.Layer
		write func(io.Writer, *facts.Folder) error
	}{{SitesTable(), WriteSites}, {StakeoutTable(), WriteStakeout}} {
		for _, row := range rowsOf(t, list.write, invented()) {
			for _, f := range list.table.Fields {
				if row[f.Name] == "" && f.Null == "" && f.Type != geojson.Text {
					t.Errorf("%s.%s is empty; the table does not say what that means", list.table.Name, f.Name)
				}
			}
		}
	}
}

func TestIconsDifferInShape(t *testing.T) {
	inked := func(drawing [iconSize / 2]string) (ink int, set [iconSize][iconSize]bool) {
		picture, err := png.Decode(bytes.NewReader(iconPNG(drawing)))
		if err != nil {
			t.Fatal(err)
		}
		for y := range iconSize {
			for x := range iconSize {
				r, _, _, alpha := picture.At(x, y).RGBA()
				if set[y][x] = alpha > 0 && r == 0; set[y][x] {
					ink++
				}
			}
		}
		return ink, set
	}
	a, of := inked(damDrawing)
	b, other := inked(headcutDrawing)
	apart := 0
	for y := range iconSize {
		for x := range iconSize {
			if of[y][x] != other[y][x] {
				apart++
			}
		}
	}
	if a < 100 || b < 100 || apart < 200 {
		t.Errorf("%d and %d black pixels, %d of them differ", a, b, apart)
	}
}

type full struct{ err error }

func (f full) Write([]byte) (int, error) { return 0, f.err }

func TestFullDiskIsReported(t *testing.T) {
	failed := errors.New("disk full")
	f := invented()
	for name, err := range map[string]error{"gpx": WriteGPX(full{failed}, f, Options{}), "kml": WriteKML(full{failed}, f, Options{}), "sites": WriteSites(full{failed}, f), "stakeout": WriteStakeout(full{failed}, f)} {
		if !errors.Is(err, failed) {
			t.Errorf("%s: %v", name, err)
		}
	}
}
