package picture

import (
	"github.com/fogleman/fauxgl"

	"boothmock/internal/basis/camera"
	"boothmock/internal/basis/geom"
	"boothmock/internal/plan/booth"
)

// Options for one picture. The zero value is 1920 by 1080 pixels and the plan's usual eye.
type Options struct {
	Width, Height int
	Eye           booth.Eye
	Quick         bool       // fewer samples a pixel: for one picture of many that move
	Alone         bool       // people are left out
	Brighter      [3]float32 // how many times brighter all is than to the eye of whoever stands in the booth, by colour; zero: as bright
}

// exposure is how many times brighter all is than to whoever stands in the booth.
func (o Options) exposure() [3]float32 {
	if o.Brighter == ([3]float32{}) {
		return [3]float32{1, 1, 1}
	}
	return o.Brighter
}

func (o Options) pattern() *pattern {
	if o.Quick {
		return &coarse
	}
	return &fine
}

func (s *Stage) filled(o Options) Options {
	if o.Width == 0 {
		o.Width = 1920
	}
	if o.Height == 0 {
		o.Height = 1080
	}
	if o.Eye == (booth.Eye{}) && len(s.plan.Eyes) > 0 {
		o.Eye = s.plan.Eyes[0]
	}
	return o
}

// What is nearer than near or farther than far, in metres, is not drawn.
const (
	near = 0.05
	far  = 200
)

// lens turns points of the booth into places in the picture: a fauxgl vertex shader and what goes with it.
type lens struct {
	matrix        fauxgl.Matrix
	width, height int
	// depth is 1 - z/w of a clipped point: 0 at far and more towards the eye, a plane on the screen. 1/w = depth*perW + w0.
	perW, w0 float64
	horizon  float64 // the picture's row, counted from its top, at which the horizon lies
	focal    float64 // pixels to a slope of 1
	eye      geom.Vec
	camera.Camera
	mirror *mirror // not nil: what it shows is mirrored
}

// spot is the point of the booth at a place on the screen that is w metres away along the camera's axis.
func (c *lens) spot(x, y, w float64) geom.Vec {
	p := c.eye.Add(c.Ray(2*x/float64(c.width)-1, 1-2*y/float64(c.height)).Mul(w))
	if c.mirror != nil {
		p = c.mirror.of(p)
	}
	return p
}

// cameraFor is the camera of a view.
func cameraFor(v booth.View, o Options) lens {
	at := camera.At(v.From(o.Eye), v.Look, v.Across, float64(o.Width)/float64(o.Height))
	high := float64(o.Height) / 2
	return lens{
		width: o.Width, height: o.Height, eye: at.Eye, Camera: at,
		perW: (far - near) / (2 * near * far), w0: 1.0 / far,
		focal:   float64(o.Width) / 2 / at.Wide,
		horizon: high - float64(high*at.Horizon()),
		matrix: fauxgl.LookAt(vector(at.Eye), vector(at.Eye.Add(at.Ahead)), vector(at.Up)).
			Frustum(-near*at.Wide, near*at.Wide, near*(at.Shift-at.Tall), near*(at.Shift+at.Tall), near, far),
	}
}

// flat is the camera of a drawing to scale: the rectangle of the frame's XY plane from (0, 0) to (width, height)
// metres, seen from its front; what lies between back and front along the frame's Z is drawn.
func flat(f geom.Frame, width, height float64, pixels [2]int, back, front float64) lens {
	o := f.Origin
	view := fauxgl.Matrix{
		X00: f.X.X, X01: f.X.Y, X02: f.X.Z, X03: -f.X.Dot(o),
		X10: f.Y.X, X11: f.Y.Y, X12: f.Y.Z, X13: -f.Y.Dot(o),
		X20: f.Z.X, X21: f.Z.Y, X22: f.Z.Z, X23: -f.Z.Dot(o),
		X33: 1,
	}
	return lens{
		matrix: view.Orthographic(0, width, 0, height, -front, -back),
		width:  pixels[0], height: pixels[1], w0: 1,
	}
}

// Vertex places a vertex; it is fauxgl's vertex shader.
func (c *lens) Vertex(v fauxgl.Vertex) fauxgl.Vertex {
	v.Output = c.matrix.MulPositionW(v.Position)
	return v
}

// onScreen is the pixel coordinates of a clipped point, from the picture's upper left corner.
func (c *lens) onScreen(p fauxgl.VectorW) (x, y float64) {
	return (p.X/p.W + 1) / 2 * float64(c.width), (1 - p.Y/p.W) / 2 * float64(c.height)
}

// Project is where the point appears in the picture of the view: pixels right and down from its upper left corner, so
// that the middle of the first pixel is (0.5, 0.5), and the distance in metres along the camera's axis. ok is false
// for a point that is not before the camera; a point outside of the picture is still placed.
func (s *Stage) Project(v booth.View, o Options, p geom.Vec) (x, y, depth float64, ok bool) {
	c := cameraFor(v, s.filled(o))
	out := c.Vertex(fauxgl.Vertex{Position: vector(p)}).Output
	if out.W < near {
		return 0, 0, out.W, false
	}
	x, y = c.onScreen(out)
	return x, y, out.W, true
}
