package kinds

import (
	"fmt"
	"math"

	"boothmock/internal/basis/fault"
	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/scene"
	"boothmock/internal/props/material"
)

// Neighbours are the fair around the pitch, drawn plainly: they hide, and they shade.
type Neighbours struct {
	Left     string       `yaml:"left" oneof:"tent walled drape none" doc:"who has the pitch on the left: a tent without side walls, a tent with them (walled), in a hall a drape on its pipe, or nobody. Left out, a tent, or a drape indoors; nobody where the side is open"`
	Right    string       `yaml:"right" oneof:"tent walled drape none" doc:"who has the pitch on the right; left out, as on the left"`
	Back     string       `yaml:"back" oneof:"tent walled drape none" doc:"who has the pitch behind; nobody if left out"`
	Across   string       `yaml:"across" oneof:"tent walled drape none" doc:"what stands in a row on the far side of the aisle; left out, tents with side walls, or drapes indoors"`
	Gap      *unit.Length `yaml:"gap" range:"0in..20ft" doc:"clear space between two pitches; 6 in if left out, none indoors"`
	Width    unit.Length  `yaml:"width" range:"2ft..40ft" doc:"width of a neighbour's pitch along its aisle; 10 ft if left out"`
	Eave     unit.Length  `yaml:"eave" range:"5ft..16ft" doc:"height of their eaves, or of their drapes; 84 in if left out, 96 in for drapes"`
	Colour   *Colour      `yaml:"colour" doc:"colour of their canopies and drapes; nearly white if left out, mid grey for drapes"`
	OfLeft   *Colour      `yaml:"left colour" doc:"that of the neighbours on the left, if they have another"`
	OfRight  *Colour      `yaml:"right colour" doc:"that of the neighbours on the right, if they have another"`
	OfBack   *Colour      `yaml:"back colour" doc:"that of the neighbour behind, if it has another"`
	OfAcross *Colour      `yaml:"across colour" doc:"that of the row across the aisle, if it has another"`
}

const nobody = "none" // of a side, and of all

// Word leaves the fair around out.
func (Neighbours) Word() string { return nobody }

// Said is nobody anywhere.
func (Neighbours) Said(word string) (any, bool) {
	return Neighbours{Left: nobody, Right: nobody, Back: nobody, Across: nobody}, word == nobody
}

// around is what a scene says of the fair around its pitch, filled up with what is usual.
func (s *Site) around(n Neighbours, it scene.Item, ground string) {
	p := s.Plan.Pitch
	if n.Left == nobody && n.Right == nobody && n.Back == nobody && n.Across == nobody {
		return
	}
	usual, far, gap, eave, colour := "tent", "walled", 6*unit.Inch, 84*unit.Inch, Colour{0xec, 0xeb, 0xe6}
	if p.Indoor {
		usual, far, gap, eave, colour = "drape", "drape", 0, 96*unit.Inch, Colour{0x86, 0x88, 0x8a}
	}
	for _, side := range []struct {
		says *string
		of   booth.Side
		if0  string
	}{{&n.Left, booth.Left, usual}, {&n.Right, booth.Right, usual}, {&n.Back, booth.Back, nobody}} {
		switch {
		case p.Open[side.of] && *side.says != "" && *side.says != nobody:
			it.Fault("neighbours."+side.of.String(), "take the side out of open:, or say none", "visitors pass on the %s side: nobody has the pitch there", side.of)
			return
		case p.Open[side.of]:
			*side.says = nobody
		case *side.says == "":
			*side.says = side.if0
		}
	}
	if n.Across == "" {
		n.Across = far
	}
	if n.Gap == nil {
		n.Gap = &gap
	}
	if n.Width == 0 {
		n.Width = 10 * unit.Foot
	}
	if n.Eave == 0 {
		n.Eave = eave
	}
	if n.Colour == nil {
		n.Colour = &colour
	}
	for _, c := range []**Colour{&n.OfLeft, &n.OfRight, &n.OfBack, &n.OfAcross} {
		if *c == nil {
			*c = n.Colour
		}
	}
	if p.Indoor {
		s.hall(n.Gap.M() + n.Width.M())
	} else {
		s.wood()
	}
	s.trodden(ground)
	s.neighbours(n, it.At("neighbours"))
}

// Measures of a neighbour's tent in metres, and of its cloth: common practice, no source.
const (
	rise         = 0.95 // of the roof above the eaves
	theirValance = 0.22
	theirLeg     = 0.038
	inRow        = 5    // tents on the far side of the aisle
	theirLight   = 0.25 // share of daylight that their canopy passes
)

