package figure

import (
	"math"

	"boothmock/internal/basis/geom"
)

// build is what makes one body differ from another. Heights are metres; a body is drawn once, as an adult of 1.69 m,
// and its heights are carried over to those of the build.
type build struct {
	heights [7]float64 // at which template's heights come to lie
	body    float64    // widths and depths of trunk and limbs beside the adult's
	head    float64    // size of the head beside the adult's
}

// template are the heights of an adult of 1.69 m: sole, ankle, knee, hip joint, shoulder, chin, top. Fractions of the
// stature from Drillis and Contini, "Body segment parameters", 1966, as drawn in Winter, "Biomechanics and motor
// control of human movement" (from memory): 0.039, 0.285, 0.530, 0.818, 0.870, 1.
var template = [7]float64{0, 0.066, 0.482, 0.896, 1.382, 1.470, 1.69}

var (
	adult = build{template, 1, 1}
	// A child of six, 1.155 m: about six heads high, hips at half the stature (from memory, after Snyder and others,
	// "Anthropometry of infants, children and youths to age 18", 1977).
	child = build{[7]float64{0, 0.050, 0.305, 0.575, 0.915, 0.962, 1.155}, 0.63, 0.89}
)

// height carries a template's height over to the build.
func (b build) height(y float64) float64 {
	i := 0
	for i < len(template)-2 && y > template[i+1] {
		i++
	}
	t := (y - template[i]) / (template[i+1] - template[i])
	return b.heights[i] + float64(t*(b.heights[i+1]-b.heights[i]))
}

// at carries a template's point over to the build.
func (b build) at(x, y, z float64) geom.Vec {
	return geom.Vec{X: float64(x * b.body), Y: b.height(y), Z: float64(z * b.body)}
}

// limb is a limb of the template; joints are x, y, z and radius.
func (b build) limb(joints ...[4]float64) shape {
	var p []geom.Vec
	var r []float64
	for _, j := range joints {
		p = append(p, b.at(j[0], j[1], j[2]))
		r = append(r, float64(j[3]*b.body))
	}
	return limb(p, r)
}

// body is a person: the whole skin, and the pieces that solids are made of.
type body struct {
	skin   shape
	pieces []shape // parts that are nearly convex
}

// headOn is a head whose neck starts at the point base; the head leans by lean radians, a little up when negative.
func (b build) headOn(base geom.Vec, turn, lean float64) (head, neck shape) {
	s := b.head
	f := geom.Frame{Origin: geom.Vec{X: base.X, Y: b.height(1.47), Z: base.Z}, X: geom.World.X, Y: geom.World.Y, Z: geom.World.Z}.Turned(turn).Tilted(lean)
	at := func(x, y, z float64) geom.Vec { return f.At(geom.Vec{X: x, Y: y, Z: z}.Mul(s)) }
	part := func(x, y, z, rx, ry, rz float64) shape {
		g := f
		g.Origin = at(x, y, z)
		return egg(g, geom.Vec{X: rx, Y: ry, Z: rz}.Mul(s))
	}
	skull := part(0, 0.124, 0.004, 0.079, 0.096, 0.100) // with short hair
	jaw := part(0, 0.064, 0.042, 0.059, 0.066, 0.064)
	chin := part(0, 0.024, 0.070, 0.036, 0.030, 0.032)
	nose := cone(at(0, 0.104, 0.094), at(0, 0.070, 0.106), 0.009*s, 0.013*s)
	face := blend(0.035*s, skull, jaw)
	face = blend(0.045*s, face, chin)
	head = blend(0.030*s, face, nose)
	neck = cone(base, at(0, 0.075, 0.0), 0.052*s, 0.048*s)
	return head, neck
}

