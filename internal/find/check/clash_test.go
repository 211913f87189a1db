package check

import (
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/rules"
)

// Two boxes that reach into each other by more than cloth gives way are reported; a work that leans on its table and
// things that only touch are not.
func TestTwoInOnePlace(t *testing.T) {
	box := func(id, parent booth.ID, x float64) booth.Part {
		return booth.Part{ID: id, Parent: parent, Name: "the " + string(id), Solids: []geom.Convex{
			geom.Box(geom.World, geom.Vec{X: x, Z: -2}, geom.Vec{X: x + 0.5, Y: 0.7, Z: -1.5}),
		}}
	}
	visitor := box("b", "", 0.2)
	visitor.Moving = true
	for _, c := range []struct {
		name  string
		b     booth.Part
		level Level
	}{
		{"an inch in", box("b", "", 0.5-in), Fail},
		{"more than cloth gives, 3/8 in, and a hair, 1/16 in", box("b", "", 0.5-0.45*in), Fail},
		{"less", box("b", "", 0.5-0.42*in), ""},
		{"touching", box("b", "", 0.5), ""},
		{"on it", box("b", "a", 0.2), ""},
		{"a visitor", visitor, Caution},
	} {
		p := newPass(&booth.Plan{Pitch: booth.Pitch{Width: 3, Depth: 3}, Eyes: []booth.Eye{{Name: "adult", Height: 1.6}}, Parts: []booth.Part{box("a", "", 0), c.b}})
		p.run(clash)
		if levels(p.findings) != string(c.level) || c.level != "" && (!strings.Contains(p.findings[0].Message, "take the same room: move ") || p.findings[0].With == "") {
			t.Errorf("%s: %+v", c.name, p.findings)
		}
	}
}

// thin is a flat thing on a wall, from (x0, y0) to (x1, y1) as somebody faces it, z inches before it and 1/8 in thick.
func (s *stall) thin(wall *booth.Part, name string, x0, y0, x1, y1, z float64) *booth.Part {
	f := wall.Frame
	return s.add(booth.Part{ID: booth.ID("sign/" + name), Parent: wall.ID, Name: "the " + name, Frame: f.Moved(vec((x0+x1)/2, (y0+y1)/2, z)),
		Solids: []geom.Convex{geom.Box(f, vec(x0, y0, z), vec(x1, y1, z+0.125))}})
}

// What is said of two things in one place, word for word: which one is to be moved, how far, and where to.
func TestHowToMend(t *testing.T) {
	for _, c := range []struct {
		name string
		make func(s *stall)
		want string
	}{
		{"two tables", func(s *stall) {
			s.table(-58, -40, -36, -4, 29)
			s.box("sales table", -37.125, -30, -20, -10, 29, -4)
		}, "The sales table and the print table take the same room: move the sales table 1 1/8 in to the right"},
		{"to the nearer side, but not off the pitch", func(s *stall) {
			s.box("crate", -58, 0, -100, -30, 20, -60)
			s.box("bin", -59, 0, -98, -45, 20, -62)
		}, "The bin and the crate take the same room: move the bin 29 in to the right"},
		{"not into a third thing", func(s *stall) {
			s.box("crate", -30, 0, -100, 0, 20, -60)
			s.box("easel", 4, 0, -100, 14, 20, -60)
			s.box("bin", -4, 0, -90, 2, 20, -70)
		}, "The bin and the crate take the same room: move the bin 18 in to the right"},
		{"in the middle of each other", func(s *stall) {
			s.box("crate", -10, 0, -120, 10, 20, 0)
			s.box("bin", -5, 0, -100, 5, 20, -20)
		}, "The bin and the crate take the same room: move the bin 15 in to one side"},
		{"nowhere to go", func(s *stall) {
			s.box("stage", -60, 0, -120, 60, 20, 0)
			s.box("bin", -5, 0, -100, 5, 20, -20)
		}, "The bin and the stage take the same room; no place beside it is free"},
		{"a sign before a canvas", func(s *stall) {
			back := s.wall(booth.Back)
			s.work(back, "Heron", 40, 58, 24, 36, 1.5)
			s.thin(back, "welcome sign", 70, 50, 80, 60, 2)
		}, "The welcome sign and Heron overlap by 6 x 10 in on the back wall: move the welcome sign 6 in to the right"},
		{"a tag under a frame", func(s *stall) {
			back := s.wall(booth.Back)
			s.work(back, "Heron", 40, 58, 24, 36, 1.5) // from 46 to 70 in high
			tag := s.thin(back, "tag", 50, 45.5, 53.5, 47.5, 0.1)
			tag.Lettering = &booth.Lettering{From: booth.Close}
		}, "Heron and the tag overlap by 3 1/2 x 1 1/2 in on the back wall: move Heron 1 1/2 in up"},
		{"two on one top", func(s *stall) {
			s.table(-30, -40, 30, -10, 29)
			s.box("guest book", 0, 29, -30, 10, 30, -22).Parent = "thing/print table"
			s.box("card rack", 8, 29, -28, 17, 34, -22).Parent = "thing/print table"
		}, "The card rack and the guest book share 2 x 6 in of the top of the print table: move the card rack 2 in to the right, as you stand before the print table"},
		{"a visitor", func(s *stall) {
			s.table(-30, -40, 30, -10, 29)
			s.box("visitor", 0, 0, -12, 18, 66, -4).Moving = true
		}, "The visitor and the print table take the same room: move the visitor 2 in towards the front"},
		{"a table with what stands on it", func(s *stall) {
			s.box("crate", -30, 0, -60, 10, 40, -20)
			s.table(9, -50, 40, -30, 29)
			s.box("vase", 9, 29, -45, 12, 50, -40).Parent = "thing/print table"
		}, "The print table and the crate take the same room: move the print table 1 in to the right"},
		{"what hangs in the air is moved up and down", func(s *stall) {
			s.wall(booth.Back)
			s.work(s.Part("wall/back"), "Heron", 40, 58, 24, 36, 1.5)
			s.box("banner", -60, 68, -119, 60, 80, -118)
		}, "The banner and Heron take the same room: move the banner 2 in up"},
	} {
		s := newStall()
		s.Parts = make([]booth.Part, 0, 16)
		c.make(s)
		got := s.of(clash)
		if len(got) != 1 || got[0].Message != c.want {
			t.Errorf("%s: %+v\nwant %s", c.name, got, c.want)
		}
	}
}

