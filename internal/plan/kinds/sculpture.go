package kinds

import (
	"image"
	"math"

	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/rules"
)

// sculpted faults what a sculpture cannot have.
func (s *Site) sculpted(e *workEntry) {
	if e.Size.C == 0 {
		if e.Model != "" && !e.unsized() {
			e.item.Fault("model", "give its size three lengths, height x width x depth, or leave this out", "%q is no sculpture, as its size has no depth", e.Name)
		}
		return
	}
	for _, no := range []string{"parts", "frame", "wall", "under"} {
		if e.item.Has(no) {
			e.item.Fault(no, "leave it out, or the third length of the size", "%q is a sculpture, as its size has a depth, and stands", e.Name)
			e.Parts, e.Frame, e.Wall, e.Under = nil, nil, "", ""
			return
		}
	}
}

// Measures of a card that shows a sculpture, in metres.
const (
	cardThick = 0.003
	cardFoot  = 0.004 // of the plate under it, as wide and deep as the sculpture
)

// stands makes the part of a sculpture: its model, or a card with its photograph across the middle of the room that it takes. What is seen
// past that is seen past the card; what it stands on, and what stands beside it, has all of that room to do with.
func (s *Site) stands(e *workEntry) {
	h, w, d := e.Size.A.M(), e.Size.B.M(), e.Size.C.M()
	f, parent, ok := geom.Frame{}, booth.ID(""), true
	if _, known := s.tops[e.On]; e.On == "ground" && !known {
		p := s.Plan.Pitch
		ground := top{"", geom.World.Moved(geom.Vec{Z: -p.Depth / 2}), p.Width, p.Depth, false}
		f, parent = ground.rest(e.Resting, e.Turn, w, d), ground.id
	} else if f, parent, ok = s.rest(e.item, e.Resting, e.Turn, w, d); !ok {
		return
	}
	p := booth.Part{ID: id("work", e.Name), Parent: parent, Kind: "works", Name: e.Title, At: e.item.At(""), Frame: f}
	work := s.artwork(e)
	work.Face = geom.Rect(f.Moved(geom.Vec{Y: h / 2, Z: cardThick / 2}), -w/2, -h/2, w/2, h/2)
	box := geom.Box(f, geom.Vec{X: -w / 2, Z: -d / 2}, geom.Vec{X: w / 2, Y: h, Z: d / 2})
	if e.Model == "" {
		e.card(&p, w, h, d)
		p.Blocks = []geom.Convex{box}
	} else if m, ok := s.shape(e.item, "model", e.Model, w, d, h, func(w, d, h unit.Length) string {
		return unit.Size3{A: h, B: w, C: d}.Format(s.file.Units)
	}); ok {
		m.in(&p, nil)
		work.Round = box.Corners
	} else {
		return
	}
	p.Work = &work
	s.add(p)
	if parent == "" {
		kg, _ := weightOf(&p)
		crew := 1
		if kg.Kg() > twoLift {
			crew = 2
		}
		s.furnish(p, "Stand "+titled(&p)+" in its place", crew, rules.ThingTime.In(s.Plan.Rules), true, 1000*kg.Kg())
	}
}

