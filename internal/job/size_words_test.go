package job_test

import (
	"strings"
	"testing"

	"boothmock/internal/find/hang"
	"boothmock/internal/job"
)

// A framed work has one size in words wherever it is named: the picture's, and the frame's. A mat of 2 1/2 in and a frame of
// 3/4 in make 14 x 11 in into 20 1/2 x 17 1/2 in, by hand.
func TestOneSizeInWords(t *testing.T) {
	p, err := job.Load("", job.Settings{})
	if err != nil {
		t.Fatal(err)
	}
	const picture, frame = "14 x 11 in", "framed 20 1/2 x 17 1/2 in"
	moths := p.Part("work/moths").Work
	if got := moths.Size(p.Units); got != picture+", "+frame {
		t.Errorf("the work says %s", got)
	}
	if got := p.Part("work/heron").Work.Size(p.Units); got != "24 x 36 in" {
		t.Errorf("a work without a frame says %s", got)
	}
	found := 0
	for _, s := range hang.Of(p).Stock {
		if s.ID == "work/moths" && s.Size == picture+", "+frame {
			found++
		}
	}
	for _, task := range p.SetUp.Tasks {
		if strings.Contains(strings.Join(task.Steps, "\n"), "“Moths”, "+picture+", "+frame+": ") {
			found++
		}
	}
	if found != 2 {
		t.Errorf("the list of works and the set-up: %d of 2 say so", found)
	}
}
