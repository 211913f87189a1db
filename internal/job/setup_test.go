package job

import (
	"image"
	"os"
	"slices"
	"testing"

	"boothmock/internal/basis/geom"
	"boothmock/internal/find/order"
	"boothmock/internal/plan/booth"
)

func load(t *testing.T) (*booth.Plan, order.Rehearsal) {
	t.Helper()
	p, err := Load("", Settings{})
	if err != nil {
		t.Fatal(err)
	}
	r, err := order.Of(p, order.Options{})
	if err != nil {
		t.Fatal(err)
	}
	return p, r
}

// From step to step nothing that stands goes away, and in the end everything stands in its place.
func TestEveryStepAddsToTheBooth(t *testing.T) {
	p, r := load(t)
	before := standing(p, nil)
	for i := range before {
		if !p.Parts[i].Flat {
			t.Errorf("%s stands before the first step", p.Parts[i].ID)
		}
	}
	for _, s := range r.Steps {
		now := standing(p, s.Shows)
		for i, low := range before {
			if l, ok := now[i]; !ok || l > low {
				t.Errorf("after step %d %s is gone or has sunk", s.Number, p.Parts[i].ID)
			}
		}
		before = now
	}
	for i, part := range p.Parts {
		if low, ok := before[i]; !part.Moving && !part.Beyond && (!ok || low != 0) { // what is beyond the pitch is not set up
			t.Errorf("%s does not stand in the end", part.ID)
		}
	}
}

// What stands after each step is free of what cannot be there yet: no work without its wall and cloth, nothing on a table
// that is not there, no cloth on a frame that is not raised.
func TestNothingHangsInTheAir(t *testing.T) {
	p, r := load(t)
	for _, s := range r.Steps {
		now := standing(p, s.Shows)
		stands := func(id booth.ID) bool {
			return slices.ContainsFunc(p.Parts, func(q booth.Part) bool { return q.ID == id }) && func() bool {
				for i := range now {
					if p.Parts[i].ID == id {
						return true
					}
				}
				return false
			}()
		}
		for i := range now {
			part := &p.Parts[i]
			if part.Parent != "" && !stands(part.Parent) {
				t.Errorf("after step %d %s hangs on %s, which is not there", s.Number, part.ID, part.Parent)
			}
			if part.Work != nil && part.Work.Hung != nil {
				if cover := p.Part(part.Work.Hung.Wall).Wall.Cover; cover != "" && !stands(cover) {
					t.Errorf("after step %d %s hangs without %s", s.Number, part.ID, cover)
				}
			}
			if (part.Wall != nil || part.Cloth != nil) && now[tent(t, p)] != 0 {
				t.Errorf("after step %d %s stands, and the tent is low", s.Number, part.ID)
			}
		}
	}
}

func tent(t *testing.T, p *booth.Plan) int {
	t.Helper()
	return slices.IndexFunc(p.Parts, func(q booth.Part) bool { return q.Tent != nil })
}

// The animation has the same steps as the list: a part is seen from the second of its step on.
func TestMotionIsTheRehearsal(t *testing.T) {
	p, _ := load(t)
	m, err := New(p)
	if err != nil {
		t.Fatal(err)
	}
	r, motion := m.SetUp(), m.motion()
	when := map[booth.ID]float64{}
	for _, rise := range motion.Rises {
		when[rise.Part] = rise.Shown
		if rise.Low > 0 && rise.Raised <= rise.Shown {
			t.Errorf("%s is low and is never raised", rise.Part)
		}
	}
	for _, s := range r.Steps {
		for _, v := range s.Shows {
			if when[v.Part] > float64(s.Number) {
				t.Errorf("%s stands after step %d and is seen at %g s", v.Part, s.Number, when[v.Part])
			}
		}
	}
	for _, part := range p.Parts {
		if _, ok := when[part.ID]; !ok && !part.Flat {
			t.Errorf("%s is there from the beginning", part.ID)
		}
	}
	if motion.End < float64(len(r.Steps)) || len(motion.Walk) < 10 {
		t.Errorf("the set-up ends at %g s, the walk has %d places", motion.End, len(motion.Walk))
	}
}

func TestFileNames(t *testing.T) {
	for id, want := range map[string]string{"wall/back": "wall-back", "bin/small prints": "bin-small-prints", "Größe/..": "gr--e---", "task/1": "task-1"} {
		if got := fileName(id); got != want {
			t.Errorf("%s: %s, want %s", id, got, want)
		}
	}
}

// The light of the finished booth is used near nothing that is missing: a box half a metre away counts, one farther does not.
func TestNearness(t *testing.T) {
	box := func(x float64) booth.Part {
		return booth.Part{Solids: []geom.Convex{geom.Box(geom.World, geom.Vec{X: x}, geom.Vec{X: x + 1, Y: 1, Z: 1})}}
	}
	p := &booth.Plan{Parts: []booth.Part{box(0), box(1.4), box(1.6), {Flat: true}}}
	for other, want := range map[int]bool{1: true, 2: false} {
		if got := anyNear(p, &p.Parts[0], []int{other}); got != want {
			t.Errorf("box %d: near %v, want %v", other, got, want)
		}
	}
	if !anyNear(p, &p.Parts[3], []int{2}) || anyNear(p, &p.Parts[3], nil) {
		t.Error("everything that is missing is near the ground, and nothing else is")
	}
}

