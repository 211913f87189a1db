package job

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"boothmock/internal/find/check"
	"boothmock/scenes"
)

// A table across the entrance is sent to a side: the way in gets wide, more is seen, and nothing new is wrong. Each place of it
// is built once: a step of 18 in along three sides of ten feet.
func TestFurniture(t *testing.T) {
	dir := t.TempDir()
	if err := os.CopyFS(dir, scenes.FS); err != nil {
		t.Fatal(err)
	}
	a, err := Arrange(filepath.Join(dir, "wrong.yaml"), Settings{}, true)
	if err != nil {
		t.Fatal(err)
	}
	w := a.Ways[len(a.Ways)-1]
	if w.Name != "furniture" || w.As != "" || !strings.Contains(w.Rows, "name: sales") || !strings.Contains(w.Rows, "against:") {
		t.Fatalf("%s as %q: %s", w.Name, w.As, w.Rows)
	}
	was, is := wayIn(a.Now.Plan), wayIn(w.Mockup.Plan)
	if was > 0.4 || is < 0.6 || w.Score <= a.Before {
		t.Errorf("the way in was %.2f and is %.2f of the turning circle; seen were %.4f and are %.4f sr", was, is, a.Before, w.Score)
	}
	for _, f := range w.Costs.New {
		if f.Level == check.Fail {
			t.Errorf("newly wrong: %s", f.Message)
		}
	}
	if a.Stood < 6 || a.Stood > 24 {
		t.Errorf("%d places were tried", a.Stood)
	}
}

// What stands in the aisle by its owner's wish stays there, and where nothing is better, that is said.
func TestFurnitureStays(t *testing.T) {
	s := sitting{was: []byte("units: in\npitch: {width: 10ft, depth: 10ft, aisle: 12ft, neighbours: none}\nwalls: [{side: back}]\ntables: [{size: 40 x 20, before front: 6}]\n" +
		"bins: [{size: 20 x 16 x 33, prints: 5, against: right, from front: 80}]\nchair: {against: back, from left: 2}\nworks: [{name: a, size: 20 x 20, wall: back}]\n")}
	a, err := ArrangeText("", Settings{}, s.was, true)
	if err != nil {
		t.Fatal(err)
	}
	w := a.Ways[len(a.Ways)-1]
	if w.As != "" && w.As != "now, as nothing better was found" || strings.Contains(w.Rows, "tables") {
		t.Errorf("%q: %s", w.As, w.Rows)
	}
}

// A table whose only better place is where the chair stands takes the chair along: neither could go there alone.
func TestTableAndChairMoveTogether(t *testing.T) {
	s := sitting{was: []byte("units: in\npitch: {width: 6ft, depth: 10ft, aisle: 12ft}\nwalls: [{side: back}, {side: left}, {side: right}]\n" +
		"tables: [{size: 48 x 24, height: 30, from left: 12, from front: 4}]\nchair: {against: left, from front: 70}\n" +
		"works: [{name: a, size: 30 x 30, wall: back}, {name: b, size: 30 x 40, wall: right}]\n")}
	a, err := ArrangeText("", Settings{}, s.was, true)
	if err != nil {
		t.Fatal(err)
	}
	w := a.Ways[len(a.Ways)-1]
	if w.Name != "furniture" || w.As != "" || !strings.Contains(w.Rows, "tables") {
		t.Fatalf("%q: %s", w.As, w.Rows)
	}
	if far := nearestTable(w.Mockup.Plan); far > apart || wayIn(w.Mockup.Plan) <= wayIn(a.Now.Plan) {
		t.Errorf("the chair is %s from the table, the way in %.2f, was %.2f:\n%s", far.Format(0), wayIn(w.Mockup.Plan), wayIn(a.Now.Plan), w.Rows)
	}
}
