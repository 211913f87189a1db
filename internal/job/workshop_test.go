package job_test

import (
	"reflect"
	"testing"

	"boothmock/internal/job"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/scene"
)

// A version of the scene that was built after another has the photographs and the lettering of that one, the very same in
// memory, and is what is built from nothing.
func TestNextVersionTakesOverPictures(t *testing.T) {
	w := job.Workshop{}
	f, err := w.Read()
	if err != nil {
		t.Fatal(err)
	}
	at, err := scene.ParsePath("works[heron].title")
	if err != nil {
		t.Fatal(err)
	}
	edited, err := f.Set(at, "Heron, again")
	if err != nil {
		t.Fatal(err)
	}
	first, err := w.Build(f)
	if err != nil {
		t.Fatal(err)
	}
	second, err := w.Build(edited)
	if err != nil {
		t.Fatal(err)
	}
	pictures, anew := 0, map[booth.ID]bool{}
	for _, p := range second.Parts {
		for i, s := range p.Surfaces {
			if s.Look.Image == nil {
				continue
			}
			pictures++
			if before := first.Part(p.ID).Surfaces[i].Look.Image; before.Pixels() != s.Look.Image.Pixels() {
				anew[p.ID] = true
			}
		}
	}
	if pictures < 30 || len(anew) != 1 || !anew["tag/heron"] {
		t.Errorf("of %d pictures these are made anew: %v", pictures, anew)
	}
	alone := job.Workshop{}
	again, err := alone.Parse(edited.Source())
	if err != nil {
		t.Fatal(err)
	}
	fresh, err := alone.Build(again)
	if err != nil {
		t.Fatal(err)
	}
	if !reflect.DeepEqual(plainParts(second.Parts), plainParts(fresh.Parts)) {
		t.Error("the parts are not those of a booth built from nothing")
	}
}
