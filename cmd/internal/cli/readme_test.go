package cli

import (
	"os"
	"strings"
	"testing"

	"siltstep/cmd/internal/settings"
	"siltstep/hydro/storm"
)

// What the README shows of size and peak is what the scripts run and print.
func TestReadmeShowsWhatTheScriptsRun(t *testing.T) {
	readme, err := os.ReadFile("../../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	_, section, found := strings.Cut(string(readme), "## One dam, without an elevation model\n")
	section, _, ends := strings.Cut(section, "\n## ")
	if !found || !ends {
		t.Fatal("README.md has no section on one dam")
	}
	var scripts strings.Builder
	for _, name := range []string{"size", "peak"} {
		script, err := os.ReadFile("testdata/script/" + name + ".txtar")
		if err != nil {
			t.Fatal(err)
		}
		scripts.Write(script)
	}
	parts := strings.Split(section, "```")
	for i := 1; i < len(parts); i += 2 { // what stands between fences
		block := parts[i]
		if commands, ok := strings.CutPrefix(block, "sh\n"); ok {
			block = "exec " + strings.TrimPrefix(commands, "bin/")
		}
		if block = strings.TrimPrefix(block, "\n"); !strings.Contains(scripts.String(), block) {
			t.Errorf("no script holds\n%s", block)
		}
	}
	if len(parts) != 9 {
		t.Errorf("%d fences, want two commands and two answers", len(parts)-1)
	}
}

// The settings and the table of rain that the README shows are read as they stand, and fit each other.
func TestReadmeShowsAStormThatIsRead(t *testing.T) {
	readme, err := os.ReadFile("../../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	_, section, found := strings.Cut(string(readme), "## The storm and the design\n")
	parts := strings.Split(section, "```")
	if !found || len(parts) < 5 {
		t.Fatal("README.md has no section on the storm with settings and a table")
	}
	cfg, err := settings.Parse("README.md", []byte(strings.TrimPrefix(parts[1], "yaml\n")))
	if err != nil {
		t.Fatal(err)
	}
	table, err := storm.ReadTable(strings.NewReader(parts[3]))
	if err != nil {
		t.Fatal(err)
	}
	if err := fits(cfg, table); err != nil || cfg.Files.Rain != "rain.csv" || cfg.Ground.Cover == "" {
		t.Errorf("%+v: %v", cfg, err)
	}
}
