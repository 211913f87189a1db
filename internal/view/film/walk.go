package film

import (
	"math"

	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/way"
	"boothmock/internal/plan/booth"
)

const (
	// PerSecond is how many pictures a second are shown: enough for a walk, and a small file.
	PerSecond = 10

	pace   = 1.2  // metres a second at which people stroll: common practice, no source
	before = 2.6  // metres of the aisle that are walked up to the booth
	slow   = 0.7  // metres before its end from which the walk gets slower
	corner = 0.35 // metres within which a corner of the way is rounded
	calm   = 0.25 // seconds over which the head turns
	most   = 70   // degrees that people turn their head aside while walking: common practice, no source
	across = 72   // degrees of the picture's width, as of the views from the aisle
	down   = 0.05 // slope of the gaze: a little below the horizon
)

// Walk is where a visitor stands and looks for each picture of the film. in is the way from before the entrance into the
// booth, as corners on the floor; without one, the visitor stops before the booth.
func Walk(p *booth.Plan, in []way.Point) []booth.View {
	door := geom.Vec{Z: min(p.Pitch.Aisle/2, 1.8)}
	if len(in) > 0 {
		door = geom.Vec{X: in[0].X, Z: in[0].Z}
	}
	line := []geom.Vec{door.Sub(geom.Vec{X: before}), door}
	for _, q := range in[min(1, len(in)):] {
		line = append(line, geom.Vec{X: q.X, Z: q.Z})
	}
	steps := walked(rounded(line))
	goal := geom.Vec{Z: -0.8 * p.Pitch.Depth} // what people come to see
	turns := make([]float64, len(steps))      // of the gaze, in radians from straight in, to the right
	heading := 0.0
	for i, s := range steps {
		if i+1 < len(steps) && steps[i+1].Dist(s) > 1e-6 {
			heading = bearing(steps[i+1].Sub(s))
		}
		aside := math.Remainder(bearing(goal.Sub(s))-heading, 2*math.Pi)
		limit := most * math.Pi / 180
		turns[i] = heading + min(max(aside, -limit), limit)
		if i > 0 { // not the other way round
			turns[i] = turns[i-1] + math.Remainder(turns[i]-turns[i-1], 2*math.Pi)
		}
	}
	turns = smooth(turns, calm*PerSecond)
	out := make([]booth.View, len(steps))
	for i, s := range steps {
		sin, cos := math.Sincos(turns[i])
		eye := p.Eyes[0].Height
		out[i] = booth.View{Name: "walk-in", Stand: s, Height: eye, Across: across * math.Pi / 180,
			Look: geom.Vec{X: s.X + sin, Y: eye - down, Z: s.Z - cos}}
	}
	return out
}

// bearing is a direction on the floor, in radians from straight in, to the right.
func bearing(d geom.Vec) float64 { return math.Atan2(d.X, -d.Z) }

// rounded is a line through corners as points a centimetre apart, with its corners rounded.
func rounded(line []geom.Vec) []geom.Vec {
	const step = 0.01
	var xs, zs []float64
	for i := 1; i < len(line); i++ {
		a, b := line[i-1], line[i]
		n := max(1, int(a.Dist(b)/step))
		for k := range n {
			q := a.Lerp(b, float64(k)/float64(n))
			xs, zs = append(xs, q.X), append(zs, q.Z)
		}
	}
	end := line[len(line)-1]
	xs, zs = smooth(append(xs, end.X), corner/step), smooth(append(zs, end.Z), corner/step)
	out := make([]geom.Vec, len(xs))
	for i := range xs {
		out[i] = geom.Vec{X: xs[i], Z: zs[i]}
	}
	return out
}

// smooth is the mean of the neighbours of each value, weighted by a bell curve of so many values' width. Beyond its ends
// the row goes on as it ends, mirrored through the end, so that the ends stay.
func smooth(v []float64, width float64) []float64 {
	reach := int(3 * width)
	bell, sum := make([]float64, reach+1), 0.0
	for k := range bell {
		bell[k] = math.Exp(-float64(k*k) / (2 * width * width))
		sum += bell[k]
		if k > 0 {
			sum += bell[k]
		}
	}
	last := len(v) - 1
	at := func(i int) float64 {
		switch {
		case i < 0:
			return 2*v[0] - v[min(-i, last)]
		case i > last:
			return 2*v[last] - v[max(0, 2*last-i)]
		}
		return v[i]
	}
	out := make([]float64, len(v))
	for i := range v {
		for k, w := range bell {
			if k == 0 {
				out[i] += float64(w * v[i])
				continue
			}
			out[i] += float64(w * (at(i-k) + at(i+k)))
		}
		out[i] /= sum
	}
	return out
}

// walked are the places along a line at which somebody is at each picture: at a walking pace, slower towards the end.
func walked(line []geom.Vec) []geom.Vec {
	left := make([]float64, len(line)) // metres to the end
	for i := len(line) - 2; i >= 0; i-- {
		left[i] = left[i+1] + line[i].Dist(line[i+1])
	}
	out := []geom.Vec{line[0]}
	done, i := 0.0, 0
	for {
		rest := left[0] - done
		speed := pace * math.Sqrt(min(1, max(rest, 0)/slow)) // an even slowing down
		if done += speed / PerSecond; speed < 0.1 || done >= left[0] {
			return append(out, line[len(line)-1])
		}
		for i+1 < len(line)-1 && left[0]-left[i+1] <= done {
			i++
		}
		from, to := left[0]-left[i], left[0]-left[i+1]
		out = append(out, line[i].Lerp(line[i+1], (done-from)/max(to-from, 1e-9)))
	}
}
