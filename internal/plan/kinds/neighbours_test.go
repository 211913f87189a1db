package kinds

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"boothmock/internal/basis/geom"
	"boothmock/internal/plan/booth"
)

// The usual fair is two tents on either side and a row across the aisle, each clear of our pitch and of its own neighbour.
func TestNeighbours(t *testing.T) {
	p := mustPlan(t, "units: in\npitch: {width: 12ft, depth: 10ft, aisle: 14ft, neighbours: {gap: 18}}\ntent: {}\n")
	bounds := func(id booth.ID) (lo, hi geom.Vec) {
		part := p.Part(id)
		if part == nil || !part.Beyond || part.Bring != "" || part.Tent != nil {
			t.Fatalf("%s: %+v", id, part)
		}
		var corners []geom.Vec
		for _, c := range part.Solids {
			corners = append(corners, c.Corners...)
		}
		return geom.Bounds(corners)
	}
	const ft, gap = 0.3048, 18 * 0.0254
	for id, want := range map[booth.ID][4]float64{ // left, right, back, front
		"neighbour/left":     {-6*ft - gap - 10*ft, -6*ft - gap, -10 * ft, 0},
		"neighbour/left-2":   {-6*ft - 2*gap - 20*ft, -6*ft - 2*gap - 10*ft, -10 * ft, 0},
		"neighbour/right":    {6*ft + gap, 6*ft + gap + 10*ft, -10 * ft, 0},
		"neighbour/across-3": {-5 * ft, 5 * ft, 14 * ft, 24 * ft},
		"neighbour/across-1": {-5*ft - 20*ft - 2*gap, -5*ft - 10*ft - 2*gap, 14 * ft, 24 * ft},
	} {
		lo, hi := bounds(id)
		for k, got := range [4]float64{lo.X, hi.X, lo.Z, hi.Z} {
			if math.Abs(got-want[k]) > 0.005 {
				t.Errorf("%s: edge %d is at %.3f, want %.3f", id, k, got, want[k])
			}
		}
	}
	if p.Part("neighbour/back") != nil {
		t.Error("somebody has the pitch behind, and nothing says so")
	}
	for _, task := range append(p.SetUp.Tasks, p.SetUp.Strike...) {
		if strings.Contains(string(task.ID), "neighbour") {
			t.Errorf("%s is a task of ours", task.ID)
		}
	}
}

// What stands around can be said side by side, and not where visitors pass.
func TestNeighboursAsTheSceneSays(t *testing.T) {
	p := mustPlan(t, "pitch: {open: [right], indoor: yes, ground: carpet, neighbours: {left: walled, back: drape, across: none}}\n")
	back := p.Part("neighbour/back")
	if back == nil {
		t.Fatal("nobody has the pitch behind")
	}
	for _, c := range back.Solids { // usual pitches are 10 ft deep, and in a hall there is no gap
		if lo, hi := c.Bounds(); lo.Z < -6.1 || hi.Z > -3.04 {
			t.Errorf("the back neighbour stands from %v to %v", lo, hi)
		}
	}
	if p.Part("neighbour/right") != nil || p.Part("neighbour/across-3") != nil || p.Part("neighbour/left/legs") == nil || p.Part("neighbour/back/legs") != nil {
		t.Error("other neighbours than the scene's")
	}
	_, err := plan(t, "pitch: {open: [right], neighbours: {right: tent}}\n")
	if want := "visitors pass on the right side"; !strings.Contains(fmt.Sprint(err), want) {
		t.Errorf("got %v, want %s", err, want)
	}
}

// A hall with neighbours has walls and a ceiling around all of them; under the sky there is none. It stops nobody's view and no light.
func TestHall(t *testing.T) {
	for _, of := range []string{"", "gap: 20ft, width: 40ft, back: tent, eave: 16ft"} {
		p := mustPlan(t, "units: in\npitch: {indoor: yes, ground: carpet, neighbours: {"+of+"}}\n")
		hall := p.Part("hall")
		if hall == nil || !hall.Beyond || len(hall.Solids) > 0 || hall.Bring != "" {
			t.Fatalf("%+v", hall)
		}
		var corners []geom.Vec
		for _, m := range hall.Surfaces {
			for _, v := range m.Mesh.Vertices {
				corners = append(corners, v.P)
			}
		}
		lo, hi := geom.Bounds(corners)
		for i := range p.Parts {
			for _, c := range p.Parts[i].Solids {
				if from, to := c.Bounds(); from.X < lo.X || from.Z < lo.Z || to.X > hi.X || to.Y > hi.Y || to.Z > hi.Z {
					t.Errorf("%s stands through the hall: from %v to %v", p.Parts[i].ID, from, to)
				}
			}
		}
	}
	if mustPlan(t, "units: in\npitch: {neighbours: {}}\n").Part("hall") != nil {
		t.Error("a hall under the sky")
	}
}

// A scene that says nothing has the usual fair around it, one that says none has nobody, and no wood at the horizon either.
func TestUsualNeighbours(t *testing.T) {
	around := func(pitch string) (of []string) {
		p, err := plan(t, "units: in\n"+pitch+"tent: {}\n")
		if err != nil {
			return []string{err.Error()}
		}
		for _, part := range p.Parts {
			if part.Beyond && part.Parent == "" {
				of = append(of, string(part.ID))
			}
		}
		return of
	}
	usual := strings.Join(around(""), " ")
	if usual != strings.Join(around("pitch: {neighbours: {}}\n"), " ") || !strings.Contains(usual, "neighbour/left ") || !strings.Contains(usual, "neighbour/across-5") {
		t.Errorf("of itself %s", usual)
	}
	if got := around("pitch: {neighbours: none}\n"); len(got) > 0 {
		t.Errorf("none are %v", got)
	}
	const want = `a.yaml:2:21: neighbours: want an entry with keys of its own, or none, got "nobody"`
	if got := around("pitch: {neighbours: nobody}\n"); len(got) != 1 || !strings.HasPrefix(got[0], want) {
		t.Errorf("%v\nwant %s", got, want)
	}
}

// Each of the neighbours may have a colour of its own, and the others keep the usual one.
func TestEachNeighbourHasItsColour(t *testing.T) {
	p := mustPlan(t, "pitch: {neighbours: {left colour: navy, back: tent, back colour: sand, colour: white}}\ntent: {}\n")
	var navy, sand Colour
	if err := errors.Join(navy.UnmarshalText([]byte("navy")), sand.UnmarshalText([]byte("sand"))); err != nil {
		t.Fatal(err)
	}
	for id, want := range map[booth.ID]booth.Colour{"neighbour/left": booth.Colour(navy), "neighbour/left-2": booth.Colour(navy), "neighbour/back": booth.Colour(sand), "neighbour/right": {255, 255, 255}, "neighbour/across-1": {255, 255, 255}} {
		for k, got := range p.Part(id).Surfaces[0].Look.Colour { // its weave is a little darker or lighter
			if math.Abs(float64(got)-float64(want[k])) > 40 {
				t.Errorf("%s is %v, want %v", id, p.Part(id).Surfaces[0].Look.Colour, want)
			}
		}
	}
}
