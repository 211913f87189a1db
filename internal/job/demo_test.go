package job_test

import (
	"os"
	"strconv"
	"sync"
	"testing"

	"boothmock/internal/job"
)

var raced bool // the race detector is on

var makeDemo = sync.OnceValues(func() (*job.Mockup, error) {
	p, err := job.Load("", job.Settings{})
	if err != nil {
		return nil, err
	}
	return job.New(p)
})

// demo is the built-in demo, made once for all tests.
func demo(t testing.TB) *job.Mockup {
	t.Helper()
	m, err := makeDemo()
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// long skips a test that takes many seconds, so that all tests take about a minute. .ci/run, which sets REQUIRE_TOOLS, does it.
func long(t *testing.T) {
	t.Helper()
	if raced || os.Getenv("REQUIRE_TOOLS") == "" {
		t.Skip("long")
	}
}

// booths is how many random booths a test tries: few, so that all tests take about a minute; more in .ci/run; or BOOTHS of the
// environment.
func booths(t testing.TB, few, more int) int {
	t.Helper()
	if s := os.Getenv("BOOTHS"); s != "" {
		n, err := strconv.Atoi(s)
		if err != nil {
			t.Fatal(err)
		}
		return n
	}
	if raced || os.Getenv("REQUIRE_TOOLS") == "" {
		return few
	}
	return more
}