// standing is a calm visitor: the weight on the right leg, the left one at ease, one hand in a pocket, the head a
// little up. Left is the figure's own left, +X.
func (b build) standing() body {
	at, r := b.at, func(v float64) float64 { return v * b.body }
	sections := []section{
		// A jacket from its hem to the neck; the hips lean over the right leg, the shoulders level that out.
		{0.775, -0.014, -0.002, 0.184, 0.132, -0.06},
		{0.860, -0.020, -0.006, 0.180, 0.130, -0.06},
		{0.970, -0.020, 0.000, 0.163, 0.114, -0.04},
		{1.060, -0.015, 0.006, 0.150, 0.105, 0.00},
		{1.180, -0.010, 0.006, 0.160, 0.114, 0.03},
		{1.280, -0.006, 0.000, 0.172, 0.117, 0.05},
		{1.350, -0.005, -0.008, 0.168, 0.100, 0.05},
		{1.400, -0.005, -0.016, 0.128, 0.076, 0.03},
		{1.435, -0.005, -0.016, 0.076, 0.062, 0.01},
		{1.460, -0.005, -0.014, 0.058, 0.056, 0},
	}
	for i, c := range sections {
		sections[i] = section{b.height(c.y), r(c.x), r(c.z), r(c.rx), r(c.rz), c.tilt}
	}
	chest := trunk(sections)
	head, neck := b.headOn(at(-0.005, 1.42, -0.016), 0.10, -0.07)

	// The right arm hangs; the left hand is in the pocket.
	upperR := b.limb([4]float64{-0.172, 1.328, -0.012, 0.056}, [4]float64{-0.238, 1.070, -0.034, 0.045})
	foreR := b.limb([4]float64{-0.238, 1.070, -0.034, 0.045}, [4]float64{-0.266, 0.850, 0.018, 0.036})
	upperL := b.limb([4]float64{0.162, 1.345, -0.012, 0.056}, [4]float64{0.252, 1.095, -0.062, 0.045})
	foreL := b.limb([4]float64{0.252, 1.095, -0.062, 0.045}, [4]float64{0.196, 0.915, 0.052, 0.039}, [4]float64{0.160, 0.860, 0.085, 0.036})
	hand := b.hand(at(-0.267, 0.835, 0.022), geom.Vec{X: 0.09, Y: -1, Z: 0.18}, geom.Vec{X: -1}, 1)

	thighR := b.limb([4]float64{-0.092, 0.870, 0.000, 0.090}, [4]float64{-0.090, 0.480, 0.006, 0.066})
	shinR := b.limb([4]float64{-0.090, 0.480, 0.006, 0.066}, [4]float64{-0.086, 0.110, -0.030, 0.056})
	thighL := b.limb([4]float64{0.070, 0.860, 0.000, 0.090}, [4]float64{0.118, 0.474, 0.050, 0.066})
	shinL := b.limb([4]float64{0.118, 0.474, 0.050, 0.066}, [4]float64{0.158, 0.108, 0.020, 0.056})
	shoeR := b.shoe(at(-0.086, 0, -0.030), -0.12)
	shoeL := b.shoe(at(0.160, 0, 0.020), 0.42)

	low, high := b.height(1.18), b.height(1.36)
	waist, yoke := b.height(1.06), b.height(1.365) // where a trunk is hollow, it is cut in two
	arms, legs, shoes := b.height(0.57), b.height(1.06), b.height(0.24)
	return body{
		skin: func(p geom.Vec) float64 {
			// Parts that are a hand's breadth or more above or below are left out: a third of the time.
			d := r(0.3)
			if p.Y > arms {
				t := max(0, min(1, (p.Y-low)/(high-low)))
				k := r(0.012 + float64(0.055*t)) // arms grow out of the shoulders but only touch the ribs
				d = either(r(0.035), chest(p), neck(p))
				if p.Y > low {
					d = either(r(0.018), d, head(p))
				}
				armR := either(r(0.02), upperR(p), foreR(p))
				armR = either(r(0.006), armR, hand(p))
				d = either(k, d, armR)
				d = either(k, d, either(r(0.02), upperL(p), foreL(p)))
			}
			if p.Y < legs {
				legR, legL := either(r(0.03), thighR(p), shinR(p)), either(r(0.03), thighL(p), shinL(p))
				if p.Y < shoes {
					legR, legL = either(r(0.006), legR, shoeR(p)), either(r(0.006), legL, shoeL(p))
				}
				d = either(r(0.016), d, either(r(0.02), legR, legL))
			}
			return d
		},
		pieces: []shape{
			head, neck, slice(chest, yoke, b.height(1.425)), slice(chest, waist, yoke), slice(chest, -9, waist),
			upperR, foreR, upperL, foreL, hand, thighR, shinR, thighL, shinL, shoeR, shoeL,
		},
	}
}

// slice is what lies between two heights.
func slice(s shape, y0, y1 float64) shape {
	return func(p geom.Vec) float64 { return max(s(p), y0-p.Y, p.Y-y1) }
}

// hand begins at a wrist and points along; back is the side that its back faces. Seen from there the thumb is on the
// right with side 1, on the left with side -1.
func (b build) hand(wrist, along, back geom.Vec, side float64) shape {
	r := func(v float64) float64 { return v * b.body }
	y := along.Unit().Neg()
	z := back.Cross(y).Unit()
	f := geom.Frame{Origin: wrist, X: y.Cross(z), Y: y, Z: z}
	at := func(x, y, z float64) geom.Vec { return f.At(geom.Vec{X: r(x), Y: r(y), Z: r(z)}) }
	palm, fingers := f.Moved(geom.Vec{Y: r(-0.062)}), f.Moved(geom.Vec{X: r(-0.010), Y: r(-0.125), Z: r(0.004)})
	s := blend(r(0.025), egg(palm, geom.Vec{X: r(0.020), Y: r(0.062), Z: r(0.041)}), egg(fingers, geom.Vec{X: r(0.017), Y: r(0.055), Z: r(0.034)}))
	return blend(r(0.014), s, cone(at(-0.004, -0.045, -0.030*side), at(-0.016, -0.100, -0.048*side), r(0.013), r(0.010)))
}

// shoe stands at heel, the point on the ground under the ankle, and points out by turn radians to the figure's left.
func (b build) shoe(heel geom.Vec, turn float64) shape {
	r := func(v float64) float64 { return v * b.body }
	f := geom.Frame{Origin: heel, X: geom.World.X, Y: geom.World.Y, Z: geom.World.Z}.Turned(turn)
	part := func(x, y, z, rx, ry, rz float64) shape {
		g := f
		g.Origin = f.At(geom.Vec{X: r(x), Y: r(y), Z: r(z)})
		return egg(g, geom.Vec{X: r(rx), Y: r(ry), Z: r(rz)})
	}
	s := blend(r(0.03), part(0, 0.030, -0.020, 0.038, 0.050, 0.056), part(0, 0.022, 0.120, 0.047, 0.040, 0.092))
	s = blend(r(0.04), s, part(0, 0.055, 0.040, 0.036, 0.045, 0.070))
	return func(p geom.Vec) float64 { return both(r(0.006), s(p), heel.Y-p.Y) }
}

// detail says where the eye looks: at heads and hands.
func (b build) detail(p geom.Vec) float64 {
	if p.Y > b.height(1.45) {
		return 3
	}
	return 1
}

// box is the room that the body is looked for in.
func (b build) box() (lo, hi geom.Vec) {
	w := float64(0.36 * b.body)
	return geom.Vec{X: -w, Y: -0.05, Z: -math.Max(0.28*b.body, 0.2)}, geom.Vec{X: w, Y: b.heights[6] + 0.05, Z: 0.32 * b.body}
}
