package job_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"boothmock/internal/find/check"
	"boothmock/internal/view/light"
	"boothmock/internal/view/picture"
)

// Ten booths as people who show at fairs draw them on paper (common practice, no source): each is a scene of fewer than 40 lines, has
// nothing to mend, and shows every work to somebody. What else is to be said of one stands in its comments.
func TestTenBooths(t *testing.T) {
	files, err := filepath.Glob("testdata/booths/*.yaml")
	if err != nil || len(files) != 10 {
		t.Fatalf("%d booths, %v", len(files), err)
	}
	for _, file := range files {
		t.Run(strings.TrimSuffix(filepath.Base(file), ".yaml"), func(t *testing.T) {
			text, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			if n := strings.Count(string(text), "\n"); n >= 40 {
				t.Errorf("it takes %d lines", n)
			}
			p, err := build(string(text))
			if err != nil {
				t.Fatal(err)
			}
			r := check.Run(p)
			for _, f := range r.Findings {
				if f.Level == check.Fail || f.Level == check.Caution && !strings.Contains(string(text), "# "+f.Check) {
					t.Errorf("%s, %s: %s", f.Level, f.Check, f.Message)
				}
			}
			best := map[string]float64{}
			for _, l := range r.Sightlines {
				if l.Eye == "adult" && l.Turned > 0 {
					best[string(l.Work)] = max(best[string(l.Work)], l.Visible)
				}
			}
			stage := picture.NewStage(p, light.Even(p))
			shown := 0
			for _, v := range p.Views {
				works := map[int]bool{}
				for _, n := range stage.IDs(v, picture.Options{Width: 240, Height: 135}) {
					if n >= 0 && p.Parts[n].Work != nil {
						works[n] = true
					}
				}
				if len(works) > 0 {
					shown++
				}
				if v.Before && len(works) == 0 {
					t.Errorf("%s shows no work", v.Name)
				}
			}
			if p.Works() < 4 || len(best) < p.Works() || shown < 3 {
				t.Errorf("%d works, %d seen, in %d views", p.Works(), len(best), shown)
			}
			for work, share := range best {
				if share < 0.75 {
					t.Errorf("of %s nobody sees more than %.2f", work, share)
				}
			}
		})
	}
}
