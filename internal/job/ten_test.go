package job_test

import (
	"fmt"
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

// What a booth says that is no room with an opening: a table that is its own counter; panels back to back between two aisles, each
// of which leads to a room of its own; panels in a run that nothing ties.
func TestBoothsWithoutARoom(t *testing.T) {
	const works = "works:\n  - {name: a, size: 24 x 30, %s}\n  - {name: b, size: 24 x 30, %s}\n"
	for _, c := range []struct{ name, text, says, not string }{
		{"counter", "units: in\npitch: {width: 72, depth: 48, indoor: yes}\ntables: [{name: long table, size: 72 x 30, cloth: linen, against: front}]\n" +
			"things: [{name: stand, what: easel, size: 12 x 14 x 24, on: long table}]\nworks: [{name: a, size: 14 x 11, on: stand}]\n",
			"Visitors stay in the aisle", "past the front edge"},
		{"a work behind the counter", "units: in\npitch: {width: 72, depth: 96, indoor: yes}\nwalls: [{side: back}]\ntables: [{name: long table, size: 72 x 30, against: front}]\n" +
			"works: [{name: a, size: 14 x 11, wall: back}]\n", "If visitors buy over the long table, write counter: yes under it", "Visitors stay in the aisle"},
		{"a counter that is said to be one", "units: in\npitch: {width: 72, depth: 96, indoor: yes}\nwalls: [{side: back}]\ntables: [{name: long table, size: 72 x 30, against: front, counter: yes}]\n" +
			"works: [{name: a, size: 14 x 11, wall: back}]\n", "Visitors stay in the aisle", "nobody"},
		{"island", "units: in\ntent: {}\npitch: {width: 12ft, depth: 12ft, open: [left, right]}\nwalls: [{name: spine, width: 8ft, hang on: panel, from left: 72, from front: 24, turn: 90, faces: both, feet: 24}]\n" +
			fmt.Sprintf(works, "wall: spine", "wall: spine back"), "outdoors wind tips it", "The way in from the aisle"},
		{"run", "units: in\ntent: {}\npitch: {width: 12ft, depth: 12ft}\nwalls: [{name: fold, hang on: panel, run: [3ft, forward 60, 3ft]}]\n" +
			fmt.Sprintf(works, "wall: fold 1", "wall: fold 2"), "outdoors wind moves them", "falls"},
	} {
		t.Run(c.name, func(t *testing.T) {
			p, err := build(c.text)
			if err != nil {
				t.Fatal(err)
			}
			all := ""
			for _, f := range check.Run(p).Findings {
				all += f.Message + "\n"
			}
			if !strings.Contains(all, c.says) || strings.Contains(all, c.not) {
				t.Errorf("it should say %q and not %q:\n%s", c.says, c.not, all)
			}
		})
	}
}
