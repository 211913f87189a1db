package job_test

import (
	"os"
	"reflect"
	"strings"
	"testing"

	"boothmock/internal/job"
	"boothmock/internal/plan/finding"
	"boothmock/internal/plan/kinds"
)

// scenes/full.yaml holds every kind of thing and every shape, and has nothing to mend; what is to be thought over stands in its
// comments, and nothing else does.
func TestEverythingTogether(t *testing.T) {
	const file = "../../scenes/full.yaml"
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	for _, k := range kinds.All {
		if !strings.Contains(string(text), "\n"+k.Key+":") {
			t.Errorf("it has no %s", k.Key)
		}
	}
	what, _ := reflect.TypeFor[kinds.Belonging]().FieldByName("What")
	for _, shape := range strings.Fields(what.Tag.Get("oneof")) {
		if shape != "box" && !strings.Contains(string(text), "what: "+shape+",") {
			t.Errorf("it has no %s", shape)
		}
	}
	p, err := job.Load(file, job.Settings{})
	if err != nil {
		t.Fatal(err)
	}
	m, err := job.New(p)
	if err != nil {
		t.Fatal(err)
	}
	r := m.Report()
	for _, f := range r.Findings {
		if f.Level != finding.Note && !strings.Contains(string(text), "# "+f.Check) {
			t.Errorf("%s, %s: %s", f.Level, f.Check, f.Message)
		}
	}
}
