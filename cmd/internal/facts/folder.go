package facts

import (
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/geojson"
)

// Format is the version of plan.json that is read.
const Format = 1

// Folder is a finished plan with the files beside plan.json that hold lines and curves.
type Folder struct {
	Plan
	Dir        string
	Lines      map[string]orb.LineString // of drainages by id, running downstream, longitude and latitude
	ReachLines []orb.LineString          // one for each of Plan.Reaches, likewise; empty where it has no length
	Catchments map[string]orb.Geometry   // polygons by drainage
	Limits     map[string][]orb.Geometry // what was declared, by kind: property, exclusion, building, road, live stream, base level
	Profiles   map[string]Profile        // by drainage
	Sections   map[string]Section        // by dam
}

// ErrNoPlan says that a folder holds no finished plan that can be read: what is wrong, and what to do, is in the text.
var ErrNoPlan = errors.New("no finished plan")

// Read reads the plan in a folder. Errors (ErrNoPlan): plan.json is not there, of another format, or damaged; a layer, a profile or a
// cross-section is missing or damaged.
func Read(dir string) (*Folder, error) {
	f := &Folder{Dir: dir}
	text, err := os.ReadFile(filepath.Join(dir, "plan.json"))
	if errors.Is(err, fs.ErrNotExist) {
		return nil, fmt.Errorf("%s holds no plan.json: name the folder that siltstep plan wrote (%w)", dir, ErrNoPlan)
	}
	if err != nil {
		return nil, err
	}
	var head struct{ Program Program }
	if err := json.Unmarshal(text, &head); err != nil {
		return nil, fmt.Errorf("%s: damaged: %w (%w)", filepath.Join(dir, "plan.json"), err, ErrNoPlan)
	}
	if head.Program.Format != Format {
		return nil, fmt.Errorf("%s is of format %d, and this siltstep reads format %d: make the plan anew (%w)", filepath.Join(dir, "plan.json"), head.Program.Format, Format, ErrNoPlan)
	}
	if err := json.Unmarshal(text, &f.Plan); err != nil {
		return nil, fmt.Errorf("%s: damaged: %w (%w)", filepath.Join(dir, "plan.json"), err, ErrNoPlan)
	}
	for _, read := range []func() error{f.readLines, f.readReaches, f.readCatchments, f.readLimits, f.readProfiles, f.readSections} {
		if err := read(); err != nil {
			return nil, fmt.Errorf("%w (%w)", err, ErrNoPlan)
		}
	}
	return f, nil
}

// layer reads a map layer of the folder.
func (f *Folder) layer(name string) (*geojson.FeatureCollection, error) {
	path := filepath.Join(f.Dir, name)
	text, err := os.ReadFile(path)
	if err != nil {
		return nil, err
	}
	layer, err := geojson.UnmarshalFeatureCollection(text)
	if err != nil {
		return nil, fmt.Errorf("%s: damaged: %w", path, err)
	}
	return layer, nil
}

func (f *Folder) readLines() error {
	layer, err := f.layer("drainages.geojson")
	if err != nil {
		return err
	}
	f.Lines = make(map[string]orb.LineString, len(layer.Features))
	for _, one := range layer.Features {
		if line, ok := one.Geometry.(orb.LineString); ok {
			f.Lines[one.Properties.MustString("id", "")] = line
		}
	}
	return nil
}

func (f *Folder) readReaches() error {
	layer, err := f.layer("reaches.geojson")
	if err != nil {
		return err
	}
	if len(layer.Features) != len(f.Reaches) {
		return fmt.Errorf("%s: %d reaches, and plan.json has %d", filepath.Join(f.Dir, "reaches.geojson"), len(layer.Features), len(f.Reaches))
	}
	f.ReachLines = make([]orb.LineString, len(f.Reaches))
	for i, one := range layer.Features {
		if line, ok := one.Geometry.(orb.LineString); ok {
			f.ReachLines[i] = line
		}
	}
	return nil
}

func (f *Folder) readCatchments() error {
	layer, err := f.layer("catchments.geojson")
	if err != nil {
		return err
	}
	f.Catchments = make(map[string]orb.Geometry, len(layer.Features))
	for _, one := range layer.Features {
		f.Catchments[one.Properties.MustString("id", "")] = one.Geometry
	}
	return nil
}

func (f *Folder) readLimits() error {
	layer, err := f.layer("limits.geojson")
	if err != nil {
		return err
	}
	f.Limits = map[string][]orb.Geometry{}
	for _, one := range layer.Features {
		kind := one.Properties.MustString("kind", "")
		f.Limits[kind] = append(f.Limits[kind], one.Geometry)
	}
	return nil
}

// Site returns a dam by its id; nil where there is none.
func (f *Folder) Site(id string) *Site {
	for i := range f.Sites {
		if f.Sites[i].ID == id {
			return &f.Sites[i]
		}
	}
	return nil
}

// Design returns what more is known of a dam; nil where there is none.
func (f *Folder) Design(id string) *Design {
	for i := range f.Designs {
		if f.Designs[i].ID == id {
			return &f.Designs[i]
		}
	}
	return nil
}

// SitesOf returns the dams of a drainage, from its lower end upstream.
func (f *Folder) SitesOf(drainage string) (sites []Site) {
	for _, s := range f.Sites {
		if s.Drainage == drainage {
			sites = append(sites, s)
		}
	}
	return sites
}

// ChecksOf returns what to look at on the ground before a dam is built, the most important first.
func (f *Folder) ChecksOf(id string) (texts []string) {
	for _, c := range f.Checks {
		if c.ID == id {
			texts = append(texts, c.Text)
		}
	}
	return texts
}

// WeaknessesOf returns what may make a dam fail, the nearest to its limit first.
func (f *Folder) WeaknessesOf(id string) (list []Weakness) {
	for _, w := range f.Weaknesses {
		if w.ID == id {
			list = append(list, w)
		}
	}
	return list
}

// Setting returns a setting as it was used; empty where there is none of that name.
func (f *Folder) Setting(key string) string {
	for _, s := range f.Settings {
		if s.Key == key {
			return s.Value
		}
	}
	return ""
}
