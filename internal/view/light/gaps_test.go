package light

import (
	"math"
	"math/rand/v2"
	"testing"

	"boothmock/internal/basis/geom"
	"boothmock/internal/plan/booth"
)

// crate is a part of paper sheets that stand one behind the other, in the open, as prints in a bin do.
func crate(sheets int, apart float64) *booth.Plan {
	p := &booth.Plan{Pitch: booth.Pitch{Width: 3, Depth: 3}}
	part := booth.Part{ID: "crate", Frame: geom.World}
	look := booth.Look{Colour: booth.Colour{0xf0, 0xf0, 0xf0}}
	var mesh geom.Mesh
	for i := range sheets {
		z := -1 - float64(i)*apart
		part.Solids = append(part.Solids, geom.Box(geom.World, geom.Vec{X: -0.2, Y: 0.5, Z: z - 0.003}, geom.Vec{X: 0.2, Y: 0.9, Z: z}))
	}
	for _, c := range part.Solids {
		for i := range c.Faces {
			f := c.Face(i)
			k := len(mesh.Vertices)
			for _, v := range f {
				mesh.Vertices = append(mesh.Vertices, geom.Vertex{P: v, N: f.Normal()})
			}
			mesh.Triangles = append(mesh.Triangles, [3]int{k, k + 1, k + 2}, [3]int{k, k + 2, k + 3})
		}
	}
	part.Surfaces = []booth.Surface{{Mesh: mesh, Look: look}}
	p.Parts = []booth.Part{part}
	return p
}

// In the gap between two sheets it gets dark within a few widths of it, as a path tracer finds: too light by 0.13
// at half a gap's depth, too dark by 0.05 at five, as what is seen of the sheets is taken to be as light as the place that sees it.
func TestGapsBetweenSheetsAreDark(t *testing.T) {
	p := crate(9, 0.02)
	r := newRoom(p, nil, nothing)
	r.settle()
	g := newGatherer(r.within(0, &p.Parts[0]))
	tr := newTracer(p)
	rnd := rand.New(rand.NewPCG(5, 6))
	for _, deep := range []float64{0.01, 0.03, 0.1, 0.2} {
		at, n := geom.Vec{Y: 0.9 - deep, Z: -1.08}, geom.Vec{Z: 1}
		ours := luminance(g.light(at.Add(n.Mul(0.001)), n, -1))
		theirs := luminance(tr.light(rnd, at.Add(n.Mul(1e-4)), n, 80))
		near(t, "light in a gap", ours, theirs, 0.14)
	}
}

// Cloth that goes to and fro at 45° is √2 times as much as the wall that it covers; of a colour of 0.5 that wall gives back
// 0.5 / (1.414 - 0.5 · 0.414): by hand. Flat cloth gives back its colour.
func TestFoldsGiveBackLess(t *testing.T) {
	half := []rgb{{0.5, 0.5, 0.5}}
	a, b := geom.Vec{X: 1, Z: 1}.Unit(), geom.Vec{X: -1, Z: 1}.Unit()
	folded := finish{colours: half, triangles: []faced{{n: a, area: 1}, {n: b, area: 1}}}
	near(t, "folds", folded.folded(geom.Vec{Z: 1})[0], 0.4142, 0.0001)
	flat := finish{colours: half, triangles: []faced{{n: geom.Vec{Z: 1}, area: 1}}}
	near(t, "flat", flat.folded(geom.Vec{Z: 1})[0], 0.5, 1e-12)
}

// Cloth that goes to and fro at 45°: half-way up a fold, Hottel's strings to the ridge across leave (1 + 1/√5)/2 of the view; on a ridge
// nothing is hidden. By hand.
func TestFoldsHide(t *testing.T) {
	var m geom.Mesh
	for i := range 5 { // ridges and valleys, 0.1 m from each other
		for _, y := range [2]float64{0, 2} {
			m.Vertices = append(m.Vertices, geom.Vertex{P: geom.Vec{X: 0.1 * float64(i), Y: y, Z: 0.1 * float64(i%2)}})
		}
		if k := 2 * i; i > 0 {
			m.Triangles = append(m.Triangles, [3]int{k - 2, k, k + 1}, [3]int{k - 2, k + 1, k - 1})
		}
	}
	f := foldsOf(&booth.Part{Surfaces: []booth.Surface{{Mesh: m}}})
	near(t, "on a flank", f.hide(geom.Vec{X: 0.25, Y: 1, Z: 0.05}, geom.Vec{X: -1, Z: 1}.Unit()), 1-(1+1/math.Sqrt(5))/2, 1e-9)
	near(t, "on a ridge", f.hide(geom.Vec{X: 0.3, Y: 1, Z: 0.1}, geom.Vec{Z: 1}), 0, 1e-9)
}

// A board right before a wall gives the light that comes from there, and not the wall, though that is larger. (Seen from aside, where the
// wall comes nearer than the board, the wall has it.)
func TestWhatIsBeforeAWallIsSeen(t *testing.T) {
	r := &room{indoor: true}
	r.add(geom.Box(geom.World, geom.Vec{X: -3, Z: -1.05}, geom.Vec{X: 3, Y: 3, Z: -1}), 0, white.all, 0)
	board := geom.Box(geom.World, geom.Vec{X: -0.3, Y: 1, Z: -1}, geom.Vec{X: 0.3, Y: 2, Z: -0.99})
	r.add(board, 1, white.all, 0)
	r.index(slight)
	p, n := geom.Vec{X: 0.2, Y: 1.5, Z: 0.5}, geom.Vec{Z: -1}
	share := 0.0
	for _, a := range newGatherer(r).arrive(p, n, -1) {
		if a.from == 1 {
			share = a.share
		}
	}
	want := 0.0
	for i := range board.Faces {
		if f := board.Face(i); f.Normal().Dot(p.Sub(f.Centre())) > 0 {
			want += of(f, p).factor(n)
		}
	}
	near(t, "the board's share", share, want, 1e-6)
}
