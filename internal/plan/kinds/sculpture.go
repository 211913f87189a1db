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

// roundWork is the number of sides of a sculpture that is drawn from its photograph.
const roundWork = 16

// stands makes the part of a sculpture: its model, or a body as round as the outline of its photograph. What is seen past that is seen past
// the body; what it stands on, and what stands beside it, has all of the room to do with that its three lengths say.
func (s *Site) stands(e *workEntry) {
	h, w, d := e.Size.A.M(), e.Size.B.M(), e.Size.C.M()
	f, parent, ok := geom.Frame{}, booth.ID(""), true
	if _, known := s.tops[e.On]; e.On == "ground" && !known {
		p := s.Plan.Pitch
		ground := top{at: geom.World.Moved(geom.Vec{Z: -p.Depth / 2}), w: p.Width, d: p.Depth}
		f, parent = ground.rest(e.Resting, e.Turn, w, d), ground.id
	} else if f, parent, ok = s.rest(e.item, e.Resting, e.Turn, w, d); !ok {
		return
	}
	p := booth.Part{ID: id("work", e.Name), Parent: parent, Kind: "works", Name: e.Title, At: e.item.At(""), Frame: f}
	work := s.artwork(e)
	work.Face = geom.Rect(f.Moved(geom.Vec{Y: h / 2}), -w/2, -h/2, w/2, h/2)
	if e.Model == "" {
		whole := e.rounded(&p, w, h, d)
		p.Blocks, work.Round = []geom.Convex{whole}, whole.Corners
	} else if m, ok := s.shape(e.item, "model", e.Model, w, d, h, func(w, d, h unit.Length) string {
		return unit.Size3{A: h, B: w, C: d}.Format(s.file.Units)
	}); ok {
		m.in(&p, nil)
		work.Round = geom.Box(f, geom.Vec{X: -w / 2, Z: -d / 2}, geom.Vec{X: w / 2, Y: h, Z: d / 2}).Corners
	} else {
		return
	}
	p.Work = &work
	p.Heft, p.Taken = weightOf(&p)
	s.add(p)
	if parent == "" {
		crew := 1
		if p.Heft.Kg() > twoLift {
			crew = 2
		}
		s.furnish(p, "Stand "+titled(&p)+" in its place", crew, rules.ThingTime.In(s.Plan.Rules), true, 0)
	}
}

// rounded makes the part a body whose outline from the front is that of the photograph, which is seen on it, and which is as much deeper than
// wide at every height as the whole is. It gives the room of the whole.
func (e *workEntry) rounded(p *booth.Part, w, h, d float64) geom.Convex {
	const within = 0.96 // of the outline's width: what is beside the work in its photograph does not bleed into its sides
	f := p.Frame
	look := plainLook(booth.Colour{0xb8, 0xb2, 0xa6})
	outline := []slice{{0, 1, -w / 2, w / 2, -w / 2, w / 2}}
	if e.image != nil {
		look = booth.Look{Colour: booth.Colour{255, 255, 255}, Image: e.image}
		if e.image.MIME != "image/jpeg" { // those are opaque
			outline = cutOut(e.image.Pixels(), w)
		}
	}
	var skin geom.Mesh
	for _, o := range outline {
		solid := o.turned(f, h, d/w)
		p.Solids = append(p.Solids, solid)
		for i := range solid.Faces {
			n := len(skin.Vertices)
			face := solid.Face(i)
			for k, v := range face {
				at := f.Local(v)
				out, mid := face.Normal(), o.middle(at.Y/h)
				if i > 1 { // round, not flat
					out = f.Turn(geom.Vec{X: (at.X - mid) * d * d, Z: at.Z * w * w}.Unit())
				}
				skin.Vertices = append(skin.Vertices, geom.Vertex{P: v, N: out, U: (mid+float64((at.X-mid)*within))/w + 0.5, V: 1 - at.Y/h})
				if k > 1 {
					skin.Triangles = append(skin.Triangles, [3]int{n, n + k - 1, n + k})
				}
			}
		}
	}
	p.Surfaces = []booth.Surface{{Mesh: skin, Look: look}}
	return slice{0, 1, -w / 2, w / 2, -w / 2, w / 2}.turned(f, h, d/w)
}

// oval is a level outline from left to right at a height, so many times as deep as wide: counterclockwise seen from above.
func oval(f geom.Frame, y, left, right, deep float64) (out []geom.Vec) {
	for k := range roundWork {
		sin, cos := math.Sincos(2 * math.Pi * float64(k) / roundWork)
		out = append(out, f.At(geom.Vec{X: (left+right)/2 + float64((right-left)/2*cos), Y: y, Z: -float64((right - left) / 2 * deep * sin)}))
	}
	return out
}

// slice is a piece of an outline: from its lower to its upper edge, as shares of the height from below, and from where to where each of
// those goes, in metres from the middle.
type slice struct{ y0, y1, left0, right0, left1, right1 float64 }

// turned is the body of a piece in a frame, of a work h high that is so many times as deep as wide.
func (s slice) turned(f geom.Frame, h, deep float64) geom.Convex {
	corners, faces := append(oval(f, h*s.y0, s.left0, s.right0, deep), oval(f, h*s.y1, s.left1, s.right1, deep)...), [][]int{{}, {}}
	for k := range roundWork {
		next := (k + 1) % roundWork
		faces = append(faces, []int{k, next, roundWork + next, roundWork + k})
		faces[0], faces[1] = append(faces[0], roundWork-1-k), append(faces[1], roundWork+k)
	}
	return geom.NewConvex(corners, faces)
}

// middle is where the middle of a piece is at a height, a share of the whole.
func (s slice) middle(y float64) float64 {
	t := (y - s.y0) / (s.y1 - s.y0)
	return (float64((s.left0+s.right0)*(1-t)) + float64((s.left1+s.right1)*t)) / 2
}

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
