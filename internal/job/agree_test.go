package job_test

import (
	"math"
	"slices"
	"testing"

	"github.com/qmuntal/gltf"
	"github.com/qmuntal/gltf/modeler"

	"boothmock/internal/basis/geom"
	"boothmock/internal/find/check"
	"boothmock/internal/job"
	"boothmock/internal/plan/booth"
	"boothmock/internal/view/light"
	"boothmock/internal/view/picture"
)

// stood is a node of a .glb with where it stands in the whole.
type stood struct {
	*gltf.Node
	at geom.Frame
}

// around is v turned by the unit quaternion x, y, z, w: v + 2w(q × v) + 2q × (q × v).
func around(q [4]float64, v geom.Vec) geom.Vec {
	a := geom.Vec{X: q[0], Y: q[1], Z: q[2]}
	c := a.Cross(v)
	return v.Add(c.Mul(2 * q[3])).Add(a.Cross(c).Mul(2))
}

// standing are the nodes of a .glb by name, placed as glTF 2.0 says in "Transformations": from the root down, moved and
// turned.
func standing(t *testing.T, d *gltf.Document) map[string]stood {
	out := map[string]stood{}
	var visit func(n int, above geom.Frame)
	visit = func(n int, above geom.Frame) {
		node := d.Nodes[n]
		q, m := node.RotationOrDefault(), node.Translation
		if node.ScaleOrDefault() != [3]float64{1, 1, 1} || node.MatrixOrDefault() != gltf.DefaultMatrix {
			t.Errorf("%s is scaled, or has a matrix", node.Name)
		}
		turn := func(v geom.Vec) geom.Vec { return above.At(around(q, v)).Sub(above.Origin) }
		at := geom.Frame{Origin: above.At(geom.Vec{X: m[0], Y: m[1], Z: m[2]}), X: turn(geom.Vec{X: 1}), Y: turn(geom.Vec{Y: 1}), Z: turn(geom.Vec{Z: 1})}
		out[node.Name] = stood{node, at}
		for _, c := range node.Children {
			visit(c, at)
		}
	}
	for _, n := range d.Scenes[*d.Scene].Nodes {
		visit(n, geom.World)
	}
	return out
}

// vertices are the places of all vertices of a node, in the booth.
func vertices(t *testing.T, d *gltf.Document, n stood) (out []geom.Vec) {
	for _, p := range d.Meshes[*n.Mesh].Primitives {
		at, err := modeler.ReadPosition(d, d.Accessors[p.Attributes[gltf.POSITION]], nil)
		if err != nil {
			t.Fatal(err)
		}
		for _, v := range at {
			out = append(out, n.at.At(geom.Vec{X: float64(v[0]), Y: float64(v[1]), Z: float64(v[2])}))
		}
	}
	return out
}

// The .glb has every part where the plan has it, and every corner of every work where its camera's picture and ours have
// it, to half a pixel of 1920 × 1080. Our camera shifts its lens, that of the .glb cannot and sees more: so what is
// held against each other is where the line of sight through a place of its picture appears in ours.
func TestModelAndPictureAgree(t *testing.T) {
	m := demo(t)
	d := readable(t, write(t, m, "booth.glb"))
	nodes := standing(t, d)
	shown, far := 0, 0.0
	for i := range m.Plan.Parts {
		part := &m.Plan.Parts[i]
		n, ok := nodes[string(part.ID)]
		if !ok {
			continue // it shows nothing
		}
		shown++
		far = max(far, n.at.Origin.Dist(part.Frame.Origin))
	}
	if far > 1e-6 || shown < 40 {
		t.Errorf("%d parts are in booth.glb, up to %g m off", shown, far)
	}
	o := picture.Options{Width: 1920, Height: 1080}
	worst, corners := 0.0, 0
	for _, v := range m.Plan.Views {
		camera := nodes["view/"+v.Name]
		lens := d.Cameras[*camera.Camera].Perspective
		tall := math.Tan(lens.Yfov / 2)
		for i := range m.Plan.Parts {
			part := &m.Plan.Parts[i]
			if part.Work == nil {
				continue
			}
			all := vertices(t, d, nodes[string(part.ID)])
			for _, corner := range part.Work.Face {
				x, y, _, ok := m.Stage().Project(v, o, corner)
				if !ok || x < -960 || y < -540 || x > 2880 || y > 1620 {
					continue // behind the eye, or far out of the picture
				}
				nearest := all[0]
				for _, p := range all {
					if p.Dist(corner) < nearest.Dist(corner) {
						nearest = p
					}
				}
				p := camera.at.Local(nearest) // and on into its picture, across and up from -1 to 1
				across, up := p.X/(-p.Z**lens.AspectRatio*tall), p.Y/(-p.Z*tall)
				sight := camera.at.At(geom.Vec{X: across * *lens.AspectRatio * tall, Y: up * tall, Z: -1})
				u, w, _, ok := m.Stage().Project(v, o, sight)
				if !ok {
					t.Errorf("%s from %s: the line of sight of booth.glb leads behind the eye", part.ID, v.Name)
				}
				worst, corners = max(worst, math.Hypot(u-x, w-y)), corners+1
			}
		}
	}
	t.Logf("%d parts up to %.2g m off, %d corners up to %.2g pixels off", shown, far, corners, worst)
	if worst > 0.5 || corners < 100 {
		t.Errorf("%d corners, up to %g pixels off", corners, worst)
	}
}