// moved is the booth with a part, and what stands on it, moved.
func (s *stall) moved(m move) *stall {
	out := &stall{s.Plan}
	out.Parts = slices.Clone(s.Parts)
	p := newPass(&s.Plan)
	by := geom.World.Moved(m.by)
	for _, part := range p.with(m.part) {
		i := slices.IndexFunc(s.Parts, func(q booth.Part) bool { return q.ID == part.ID })
		q := &out.Parts[i]
		q.Frame.Origin = q.Frame.Origin.Add(m.by)
		q.Solids = nil
		for _, c := range part.Solids {
			q.Solids = append(q.Solids, by.Solid(c))
		}
	}
	return out
}

// Whatever two things are in one place: after the move that is told the moved one is in no other thing's place, and nothing
// less than that, in the same direction, would have done.
func TestTheMoveMends(t *testing.T) {
	r := rand.New(rand.NewPCG(21, 5))
	num := func(lo, hi float64) float64 { return lo + r.Float64()*(hi-lo) }
	tried, none := 0, 0
	for n := range 120 {
		s := newStall()
		s.Parts = make([]booth.Part, 0, 32)
		if n%2 == 1 {
			s.Units = unit.Centimetres
		}
		wall := s.wall(booth.Side(1 + r.IntN(3)))
		table := s.table(-20, -40, 20, -20, 29)
		solid := func(part *booth.Part, w, h, d float64) {
			f := part.Frame.Turned(num(0, 7))
			if r.IntN(2) == 0 {
				f = f.Tilted(num(0, 0.3))
			}
			part.Solids = []geom.Convex{geom.Box(f, vec(-w/2, 0, -d/2), vec(w/2, h, d/2)), geom.Drum(f, 7, 0, w*in/3, d*in/3, h*in*1.2, w*in/4, d*in/4)}
		}
		for k := range 3 {
			name := string(rune('a' + k))
			solid(s.add(booth.Part{ID: booth.ID("floor/" + name), Name: "floor " + name, Moving: r.IntN(5) == 0, Frame: geom.World.Moved(vec(num(-40, 40), 0, num(-100, -20)))}), num(4, 30), num(10, 60), num(1, 30))
			solid(s.add(booth.Part{ID: booth.ID("top/" + name), Name: "top " + name, Parent: table.ID, Frame: geom.World.Moved(vec(num(-15, 15), 29, num(-36, -24)))}), num(2, 10), num(1, 10), num(0.2, 6))
			x, y := num(5, 90), num(30, 60)
			s.thin(wall, "wall "+name, x, y, x+num(4, 30), y+num(4, 30), num(0, 2))
		}
		p := newPass(&s.Plan)
		for _, c := range clashes(p) {
			a, b := c[0], c[1]
			m, ok := p.mend(a, b, 0)
			if !ok {
				none++
				continue
			}
			tried++
			inside := func(s *stall) (with []booth.ID) {
				for _, c := range clashes(newPass(&s.Plan)) {
					if a, b := c[0], c[1]; a.ID == m.part.ID {
						with = append(with, b.ID)
					} else if b.ID == m.part.ID {
						with = append(with, a.ID)
					}
				}
				return with
			}
			after := s.moved(m)
			for _, id := range inside(after) {
				if o := s.Part(id); !o.Moving || o.ID == a.ID || o.ID == b.ID {
					t.Errorf("booth %d: %s: and then it is in %s", n, m.words, id)
				}
			}
			q := newPass(&after.Plan)
			if d := q.depth(after.Part(a.ID), after.Part(b.ID)); d > 1e-9 {
				t.Errorf("booth %d: %s: they still reach %v m into each other", n, m.words, d)
			}
			step := math.Max(in/8, 0.001) * 1.01
			if m.by.Len() <= step {
				continue
			}
			shorter := m
			shorter.by = m.by.Mul(1 - step/m.by.Len())
			if !stuck(s.moved(shorter), m.part.ID, a.ID, b.ID) {
				t.Errorf("booth %d: %s: less would do", n, m.words)
			}
		}
	}
	if tried < 250 || none > tried/4 {
		t.Errorf("%d moves tried, and %d couples cannot be freed: that proves little", tried, none)
	}
	t.Logf("%d moves tried; %d couples cannot be freed", tried, none)
}

