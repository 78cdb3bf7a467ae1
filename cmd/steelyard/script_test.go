package main

import (
	"os"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

// TestMain lets the scripts run this program under its name.
func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"steelyard": main})
}

// TestScripts runs the program as a user does. With -update the sections that
// a script compares its output with are rewritten.
func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir:           "testdata/script",
		UpdateScripts: *update,
		Setup: func(e *testscript.Env) error {
			// The state folder and the history stay within the test.
			e.Setenv("XDG_STATE_HOME", e.Getenv("WORK")+"/state")
			e.Setenv("HOME", e.Getenv("WORK"))
			e.Setenv("TERM", "xterm")
			return os.MkdirAll(e.Getenv("WORK")+"/state", 0o700)
		},
	})
}
