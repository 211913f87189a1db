package shade

import (
	"strings"
	"testing"

	"boothmock/internal/basis/geom"
	"boothmock/internal/plan/finding"
)

// A dark tent, open to the front: the pane of a framed work on its back wall mirrors the light of the fair. WCAG's least contrast of 4.5
// is not reached, and the report says from where, what is mirrored and what helps. Without a pane, or with one of low reflection, it is.
func TestReflections(t *testing.T) {
	scene := "units: in\npitch: {width: 10ft, depth: 10ft, neighbours: none}\ntent: {eave: 84, peak: 126, canopy: '#101820', light through: 1%}\n" +
		"walls: [{side: back, hang on: panel, top: 80, colour: '#303030'}, {side: left, hang on: panel, top: 80, colour: '#303030'}, {side: right, hang on: panel, top: 80, colour: '#303030'}]\n" +
		"works: [{name: one, size: 24 x 36, wall: back, centre: 58, glazing: GLAZED, frame: {width: 1}}, {name: two, size: 24 x 36, wall: left, centre: 58}]\n"
	with := func(glazing string) []finding.Finding {
		return of(Findings(example(t, strings.Replace(scene, "GLAZED", glazing, 1))), "reflections")
	}
	got := with("glass")
	if len(got) != 1 || got[0].Level != finding.Caution || got[0].Measured <= 0.1 || got[0].Unit != finding.Share {
		t.Fatalf("%+v", got)
	}
	for _, words := range []string{"Seen from ", " of one mirrors", "its dark parts do not read", "take a pane of low reflection"} {
		if !strings.Contains(got[0].Message, words) {
			t.Errorf("%q is not in %s", words, got[0].Message)
		}
	}
	if none, low := with("none"), with("low-reflection"); len(none)+len(low) > 0 {
		t.Errorf("without: %v; of low reflection: %v", none, low)
	}
}

// Leaning turns a face about its lower edge, and a swap keeps its size.
func TestLeanedAndPlaced(t *testing.T) {
	face := geom.Polygon{{}, {X: 2}, {X: 2, Y: 1}, {Y: 1}}
	l := leaned(face, 0.5)
	if d := l[3].Dist(l[0]); d < 0.999999 || d > 1.000001 || l[0] != face[0] || l[3].Z <= 0 || l.Normal().Y >= 0 {
		t.Errorf("leaned: %v", l)
	}
	p := placed(face, geom.Polygon{{Z: 1}, {Z: -1}, {Y: 2, Z: -1}, {Y: 2, Z: 1}})
	if p.Area() < 1.999999 || p.Area() > 2.000001 || p.Normal().X < 0.999999 || p.Centre().Dist(geom.Vec{Y: 1}) > 1e-9 {
		t.Errorf("placed: %v", p)
	}
}
