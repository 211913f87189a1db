package picture

import (
	"bytes"
	"testing"

	"boothmock/internal/plan/booth"
	"boothmock/internal/view/light"
)

// Two squares side by side before a third; then only the third and the left one, half a metre lower. Worked by hand: the
// camera of straight is at height 1.5, and at a distance of 2 a square of 100 pixels shows 4 m, 25 pixels a metre.
func TestStandingShowsWhatStands(t *testing.T) {
	var s stand
	s.add(booth.Part{ID: "left"}, flatMesh(quad(-1, 1.5, 0, 2.5, -2)), booth.Look{}, full)
	s.add(booth.Part{ID: "right"}, flatMesh(quad(0, 1.5, 1, 2.5, -2)), booth.Look{}, full)
	s.add(booth.Part{ID: "behind"}, flatMesh(quad(-9, -9, 9, 9, -4)), booth.Look{}, full)
	stage := s.stage()
	size := Options{Width: 100, Height: 100}
	count := func(stage *Stage) (n [3]int, top int) {
		top = 100
		for i, id := range stage.IDs(straight, size) {
			if id >= 0 {
				n[id]++
			}
			if id == 0 {
				top = min(top, i/100)
			}
		}
		return n, top
	}
	if n, top := count(stage); n != [3]int{625, 625, 10000 - 1250} || top != 25 {
		t.Errorf("finished: %v pixels, the left one from row %d", n, top)
	}
	half := stage.Standing(map[int]Piece{0: {From: stage, Low: 0.5}, 2: {From: stage}})
	if n, top := count(half); n[0] < 600 || n[0] > 650 || n[1] != 0 || n[0]+n[2] != 10000 || top < 37 || top > 38 { // 12.5 pixels lower
		t.Errorf("half done: %v pixels, the left one from row %d", n, top)
	}
	if n, _ := count(stage); n[1] != 625 {
		t.Error("the finished stage has changed")
	}
	if n, _ := count(stage.Standing(nil)); n != [3]int{} {
		t.Errorf("nothing stands, and %v pixels show it", n)
	}
}

// Stages that are drawn one after the other look as each does alone: things come, go, are raised and are lit anew, and
// the ground, which is clipped, stays.
func TestDrawEach(t *testing.T) {
	s := fair(60)
	bright := s.stage()
	dim := light.Lit{}
	for _, u := range s.lit.Surfaces {
		u.Light = make([][3]float32, len(u.Light))
		dim.Surfaces = append(dim.Surfaces, u)
	}
	dark := NewStage(&s.plan, &dim)
	some := func(from *Stage, low float64, leave ...int) *Stage {
		pieces := map[int]Piece{}
		for i := range s.plan.Parts {
			pieces[i] = Piece{From: bright}
		}
		pieces[2] = Piece{From: from, Low: low}
		for _, i := range leave {
			delete(pieces, i)
		}
		return bright.Standing(pieces)
	}
	stages := []*Stage{some(bright, 0, 1, 3), some(bright, 0, 3), some(bright, 0), some(bright, 0.4), some(dark, 0), some(dark, 0), some(bright, 0, 1, 2)}
	o := Options{Width: 320, Height: 180}
	all := map[string]bool{}
	for i, m := range DrawEach(stages, entrance, o) {
		if alone := stages[i].Draw(entrance, o); !bytes.Equal(m.Pix, alone.Pix) {
			t.Errorf("stage %d looks different alone", i)
		}
		all[string(m.Pix)] = true
	}
	if len(all) < 5 {
		t.Errorf("only %d different pictures", len(all))
	}
}