// card makes the part of a card with the work's photograph, on a foot.
func (e *workEntry) card(p *booth.Part, w, h, d float64) {
	f := p.Frame
	foot := geom.Box(f, geom.Vec{X: -w / 2, Z: -d / 2}, geom.Vec{X: w / 2, Y: min(cardFoot, h/4), Z: d / 2})
	look := plainLook(booth.Colour{0xb8, 0xb2, 0xa6})
	outline := []slice{{0, 1, -w / 2, w / 2, -w / 2, w / 2}}
	if e.image != nil {
		look = booth.Look{Colour: booth.Colour{255, 255, 255}, Image: e.image}
		if e.image.MIME != "image/jpeg" { // those are opaque
			outline = cutOut(e.image.Pixels(), w)
		}
	}
	var front, back geom.Mesh
	for _, o := range outline {
		at := func(x, share, z float64) geom.Vec { return f.At(geom.Vec{X: x, Y: h * share, Z: z}) }
		face := geom.Polygon{at(o.left0, o.y0, cardThick/2), at(o.right0, o.y0, cardThick/2), at(o.right1, o.y1, cardThick/2), at(o.left1, o.y1, cardThick/2)}
		p.Solids = append(p.Solids, geom.Prism(face, f.Z.Mul(-cardThick)))
		for _, side := range []struct {
			mesh *geom.Mesh
			way  float64
		}{{&front, 1}, {&back, -1}} {
			n := len(side.mesh.Vertices)
			for _, c := range [4][2]float64{{o.left0, o.y0}, {o.right0, o.y0}, {o.right1, o.y1}, {o.left1, o.y1}} {
				side.mesh.Vertices = append(side.mesh.Vertices, geom.Vertex{P: at(c[0], c[1], side.way*cardThick/2), N: f.Z.Mul(side.way), U: c[0]/w + 0.5, V: 1 - c[1]})
			}
			if side.way > 0 {
				side.mesh.Triangles = append(side.mesh.Triangles, [3]int{n, n + 1, n + 2}, [3]int{n, n + 2, n + 3})
			} else {
				side.mesh.Triangles = append(side.mesh.Triangles, [3]int{n, n + 2, n + 1}, [3]int{n, n + 3, n + 2})
			}
		}
	}
	p.Surfaces = []booth.Surface{{Mesh: front, Look: look}, {Mesh: back, Look: look}, block(booth.Colour{0x8c, 0x86, 0x7c}, foot)}
	p.Solids = append(p.Solids, foot)
}

// slice is a piece of an outline: from its lower to its upper edge, as shares of the height from below, and from where to where each of
// those goes, in metres from the middle.
type slice struct{ y0, y1, left0, right0, left1, right1 float64 }

// cutOut is the outline of what can be seen of a photograph that is transparent elsewhere, on a card w metres wide: in every strip as
// much as is seen along both its edges. A photograph that is opaque is all of the card.
func cutOut(m *image.NRGBA, w float64) (out []slice) {
	whole := []slice{{0, 1, -w / 2, w / 2, -w / 2, w / 2}}
	if m.Opaque() {
		return whole
	}
	const strips = 64
	b := m.Bounds()
	at := func(pixel int) float64 { return (float64(pixel)/float64(b.Dx()) - 0.5) * w }
	below, above := [][2]int(nil), [][2]int(nil)
	for k := range strips + 1 {
		share := float64(k) / strips
		row := b.Max.Y - 1 - int(math.Round(float64(share*float64(b.Dy()-1))))
		below, above = above, seenIn(m, row)
		if k == 0 {
			continue
		}
		for _, lo := range below {
			for _, hi := range above {
				if lo[0] >= hi[1] || hi[0] >= lo[1] {
					continue
				}
				if len(below) != len(above) { // a gap begins or ends: what is seen from the one edge to the other
					left, right := at(max(lo[0], hi[0])), at(min(lo[1], hi[1]))
					out = append(out, slice{share - 1.0/strips, share, left, right, left, right})
				} else {
					out = append(out, slice{share - 1.0/strips, share, at(lo[0]), at(lo[1]), at(hi[0]), at(hi[1])})
				}
			}
		}
	}
	if out == nil {
		return whole
	}
	return out
}

// seenIn is from which pixel to which a row of a photograph can be seen, each time.
func seenIn(m *image.NRGBA, row int) (out [][2]int) {
	const half, least = 128, 0.01 // of 255; of the width: less is a speck
	b := m.Bounds()
	from := -1
	for x := b.Min.X; x <= b.Max.X; x++ {
		seen := x < b.Max.X && m.Pix[m.PixOffset(x, row)+3] >= half
		switch {
		case seen && from < 0:
			from = x
		case !seen && from >= 0:
			if float64(x-from) >= least*float64(b.Dx()) {
				out = append(out, [2]int{from - b.Min.X, x - b.Min.X})
			}
			from = -1
		}
	}
	return out
}
