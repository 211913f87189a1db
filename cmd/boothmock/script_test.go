package main

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

// TestMain makes the program of the tests' own program where a script, or asProgram in the environment, asks for it.
func TestMain(m *testing.M) {
	if os.Getenv(asProgram) != "" {
		main()
	}
	testscript.Main(m, map[string]func(){"boothmock": main})
}

const asProgram = "TEST_AS_PROGRAM"

// TestScripts runs the sessions of testdata/script: what is typed, what comes back, what is written.
func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{Dir: "testdata/script", Setup: func(e *testscript.Env) error {
		e.Setenv("HOME", e.WorkDir) // so that the settings of whoever runs the tests do not count
		e.Setenv("XDG_CONFIG_HOME", e.WorkDir+"/config")
		art, err := filepath.Abs("../../scenes/art")
		e.Setenv("ART", art) // photographs to start from
		return err
	}})
}
