package job_test

import (
	"fmt"
	"strings"
	"testing"

	"boothmock/internal/find/check"
)

// saysOf is what one check says of a scene.
func saysOf(t *testing.T, text, name string) string {
	t.Helper()
	p, err := build(text)
	if err != nil {
		t.Fatal(err)
	}
	var said []string
	for _, f := range check.Run(p).Findings {
		if f.Check == name {
			said = append(said, f.Message)
		}
	}
	return strings.Join(said, "\n")
}

// A wall that stands by itself is held to its limit (common practice, no source): 10 degrees of tilt need feet of 2 · 36 in · tan 10° = 12.7 in under 6 ft.
func TestStandingWalls(t *testing.T) {
	for what, want := range map[string]string{
		"feet: 0":                            "stands by itself on an edge and falls",
		"feet: 12.6":                         "somebody who leans on it tips it",
		"feet: 12.75":                        "",
		"feet: 0, tied: yes":                 "",
		"":                                   "", // 18 in
		"feet: 0, indoor: no":                "stands by itself on an edge and falls",
		"feet: 20, indoor: no":               "outdoors wind tips it all the same",
		"run: [30, forward, 20]":             "",
		"run: [30, 30], feet: 0":             "falls",
		"run: [30, forward 29, 30], feet: 0": "falls",
	} {
		indoor, shape := "yes", "width: 40"
		if strings.Contains(what, "indoor") {
			indoor, what = "no", strings.TrimSuffix(what, ", indoor: no")
		}
		if strings.Contains(what, "run") {
			shape = ""
		}
		got := saysOf(t, fmt.Sprintf("units: in\npitch: {indoor: %s, neighbours: none}\ntent: {}\nwalls: [{name: w, hang on: panel, top: 72, %s}]\n", indoor, strings.Trim(shape+", "+what, ", ")), "standing walls")
		if want == "" && got != "" || !strings.Contains(got, want) {
			t.Errorf("%s: got %q, want %q", what, got, want)
		}
	}
}

// A store is entered by whoever sells through at least 18 in (common practice, no source), is closed to visitors, and is not seen into over a low wall.
func TestStore(t *testing.T) {
	scene := func(wall string) string {
		return "units: in\npitch: {width: 10ft, depth: 10ft, indoor: yes, neighbours: none}\nwalls: [{side: left, hang on: panel}, {side: right, hang on: panel}, {side: back, name: s, hang on: panel, distance: 30, closed: yes, " + wall + "}]\n"
	}
	for wall, want := range map[string]string{
		"top: 84, width: 90":  "",
		"top: 84, width: 100": "",
		"top: 84, width: 105": "You cannot get into the store behind the s wall: the way is 14",
		"top: 84":             "You cannot get into the store behind the s wall: the way is 0 in wide",
		"top: 36, width: 90":  "of the store behind the s wall",
	} {
		if got := saysOf(t, scene(wall), "store"); want == "" && got != "" || !strings.Contains(got, want) {
			t.Errorf("%s: got %q, want %q", wall, got, want)
		}
	}
	// A work on the far face can be reached by nobody who visits.
	far := scene("top: 84, width: 90, faces: both") + "works: [{name: a, size: 10 x 10}]\nrows: [{wall: s back, works: [a]}]\n"
	if got := saysOf(t, far, "reach"); !strings.Contains(got, "Nobody can get to a place before a") {
		t.Errorf("a work in the store: %q", got)
	}
}

// What one thing is to blame for is told once: the feet of a wall with it, a narrow place for the way in and all that it leads to, what stands on a
// shelf that sticks out, what one panel hides from an aisle. A work that an aisle sees all but edge-on is not for it.
func TestToldOnce(t *testing.T) {
	const booth = "units: in\npitch: {width: 12ft, depth: 10ft, indoor: yes, neighbours: none}\n"
	for name, c := range map[string]struct {
		text, check string
		times       int
	}{
		"feet": {booth + "walls: [{name: w, width: 40, hang on: panel, top: 72, from left: 40, from back: 40}]\nthings: [{name: keg, what: round, size: 20 x 20 x 30, from left: 30, from back: 40}]\n", "two in one place", 1},
		"narrow": {booth + "tables: [{name: l, size: 72 x 57, height: 29, against: left, from front: 6}, {name: r, size: 72 x 57, height: 29, against: right, from front: 6}]\n" +
			"works: [{name: a, size: 10 x 8, on: l, along: 40, back: 4}]\nwalls: [{side: back}]\n", "reach", 0},
		"shelf": {booth + "walls: [{side: back, hang on: panel}]\nthings: [{name: s, what: shelf, wall: back, height: 40, size: 40 x 12 x 1}]\n" +
			"works: [{name: a, size: 7 x 5, on: s, along: 4}, {name: b, size: 7 x 5, on: s, along: 20}]\n", "sticking out", 1},
		"edge-on": {"units: in\npitch: {width: 15ft, depth: 12ft, open: [left], indoor: yes, neighbours: none}\nwalls: [{side: back, hang on: panel}, {name: fin, width: 5ft, hang on: panel, from left: 60, from back: 2, turn: 90, feet: 18}]\n" +
			"works: [{name: a, size: 20 x 20, wall: back, left: 100}]\n", "hidden", 0},
	} {
		got := saysOf(t, c.text, c.check)
		if got == "" && c.times > 0 || got != "" && strings.Count(got, "\n")+1 != c.times {
			t.Errorf("%s, of %s:\n%s", name, c.check, got)
		}
	}
}
