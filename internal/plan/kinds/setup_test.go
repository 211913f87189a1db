package kinds

import (
	"slices"
	"strings"
	"testing"

	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
)

func task(t *testing.T, list []booth.Task, id booth.ID) booth.Task {
	t.Helper()
	for _, k := range list {
		if k.ID == id {
			return k
		}
	}
	t.Fatalf("there is no task %s among %v", id, taskIDs(list))
	return booth.Task{}
}

// The order of the trade, as what each task waits for.
func TestTasksOfABooth(t *testing.T) {
	p := mustPlan(t, booth10+`
drapes: {walls: [left]}
works: [{name: a, size: 20 x 20, wall: left}, {name: b, size: 20 x 20, wall: back}]
tags: {}
tables: [{name: t, size: 60 x 24}]
signs: [{text: [hello], on: t}]
banner: {text: X, size: 12 x 60}
`)
	tasks := p.SetUp.Tasks
	for _, c := range []struct {
		id    booth.ID
		after []booth.ID
		crew  int
	}{
		{"frame", nil, 2}, {"canopy", []booth.ID{"frame"}, 2}, {"raise", []booth.ID{"canopy"}, 2}, {"weights", []booth.ID{"raise"}, 2},
		{"wall/left", []booth.ID{"weights"}, 2}, {"drape/left", []booth.ID{"weights", "wall/left"}, 2},
		{"hooks/left", []booth.ID{"weights", "wall/left", "drape/left"}, 1}, {"hooks/back", []booth.ID{"weights", "wall/back"}, 1},
		{"works/left", []booth.ID{"hooks/left"}, 1}, {"tags/left", []booth.ID{"works/left"}, 1},
		{"table/t", []booth.ID{"weights"}, 2}, {"on/t", []booth.ID{"table/t"}, 1},
	} {
		k := task(t, tasks, c.id)
		if !slices.Equal(k.After, c.after) || k.Crew != c.crew || k.Minutes < 1 {
			t.Errorf("%s waits for %v, %d people, %d minutes; want %v and %d", c.id, k.After, k.Crew, k.Minutes, c.after, c.crew)
		}
	}
	for _, id := range []booth.ID{"raise", "weights"} {
		if !task(t, tasks, id).AtOnce {
			t.Errorf("%s does not follow at once", id)
		}
	}
	for _, id := range []booth.ID{"canopy", "raise", "weights", "wall/left", "drape/left", "banner"} {
		if task(t, tasks, id).Caution == "" {
			t.Errorf("%s has no caution", id)
		}
	}
	if banner, look := task(t, tasks, "banner"), task(t, tasks, "look"); !slices.Contains(banner.After, "on/t") || !slices.Contains(look.After, "banner") || tasks[len(tasks)-1].ID != "look" {
		t.Error("the banner is not last but for the last look")
	}
	if c := task(t, tasks, "canopy").Fetch; len(c) != 1 || c[0].Count != 4 || c[0].Weight != 40*unit.Pound || !c[0].Assumed {
		t.Errorf("weights fetched: %+v", c)
	}
}

// Large works first, then from the middle outwards, an upper one before the one under it.
func TestHangingOrder(t *testing.T) {
	p := mustPlan(t, booth10+`
works:
  - {name: left, size: 10 x 10}
  - {name: middle, size: 10 x 10}
  - {name: right, size: 10 x 10}
  - {name: low, size: 8 x 10, under: middle}
  - {name: heavy, size: 20 x 20, weight: 20lb}
rows: [{wall: back, works: [left, middle, right, heavy], gap: 3}]
`)
	// Middles at 5, 18, 31 and 49 in of 59: 24.5, 11.5, 1.5 and 19.5 in from the middle; two people for the heavy one.
	works := task(t, p.SetUp.Tasks, "works/back")
	if want := []booth.ID{"work/heavy", "work/right", "work/middle", "work/low", "work/left"}; !slices.Equal(works.Parts, want) || works.Crew != 2 {
		t.Errorf("hung in the order %v by %d, want %v by 2", works.Parts, works.Crew, want)
	}
}

func TestSharedTents(t *testing.T) {
	p := mustPlan(t, "pitch: {width: 20ft}\ntent: {tents across: 2}\nwalls: [{side: left}]\n")
	ids := taskIDs(p.SetUp.Tasks)
	if want := []booth.ID{"frame/1", "canopy/1", "raise/1", "weights/1", "frame/2", "canopy/2", "raise/2", "weights/2", "wall/left", "look"}; !slices.Equal(ids, want) {
		t.Errorf("%v, want %v", ids, want)
	}
	if k := task(t, p.SetUp.Tasks, "canopy/2"); k.Fetch[0].Count != 2 {
		t.Errorf("the second tent has %d legs of its own, want 2", k.Fetch[0].Count)
	}
	if k := task(t, p.SetUp.Tasks, "wall/left"); !slices.Equal(k.After, []booth.ID{"weights/2"}) {
		t.Errorf("the wall waits for %v", k.After)
	}
}

