package job_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"path"
	"strings"
	"sync"
	"testing"

	"boothmock/internal/handout/page"
	"boothmock/internal/job"
	"boothmock/internal/plan/finding"
	"boothmock/internal/view/light"
)

// No booth is READY in one output and not in another: the examples and random booths of every kind.
func TestOneVerdict(t *testing.T) {
	for _, name := range []string{"demo", "corner", "double", "hall", "wrong"} {
		p, err := job.Load("../../scenes/"+name+".yaml", job.Settings{})
		if err != nil {
			t.Fatal(err)
		}
		m, err := job.New(p)
		if err != nil {
			t.Fatal(err)
		}
		if got := oneVerdict(t, name, m); (got == finding.NotReady) != (name == "wrong") {
			t.Errorf("%s: %s", name, m.Report().Line)
		}
		pageSays(t, name, m)
	}
	booths := uint64(booths(t, 12, 150))
	var counting sync.Mutex
	count := map[finding.Verdict]int{}
	t.Run("random", func(t *testing.T) {
		const side = 4 // by side, as many as there are processors
		for first := range uint64(side) {
			t.Run(fmt.Sprint(first), func(t *testing.T) {
				t.Parallel()
				for seed := first; seed < booths; seed += side {
					_, p, err := randomBooth(seed, dialect{})
					if err != nil {
						continue
					}
					m, err := job.New(p)
					if err != nil {
						t.Fatal(err)
					}
					name := fmt.Sprint("booth ", seed)
					v := oneVerdict(t, name, m)
					counting.Lock()
					count[v]++
					counting.Unlock()
					if seed < 30 {
						pageSays(t, name, m)
					}
				}
			})
		}
	})
	if count[finding.NotReady] == 0 || count[finding.NotReady] == int(booths) {
		t.Errorf("all booths are alike: %v", count)
	}
	t.Log(count)
}

// oneVerdict holds the outputs that say whether a booth is ready against each other. Light is even: it says nothing of it.
func oneVerdict(t *testing.T, name string, m *job.Mockup) finding.Verdict {
	t.Helper()
	m.Lit = func() *light.Lit { return light.Even(m.Plan) }
	m.Stage = m.Even
	worst := finding.Ready
	var files []string
	for _, o := range job.Outputs(m) {
		if path.Ext(o.Name) == ".json" {
			files = append(files, o.Name)
		}
	}
	if len(files) < 3 {
		t.Fatalf("%s: only %v say whether the booth is ready", name, files)
	}
	r := m.Report()
	for _, file := range files {
		var says struct {
			Verdict  finding.Verdict
			Line     string `json:"verdict_line"`
			Findings []finding.Finding
		}
		if err := json.Unmarshal(write(t, m, file), &says); err != nil {
			t.Fatal(err)
		}
		if says.Verdict != r.Verdict || says.Line != r.Line {
			t.Errorf("%s: %s says %s, %q; the report %s, %q", name, file, says.Verdict, says.Line, r.Verdict, r.Line)
		}
		for _, f := range says.Findings {
			switch {
			case f.Level == finding.Fail:
				worst = finding.NotReady
			case f.Level == finding.Caution && worst == finding.Ready:
				worst = finding.ThinkOver
			}
			if f.Message == "" || f.Source == "" || f.Check == "" || f.Item == "" {
				t.Errorf("%s: a finding without words, source, check or item: %+v", name, f)
			}
		}
	}
	if worst != r.Verdict {
		t.Errorf("%s: the worst finding is %s and the verdict %s", name, worst, r.Verdict)
	}
	// What the hang sheet itself calls too much, or cannot hang, is in no booth that is READY.
	for _, w := range m.Sheet().Walls {
		for _, work := range w.Works {
			if r.Verdict != finding.NotReady && (work.Load.HookJudged == "over" || work.Load.WireJudged == "over" || w.Load.Judged == "over" || len(work.Hooks) == 0) {
				t.Errorf("%s: %s, and the hang sheet says of %s: %+v", name, r.Line, work.Title, work.Load)
			}
		}
	}
	if w := m.Sheet().Weather; w != nil && w.GustStated && !w.Up.Enough && r.Verdict != finding.NotReady {
		t.Errorf("%s: %s, and the tent does not stand the stated wind", name, r.Line)
	}
	return r.Verdict
}

// pageSays holds the page to hand over against the report: the line stands with the findings and at the top of the set-up.
func pageSays(t *testing.T, name string, m *job.Mockup) {
	t.Helper()
	r := m.Report()
	var b bytes.Buffer
	if err := page.Write(&b, page.Values{Plan: m.Plan, Report: r, Checks: m.Checks(), Sheet: m.Sheet(), Lists: m.Lists()}); err != nil {
		t.Fatal(err)
	}
	if n := strings.Count(b.String(), r.Line); n < 2 { // with the findings, and at the top of the set-up
		t.Errorf("%s: the page says %d times %q", name, n, r.Line)
	}
}
