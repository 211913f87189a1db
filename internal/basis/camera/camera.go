// Package camera is the pinhole camera of pictures, film, model and pages (Hartley and Zisserman, Multiple View Geometry in
// Computer Vision, 2nd ed., chapter 6): a place, a turn, a focal length and a principal point.
//
// Like the camera of somebody who photographs a building it is kept level, and its lens is shifted up or down to bring what it
// looks at to the middle of the picture: so upright edges stay upright. Only one that looks steeply up or down is tilted.
//
// Metres; the picture goes from -1 to 1 to the right and up, whatever its size.
package camera

import (
	"math"

	"boothmock/internal/basis/geom"
)

// Steepest is the slope of the line of sight up to which a camera stays level: about 42 degrees. Tuned by looking: beyond it the
// picture of a shifted lens is drawn out too much.
const Steepest = 0.9

// Camera is made by At.
type Camera struct {
	Eye              geom.Vec
	Right, Up, Ahead geom.Vec // unit vectors, square to each other; Ahead is the axis of the lens

	// At a distance of 1 along the axis: half the picture's width and height, and how far its middle lies above the axis. The
	// focal length in pixels is half the picture's width over Wide.
	Wide, Tall, Shift float64
}

// At is the camera at the eye that has the point look in the middle of its picture, which takes in the angle across, in radians,
// to both sides together, and is aspect times as wide as high. One that looks straight up or down has the booth's back at the top.
func At(eye, look geom.Vec, across, aspect float64) Camera {
	d := look.Sub(eye)
	level := math.Hypot(d.X, d.Z)
	c := Camera{Eye: eye, Wide: math.Tan(across / 2)}
	c.Tall = c.Wide / aspect
	up := geom.Up
	if math.Abs(d.Y) <= Steepest*level {
		c.Shift = d.Y / level
		d.Y = 0
	} else if level < 1e-6*math.Abs(d.Y) {
		up = geom.Vec{Z: -1}
	}
	c.Ahead = d.Unit()
	c.Right = c.Ahead.Cross(up).Unit()
	c.Up = c.Right.Cross(c.Ahead)
	return c
}

// Project is where a point appears in the picture, and how far off it is along the axis; a point that is not before the camera has
// a depth of 0 or less, and no place.
func (c Camera) Project(p geom.Vec) (x, y, depth float64) {
	d := p.Sub(c.Eye)
	depth = d.Dot(c.Ahead)
	return d.Dot(c.Right) / (depth * c.Wide), (d.Dot(c.Up)/depth - c.Shift) / c.Tall, depth
}

// Ray is the direction from the eye through a place in the picture, of depth 1.
func (c Camera) Ray(x, y float64) geom.Vec {
	return c.Ahead.Add(c.Right.Mul(x * c.Wide)).Add(c.Up.Mul(float64(y*c.Tall) + c.Shift))
}

// Horizon is how high in the picture the horizon lies.
func (c Camera) Horizon() float64 {
	level := math.Hypot(c.Ahead.X, c.Ahead.Z)
	return (-c.Ahead.Y/max(level, 1e-6) - c.Shift) / c.Tall
}