func clashes(p *Pass) (out [][2]*booth.Part) {
	p.eachClash(func(a, b *booth.Part) { out = append(out, [2]*booth.Part{a, b}) })
	return out
}

// stuck reports whether a part, or what stands on it, is in another thing: one of the couple, or one that it would
// reach into by more than is let through.
func stuck(s *stall, id, one, other booth.ID) bool {
	p := newPass(&s.Plan)
	group := p.with(s.Part(id))
	for _, q := range group {
		for i := range s.Parts {
			o := &s.Parts[i]
			couple := q.ID == id && (o.ID == one || o.ID == other)
			if slices.Contains(group, o) || !couple && (o.Moving || p.fitted(q, o)) {
				continue
			}
			give := hair
			switch {
			case couple:
				give = 0
			case p.ease(o) == built:
				give = pressed
			}
			qs, os := p.shapes(q, o)
			for _, c := range qs {
				for _, d := range os {
					if geom.Overlap(c.Mapped, d.Mapped) > give {
						return true
					}
				}
			}
		}
	}
	return false
}

// By hand: the axis on which two boxes have most space between them tells how far apart they are, or how far in each other.
func TestSpaceBetweenBoxes(t *testing.T) {
	box := func(x, y, z float64) (lo, hi geom.Vec) {
		return geom.Vec{X: x, Y: y, Z: z}, geom.Vec{X: x + 2, Y: y + 3, Z: z + 4}
	}
	alo, ahi := box(0, 0, 0)
	for at, want := range map[geom.Vec]float64{
		{X: 5}: 3, {X: -5}: 3, {Y: 5}: 2, {Y: -5}: 2, {Z: 5}: 1, {Z: -5}: 1, {X: 1}: -1, {Y: -2, Z: 1}: -1, {X: 0.5, Y: 1, Z: 3}: -1, {X: 3, Z: 9}: 5,
	} {
		blo, bhi := box(at.X, at.Y, at.Z)
		if got := space(alo, ahi, blo, bhi); got != want {
			t.Errorf("moved by %v: %v apart, want %v", at, got, want)
		}
	}
}

// Crates stand under tables behind the cloth, where they fit: common practice, no source.
func TestUnderATable(t *testing.T) {
	for crate, want := range map[string]int{
		"from left: 50, from front: 44":                     0,
		"from left: 50, from front: 44, size: 18 x 12 x 28": 1, // the table is 29 in high
		"from left: 50, from front: 36":                     1, // half before the cloth
		"from left: 37, from front: 44":                     1,
		"from left: 50, from front: 44, size: 18 x 12 x 27": 0,
	} {
		n := 0
		for _, f := range Run(builtFrom(t, rules.Book{}, "units: in\npitch: {width: 10ft, depth: 10ft, aisle: 12ft}\ntables: [{name: desk, size: 48 x 24, cloth: linen, from left: 40, from front: 40}]\nthings: [{name: stock, what: crate, "+crate+"}]\n")).Findings {
			if f.Check == clash.Name {
				n++
			}
		}
		if n != want {
			t.Errorf("%s: %d clashes, want %d", crate, n, want)
		}
	}
}
