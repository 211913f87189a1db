package check

import (
	"strings"
	"testing"
)

// What would hide a work by itself is told too: a board behind the one that hides it.
func TestWhatElseWouldHideIt(t *testing.T) {
	s := clean()
	w := s.Part("work/work01")
	if w == nil {
		for i := range s.Parts {
			if s.Parts[i].Work != nil {
				w = &s.Parts[i]
				break
			}
		}
	}
	c := w.Work.Face.Centre()
	x, y, z := c.X/in, c.Y/in, c.Z/in
	s.box("board", x-30, y-40, z+20, x+30, y+40, z+21)
	s.box("screen", x-20, y-30, z+10, x+20, y+30, z+11)
	for _, f := range Run(&s.Plan).Findings {
		if f.Check == "hidden" && strings.Contains(f.Message, "the screen behind would hide") {
			return
		}
	}
	t.Error("the screen behind the board is not reported")
}