// neighbours builds the tents around the pitch. On either side there are two, so that the aisle is a row of them.
func (s *Site) neighbours(n Neighbours, at fault.Place) {
	p, g, w := s.Plan.Pitch, n.Gap.M(), n.Width.M()
	plot := func(place, name, what string, c *Colour, x, z float64, turn float64, wide, deep float64) {
		if n.Colour = c; what != nobody {
			f := geom.World.Moved(geom.Vec{X: x, Z: z}).Turned(turn)
			s.neighbour(n, what, booth.ID("neighbour/"+place), name, f, wide, deep, at)
		}
	}
	for i, what := range []string{n.Left, n.Right} {
		if what != nobody {
			s.corner[i] = g
		}
	}
	for k := range 2 {
		off := p.Width/2 + g + w/2 + float64(float64(k)*(w+g))
		beyond := []string{"", "-2"}[k]
		next := []string{"", "second "}[k]
		plot("left"+beyond, "the "+next+"left neighbour's", n.Left, n.OfLeft, -off, 0, 0, w, p.Depth)
		plot("right"+beyond, "the "+next+"right neighbour's", n.Right, n.OfRight, off, 0, 0, w, p.Depth)
	}
	plot("back", "the back neighbour's", n.Back, n.OfBack, 0, -2*p.Depth-g, math.Pi, p.Width, p.Depth)
	for k := range inRow {
		x := (float64(k) - (inRow-1)/2) * (w + g)
		plot(fmt.Sprintf("across-%d", k+1), "the opposite", n.Across, n.OfAcross, x, p.Aisle, math.Pi, w, p.Depth)
	}
}

// neighbour is one pitch of the fair: f is on the ground in the middle of its front edge, Z out of it.
func (s *Site) neighbour(n Neighbours, what string, id booth.ID, name string, f geom.Frame, w, d float64, at fault.Place) {
	cloth := booth.Part{ID: id, Kind: "pitch", Name: name + " tent", At: at, Frame: f, Beyond: true}
	look := bothSides(booth.Colour(*n.Colour), material.Canopy)
	eave := n.Eave.M()
	corner := func(x, y, z float64) geom.Vec { return f.At(geom.Vec{X: x * w / 2, Y: y, Z: -d * z}) }
	var m geom.Mesh
	sheet := func(p geom.Polygon) {
		m.AddPolygon(p)
		cloth.Solids = append(cloth.Solids, geom.Prism(p, p.Normal().Mul(-sheetThick)))
	}
	wall := func(a, b geom.Vec, bottom, top float64) { // from a to b, as seen from outside
		a.Y, b.Y = bottom, bottom
		up := geom.Vec{Y: top - bottom}
		sheet(geom.Polygon{a, b, b.Add(up), a.Add(up)})
	}
	ring := []geom.Vec{corner(-1, 0, 0), corner(1, 0, 0), corner(1, 0, 1), corner(-1, 0, 1)}
	if what == "drape" {
		cloth.Name = name + " drape"
		look.Passes = 0
		for i := 1; i < 4; i++ {
			wall(ring[i], ring[(i+1)%4], 0.01, eave)
		}
		cloth.Surfaces = []booth.Surface{{Mesh: m, Look: look}}
		s.add(cloth)
		return
	}
	look.Passes = theirLight
	top := corner(0, eave+rise, 0.5)
	for i := range ring {
		a, b := ring[i], ring[(i+1)%4]
		a.Y, b.Y = eave, eave
		sheet(geom.Polygon{a, b, top})
		wall(ring[i], ring[(i+1)%4], eave-theirValance, eave)
		if what == "walled" && i > 0 {
			wall(ring[i], ring[(i+1)%4], 0.01, eave-theirValance)
		}
	}
	cloth.Surfaces = []booth.Surface{{Mesh: m, Look: look}}
	s.add(cloth)
	var legs []geom.Convex
	for _, c := range ring {
		in := f.Local(c)
		in.X -= math.Copysign(theirLeg, in.X)
		in.Z = min(max(in.Z, -d+theirLeg), -theirLeg)
		legs = append(legs, geom.Box(geom.Frame{Origin: f.At(in), X: f.X, Y: f.Y, Z: f.Z}, geom.Vec{X: -theirLeg / 2, Z: -theirLeg / 2}, geom.Vec{X: theirLeg / 2, Y: eave, Z: theirLeg / 2}))
	}
	s.add(booth.Part{
		ID: id + "/legs", Parent: id, Kind: "pitch", Name: "the legs of " + name + " tent", At: at, Frame: f, Beyond: true,
		Solids: legs, Surfaces: []booth.Surface{block(metal, legs...)},
	})
}
