package job_test

import (
	"strings"
	"testing"

	"boothmock/internal/find/check"
	"boothmock/internal/plan/booth"
)

// A neighbour with walls hides a work on our open side wall from those who come along past it, and from nobody else; one without
// hides next to nothing. The jury's picture shows none of them.
func TestNeighboursHide(t *testing.T) {
	seen := func(left string) map[string]float64 {
		p, err := build("units: in\npitch: {width: 10ft, depth: 10ft, aisle: 12ft, neighbours: {left: " + left + "}}\ntent: {}\n" +
			"walls: [{side: left, hang on: rail, faces: out, width: 60}]\nworks: [{name: a, size: 30 x 30}]\nrows: [{wall: left, works: [a]}]\n")
		if err != nil {
			t.Fatal(err)
		}
		out := map[string]float64{}
		for _, l := range check.Run(p).Sightlines {
			if l.Eye != "adult" || l.Turned <= 0 {
				continue
			}
			out[l.From] = l.Visible
			for _, h := range l.HiddenBy {
				if strings.HasPrefix(string(h.Item), "neighbour/") && l.From != "aisle-left" {
					t.Errorf("%s hides %.2f of it from %s", h.Item, h.Share, l.From)
				}
			}
		}
		for _, v := range p.Views {
			if v.Bare && out[v.Name] != 0 {
				t.Errorf("the work that faces left is seen from %s", v.Name)
			}
		}
		return out
	}
	alone, walled, open := seen("none"), seen("walled"), seen("tent")
	if !(alone["aisle-left"] > 0.9 && walled["aisle-left"] < 0.1 && open["aisle-left"] > 0.7) {
		t.Errorf("from the left, alone %.2f, beside walls %.2f, beside an open tent %.2f", alone["aisle-left"], walled["aisle-left"], open["aisle-left"])
	}
}

// Neighbours take daylight: the same booth is darker between them, and nothing of theirs is checked, brought or set up.
func TestNeighboursAreNotOurs(t *testing.T) {
	const scene = "units: in\npitch: {width: 10ft, depth: 10ft, aisle: 8ft%}\ntent: {eave: 89, peak: 128}\nwalls: [{side: back}]\nworks: [{name: a, size: 30 x 30}]\nrows: [{wall: back, works: [a]}]\n"
	texts := map[bool]string{}
	for _, with := range []bool{false, true} {
		around := ", neighbours: none"
		if with {
			around = ", neighbours: {left: walled, right: walled, back: walled, gap: 0}"
		}
		p, err := build(strings.Replace(scene, "%", around, 1))
		if err != nil {
			t.Fatal(err)
		}
		var said []string
		for _, f := range check.Run(p).Findings {
			said = append(said, f.Message)
		}
		texts[with] = strings.Join(said, "\n")
		if of := p.Part(booth.ID("neighbour/left")); (of != nil) != with {
			t.Errorf("neighbours: %v", of)
		}
	}
	if texts[false] != texts[true] {
		t.Errorf("alone:\n%s\nbetween neighbours:\n%s", texts[false], texts[true])
	}
}
