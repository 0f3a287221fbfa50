package cli

import (
	"bufio"
	"os"
	"runtime"
	"runtime/debug"
	"strconv"
	"strings"
)

// heapGrowthPercent is how much the heap may grow between two collections. The grids are
// few large arrays without pointers, cheap to collect, and a heap that doubles would hold as much again.
// Source: our own choice.
const heapGrowthPercent = 20

func keepHeapTight() { debug.SetGCPercent(heapGrowthPercent) }

// peakMemoryBytes returns the most memory the process has held at once: the resident peak
// where the system tells it (Linux), else what the Go runtime has taken from the system.
func peakMemoryBytes() int64 {
	if file, err := os.Open("/proc/self/status"); err == nil {
		defer file.Close()
		for lines := bufio.NewScanner(file); lines.Scan(); {
			// The line reads "VmHWM:   123456 kB".
			if fields := strings.Fields(lines.Text()); len(fields) == 3 && fields[0] == "VmHWM:" {
				if kilobytes, err := strconv.ParseInt(fields[1], 10, 64); err == nil {
					return kilobytes << 10
				}
			}
		}
	}
	var stats runtime.MemStats
	runtime.ReadMemStats(&stats)
	return int64(stats.Sys)
}
