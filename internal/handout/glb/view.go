package glb

import (
	"math"

	"boothmock/internal/basis/camera"
	"boothmock/internal/basis/geom"
	"boothmock/internal/plan/booth"

	"github.com/qmuntal/gltf"
)

const (
	aspect = 16.0 / 9 // width over height, as of the pictures
	near   = 0.05     // metres before the eye at which the picture begins
)

// views adds a camera for each view, at the usual visitor's eye. A picture keeps its camera level and shifts the lens, as
// an architect's camera does. A glTF camera cannot shift: it stays level too, so that upright edges are upright, and sees so much
// higher, or lower, that the whole picture is in its frame. What it loses is the frame: there is a strip more at one edge.
func (b *builder) views(root *gltf.Node) {
	if len(b.plan.Views) == 0 {
		return
	}
	above := b.node(root, &gltf.Node{Name: "view"})
	for _, v := range b.plan.Views {
		b.camera(above, v)
	}
}

// camera adds a node with a camera below another one and returns its number.
func (b *builder) camera(above *gltf.Node, v booth.View) int {
	eye := b.plan.Eyes[0]
	c := camera.At(v.From(eye), v.Look, v.Across, aspect)
	name := "view/" + v.Name
	b.node(above, &gltf.Node{
		Name:        name,
		Translation: [3]float64{round(c.Eye.X), round(c.Eye.Y), round(c.Eye.Z)},
		Rotation:    towards(c.Ahead),
		Camera:      gltf.Index(len(b.doc.Cameras)),
		Extras:      aboutView(v, eye),
	})
	tall := c.Tall + math.Abs(c.Shift)
	b.doc.Cameras = append(b.doc.Cameras, &gltf.Camera{Name: name, Perspective: &gltf.Perspective{
		AspectRatio: gltf.Float(round(c.Wide / tall)), Yfov: round(2 * math.Atan(tall)), Znear: near,
	}})
	return len(b.doc.Nodes) - 1
}

// towards is the turn, as a quaternion x, y, z, w, of a camera that looks along d without leaning to a side. A glTF
// camera unturned looks along -Z with +Y up: it is first tilted about X, then turned about Y. Looking straight down, the
// back of the booth is at the top.
func towards(d geom.Vec) [4]float64 {
	turn := math.Atan2(0-d.X, 0-d.Z) // 0-x, for -x of 0 is -0, which is half a turn away
	tilt := math.Atan2(d.Y, math.Hypot(d.X, d.Z))
	sy, cy := math.Sincos(turn / 2)
	sx, cx := math.Sincos(tilt / 2)
	return [4]float64{round(cy * sx), round(sy * cx), round(-sy * sx), round(cy * cx)}
}
