package field

import (
	"encoding/xml"
	"fmt"
	"io"

	"siltstep/cmd/internal/facts"
)

// Elements of GPX 1.1 in the order of its schema.
type (
	gpxFile struct {
		XMLName   xml.Name   `xml:"http://www.topografix.com/GPX/1/1 gpx"`
		Version   string     `xml:"version,attr"`
		Creator   string     `xml:"creator,attr"`
		Name      string     `xml:"metadata>name"`
		Desc      string     `xml:"metadata>desc"`
		Waypoints []gpxPoint `xml:"wpt"`
		Routes    []gpxRoute `xml:"rte"`
	}
	gpxPoint struct {
		Lat  string `xml:"lat,attr"`
		Lon  string `xml:"lon,attr"`
		Ele  string `xml:"ele,omitempty"`
		Name string `xml:"name"`
		Desc string `xml:"desc,omitempty"`
		Type string `xml:"type,omitempty"`
	}
	gpxRoute struct {
		Name   string     `xml:"name"`
		Desc   string     `xml:"desc,omitempty"`
		Number int        `xml:"number,omitempty"`
		Points []gpxPoint `xml:"rtept"`
	}
)

// WriteGPX writes sites.gpx: a waypoint a dam and a headcut, named by its id, and a route a series from its lowest dam upstream, in
// build order. The elevation of a dam is that of the bed at its axis, m; that of a headcut is not in the plan and is left out. Names of
// symbols are left out, so each program draws its own. Error: w failed.
func WriteGPX(w io.Writer, f *facts.Folder, opt Options) error {
	out := gpxFile{Version: "1.1", Creator: f.Program.Name + " " + f.Program.Version, Name: opt.title(), Desc: head(f)}
	tapes := tapesOf(f)
	for _, r := range runsOf(f) {
		route := gpxRoute{Name: r.id, Desc: beforeWords(r, opt.System), Number: r.order}
		for _, s := range r.dams {
			if !placed(s.Place) {
				continue
			}
			at := gpxPoint{Lat: degrees(s.Lat), Lon: degrees(s.Lon), Ele: metres(s.BedM), Name: s.ID}
			route.Points = append(route.Points, at)
			at.Desc, at.Type = damWords(f, r, s, tapes[s.ID], opt.System), "check dam"
			out.Waypoints = append(out.Waypoints, at)
		}
		if len(route.Points) > 0 {
			out.Routes = append(out.Routes, route)
		}
	}
	for _, h := range f.Headcuts {
		if placed(h.Place) {
			out.Waypoints = append(out.Waypoints, gpxPoint{Lat: degrees(h.Lat), Lon: degrees(h.Lon), Name: h.ID, Desc: headcutWords(h, opt.System), Type: "headcut"})
		}
	}
	return writeXML(w, "sites.gpx", out)
}

// writeXML writes a document with its declaration.
func writeXML(w io.Writer, name string, document any) error {
	text, err := xml.MarshalIndent(document, "", " ")
	if err == nil {
		_, err = w.Write(append(append([]byte(xml.Header), text...), '\n'))
	}
	if err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	return nil
}
