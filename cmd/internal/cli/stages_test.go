package cli

import (
	"bytes"
	"encoding/json"
	"io"
	"strings"
	"testing"
	"time"
)

func TestStagesAsLines(t *testing.T) {
	var out bytes.Buffer
	s := (&console{out: io.Discard, err: &out, log: "text"}).watch(2)
	s.begin("fill")
	s.begin("direction")
	s.close()
	s.close()
	lines := strings.Split(strings.TrimSpace(out.String()), "\n")
	if len(lines) != 2 || !strings.HasPrefix(lines[0], "fill ") || !strings.HasPrefix(lines[1], "direction ") {
		t.Errorf("got %q", lines)
	}
}

func TestStagesAsJSON(t *testing.T) {
	var out bytes.Buffer
	s := (&console{out: io.Discard, err: &out, log: "json"}).watch(2)
	s.begin("read")
	s.cells = 1000
	s.begin("fill")
	time.Sleep(2 * time.Millisecond)
	s.close()
	decoder := json.NewDecoder(&out)
	var got []stageRecord
	for decoder.More() {
		var r stageRecord
		if err := decoder.Decode(&r); err != nil {
			t.Fatal(err)
		}
		got = append(got, r)
	}
	if len(got) != 2 || got[0].Stage != "read" || got[1].Stage != "fill" {
		t.Fatalf("got %+v", got)
	}
	fill := got[1]
	// 1,000 cells in at least 2 ms are at most 500,000 cells a second.
	if fill.Cells != 1000 || fill.Seconds < 0.002 || fill.CellsPerSecond <= 0 || fill.CellsPerSecond > 500_000 {
		t.Errorf("got %+v", fill)
	}
	if fill.PeakMemoryBytes < 1<<20 || fill.PeakMemoryBytes > 1<<40 {
		t.Errorf("peak memory %d bytes is not believable", fill.PeakMemoryBytes)
	}
}

func TestQuietSaysNothing(t *testing.T) {
	var out bytes.Buffer
	c := &console{out: &out, err: &out, log: "json", quiet: true}
	s := c.watch(1)
	s.begin("fill")
	s.close()
	c.printf("summary")
	if out.Len() > 0 {
		t.Errorf("quiet, but said %q", out.String())
	}
}

func TestBarIsWiped(t *testing.T) {
	var out bytes.Buffer
	s := &stages{to: newBarReporter(&out, 3)}
	s.begin("fill")
	s.begin("direction")
	s.close() // a run that ends early must not hang
}
