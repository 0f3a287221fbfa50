package field

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"strings"
	"testing"

	"siltstep/cmd/internal/facts"
	"siltstep/cmd/internal/units"
)

// order holds, for an element, the children that its schema allows, in the order in which they come.
type order map[string]string

// gpxOrder follows GPX 1.1: gpxType, metadataType, wptType and rteType; of the children of metadata and wpt those before extensions.
var gpxOrder = order{
	"gpx":      "metadata wpt rte trk extensions",
	"metadata": "name desc author copyright link time keywords bounds extensions",
	"wpt":      "ele time magvar geoidheight name cmt desc src link sym type fix sat hdop vdop pdop ageofdgpsdata dgpsid extensions",
	"rtept":    "ele time magvar geoidheight name cmt desc src link sym type fix sat hdop vdop pdop ageofdgpsdata dgpsid extensions",
	"rte":      "name cmt desc src link number type extensions rtept",
}

// kmlOrder follows OGC 07-147r2 for the elements in use.
var kmlOrder = order{
	"kml":             "Document",
	"Document":        "name visibility open description Style Folder",
	"Folder":          "name visibility open description styleUrl Style Placemark",
	"Placemark":       "name visibility open description styleUrl Point LineString MultiGeometry",
	"Style":           "IconStyle LabelStyle LineStyle PolyStyle",
	"IconStyle":       "color colorMode scale heading Icon hotSpot",
	"LineStyle":       "color colorMode width",
	"PolyStyle":       "color colorMode fill outline",
	"Icon":            "href",
	"Point":           "extrude altitudeMode coordinates",
	"LineString":      "extrude tessellate altitudeMode coordinates",
	"Polygon":         "extrude tessellate altitudeMode outerBoundaryIs innerBoundaryIs",
	"MultiGeometry":   "Polygon",
	"outerBoundaryIs": "LinearRing",
	"innerBoundaryIs": "LinearRing",
	"LinearRing":      "coordinates",
}

// faults returns what breaks the order of elements.
func (o order) faults(text []byte, namespace string) (list []string) {
	type open struct {
		name string
		at   int
	}
	stack := []open{{"", 0}}
	for d := xml.NewDecoder(bytes.NewReader(text)); ; {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			return list
		}
		if err != nil {
			return append(list, err.Error())
		}
		switch token := token.(type) {
		case xml.StartElement:
			if token.Name.Space != namespace {
				list = append(list, token.Name.Local+" is in the namespace "+token.Name.Space)
			}
			top := &stack[len(stack)-1]
			if top.name != "" {
				at := -1
				for i, name := range strings.Fields(o[top.name]) {
					if name == token.Name.Local {
						at = i
					}
				}
				if at < top.at {
					list = append(list, token.Name.Local+" is out of place in "+top.name)
				}
				top.at = max(at, top.at)
			}
			stack = append(stack, open{token.Name.Local, 0})
		case xml.EndElement:
			stack = stack[:len(stack)-1]
		}
	}
}

const (
	gpxSpace = "http://www.topografix.com/GPX/1/1"
	kmlSpace = "http://www.opengis.net/kml/2.2"
)

type writer func(io.Writer, *facts.Folder, Options) error

func written(t *testing.T, write writer, f *facts.Folder, opt Options) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := write(&b, f, opt); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func TestElementsStandInTheOrderOfTheirSchema(t *testing.T) {
	for _, row := range []struct {
		name  string
		write writer
		order order
		space string
	}{{"gpx", WriteGPX, gpxOrder, gpxSpace}, {"kml", WriteKML, kmlOrder, kmlSpace}} {
		t.Run(row.name, func(t *testing.T) {
			for _, f := range []*facts.Folder{invented(), {}} {
				text := written(t, row.write, f, Options{Title: "Land & <water>"})
				for _, fault := range row.order.faults(text, row.space) {
					t.Error(fault)
				}
				if !bytes.Equal(text, written(t, row.write, f, Options{Title: "Land & <water>"})) {
					t.Error("a second file differs")
				}
			}
		})
	}
}

// The check must see a break of its own.
func TestOrderOfElementsIsSeen(t *testing.T) {
	text := written(t, WriteGPX, invented(), Options{})
	for _, row := range []struct{ name, old, new string }{
		{"name before ele", "<ele>", "<name>x</name><ele>"},
		{"an element of our own", "<ele>", "<height>1</height><ele>"},
		{"not closed", "</gpx>", ""},
		{"another namespace", gpxSpace, "urn:x"},
	} {
		broken := bytes.Replace(text, []byte(row.old), []byte(row.new), 1)
		if len(gpxOrder.faults(broken, gpxSpace)) == 0 {
			t.Errorf("%s: not seen", row.name)
		}
	}
}

