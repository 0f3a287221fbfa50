package cli

import (
	"encoding/json"
	"fmt"
	"io"
	"math"
	"time"
)

// A stageRecord is what is told of a finished stage.
type stageRecord struct {
	Stage           string  `json:"stage"`
	Seconds         float64 `json:"seconds"`
	PeakMemoryBytes int64   `json:"peak_memory_bytes"` // of the process so far
	Cells           int     `json:"cells,omitempty"`
	CellsPerSecond  float64 `json:"cells_per_second,omitempty"`
}

// A reporter shows how the work goes on. begin names the stage that starts, part tells how
// much of it is done where that is known, finish tells of the one that ended, close follows
// the last.
type reporter interface {
	begin(stage string)
	part(done, total int)
	finish(done stageRecord)
	close()
}

// stages times the stages of a run and hands them to a reporter, one after the other. It
// is for one goroutine.
type stages struct {
	to    reporter
	name  string // stage under way; empty between stages
	cells int    // cells of the grid, once known
	start time.Time
}

// begin ends the stage under way and starts the next.
func (s *stages) begin(name string) {
	s.end()
	s.name, s.start = name, time.Now()
	s.to.begin(name)
}

// part tells how much of the stage under way is done.
func (s *stages) part(done, total int) { s.to.part(done, total) }

// end ends the stage under way, if any.
func (s *stages) end() {
	if s.name == "" {
		return
	}
	done := stageRecord{Stage: s.name, Seconds: time.Since(s.start).Seconds(), PeakMemoryBytes: peakMemoryBytes(), Cells: s.cells}
	if s.cells > 0 && done.Seconds > 0 {
		done.CellsPerSecond = math.Round(float64(s.cells) / done.Seconds)
	}
	s.name = ""
	s.to.finish(done)
}

// close ends the stage under way and the report.
func (s *stages) close() {
	s.end()
	s.to.close()
}

// lineReporter writes one line a stage for people who read a log.
type lineReporter struct{ w io.Writer }

func (lineReporter) begin(string)  {}
func (lineReporter) part(int, int) {}
func (r lineReporter) finish(done stageRecord) {
	fmt.Fprintf(r.w, "%-14s %6.2f s\n", done.Stage, done.Seconds)
}
func (lineReporter) close() {}

// jsonReporter writes one JSON object a stage, a line each, for programs.
type jsonReporter struct{ w io.Writer }

func (jsonReporter) begin(string)  {}
func (jsonReporter) part(int, int) {}
func (r jsonReporter) finish(done stageRecord) {
	line, err := json.Marshal(done)
	if err != nil {
		panic("cli: a stage record does not encode: " + err.Error())
	}
	fmt.Fprintf(r.w, "%s\n", line)
}
func (jsonReporter) close() {}

// silence reports nothing.
type silence struct{}

func (silence) begin(string)       {}
func (silence) part(int, int)      {}
func (silence) finish(stageRecord) {}
func (silence) close()             {}