func BenchmarkSteps(b *testing.B) {
	p, err := Load("", Settings{})
	if err != nil {
		b.Fatal(err)
	}
	m, err := New(p)
	if err != nil {
		b.Fatal(err)
	}
	l := newSite(p, m.Stage(), m.Even())
	for b.Loop() {
		m.drawSteps(l)
	}
}

// Taking down empties the pitch of all that was set up, and nothing is left hanging on what is gone.
func TestStrikeTakesEverything(t *testing.T) {
	for _, scene := range []string{"../../scenes/hall.yaml", "../../scenes/full.yaml"} {
		m := loaded(t, scene)
		p := m.Plan
		r := m.Strike()
		if got, want := standing(p, r.Stands), standing(p, m.SetUp().Steps[len(m.SetUp().Steps)-1].Shows); len(got) != len(want) {
			t.Errorf("%s: %d parts stand before taking down, %d after the set-up", scene, len(got), len(want))
		}
		for i := range standing(p, r.Steps[len(r.Steps)-1].Shows) {
			if !p.Parts[i].Flat {
				t.Errorf("%s: %s is left on the pitch", scene, p.Parts[i].ID)
			}
		}
		for _, s := range r.Steps {
			now := standing(p, s.Shows)
			stands := map[booth.ID]bool{"": true}
			for i := range now {
				stands[p.Parts[i].ID] = true
			}
			for i := range now {
				if part := &p.Parts[i]; !part.Flat && !stands[part.Parent] {
					t.Errorf("%s: after %s %s hangs on %s, which is gone", scene, s.ID, part.ID, part.Parent)
				}
			}
		}
	}
}

// No two steps have pictures that look the same, in whichever list, but for a step that is the same in taking down and for the
// night; and only a step of which nothing can be seen has none.
func TestEveryStepHasItsPicture(t *testing.T) {
	scenes := map[string]int{"../../scenes/hall.yaml": 35} // and how many pictures there are at least
	if os.Getenv("REQUIRE_TOOLS") != "" {
		scenes[""], scenes["../../scenes/double.yaml"], scenes["../../scenes/full.yaml"] = 55, 60, 60
	}
	for scene, least := range scenes {
		m := loaded(t, scene)
		m.Stage = m.Even // what is drawn, not how light it is
		pictures := m.drawSteps(site{m.Even(), m.Even(), m.Even(), m.Even(), m.Even()})
		type seen struct {
			order.Step
			of  order.Which
			img *image.NRGBA
		}
		var all []seen
		for _, r := range m.Lists() {
			list := pictures[r.Which]
			if len(list) != len(r.Steps) {
				t.Fatalf("%s: %d pictures of %d steps", scene, len(list), len(r.Steps))
			}
			for i, img := range list {
				s := r.Steps[i]
				if (img == nil) != blank(r, s) {
					t.Errorf("%s: %s: has a picture: %v", scene, r.Step(s), img != nil)
				}
				if img == nil {
					continue
				}
				if img.Rect.Dx() != stepWidth || img.Rect.Dy() != stepHeight {
					t.Errorf("%s: the picture is %v", s.ID, img.Rect)
				}
				for _, other := range all {
					same := other.of != r.Which && other.of != order.SetUp && r.Which != order.SetUp && other.ID == s.ID
					if !same && looksLike(img, other.img) {
						t.Errorf("%s: %s has the picture of %s, list %v", scene, r.Step(s), other.ID, other.of)
					}
				}
				all = append(all, seen{s, r.Which, img})
			}
		}
		if len(all) < least {
			t.Errorf("%s: %d pictures", scene, len(all))
		}
	}
}

// A load is as large in its picture on a pitch of four tents as on one.
func TestALoadIsSeenOnAWidePitch(t *testing.T) {
	m := loaded(t, "")
	m.Stage = m.Even
	m.Plan.Pitch.Width *= 4
	s := turn{Step: order.Step{Load: 1}}
	shot := m.shoot(site{m.Even(), m.Even(), m.Even(), m.Even(), m.Even()}, s)
	at, _ := shot.lens(m.Even())
	low, high := float64(stepHeight), 0.0
	for _, c := range shot.things[len(shot.things)-1].Solid.Corners {
		x, y, ok := at(c)
		if !ok || x < 0 || x > stepWidth {
			t.Fatalf("the load is at %v, %v", x, y)
		}
		low, high = min(low, y), max(high, y)
	}
	if high-low < 40 {
		t.Errorf("the load is %.0f of %d px high", high-low, stepHeight)
	}
}

// looksLike is whether nobody would tell two pictures apart: fewer than sixty pixels differ by more than 30 levels, and a figure on a load is more.
func looksLike(a, b *image.NRGBA) bool {
	n := 0
	for i := 1; i < len(a.Pix); i += 4 { // green is most of how light a pixel is
		if d := int(a.Pix[i]) - int(b.Pix[i]); d > 30 || d < -30 {
			if n++; n == 60 {
				return false
			}
		}
	}
	return true
}

// loaded is a scene's mock-up.
func loaded(t *testing.T, scene string) *Mockup {
	t.Helper()
	p, err := Load(scene, Settings{})
	if err != nil {
		t.Fatal(err)
	}
	m, err := New(p)
	if err != nil {
		t.Fatal(err)
	}
	return m
}
