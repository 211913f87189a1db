package glb

import (
	"strings"

	"boothmock/internal/basis/geom"
	"boothmock/internal/plan/booth"

	"github.com/qmuntal/gltf"
)

// tree adds the nodes: "booth", below it the parts as they hang on one another, and the views. Several parts that stand
// by themselves and whose IDs begin alike, such as "table/prints" and "table/till", are held by a node "table". Parts that
// show nothing and carry nothing that shows are left out.
func (b *builder) tree() error {
	t := branches{plan: b.plan, surfaces: make([][]int, len(b.plan.Parts)), children: map[booth.ID][]int{}}
	for i, s := range b.surfaces {
		if len(s.Mesh.Triangles) > 0 {
			t.surfaces[s.Part] = append(t.surfaces[s.Part], i)
		}
	}
	for i, part := range b.plan.Parts {
		t.children[part.Parent] = append(t.children[part.Parent], i)
	}
	root := b.node(nil, &gltf.Node{Name: "booth", Extras: aboutBooth(b.plan)})
	var groups []string // in the order of the plan
	members := map[string][]int{}
	for _, i := range t.children[""] {
		if t.shows(i) {
			g, _, _ := strings.Cut(string(b.plan.Parts[i].ID), "/")
			if members[g] == nil {
				groups = append(groups, g)
			}
			members[g] = append(members[g], i)
		}
	}
	for _, g := range groups {
		above := root
		if len(members[g]) > 1 {
			above = b.node(root, &gltf.Node{Name: g})
		}
		for _, i := range members[g] {
			if err := b.part(above, t, i, geom.Vec{}); err != nil {
				return err
			}
		}
	}
	b.views(root)
	return nil
}

// branches is how parts hang on one another.
type branches struct {
	plan     *booth.Plan
	surfaces [][]int            // by number of part: the numbers of its surfaces in the light
	children map[booth.ID][]int // numbers of parts
}

func (t branches) shows(part int) bool {
	if len(t.surfaces[part]) > 0 {
		return true
	}
	for _, c := range t.children[t.plan.Parts[part].ID] {
		if t.shows(c) {
			return true
		}
	}
	return false
}

// node adds n below the node above, which is nil for the root.
func (b *builder) node(above, n *gltf.Node) *gltf.Node {
	if above != nil {
		above.Children = append(above.Children, len(b.doc.Nodes))
	}
	b.doc.Nodes = append(b.doc.Nodes, n)
	return n
}

// part adds a part and all that hangs on it. A node stands where its part's frame does, so that a viewer turns and moves
// a thing about its own origin; from is where the node above stands.
func (b *builder) part(above *gltf.Node, t branches, number int, from geom.Vec) error {
	part := &b.plan.Parts[number]
	o := part.Frame.Origin
	at := geom.Vec{X: round(o.X), Y: round(o.Y), Z: round(o.Z)}
	d := at.Sub(from)
	n := b.node(above, &gltf.Node{
		Name:        string(part.ID),
		Extras:      aboutPart(b.plan, part),
		Translation: [3]float64{round(d.X), round(d.Y), round(d.Z)},
	})
	b.nodes[part.ID] = len(b.doc.Nodes) - 1
	if surfaces := t.surfaces[number]; len(surfaces) > 0 {
		m := &gltf.Mesh{Name: string(part.ID)}
		for _, s := range surfaces {
			p, err := b.primitive(&b.surfaces[s], at)
			if err != nil {
				return err
			}
			m.Primitives = append(m.Primitives, p)
		}
		n.Mesh = gltf.Index(len(b.doc.Meshes))
		b.doc.Meshes = append(b.doc.Meshes, m)
	}
	for _, c := range t.children[part.ID] {
		if t.shows(c) {
			if err := b.part(n, t, c, at); err != nil {
				return err
			}
		}
	}
	return nil
}
