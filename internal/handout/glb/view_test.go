package glb

import (
	"math"
	"testing"

	"boothmock/internal/basis/geom"

	"github.com/qmuntal/gltf"
)

// turned is v turned by the unit quaternion q = (x, y, z, w): v + 2w(q x v) + 2 q x (q x v).
func turned(q [4]float64, v geom.Vec) geom.Vec {
	a := geom.Vec{X: q[0], Y: q[1], Z: q[2]}
	c := a.Cross(v)
	return v.Add(c.Mul(2 * q[3])).Add(a.Cross(c).Mul(2))
}

// projected is where the camera puts the booth's point p in its picture: -1 to 1 across and up. The matrix is glTF 2.0's,
// "Perspective projection": x by 1/(a tan(y/2)), y by 1/tan(y/2), w by -z.
func projected(n placed, c *gltf.Perspective, p geom.Vec) (x, y float64) {
	q := n.node.Rotation
	v := turned([4]float64{-q[0], -q[1], -q[2], q[3]}, p.Sub(n.at))
	t := math.Tan(c.Yfov / 2)
	return v.X / (*c.AspectRatio * t) / -v.Z, v.Y / t / -v.Z
}

func TestCameras(t *testing.T) {
	p := testBooth(t)
	d := decode(t, written(t, p))
	found := nodes(t, d)
	for _, v := range p.Views {
		n := found["view/"+v.Name]
		camera := d.Cameras[*n.node.Camera]
		c := camera.Perspective
		eye := v.From(p.Eyes[0])
		if camera.Name != "view/"+v.Name || n.at.Dist(eye) > 1e-8 {
			t.Errorf("%s: camera %q at %v, want it at %v", v.Name, camera.Name, n.at, eye)
		}
		// "The camera looks along local -Z, its right is +X" (glTF 2.0, "Cameras").
		q := n.node.Rotation
		ahead, right, up := turned(q, geom.Vec{Z: -1}), turned(q, geom.Vec{X: 1}), turned(q, geom.Vec{Y: 1})
		look, half := v.Look.Sub(eye), math.Tan(v.Across/2)
		shift, steep := look.Y/math.Hypot(look.X, look.Z), math.Abs(look.Y) > 0.9*math.Hypot(look.X, look.Z)
		want := geom.Vec{X: look.X, Z: look.Z}.Unit()
		if steep {
			shift, want = 0, look.Unit()
		}
		if ahead.Dist(want) > 1e-8 {
			t.Errorf("%s: looks along %v, want %v", v.Name, ahead, want)
		}
		if math.Abs(right.Y) > 1e-8 || up.Y < -1e-8 {
			t.Errorf("%s: leans: right is %v, up is %v", v.Name, right, up)
		}
		// The picture's frame, 16 : 9 about the shifted middle, is in the camera's: all of the width, and up to one edge.
		corner := func(across, high float64) (x, y float64) {
			return projected(n, c, eye.Add(ahead).Add(right.Mul(across*half)).Add(up.Mul(shift+high*half*9/16)))
		}
		x0, y0 := corner(-1, -1)
		x1, y1 := corner(1, 1)
		if math.Abs(x0+1) > 1e-7 || math.Abs(x1-1) > 1e-7 || y0 < -1-1e-7 || y1 > 1+1e-7 || math.Abs(max(-y0, y1)-1) > 1e-7 {
			t.Errorf("%s: the picture is from %g, %g to %g, %g of the frame", v.Name, x0, y0, x1, y1)
		}
		if steep && math.Abs(*c.AspectRatio-16.0/9) > 1e-8 || c.Zfar != nil || !(c.Znear > 0) {
			t.Errorf("%s: aspect %g, near %g, far %v", v.Name, *c.AspectRatio, c.Znear, c.Zfar)
		}
	}
	// Somebody at the entrance sees the right of the booth, +X, on their right; from above the back is at the top.
	if x, y := projected(found["view/entrance"], d.Cameras[0].Perspective, geom.Vec{X: 1, Y: 2, Z: -3}); x < 0.1 || y < 0.1 {
		t.Errorf("a point up on the right is at %g, %g", x, y)
	}
	if x, y := projected(found["view/above"], d.Cameras[3].Perspective, geom.Vec{X: 1, Z: -3}); x < 0.1 || y < 0.1 {
		t.Errorf("from above, a point at the back on the right is at %g, %g", x, y)
	}
}