// The share of a work that the checks say is seen is the share of its pixels in the picture: each counts for the part of
// the work's face that it covers, which grows with the third power of its distance.
func TestChecksAndPictureAgree(t *testing.T) {
	o := picture.Options{Width: 960, Height: 540}
	worst, works, partly := 0.0, 0, 0
	for _, scene := range []string{"demo", "corner", "hall", "wrong"} {
		p, err := job.Load("../../scenes/"+scene+".yaml", job.Settings{})
		if err != nil {
			t.Fatal(err)
		}
		r, stage := check.Run(p), picture.NewStage(p, light.Even(p))
		for _, v := range p.Views {
			if v.Name != "entrance" && v.Name != "aisle-left" && v.Name != "inside" {
				continue
			}
			ids := stage.IDs(v, o)
			for _, l := range r.Sightlines {
				if l.From != v.Name || l.Eye != p.Eyes[0].Name || l.Turned < 10 || overlaps(p, p.Part(l.Work).Work.Hung) {
					continue // of two works in one plane either is drawn
				}
				seen, all := pixelsSeen(p, stage, v, o, ids, l.Work)
				if all < 400 {
					continue // too small, or not wholly in the picture
				}
				works++
				if l.Visible > 0.02 && l.Visible < 0.98 {
					partly++
				}
				off := math.Abs(seen - l.Visible)
				if worst = max(worst, off); off >= 0.02 {
					t.Errorf("%s: %s from %s: %.3f by the checks, %.3f by %d pixels", scene, l.Work, v.Name, l.Visible, seen, all)
				}
			}
		}
	}
	t.Logf("%d sightlines, %d of them partly hidden: up to %.4f off", works, partly, worst)
	if works < 40 || partly < 8 {
		t.Errorf("%d sightlines, %d of them partly hidden: they prove little", works, partly)
	}
}

// overlaps reports whether a work takes the place of another on its wall, or of a part of it.
func overlaps(p *booth.Plan, a *booth.Hung) bool {
	return slices.ContainsFunc(p.Parts, func(part booth.Part) bool {
		if a == nil || part.Work == nil || part.Work.Hung == nil || part.Work.Hung == a || part.Work.Hung.Wall != a.Wall {
			return false
		}
		b := part.Work.Hung
		return a.X0 < b.X1 && b.X0 < a.X1 && a.Y0 < b.Y1 && b.Y0 < a.Y1
	})
}

// pixelsSeen is the share of a work's face that its own pixels cover, and how many pixels there are in its outline; none
// if the outline is not wholly in the picture.
func pixelsSeen(p *booth.Plan, stage *picture.Stage, v booth.View, o picture.Options, ids []int, id booth.ID) (share float64, pixels int) {
	part := p.Part(id)
	var at [4]geom.Vec // x and y in the picture, and 1/distance, which is even over it
	for i, c := range part.Work.Face {
		x, y, depth, ok := stage.Project(v, o, c)
		if !ok || x < 0 || y < 0 || x > float64(o.Width) || y > float64(o.Height) {
			return 0, 0
		}
		at[i] = geom.Vec{X: x, Y: y, Z: 1 / depth}
	}
	n := at[1].Sub(at[0]).Cross(at[3].Sub(at[0])) // of the plane that 1/distance makes over the picture
	lo, hi := geom.Bounds(at[:])
	seen, all := 0.0, 0.0
	for y := int(lo.Y); y <= int(hi.Y) && y < o.Height; y++ {
		for x := int(lo.X); x <= int(hi.X) && x < o.Width; x++ {
			q := geom.Vec{X: float64(x) + 0.5, Y: float64(y) + 0.5}
			inside := true
			for i, a := range at {
				b := at[(i+1)%4]
				inside = inside && (b.X-a.X)*(q.Y-a.Y)-(b.Y-a.Y)*(q.X-a.X) <= 0 // rows go down
			}
			if !inside {
				continue
			}
			inverse := at[0].Z - (n.X*(q.X-at[0].X)+n.Y*(q.Y-at[0].Y))/n.Z
			covers := 1 / (inverse * inverse * inverse)
			all, pixels = all+covers, pixels+1
			if i := ids[y*o.Width+x]; i >= 0 && p.Parts[i].ID == id {
				seen += covers
			}
		}
	}
	return seen / all, pixels
}
