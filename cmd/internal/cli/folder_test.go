package cli

import (
	"context"
	"errors"
	"io"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// tree lists what lies below a folder, folders with a slash at the end.
func tree(t *testing.T, dir string) (names []string) {
	t.Helper()
	err := filepath.WalkDir(dir, func(place string, entry fs.DirEntry, err error) error {
		if err != nil || place == dir {
			return err
		}
		name, err := filepath.Rel(dir, place)
		if entry.IsDir() {
			name += "/"
		}
		names = append(names, filepath.ToSlash(name))
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return names
}

// fill writes files, each holding its text, through an output folder.
func fill(t *testing.T, target string, replace bool, files map[string]string) error {
	t.Helper()
	f, err := openFolder(target, replace)
	if err != nil {
		return err
	}
	defer f.discard()
	for name, text := range files {
		err := f.write(name, func(w io.Writer) error {
			_, err := io.WriteString(w, text)
			return err
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	return f.commit()
}

func mustFill(t *testing.T, target string, replace bool, files map[string]string) {
	t.Helper()
	if err := fill(t, target, replace, files); err != nil {
		t.Fatal(err)
	}
}

func wantTree(t *testing.T, dir string, want ...string) {
	t.Helper()
	slices.Sort(want)
	got := tree(t, dir)
	slices.Sort(got)
	if !slices.Equal(got, want) {
		t.Errorf("%s holds %q, want %q", filepath.Base(dir), got, want)
	}
}

func wantText(t *testing.T, place, want string) {
	t.Helper()
	got, err := os.ReadFile(place)
	if err != nil || string(got) != want {
		t.Errorf("%s holds %q (%v), want %q", place, got, err, want)
	}
}

func TestNewFolder(t *testing.T) {
	top := t.TempDir()
	target := filepath.Join(top, "deep", "down", "plan")
	mustFill(t, target, false, map[string]string{"plan.json": "{}", "profiles/D01.csv": "x"})
	wantTree(t, top, "deep/", "deep/down/", "deep/down/plan/", "deep/down/plan/.siltstep-files", "deep/down/plan/plan.json",
		"deep/down/plan/profiles/", "deep/down/plan/profiles/D01.csv")
	// echo -n '{}' | sha256sum
	wantText(t, filepath.Join(target, manifestName),
		"44136fa355b3678a1146ad16f7e8649e94fb4fc21fe77e8310c060f61caaff8a  plan.json\n"+
			"2d711642b726b04401627ca9fbac32f5c8530fb1903cc4db02258717921a4881  profiles/D01.csv\n")
}

func TestManifestIsReadBySha256sum(t *testing.T) {
	if _, err := exec.LookPath("sha256sum"); err != nil {
		t.Skip("no sha256sum here")
	}
	target := filepath.Join(t.TempDir(), "plan")
	mustFill(t, target, false, map[string]string{"plan.json": "{}"})
	cmd := exec.Command("sha256sum", "-c", manifestName)
	cmd.Dir = target
	if out, err := cmd.CombinedOutput(); err != nil || string(out) != "plan.json: OK\n" {
		t.Errorf("sha256sum -c: %v, %s", err, out)
	}
}

func TestFolderRefuses(t *testing.T) {
	for _, row := range []struct {
		name    string
		replace bool
		before  map[string]string // files in the way; a name that ends in a slash is a folder
		target  string
		want    string // part of the message
	}{
		{"no name", false, nil, "", "--out is missing"},
		{"a folder that exists", false, map[string]string{"plan/": ""}, "plan", "exists already"},
		{"a file", false, map[string]string{"plan": "x"}, "plan", "is a file"},
		{"a file, to be replaced", true, map[string]string{"plan": "x"}, "plan", "is a file"},
		{"below a file", false, map[string]string{"notes.txt": "x"}, "notes.txt/plan", "cannot be made"},
		{"a folder of somebody else's, to be replaced", true, map[string]string{"plan/letter.txt": "x"}, "plan", "holds no plan that siltstep wrote"},
		{"a damaged list of files", true, map[string]string{"plan/" + manifestName: "what is this\n"}, "plan", "is damaged"},
		{"a list that leads outside", true, map[string]string{"plan/" + manifestName: strings.Repeat("0", 64) + "  ../letter.txt\n"}, "plan", "is damaged"},
	} {
		t.Run(row.name, func(t *testing.T) {
			top := t.TempDir()
			for name, text := range row.before {
				place := filepath.Join(top, name)
				if err := os.MkdirAll(filepath.Dir(place), 0o777); err != nil {
					t.Fatal(err)
				}
				if strings.HasSuffix(name, "/") {
					os.Mkdir(place, 0o777)
				} else if err := os.WriteFile(place, []byte(text), 0o666); err != nil {
					t.Fatal(err)
				}
			}
			before, target := tree(t, top), row.target
			if target != "" {
				target = filepath.Join(top, target)
			}
			_, err := openFolder(target, row.replace)
			if err == nil || !strings.Contains(err.Error(), row.want) || exitCode(context.Background(), err) != ExitRequest {
				t.Errorf("got %v, want %q", err, row.want)
			}
			if after := tree(t, top); !slices.Equal(before, after) {
				t.Errorf("left behind: %q, before %q", after, before)
			}
		})
	}
}

func TestUnwritablePlace(t *testing.T) {
	if _, err := os.Stat("/proc/self"); err != nil {
		t.Skip("no place here that even root cannot write to")
	}
	_, err := openFolder("/proc/siltstep/plan", false)
	if err == nil || !strings.Contains(err.Error(), "name a folder in a place you may write to") {
		t.Errorf("got %v", err)
	}
}

func TestDiscardLeavesNothing(t *testing.T) {
	top := t.TempDir()
	f, err := openFolder(filepath.Join(top, "a", "b", "plan"), false)
	if err != nil {
		t.Fatal(err)
	}
	f.write("profiles/D01.csv", func(io.Writer) error { return errors.New("disk full") })
	f.discard()
	wantTree(t, top)
}

func TestWriteNamesTheFile(t *testing.T) {
	f, err := openFolder(filepath.Join(t.TempDir(), "plan"), false)
	if err != nil {
		t.Fatal(err)
	}
	defer f.discard()
	err = f.write("sites.geojson", func(io.Writer) error { return errors.New("disk full") })
	if err == nil || err.Error() != "sites.geojson could not be written: disk full" {
		t.Errorf("got %v", err)
	}
}

func TestReplace(t *testing.T) {
	target := filepath.Join(t.TempDir(), "plan")
	mustFill(t, target, false, map[string]string{"plan.json": "1", "profiles/D01.csv": "1", "profiles/D02.csv": "1", "rasters/bearing.tif": "1"})
	os.WriteFile(filepath.Join(target, "notes.txt"), []byte("mine"), 0o666)
	os.WriteFile(filepath.Join(target, "profiles", "notes.txt"), []byte("mine"), 0o666)
	mustFill(t, target, true, map[string]string{"plan.json": "2", "profiles/D01.csv": "2", "summary.csv": "2"})
	wantTree(t, target, manifestName, "notes.txt", "plan.json", "profiles/", "profiles/D01.csv", "profiles/notes.txt", "summary.csv")
	wantText(t, filepath.Join(target, "plan.json"), "2")
	wantText(t, filepath.Join(target, "notes.txt"), "mine")
	// and once more, from the new list
	mustFill(t, target, true, map[string]string{"plan.json": "3"})
	wantTree(t, target, manifestName, "notes.txt", "plan.json", "profiles/", "profiles/notes.txt")
}

func TestReplaceOfAnEmptyFolder(t *testing.T) {
	target := t.TempDir()
	mustFill(t, target, true, map[string]string{"plan.json": "1"})
	wantTree(t, target, manifestName, "plan.json")
}

func TestReplaceKeepsWhatIsNotOurs(t *testing.T) {
	for _, row := range []struct {
		name string
		do   func(dir string) error
		want string
	}{
		{"a file changed by hand", func(dir string) error {
			return os.WriteFile(filepath.Join(dir, "plan.json"), []byte("edited"), 0o666)
		}, "plan.json was changed after siltstep wrote it"},
		{"a file put where a new one goes", func(dir string) error {
			return os.WriteFile(filepath.Join(dir, "summary.csv"), []byte("mine"), 0o666)
		}, "summary.csv was not written by siltstep"},
		{"a link in place of a file", func(dir string) error {
			return errors.Join(os.Remove(filepath.Join(dir, "plan.json")), os.Symlink("/dev/null", filepath.Join(dir, "plan.json")))
		}, "plan.json was changed"},
		{"a file in place of a folder", func(dir string) error {
			return os.WriteFile(filepath.Join(dir, "profiles"), []byte("mine"), 0o666)
		}, "profiles is in the way"},
	} {
		t.Run(row.name, func(t *testing.T) {
			target := filepath.Join(t.TempDir(), "plan")
			mustFill(t, target, false, map[string]string{"plan.json": "1"})
			if err := row.do(target); err != nil {
				t.Fatal(err)
			}
			before := tree(t, target)
			err := fill(t, target, true, map[string]string{"plan.json": "2", "summary.csv": "2", "profiles/D01.csv": "2"})
			if err == nil || !strings.Contains(err.Error(), row.want) || exitCode(context.Background(), err) != ExitRequest {
				t.Errorf("got %v, want %q", err, row.want)
			}
			if after := tree(t, target); !slices.Equal(before, after) {
				t.Errorf("left %q, before %q", after, before)
			}
		})
	}
}

// A move that fails half way brings the earlier files back.
func TestExchangeIsUndone(t *testing.T) {
	target := filepath.Join(t.TempDir(), "plan")
	mustFill(t, target, false, map[string]string{"a.csv": "1", "b.csv": "1"})
	f, err := openFolder(target, true)
	if err != nil {
		t.Fatal(err)
	}
	f.write("a.csv", func(w io.Writer) error { _, err := io.WriteString(w, "2"); return err })
	if err := f.exchange(manifest{"a.csv": "", "never-written.csv": ""}); err == nil {
		t.Error("a missing file was moved")
	}
	f.discard()
	wantTree(t, target, manifestName, "a.csv", "b.csv")
	wantText(t, filepath.Join(target, "a.csv"), "1")
}

// A folder inside with a list of its own, as the plan in a demo, can be replaced alone and
// then together.
func TestInnerFolder(t *testing.T) {
	target := filepath.Join(t.TempDir(), "demo")
	make := func(replace bool, text string) error {
		f, err := openFolder(target, replace)
		if err != nil {
			return err
		}
		defer f.discard()
		put := func(w io.Writer) error { _, err := io.WriteString(w, text); return err }
		if err := errors.Join(f.write("dem.tif", put), f.write("plan/plan.json", put)); err != nil {
			return err
		}
		if err := writeManifest(filepath.Join(f.stage, "plan")); err != nil {
			return err
		}
		return f.commit()
	}
	if err := make(false, "1"); err != nil {
		t.Fatal(err)
	}
	mustFill(t, filepath.Join(target, "plan"), true, map[string]string{"plan.json": "2", "summary.csv": "2"})
	if err := make(true, "3"); err != nil {
		t.Fatal(err)
	}
	wantTree(t, target, manifestName, "dem.tif", "plan/", "plan/"+manifestName, "plan/plan.json")
	wantText(t, filepath.Join(target, "plan", "plan.json"), "3")
}
