package main

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

// TestMain makes the program of the tests' own program where a script, or asProgram in the environment, asks for it.
func TestMain(m *testing.M) {
	if os.Getenv(asProgram) != "" {
		main()
	}
	testscript.Main(sessions{m}, map[string]func(){"boothmock": main})
}

// program is what a session runs: the tests' own program. With the race detector on it is the program as it is handed out, but
// where several things are done at once: sessions about files and words would take ten times as long for nothing.
var program = os.Args[0]

// sessions are all tests, with the program that they run.
type sessions struct{ *testing.M }

func (m sessions) Run() int {
	if raced {
		dir, err := os.MkdirTemp("", "boothmock")
		if err != nil {
			panic(err)
		}
		defer os.RemoveAll(dir)
		program = filepath.Join(dir, "boothmock")
		if out, err := exec.Command("go", "build", "-race=false", "-buildvcs=false", "-o", program, ".").CombinedOutput(); err != nil {
			panic(fmt.Sprintf("%v\n%s", err, out))
		}
	}
	return m.M.Run()
}

const asProgram = "TEST_AS_PROGRAM"

var raced bool // the race detector is on

// long is whether what takes many seconds is done too: in .ci/run, which sets REQUIRE_TOOLS, but not with the race detector.
func long() bool { return os.Getenv("REQUIRE_TOOLS") != "" && !raced }

// TestScripts runs the sessions of testdata/script: what is typed, what comes back, what is written.
func TestScripts(t *testing.T) {
	conditions := map[string]bool{"raced": raced, "long": long()}
	condition := func(name string) (bool, error) {
		is, ok := conditions[name]
		if !ok {
			return false, fmt.Errorf("no condition %q", name)
		}
		return is, nil
	}
	testscript.Run(t, testscript.Params{Dir: "testdata/script", Condition: condition, Setup: func(e *testscript.Env) error {
		e.Setenv("HOME", e.WorkDir) // so that the settings of whoever runs the tests do not count
		e.Setenv("XDG_CONFIG_HOME", e.WorkDir+"/config")
		art, err := filepath.Abs("../../scenes/art")
		e.Setenv("ART", art) // photographs to start from
		return err
	}})
}
