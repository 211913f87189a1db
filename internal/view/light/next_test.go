package light

import (
	"context"
	"os"
	"reflect"
	"testing"

	"boothmock/internal/basis/geom"
	"boothmock/internal/plan/booth"
)

var raced bool // the race detector is on

// shifted is the booth with a part, and all that stands or hangs on it, somewhere else.
func shifted(p *booth.Plan, id booth.ID, by geom.Vec) *booth.Plan {
	q := *p
	q.Parts = nil
	for _, part := range p.Parts {
		if part.ID == id || part.Parent == id {
			part = moved(part, by)
		}
		q.Parts = append(q.Parts, part)
	}
	return &q
}

func moved(part booth.Part, by geom.Vec) booth.Part {
	part.Frame = part.Frame.Moved(geom.Vec{})
	part.Frame.Origin = part.Frame.Origin.Add(by)
	solids := func(list []geom.Convex) (out []geom.Convex) {
		for _, c := range list {
			var corners []geom.Vec
			for _, v := range c.Corners {
				corners = append(corners, v.Add(by))
			}
			out = append(out, geom.NewConvex(corners, c.Faces))
		}
		return out
	}
	part.Solids, part.Blocks = solids(part.Solids), solids(part.Blocks)
	var surfaces []booth.Surface
	for _, s := range part.Surfaces {
		m := geom.Mesh{Triangles: s.Mesh.Triangles}
		for _, v := range s.Mesh.Vertices {
			v.P = v.P.Add(by)
			m.Vertices = append(m.Vertices, v)
		}
		s.Mesh = m
		surfaces = append(surfaces, s)
	}
	part.Surfaces = surfaces
	if part.Work != nil {
		w := *part.Work
		w.Face = nil
		for _, v := range part.Work.Face {
			w.Face = append(w.Face, v.Add(by))
		}
		part.Work = &w
	}
	return part
}

// Light that takes over what was found before is, to the last bit, that of a booth made from nothing; and where one work was moved,
// or a table, only so much is gathered again.
func TestNextIsFresh(t *testing.T) {
	p, err := demo()
	if err != nil {
		t.Fatal(err)
	}
	lit := Bake(p)
	all := lit.found.gathers()
	for _, move := range []struct {
		part booth.ID
		by   geom.Vec
		most float64 // share of the places where light is gathered again
	}{
		{"work/heron", geom.Vec{Y: -0.05}, 0.35},
		{"table/prints", geom.Vec{Z: -0.1}, 0.75},
		{"none", geom.Vec{}, 0},
	} {
		if move.part == "table/prints" && !long() {
			continue
		}
		q := shifted(p, move.part, move.by)
		next, fresh := lit.Next(context.Background(), q), lit
		if move.most > 0 {
			fresh = Bake(q)
		}
		if !reflect.DeepEqual(next.Surfaces, fresh.Surfaces) {
			t.Errorf("%s moved: the light is not that of a booth made from nothing", move.part)
		}
		share := float64(next.found.gathers()) / float64(all)
		t.Logf("%s moved: gathered again at %.0f %% of %d places, %d MB kept", move.part, 100*share, all, next.found.bytes()>>20)
		if share > move.most {
			t.Errorf("%s moved: gathered again at %.0f %% of the places", move.part, 100*share)
		}
	}
}

// Light on works that takes over what was found before is, to the last bit, that of a booth made from nothing, also at another hour; and
// where one thing was moved, only so much is gathered again.
func TestNextLevelsAreFresh(t *testing.T) {
	p, err := demo()
	if err != nil {
		t.Fatal(err)
	}
	levels := Measure(p, Daylight{})
	for _, move := range []struct {
		part booth.ID
		by   geom.Vec
		most map[string]float64 // share of the points where light is gathered again
	}{
		{"work/heron", geom.Vec{Y: -0.05}, map[string]float64{"faces": 0.1, "works": 0.45}},
		{"table/prints", geom.Vec{Z: -0.1}, map[string]float64{"faces": 0.36, "works": 1}}, // every work, and more tiles of ground than before, see the table
		{"none", geom.Vec{}, nil},
	} {
		q := shifted(p, move.part, move.by)
		next, fresh := levels.Next(q, Daylight{Lux: 800}), Measure(q, Daylight{Lux: 800})
		if !reflect.DeepEqual(next.Works, fresh.Works) || next.Aisle != fresh.Aisle {
			t.Errorf("%s moved: the light on works is not that of a booth made from nothing", move.part)
		}
		for what, n := range map[string][2]int{
			"faces": {int(next.found.room.anew.Load()), int(fresh.found.room.anew.Load())}, "works": {next.found.gathers(), fresh.found.gathers()},
		} {
			if t.Logf("%s moved: %s: gathered again at %d of %d", move.part, what, n[0], n[1]); float64(n[0]) > move.most[what]*float64(n[1]) || n[1] == 0 {
				t.Errorf("%s moved: on %s, light is gathered again at %d of %d points", move.part, what, n[0], n[1])
			}
		}
	}
}

// long is whether what takes many seconds is done too: in .ci/run, which sets REQUIRE_TOOLS, but not with the race detector.
func long() bool { return os.Getenv("REQUIRE_TOOLS") != "" && !raced }

// bytes is about how much memory it takes.
func (g *gathered) bytes() int { return 70*len(g.numbers) + 4*cap(g.ends) + 16*cap(g.list) }

// bytes is about how much memory it takes.
func (f *found) bytes() (n int) {
	for _, s := range f.sides {
		n += s.bytes()
	}
	return n
}

// gathers is at how many places light was gathered anew.
func (f *found) gathers() (n int) {
	for _, s := range f.sides {
		n += s.anew
	}
	return n
}

// BenchmarkNext is the light after a work, and after a table, was moved.
func BenchmarkNext(b *testing.B) {
	afterMoves(b, func(lit *Lit, q *booth.Plan) { lit.Next(context.Background(), q) })
}

// BenchmarkPreview is the quick light after the same.
func BenchmarkPreview(b *testing.B) {
	afterMoves(b, func(lit *Lit, q *booth.Plan) { lit.Preview(context.Background(), q) })
}

func afterMoves(b *testing.B, work func(lit *Lit, q *booth.Plan)) {
	p, err := demo()
	if err != nil {
		b.Fatal(err)
	}
	lit := Bake(p)
	for _, part := range []booth.ID{"work/heron", "table/prints"} {
		q := shifted(p, part, geom.Vec{Y: 0.01})
		b.Run(string(part), func(b *testing.B) {
			for b.Loop() {
				work(lit, q)
			}
		})
	}
}
