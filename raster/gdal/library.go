package gdal

import (
	"fmt"
	"os"
	"sync"
	"sync/atomic"

	"github.com/airbusgeo/godal"
)

// cacheMB is the most memory the library may use for decoded blocks, in megabytes.
const cacheMB = "128"

var startOnce sync.Once

// start sets the library up, once, before its first input or output: a capped cache, no
// network, no messages on the standard error stream, every driver. Variables that the user
// has set are left alone.
func start() {
	startOnce.Do(func() {
		setDefault("GDAL_CACHEMAX", cacheMB)
		setDefault("PROJ_NETWORK", "OFF")
		setDefault("CPL_LOG", os.DevNull) // calls without a handler of ours would print
		godal.RegisterAll()
	})
}

func setDefault(name, value string) {
	if _, set := os.LookupEnv(name); !set {
		os.Setenv(name, value)
	}
}

var memoryCount atomic.Int64

// memoryName returns an unused name in the library's memory file system.
func memoryName(suffix string) string {
	return fmt.Sprintf("/vsimem/siltstep-%d-%s", memoryCount.Add(1), suffix)
}

// unlink removes a memory file; one that is not there is no fault.
func unlink(name string) {
	var j journal
	_ = godal.VSIUnlink(name, godal.ErrLogger(j.note))
}