func TestWaypointsAndRoutes(t *testing.T) {
	var got gpxFile
	if err := xml.Unmarshal(written(t, WriteGPX, invented(), Options{}), &got); err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, w := range got.Waypoints {
		names = append(names, w.Name)
		if (w.Ele == "") != (w.Type == "headcut") || w.Desc == "" {
			t.Errorf("%s: elevation %q, description %q", w.Name, w.Ele, w.Desc)
		}
	}
	// D02-S1 is built first; D01-03 has no position.
	if want := "D02-01 D02-02 D01-01 D01-02 H01 H02"; strings.Join(names, " ") != want {
		t.Errorf("waypoints %v, want %s", names, want)
	}
	var routes []string
	for _, r := range got.Routes {
		routes = append(routes, r.Name)
		for _, p := range r.Points {
			routes = append(routes, p.Name)
		}
	}
	if want := "D02-S1 D02-01 D02-02 D01-S1 D01-01 D01-02"; strings.Join(routes, " ") != want {
		t.Errorf("routes %v, want %s", routes, want)
	}
	// Bed of D02-02: 1600 + 0.05 x 12.5 = 1600.625 m.
	if got.Waypoints[1].Ele != "1600.625" || got.Waypoints[1].Lat != "37.0001126" {
		t.Errorf("D02-02: %+v", got.Waypoints[1])
	}
	if !strings.Contains(got.Desc, "not an engineered design") || !strings.Contains(got.Desc, "1 dams and 0 headcuts") {
		t.Errorf("head: %s", got.Desc)
	}
}

func TestDescriptions(t *testing.T) {
	f := invented()
	byName := func(system units.System) map[string]string {
		var got gpxFile
		if err := xml.Unmarshal(written(t, WriteGPX, f, Options{System: system}), &got); err != nil {
			t.Fatal(err)
		}
		said := map[string]string{}
		for _, w := range got.Waypoints {
			said[w.Name] = w.Desc
		}
		return said
	}
	metric, us := byName(units.Metric), byName(units.US)
	for _, row := range []struct{ name, text, want string }{
		{"height", metric["D01-02"], "sill 0.40 m above the bed"},
		{"notch", metric["D01-02"], "Notch 1.75 m wide at its sill, 0.25 m deep."},
		{"rock", metric["D01-02"], "Rock to order 6.2 t, median stone 105 mm."},
		{"tape", metric["D01-02"], "8.0 m upstream of D01-01, level distance along the channel; the bed 0.40 m higher."},
		{"check", metric["D01-02"], "First check: Is the bed < 2 m wide & firm?"},
		{"landmark", metric["D01-01"], "10.0 m upstream of the lower end of D01, where its line ends on the map, level distance along the channel; the bed 0.50 m higher."},
		{"bed of the landmark not known", metric["D02-01"], "its confluence with D01, level distance along the channel; rise not known."},
		{"not to be built", metric["D02-01"], "Not to be built as designed"},
		{"headcut", metric["H01"], "Headcut 0.75 m high in D01, station 80.0 m, catchment 1.50 ha."},
		{"step at a road", metric["H02"], "Step in the bed (road) 0.50 m high in D02, station 30.0 m."},
		// 8 m is 26.2 ft, 6.25 t is 6.9 US tons of 2,000 lb (0.90718 t), 105 mm is 4.1 in, 1.5 ha is 3.71 ac (0.40469 ha).
		{"tape in feet", us["D01-02"], "26.2 ft upstream of D01-01"},
		{"rock in US tons", us["D01-02"], "Rock to order 6.9 US tons (2,000 lb), median stone 4.1 in."},
		{"headcut in acres", us["H01"], "drainage area 3.71 ac"},
	} {
		if !strings.Contains(row.text, row.want) {
			t.Errorf("%s: %q lacks %q", row.name, row.text, row.want)
		}
	}
}

func TestFoldersOfMap(t *testing.T) {
	var got kmlFile
	if err := xml.Unmarshal(written(t, WriteKML, invented(), Options{}), &got); err != nil {
		t.Fatal(err)
	}
	var said []string
	for _, folder := range got.Document.Folders {
		said = append(said, folder.Name)
		for _, p := range folder.Placemarks {
			if p.Visibility != folder.Visibility {
				t.Errorf("%s in %s: visibility differs", p.Name, folder.Name)
			}
		}
	}
	if want := "1. Series D02-S1|2. Series D01-S1|Headcuts|Drainages|Catchments"; strings.Join(said, "|") != want {
		t.Errorf("folders %v", said)
	}
	if got.Document.Folders[4].Visibility != 0 {
		t.Error("catchments are not switched off")
	}
	at := got.Document.Folders[1].Placemarks[0].Point.Coordinates
	if at != "-103.9996591,37.0000901" { // 30 m east of 104° at 88,000 m a degree, 10 m north of 37° at 111,000 m a degree
		t.Errorf("D01-01 at %s", at)
	}
	shapes := got.Document.Folders[4].Placemarks
	if len(shapes[0].Shapes.Polygons[0].Inner) != 1 || len(shapes[1].Shapes.Polygons) != 2 {
		t.Error("holes or parts of catchments are lost")
	}
}
