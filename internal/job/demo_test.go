package job_test

import (
	"crypto/sha256"
	"fmt"
	"io/fs"
	"os"
	"slices"
	"strconv"
	"sync"
	"testing"

	"boothmock/internal/job"
	"boothmock/internal/plan/booth"
	"boothmock/internal/props/art"
	"boothmock/internal/view/light"
	"boothmock/scenes"
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

// The program does not decode the photographs that it carries to find out whether they are whole, and of which colour: that is done here.
func TestCarriedPhotographs(t *testing.T) {
	t.Parallel()
	names, err := fs.Glob(scenes.FS, "art/*.jpg")
	if err != nil || len(names) != len(scenes.Means) {
		t.Error(len(names), "photographs and", len(scenes.Means), "means", err)
	}
	for _, name := range names {
		im, err := art.Load(scenes.FS, art.Wish{Name: name})
		if err != nil {
			t.Error(err)
		} else if m := im.Mean(); m != scenes.Means[name] {
			t.Errorf("scenes.Means should have\n\t%q: {%v, %v, %v},", name, m[0], m[1], m[2])
		}
	}
}

// plainImage is an image that holds what is shown and not how it is made, so that two can be compared.
func plainImage(im *art.Image) *art.Image {
	if im == nil {
		return nil
	}
	return &art.Image{Name: fmt.Sprintf("%s %x", im.Name, sha256.Sum256(im.Pixels().Pix)), Width: im.Width, Height: im.Height, MIME: im.MIME}
}

// plainParts are parts whose images are plain.
func plainParts(parts []booth.Part) []booth.Part {
	parts = slices.Clone(parts)
	for i := range parts {
		parts[i].Surfaces = slices.Clone(parts[i].Surfaces)
		for k := range parts[i].Surfaces {
			parts[i].Surfaces[k].Look.Image = plainImage(parts[i].Surfaces[k].Look.Image)
		}
		if w := parts[i].Work; w != nil {
			is := *w
			is.Image = plainImage(w.Image)
			if w.Whole != nil {
				all, whole := *w.Whole, *w.Whole.Work
				whole.Image = plainImage(whole.Image)
				all.Work, is.Whole = &whole, &all
			}
			parts[i].Work = &is
		}
	}
	return parts
}

// plainLit are lit surfaces whose images are plain.
func plainLit(l *light.Lit) []light.Surface {
	surfaces := slices.Clone(l.Surfaces)
	for i := range surfaces {
		surfaces[i].Look.Image = plainImage(surfaces[i].Look.Image)
	}
	return surfaces
}
