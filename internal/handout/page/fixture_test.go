package page_test

import (
	"bytes"
	"image"
	"image/jpeg"
	"testing"

	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/unit"
	"boothmock/internal/find/check"
	"boothmock/internal/find/hang"
	"boothmock/internal/find/order"
	"boothmock/internal/handout/page"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/finding"
	"boothmock/internal/plan/hook"
)

// Texts that would do harm if they were taken for anything but text.
const (
	hostile = `</script><script>document.title="taken"</script>`
	emoji   = "Moth 🦋 & <b>lamp</b> “at night” {{.}}"
)

// hung is a plan with two works of difficult titles on one wall and three things to do, without a model.
func hung(t *testing.T) page.Values {
	t.Helper()
	wall := geom.Upright(geom.Vec{X: -1.5, Z: -3}, geom.Vec{Z: 1})
	work := func(id booth.ID, title string, x0, x1 float64) booth.Part {
		return booth.Part{ID: id, Parent: "wall/back", Name: title, Work: &booth.Work{
			Title: title, Height: 0.6, Width: x1 - x0, Price: 48000, Face: geom.Rect(wall, x0, 1.2, x1, 1.8),
			Hung:   &booth.Hung{Wall: "wall/back", X0: x0, Y0: 1.2, X1: x1, Y1: 1.8},
			Fixing: booth.Fixing{By: booth.Rings, Spacing: 0.3, Drop: 0.1, Hooks: 2},
		}}
	}
	p := &booth.Plan{
		File: "fair.yaml", Event: "Lower Fennick Green Art Fair " + hostile, Artist: "Odile Marrowby", Currency: "$",
		Pitch: booth.Pitch{Width: 3, Depth: 3, Aisle: 3, Open: [4]bool{true}},
		Eyes:  []booth.Eye{{Name: "adult", Height: 1.57}},
		Views: []booth.View{{Name: "entrance", Doc: "Before the opening " + hostile, Stand: geom.Vec{Z: 1.5}, Look: geom.Vec{Y: 1.4, Z: -1.5}, Across: 1.4}},
		Parts: []booth.Part{
			{ID: "wall/back", Name: "the back wall", Frame: wall, Wall: &booth.Wall{Side: booth.Back, Width: 3, Bottom: 0.1, Top: 2.1, Hold: booth.Mesh, Spacing: 0.05}},
			work("work/one", hostile, 0.3, 1.2), work("work/two", emoji, 1.5, 2.4),
		},
		SetUp: booth.SetUp{People: 2, Names: []string{"Odile", "Bram " + hostile}, Time: 60, Tasks: []booth.Task{
			{ID: "wall", Name: "Put up the wall", Crew: 2, Minutes: 10, Caution: "Mind your fingers " + hostile},
			{ID: "works", Name: "Hang the works", After: []booth.ID{"wall"}, Crew: 1, Minutes: 5},
			{ID: "tags, all", Name: "Tags " + emoji, After: []booth.ID{"wall"}, Crew: 1, Minutes: 5},
		}},
	}
	for i := range p.Parts {
		if w := p.Parts[i].Work; w != nil {
			hook.Hang(w.Hung, p.Parts[0].Wall, w.Fixing, booth.Hooks{Drop: 0.03, Loop: 0.01}, 0.003)
		}
	}
	r, err := order.Of(p, order.Options{})
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	if err := jpeg.Encode(&b, image.NewGray(image.Rect(0, 0, 16, 9)), nil); err != nil {
		t.Fatal(err)
	}
	checks := check.Run(p)
	report := finding.Gather(p, nil, checks.Findings, []finding.Finding{
		{Check: "entrance", Level: finding.Fail, Item: "work/one", View: "entrance", Message: "Too narrow " + hostile},
		{Check: "wind", Level: finding.Fail, Item: "tent", Steps: []booth.ID{"set-up/" + p.SetUp.Tasks[0].ID}, Message: "Too light " + hostile},
	})
	return page.Values{
		Plan: p, Report: report, Checks: checks, Sheet: hang.Of(p), Lists: []order.Rehearsal{r},
		Pictures: []page.Picture{{Name: "entrance", Doc: p.Views[0].Doc, View: true, JPEG: b.Bytes()}}, Works: map[booth.ID][]byte{"work/one": b.Bytes()},
		Day:   page.Day{Title: "The sun " + hostile, Hours: []page.Hour{{Time: "14:00", Words: "no work in the sun", JPEG: b.Bytes()}, {Time: "15:00", Words: "sun on " + hostile, JPEG: b.Bytes()}}},
		Steps: map[order.Which][][]byte{order.SetUp: {b.Bytes()}},
	}
}

func write(t *testing.T, v page.Values) string {
	t.Helper()
	var b bytes.Buffer
	if err := page.Write(&b, v); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

func inches(m float64) string { return unit.Length(m).Format(unit.Inches) }
