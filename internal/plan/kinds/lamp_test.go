package kinds

import (
	"fmt"
	"math"
	"strings"
	"testing"
	"testing/fstest"

	"boothmock/internal/basis/geom"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/rules"
	"boothmock/internal/plan/scene"
)

const evenLamp = "IESNA:LM-63-2002\n[TEST] none\nTILT=NONE\n1 -1 1 3 1 1 2 -0.1 -0.1 0\n1 1 7\n0 45 90\n0\n100 100 100\n"

func lampScene(t *testing.T, lamps string) (*booth.Plan, error) {
	t.Helper()
	text := "units: in\npitch: {width: 10ft, depth: 10ft}\ntent: {eave: 84, peak: 126}\nwalls: [{side: back, hang on: panel, top: 80}]\ntables: [{name: desk, size: 40 x 20, height: 30}]\n" +
		"works: [{name: one, size: 24 x 36, wall: back, centre: 60}, {name: spare, size: 10 x 10}]\nlamps:\n" + lamps
	f, err := scene.Parse("a.yaml", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	return Build(f, rules.Book{}, fstest.MapFS{"even.ies": {Data: []byte(evenLamp)}, "bad.ies": {Data: []byte(strings.Replace(evenLamp, "45", "forty", 1))}})
}

// Wherever a lamp is clamped or stands, it points from its head to what it is aimed at, and its light leaves its head.
func TestLampsPoint(t *testing.T) {
	p, err := lampScene(t, `  - {name: a, clip to: back, aim: one}
  - {name: b, clip to: front bar, left: 24, aim: one}
  - {name: c, on: desk, height: 18, aim: down}
  - {name: d, from left: 6, from front: 6, height: 40, aim at: {from left: 60, from front: 60, height: 80}}
  - {name: e, clip to: back, left: 4, arm: 10, file: even.ies, kelvin: 4000, colour: white}
`)
	if err != nil {
		t.Fatal(err)
	}
	for name, aim := range map[string]geom.Vec{"a": p.Part("work/one").Work.Face.Centre(), "b": p.Part("work/one").Work.Face.Centre(), "d": {Y: 80 * 0.0254, Z: -60 * 0.0254}} {
		l := p.Part(booth.ID("lamp/" + name)).Lamp
		if d := aim.Sub(l.At).Unit().Dot(l.Toward); math.Abs(d-1) > 1e-9 || !l.Aimed {
			t.Errorf("%s points %v aside", name, d)
		}
	}
	for _, name := range []string{"a", "b", "c", "d", "e"} {
		part := p.Part(booth.ID("lamp/" + name))
		if lo, hi := part.Solids[0].Bounds(); part.Lamp.At.Dist(lo.Lerp(hi, 0.5)) > 0.15 || !part.Surfaces[0].Look.Glows {
			t.Errorf("%s shines from %v, its head is between %v and %v", name, part.Lamp.At, lo, hi)
		}
		for _, c := range part.Solids {
			if err := c.Check(); err != nil {
				t.Errorf("%s: %v", name, err)
			}
		}
	}
	if c := p.Part("lamp/c"); c.Parent != "table" && c.Parent != "table/desk" || math.Abs(c.Lamp.At.Y-48*0.0254) > 1e-9 {
		t.Errorf("on the table: %s at %v", c.Parent, c.Lamp.At)
	}
	if e := p.Part("lamp/e").Lamp; math.Abs(e.Beam.Lumens-200*math.Pi) > 1e-6 || e.Watts != 7 || e.Radius != 0.05 || e.Aimed {
		t.Errorf("by its maker's file: %+v", e)
	}
	if task := fmt.Sprint(p.SetUp.Tasks); !strings.Contains(task, "Clamp, connect and aim the lamps") || !strings.Contains(task, "residual-current") {
		t.Error("no task for the lamps")
	}
}

func TestLampsRefused(t *testing.T) {
	for lamp, says := range map[string]string{
		"{name: a, clip to: nowhere}":                                                          `there is no wall "nowhere"`,
		"{name: a, clip to: back, aim: two}":                                                   `there is no work "two"`,
		"{name: a, clip to: back, aim: spare}":                                                 `"spare" hangs nowhere`,
		"{name: a, clip to: back, left: 200}":                                                  "clamped beyond the end of back",
		"{name: a, clip to: back, on: desk}":                                                   "is clamped, and on: says otherwise",
		"{name: a, left: 3}":                                                                   `stands on the ground, and "left" is of one that does not`,
		"{name: a, clip to: back, file: even.ies, beam: 30}":                                   "the maker's file says how wide the beam is",
		"{name: a, clip to: back, file: none.ies}":                                             `there is no file "none.ies"`,
		"{name: a, clip to: back, file: ../even.ies}":                                          "scene's own folder",
		"{name: a, clip to: back, file: bad.ies}":                                              `bad.ies:6:3: "forty" is not a vertical angle`,
		"{name: a, clip to: back, aim: one, aim at: {from left: 3, from front: 3, height: 3}}": "both aim and aim at are given",
		"{name: a, clip to: back, watts: 0}":                                                   "watts",
		"{name: a, clip to: back, beam: 300}":                                                  "beam",
	} {
		_, err := lampScene(t, "  - "+lamp+"\n")
		if err == nil || !strings.Contains(err.Error(), says) || !strings.Contains(err.Error(), "a.yaml:8:") {
			t.Errorf("%s: %v, want %q", lamp, err, says)
		}
	}
}
