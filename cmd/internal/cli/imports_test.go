package cli

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"maps"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// moduleRoot is the top of the checkout, seen from this package.
const moduleRoot = "../../.."

// An importGraph holds what each package of the module imports, by path, with and
// without its tests.
type importGraph struct{ code, tests map[string][]string }

// readImports parses the import lines of every Go file of the module.
func readImports(t *testing.T) importGraph {
	t.Helper()
	g := importGraph{map[string][]string{}, map[string][]string{}}
	err := filepath.WalkDir(moduleRoot, func(place string, entry fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if entry.IsDir() && (entry.Name() == "testdata" || entry.Name() == "out" || entry.Name() == ".git") {
			return fs.SkipDir
		}
		if !strings.HasSuffix(place, ".go") {
			return nil
		}
		file, err := parser.ParseFile(token.NewFileSet(), place, nil, parser.ImportsOnly)
		if err != nil {
			return err
		}
		dir, err := filepath.Rel(moduleRoot, filepath.Dir(place))
		if err != nil {
			return err
		}
		into := g.code
		if strings.HasSuffix(place, "_test.go") {
			into = g.tests
		}
		name := path.Join("siltstep", filepath.ToSlash(dir))
		into[name] = append(into[name], importPaths(t, file.Imports)...)
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return g
}

func importPaths(t *testing.T, specs []*ast.ImportSpec) (paths []string) {
	t.Helper()
	for _, spec := range specs {
		p, err := strconv.Unquote(spec.Path.Value)
		if err != nil {
			t.Fatal(err)
		}
		paths = append(paths, p)
	}
	return paths
}

// reach returns all that a package imports, directly or through others of the module.
func (g importGraph) reach(name string) map[string]bool {
	seen := map[string]bool{}
	var visit func(string)
	visit = func(p string) {
		for _, next := range g.code[p] {
			if !seen[next] {
				seen[next] = true
				visit(next)
			}
		}
	}
	visit(name)
	return seen
}

// under reports whether a package is one of the given folders or lies below it.
func under(name string, folders ...string) bool {
	return slices.ContainsFunc(folders, func(f string) bool {
		return name == "siltstep/"+f || strings.HasPrefix(name, "siltstep/"+f+"/")
	})
}

// An importRule says what the packages it is for must not reach.
type importRule struct {
	name   string
	direct bool // looks at a package's own import lines, tests included, instead of all it reaches
	of     func(pkg string) bool
	ban    func(imported string) bool
}

var importRules = []importRule{
	{
		name: "only raster/gdal imports godal", direct: true,
		of:  func(p string) bool { return p != "siltstep/raster/gdal" },
		ban: func(i string) bool { return strings.HasPrefix(i, "github.com/airbusgeo/godal") },
	},
	{
		name: "raster, hydro and geojson need no C",
		of:   func(p string) bool { return under(p, "raster", "hydro", "geojson") && p != "siltstep/raster/gdal" },
		ban:  func(i string) bool { return i == "C" || i == "siltstep/raster/gdal" },
	},
	{
		name: "hydro knows neither cmd nor an output format",
		of:   func(p string) bool { return under(p, "hydro") },
		ban: func(i string) bool {
			return under(i, "cmd", "geojson") || strings.HasPrefix(i, "encoding/") || strings.Contains(i, "/orb/geojson") ||
				strings.HasPrefix(i, "gonum.org/v1/plot")
		},
	},
	{
		name: "storm and checkdam know no grid",
		of:   func(p string) bool { return under(p, "hydro/storm", "hydro/checkdam") },
		ban:  func(i string) bool { return under(i, "raster", "hydro/flow", "hydro/channel") },
	},
	{
		name: "raster knows nothing above it",
		of:   func(p string) bool { return under(p, "raster") },
		ban:  func(i string) bool { return under(i, "hydro", "geojson", "cmd") },
	},
	{
		name: "flow knows no channel",
		of:   func(p string) bool { return under(p, "hydro/flow") },
		ban:  func(i string) bool { return under(i, "hydro") },
	},
	{
		name: "channel knows no dam",
		of:   func(p string) bool { return under(p, "hydro/channel") },
		ban:  func(i string) bool { return under(i, "hydro") && !under(i, "hydro/flow", "hydro/channel") },
	},
	{
		name: "nothing below the facade imports it",
		of:   func(p string) bool { return under(p, "hydro", "raster") && p != "siltstep/hydro" },
		ban:  func(i string) bool { return i == "siltstep/hydro" },
	},
	{
		name: "only cmd imports cmd", direct: true,
		of:  func(p string) bool { return !under(p, "cmd") },
		ban: func(i string) bool { return under(i, "cmd") },
	},
}

// broken returns the breaks of a rule, each as "package imports package".
func (r importRule) broken(g importGraph) (found []string) {
	for _, pkg := range slices.Sorted(maps.Keys(g.code)) {
		if !r.of(pkg) {
			continue
		}
		imported := g.reach(pkg)
		if r.direct {
			imported = map[string]bool{}
			for _, i := range slices.Concat(g.code[pkg], g.tests[pkg]) {
				imported[i] = true
			}
		}
		for _, i := range slices.Sorted(maps.Keys(imported)) {
			if r.ban(i) {
				found = append(found, pkg+" imports "+i)
			}
		}
	}
	return found
}

func TestImportRules(t *testing.T) {
	g := readImports(t)
	if len(g.code) < 10 {
		t.Fatalf("only %d packages found: the test looks in the wrong place", len(g.code))
	}
	for _, rule := range importRules {
		t.Run(rule.name, func(t *testing.T) {
			for _, fault := range rule.broken(g) {
				t.Error(fault)
			}
		})
	}
}

// Each rule must see its own break in a graph drawn for it.
func TestImportRulesBite(t *testing.T) {
	drawn := map[string][2]string{
		"only raster/gdal imports godal":               {"siltstep/cmd/internal/cli", "github.com/airbusgeo/godal"},
		"raster, hydro and geojson need no C":          {"siltstep/geojson", "siltstep/raster/gdal"},
		"hydro knows neither cmd nor an output format": {"siltstep/hydro/siting", "encoding/json"},
		"storm and checkdam know no grid":              {"siltstep/hydro/storm", "siltstep/raster"},
		"raster knows nothing above it":                {"siltstep/raster", "siltstep/hydro/flow"},
		"flow knows no channel":                        {"siltstep/hydro/flow", "siltstep/hydro/channel"},
		"channel knows no dam":                         {"siltstep/hydro/channel", "siltstep/hydro/siting"},
		"nothing below the facade imports it":          {"siltstep/hydro/siting", "siltstep/hydro"},
		"only cmd imports cmd":                         {"siltstep/geojson", "siltstep/cmd/internal/units"},
	}
	for _, rule := range importRules {
		pair, ok := drawn[rule.name]
		if !ok {
			t.Errorf("%s: no break is drawn for it", rule.name)
			continue
		}
		g := importGraph{map[string][]string{pair[0]: {pair[1]}}, map[string][]string{}}
		if len(rule.broken(g)) == 0 {
			t.Errorf("%s: does not see that %s imports %s", rule.name, pair[0], pair[1])
		}
	}
}

// Every package says, in this order, what it assumes, its units, limits and sources.
func TestImportablePackagesAreDocumented(t *testing.T) {
	for pkg := range readImports(t).code {
		dir := filepath.Join(moduleRoot, filepath.FromSlash(strings.TrimPrefix(pkg, "siltstep/")))
		if _, err := os.Stat(filepath.Join(dir, "main.go")); err == nil {
			continue // a program of a few lines; nobody imports it
		}
		place := filepath.Join(dir, "doc.go")
		text, err := os.ReadFile(place)
		if err != nil {
			t.Errorf("%s has no doc.go", pkg)
			continue
		}
		from := 0
		for _, heading := range []string{"# Assumptions", "# Units", "# Limits", "# Sources"} {
			at := strings.Index(string(text)[from:], "// "+heading+"\n")
			if at < 0 {
				t.Errorf("%s: doc.go lacks %q, or has it out of order", pkg, heading)
				break
			}
			from += at
		}
	}
}
