package page

import (
	"bufio"
	"bytes"
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"siltstep/cmd/internal/facts"
)

// mostPageBytes is what a page of 2,000 dams and 300 drainages may take.
const mostPageBytes = 12e6

// modules returns the folder whose node_modules hold playwright-core and axe-core, and the browser. Without them the test is skipped, or fails
// where the environment requires references.
func modules(t *testing.T) (folder, browser string) {
	t.Helper()
	missing := func(why string) {
		if os.Getenv("SILTSTEP_REFERENCES") == "required" {
			t.Fatalf("references are required, and %s", why)
		}
		t.Skip("BROWSER CHECKS LEFT OUT: " + why)
	}
	folder = os.Getenv("SILTSTEP_BROWSER")
	if folder == "" {
		cache, err := os.UserCacheDir()
		if err != nil {
			missing(err.Error())
		}
		folder = filepath.Join(cache, "siltstep-browser")
	}
	folder, err := filepath.Abs(folder)
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{"playwright-core", "axe-core"} {
		if _, err := os.Stat(filepath.Join(folder, "node_modules", name)); err != nil {
			missing(name + " is not in " + folder + ": scripts/test installs it")
		}
	}
	if _, err := exec.LookPath("node"); err != nil {
		missing("there is no node")
	}
	browser, err = exec.LookPath("chromium")
	if err != nil {
		missing("there is no chromium")
	}
	return folder, browser
}

// checks is how many the script makes.
const checks = 19

// written writes the page of a plan into a folder.
func written(t *testing.T, dir, name, text string) string {
	t.Helper()
	path := filepath.Join(dir, name)
	if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	return path
}

func TestLargePlan(t *testing.T) {
	f := invented(300, 2000, 1500)
	if len(f.Sites) != 2000 || len(f.Drainages) != 300 {
		t.Fatalf("%d dams, %d drainages", len(f.Sites), len(f.Drainages))
	}
	if n := len(pageOf(t, f, Options{Hillshade: shade(t, 6000, 1500)})); n > mostPageBytes {
		t.Errorf("%d bytes, at most %.0f", n, mostPageBytes)
	}
}

func TestBrowser(t *testing.T) {
	if testing.Short() {
		t.Skip("starts a browser")
	}
	folder, browser := modules(t)
	out := t.TempDir()
	f := invented(6, 60, 200)
	f.Findings[0].Text = `</script><script>window.ran = 1</script><img src=x onerror="window.ran=1">`
	f.Sites[3].Cautions = f.Findings[0].Text
	small := written(t, out, "small.html", pageOf(t, f, Options{Title: "Marlpit <i>Basin</i>", Hillshade: shade(t, 140, 240)}))
	bare := invented(1, 0, 100)
	none := &facts.Folder{Plan: facts.Plan{Program: bare.Program, Cautions: bare.Cautions, Grid: bare.Grid}}
	empty := written(t, out, "empty.html", pageOf(t, none, Options{}))
	large := written(t, out, "large.html", pageOf(t, invented(300, 2000, 1500), Options{Hillshade: shade(t, 6000, 1500)}))
	var complaints bytes.Buffer
	cmd := exec.Command("node", filepath.Join("testdata", "browser", "check.mjs"), folder, browser, small, empty, large, out)
	cmd.Stderr = &complaints
	text, err := cmd.Output()
	if err != nil {
		t.Errorf("the checks ended with %v:\n%s", err, complaints.Bytes())
	}
	done := 0
	for lines := bufio.NewScanner(bytes.NewReader(text)); lines.Scan(); {
		var check struct {
			Name string
			OK   bool
			Note string
		}
		if err := json.Unmarshal(lines.Bytes(), &check); err != nil {
			t.Fatalf("%v in %q", err, lines.Text())
		}
		done++
		t.Run(check.Name, func(t *testing.T) {
			if !check.OK {
				t.Error(check.Note)
			} else if check.Note != "" {
				t.Log(check.Note)
			}
		})
	}
	if done < checks {
		t.Errorf("%d checks were made, want %d", done, checks)
	}
	for _, name := range []string{"a4.pdf", "letter.pdf"} {
		if pdf, err := os.ReadFile(filepath.Join(out, name)); err != nil || !bytes.HasPrefix(pdf, []byte("%PDF-")) || len(pdf) < 20000 {
			t.Errorf("%s: %d bytes, %v", name, len(pdf), err)
		}
	}
}
