package pack

import (
	"math"
	"testing"
	"testing/fstest"

	"boothmock/internal/plan/kinds"
	"boothmock/internal/plan/rules"
	"boothmock/internal/plan/scene"
)

// Places by hand: a table 48 x 22 in that stands against the left with 10 in before it, turned a quarter; a pedestal in the middle of
// a pitch of 120 in, 12 in square, 30 in from the front. What hangs, what is cloth and who walks are no pieces.
func TestPiecesByHand(t *testing.T) {
	f, err := scene.Parse("a.yaml", []byte(`units: in
pitch: {width: 10ft, depth: 10ft, aisle: 12ft, neighbours: none}
tent: {eave: 86}
walls: [{side: back, top: 82}]
tables: [{name: desk, size: 48 x 22, height: 30, against: left, from left: 0, from front: 10}]
pedestals: [{name: tall, size: 12 x 12, height: 40, from front: 30}]
works: [{name: a, size: 20 x 20, wall: back}]
`))
	if err != nil {
		t.Fatal(err)
	}
	p, err := kinds.Build(f, rules.Book{}, fstest.MapFS{})
	if err != nil {
		t.Fatal(err)
	}
	all := pieces(p)
	if len(all) != 2 {
		t.Fatalf("%d pieces: %+v", len(all), all)
	}
	for i, want := range [][7]float64{{0, 22, 10, 58, 48, 22, 30}, {54, 66, 30, 42, 12, 12, 40}} {
		q := all[i]
		for k, v := range [7]float64{q.left, q.right, q.front, q.back, q.long, q.deep, q.high} {
			if math.Abs(v/0.0254-want[k]) > 0.3 { // a cloth is drawn to a few millimetres
				t.Errorf("%s: %.2f in, by hand %.2f (figure %d)", q.name, v/0.0254, want[k], k+1)
			}
		}
	}
	if math.Abs(all[0].turned-90) > 0.1 || math.Abs(all[1].turned) > 0.1 {
		t.Errorf("turned %.1f and %.1f", all[0].turned, all[1].turned)
	}
}