func TestRainIsSetUpToo(t *testing.T) {
	p := mustPlan(t, booth10+"tables: [{name: t, size: 40 x 20}]\nweather: {rain: true}\n")
	if k := task(t, p.SetUp.Tasks, "rain/curtains"); k.Caution == "" || !slices.Contains(k.After, "weights") {
		t.Errorf("%+v", k)
	}
	if k := task(t, p.SetUp.Tasks, "rain/covers"); !slices.Contains(k.After, "table/t") {
		t.Errorf("%+v", k)
	}
}

func TestBadTasks(t *testing.T) {
	for text, want := range map[string]string{
		"tasks: [{minutes: 3}]":                          "a.yaml:5:9: say either do or step",
		"tasks: [{do: a, step: frame}]":                  "a.yaml:5:9: say either do or step",
		"tasks: [{step: fraem}]":                         `a.yaml:5:16: there is no step "fraem" (did you mean "frame"?)`,
		"tasks: [{do: a, name: b, after: [b]}]":          `a.yaml:5:34: a task does not wait for itself: "b" (name another step, or take it away)`,
		"tasks: [{do: a, name: b, before: [trips, b]}]":  `a.yaml:5:42: a task does not wait for itself: "b"`,
		"tasks: [{do: a, name: b, not after: [b]}]":      `a.yaml:5:38: a task does not wait for itself: "b"`,
		"tasks: [{step: wall/left, after: [wall/left]}]": `a.yaml:5:35: a task does not wait for itself: "wall/left"`,
		"tasks: [{step: works/left, after: [work/w]}]\nworks: [{name: w, size: 9 x 9, wall: left}]": `a.yaml:5:36: a task does not wait for itself: "work/w"`,
		"tasks: [{do: a, after: [wall/lefd]}]":                                                      `a.yaml:5:25: there is no step "wall/lefd" (did you mean "wall/left"?)`,
		"tasks: [{do: a, before: [rasie]}]":                                                         `a.yaml:5:26: there is no step "rasie" (did you mean "raise"?)`,
		"tasks: [{do: a, name: frame}]":                                                             `a.yaml:5:23: there is a step "frame" already`,
		"tasks: [{do: a, of: monday}]":                                                              "a.yaml:5:21: ",
		"tasks: [{do: a, minutes: 3, at least: 5}]":                                                 "a.yaml:5:26: the minutes are not between the least and the most",
		"tasks: [{do: a, people: 99}]":                                                              "a.yaml:5:25: ",
		"set-up: {people: 3, names: [A, B]}":                                                        "a.yaml:5:28: there are 3 people and 2 names",
		"set-up: {time: soon}":                                                                      "a.yaml:5:16: ",
		"set-up: {night: outside}":                                                                  "a.yaml:5:17: ",
		"tasks: [{do: a, after: [sign/welcome]}]\nsigns: [{text: [x]}]":                             "a.yaml:5:25: ",
	} {
		_, err := plan(t, strings.TrimPrefix(booth10, "\n")+"\n"+text+"\n")
		if err == nil || !strings.HasPrefix(err.Error(), want) {
			t.Errorf("%s:\n got %v\nwant %s", text, err, want)
		}
	}
}

// In a booth with a store the works that wait come along, with what they weigh or usually would; one that is sold does not. Without a
// store they may stay at home.
func TestSparesForTheStore(t *testing.T) {
	loaded := func(wall string) []booth.Cargo {
		p := mustPlan(t, "units: in\nwalls: [{side: back, hang on: panel"+wall+"}]\nworks:\n  - {name: a, title: Heron, size: 24 x 36, weight: 8lb}\n  - {name: b, title: Weir, size: 20 x 20}\n  - {name: c, size: 9 x 9, sold: yes}\n")
		tasks := p.SetUp.Tasks
		return tasks[len(tasks)-1].Fetch
	}
	got := loaded(", distance: 30, width: 7ft, closed: yes")
	if len(got) != 2 || got[0].What != "“Heron”, for the store" || got[0].Weight != 8*unit.Pound || got[0].Assumed || got[1].Weight == 0 || !got[1].Assumed {
		t.Errorf("%+v", got)
	}
	if got := loaded(""); len(got) > 0 {
		t.Errorf("without a store %+v", got)
	}
}
