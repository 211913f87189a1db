package check

import (
	"strings"
	"testing"

	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
)

// By hand: a box comes back from 10 degrees if half its width is at least half its height times tan 10° = 0.17633: 40 in high, 7.053 in wide. With a quarter of
// that, 1.763 in, it stands on an edge. What is as low as a step is left out, and what leans against something.
func TestKnockedOver(t *testing.T) {
	for _, c := range []struct {
		wide, high float64 // inches
		beside     bool
		want       string
	}{
		{7.06, 40, false, ""}, {6.8, 40, false, "caution"}, {1.9, 40, false, "caution"}, {1.6, 40, false, "fail"},
		{1, 19, false, ""}, {1, 40, true, ""},
	} {
		s := newStall()
		s.Parts = make([]booth.Part, 0, 2)
		p := s.box("board", 0, 0, -40, 20, c.high, -40+c.wide)
		p.Heft = unit.Weight(5)
		if c.beside {
			s.box("post", 0, 0, -38.5, 4, 30, -35)
		}
		if got := s.of(knocked); !strings.HasPrefix(levels(got), c.want) || c.want == "" && len(got) > 0 {
			t.Errorf("%+v: %+v", c, got)
		}
	}
}

// A heavy work on a plinth brings the middle of the weight up: 10 in wide and 40 high of 5 kg with 20 kg at 45 in, (5 × 20 + 20 × 45) / 25 = 40 in, 40 tan 10° = 7.05 in,
// and there are 5.
func TestKnockedOverWithAWork(t *testing.T) {
	s := newStall()
	s.Parts = make([]booth.Part, 0, 2)
	p := s.box("plinth", 0, 0, -40, 10, 40, -30)
	p.Heft = unit.Weight(5)
	if got := s.of(knocked); len(got) != 0 {
		t.Errorf("%+v", got)
	}
	w := s.box("head", 0, 40, -40, 10, 50, -30)
	w.Parent, w.Work = p.ID, &booth.Work{Weight: unit.Weight(20)}
	if got := s.of(knocked); levels(got) != "caution" || !strings.Contains(got[0].Message, "is 40 in above the ground and 5 in inside of its foot; 7") {
		t.Errorf("%+v", got)
	}
}

// A banner that stands in the air has nothing to hang from.
func TestBannerInTheAir(t *testing.T) {
	for _, tent := range []bool{false, true} {
		s := newStall()
		s.Parts = make([]booth.Part, 0, 2)
		b := s.box("banner", 0, 80, -1, 60, 100, 0)
		b.Lettering = &booth.Lettering{Face: geom.Rect(geom.World, 0, 80*in, 60*in, 100*in)}
		if tent {
			s.Parts = append(s.Parts, booth.Part{ID: "tent", Tent: &booth.Tent{}})
		}
		if got := s.of(knocked); (levels(got) == "fail") == tent {
			t.Errorf("tent %v: %+v", tent, got)
		}
	}
}
