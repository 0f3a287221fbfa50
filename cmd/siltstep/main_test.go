package main

import (
	"os"
	"os/exec"
	"strings"
	"testing"
)

// The test binary stands for the program where this variable is set.
const asProgram = "SILTSTEP_TEST_AS_PROGRAM"

func TestMain(m *testing.M) {
	if os.Getenv(asProgram) != "" {
		main()
	}
	os.Exit(m.Run())
}

func TestExitCodes(t *testing.T) {
	for _, tt := range []struct {
		args string
		want int
	}{{"--version", 0}, {"inspect missing.tif", 2}, {"dig", 2}} {
		program := exec.Command(os.Args[0], strings.Fields(tt.args)...)
		program.Env = append(os.Environ(), asProgram+"=yes")
		program.Run()
		if got := program.ProcessState.ExitCode(); got != tt.want {
			t.Errorf("siltstep %s: exit code %d, want %d", tt.args, got, tt.want)
		}
	}
}
