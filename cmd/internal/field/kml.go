package field

import (
	"encoding/xml"
	"fmt"
	"io"

	"siltstep/cmd/internal/facts"
	"siltstep/cmd/internal/units"

	"github.com/paulmach/orb"
)

// Elements of KML 2.2 in the order of its schema.
type (
	kmlFile struct {
		XMLName  xml.Name    `xml:"http://www.opengis.net/kml/2.2 kml"`
		Document kmlDocument `xml:"Document"`
	}
	kmlDocument struct {
		Name        string      `xml:"name"`
		Open        int         `xml:"open"`
		Description string      `xml:"description"`
		Styles      []kmlStyle  `xml:"Style"`
		Folders     []kmlFolder `xml:"Folder"`
	}
	kmlFolder struct {
		Name        string         `xml:"name"`
		Visibility  int            `xml:"visibility"`
		Description string         `xml:"description,omitempty"`
		Placemarks  []kmlPlacemark `xml:"Placemark"`
	}
	kmlPlacemark struct {
		Name        string     `xml:"name"`
		Visibility  int        `xml:"visibility"`
		Description string     `xml:"description,omitempty"`
		StyleURL    string     `xml:"styleUrl"`
		Point       *kmlPoint  `xml:"Point,omitempty"`
		Line        *kmlLine   `xml:"LineString,omitempty"`
		Shapes      *kmlShapes `xml:"MultiGeometry,omitempty"`
	}
	kmlStyle struct {
		ID   string   `xml:"id,attr"`
		Icon *kmlIcon `xml:"IconStyle,omitempty"`
		Line *kmlPen  `xml:"LineStyle,omitempty"`
		Poly *kmlFill `xml:"PolyStyle,omitempty"`
	}
	kmlIcon struct {
		Scale string `xml:"scale"`
		Href  string `xml:"Icon>href"`
	}
	kmlPen struct {
		Color string `xml:"color"` // alpha, blue, green, red
		Width string `xml:"width"`
	}
	kmlFill struct {
		Fill int `xml:"fill"`
	}
)

// WriteKML writes sites.kml: a folder of dams for each series in build order, then headcuts, drainages as lines that run downstream, and
// catchments, which are switched off. Icons are inside the file and differ in shape. Error: w failed.
func WriteKML(w io.Writer, f *facts.Folder, opt Options) error {
	out := kmlFile{Document: kmlDocument{Name: opt.title(), Open: 1, Description: head(f), Styles: kmlStyles()}}
	tapes := tapesOf(f)
	for _, r := range runsOf(f) {
		out.Document.add(damFolder(f, r, tapes, opt.System))
	}
	out.Document.add(headcutFolder(f, opt.System))
	out.Document.add(drainageFolder(f, opt.System))
	out.Document.add(catchmentFolder(f, opt.System))
	return writeXML(w, "sites.kml", out)
}

// kmlStyles lists how things look. Colours: our own choice, black for what is built or cut, blue for water, white rims for both.
func kmlStyles() []kmlStyle {
	return []kmlStyle{
		{ID: "dam", Icon: &kmlIcon{"0.8", icon(damDrawing)}},
		{ID: "headcut", Icon: &kmlIcon{"0.8", icon(headcutDrawing)}},
		{ID: "drainage", Line: &kmlPen{"ffb05a1e", "2"}},
		{ID: "catchment", Line: &kmlPen{"ff404040", "1"}, Poly: &kmlFill{0}},
	}
}

// add appends a folder that holds something.
func (d *kmlDocument) add(folder kmlFolder) {
	if len(folder.Placemarks) > 0 {
		d.Folders = append(d.Folders, folder)
	}
}

func damFolder(f *facts.Folder, r run, tapes map[string]tape, system units.System) kmlFolder {
	folder := kmlFolder{Name: "Series " + r.id, Visibility: 1, Description: beforeWords(r, system)}
	if r.order > 0 {
		folder.Name = fmt.Sprintf("%d. Series %s", r.order, r.id)
	}
	for _, s := range r.dams {
		if placed(s.Place) {
			folder.Placemarks = append(folder.Placemarks, pointMark(s.ID, "#dam", damWords(f, r, s, tapes[s.ID], system), s.Place))
		}
	}
	return folder
}

func headcutFolder(f *facts.Folder, system units.System) kmlFolder {
	folder := kmlFolder{Name: "Headcuts", Visibility: 1}
	for _, h := range f.Headcuts {
		if placed(h.Place) {
			folder.Placemarks = append(folder.Placemarks, pointMark(h.ID, "#headcut", headcutWords(h, system), h.Place))
		}
	}
	return folder
}

func pointMark(name, style, words string, at facts.Place) kmlPlacemark {
	return kmlPlacemark{Name: name, Visibility: 1, Description: words, StyleURL: style, Point: &kmlPoint{positions([]orb.Point{{float64(at.Lon), float64(at.Lat)}})}}
}

func drainageFolder(f *facts.Folder, system units.System) kmlFolder {
	folder := kmlFolder{Name: "Drainages", Visibility: 1}
	for _, d := range f.Drainages {
		line := f.Lines[d.ID]
		if len(line) < 2 {
			continue
		}
		folder.Placemarks = append(folder.Placemarks, kmlPlacemark{Name: d.ID, Visibility: 1, Description: drainageWords(d, system), StyleURL: "#drainage", Line: &kmlLine{1, positions(line)}})
	}
	return folder
}

// drainageWords describes a drainage.
func drainageWords(d facts.Drainage, system units.System) string {
	class := d.SeverityClass
	if class == "" {
		class = "not judged"
	}
	text := fmt.Sprintf("Drainage %s, %s long; erosion: %s", d.ID, system.Length(float64(d.LengthM), 0), class)
	if d.Severity.Known() {
		text += fmt.Sprintf(" (severity %.1f of 100)", float64(d.Severity))
	}
	return text + fmt.Sprintf("; %d dams.", d.Dams)
}

func catchmentFolder(f *facts.Folder, system units.System) kmlFolder {
	folder := kmlFolder{Name: "Catchments"}
	land := "Catchment of "
	if system == units.US {
		folder.Name, land = "Drainage areas", "Drainage area of "
	}
	for _, d := range f.Drainages {
		shapes := polygons(f.Catchments[d.ID])
		if shapes == nil {
			continue
		}
		least := ""
		if d.Truncated {
			least = "at least "
		}
		words := land + d.ID + ": " + least + system.Area(float64(d.CatchmentHa)*units.HectareM2, 2) + "."
		folder.Placemarks = append(folder.Placemarks, kmlPlacemark{Name: d.ID, Description: words, StyleURL: "#catchment", Shapes: shapes})
	}
	return folder
}
