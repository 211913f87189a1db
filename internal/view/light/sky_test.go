package light

import (
	"math"
	"testing"

	"boothmock/internal/basis/geom"
)

// clearSky is the CIE clear sky (ISO 15469:2004, type 12; the formula stands here once more), with the sun in a direction.
func clearSky(sun geom.Vec) func(geom.Vec) float64 {
	part := func(cos float64) float64 {
		x := math.Acos(max(-1, min(cos, 1)))
		return 1 + 10*(math.Exp(-3*x)-math.Exp(-3*math.Pi/2)) + 0.45*cos*cos
	}
	return func(d geom.Vec) float64 { return (1 - math.Exp(-0.32/max(d.Y, 1e-6))) * part(d.Dot(sun)) }
}

// towards is a direction by altitude and azimuth in degrees.
func towards(altitude, azimuth float64) geom.Vec {
	h, a := altitude*math.Pi/180, azimuth*math.Pi/180
	return geom.Vec{X: math.Cos(h) * math.Cos(a), Y: math.Sin(h), Z: math.Cos(h) * math.Sin(a)}
}

// What faces in the open, and behind a wall that leaves half of the horizon free, get of a clear sky, against the sum over 20,000
// places of the sky itself.
func TestFacesUnderAClearSky(t *testing.T) {
	const n = 20_000
	sums, worst, count := map[string]float64{}, map[string]float64{}, map[string]float64{}
	for _, altitude := range []float64{10, 35, 65} {
		sun := towards(altitude, 20)
		sky := clearSky(sun)
		rooms := map[string]*room{"in the open": {sky: white}, "behind a wall": {sky: white}}
		rooms["behind a wall"].add(box(-1e4, -1, -3, 1e4, 3, -2), 0, rgb{}.all, 0)
		d := fit(sky)
		for where, r := range rooms {
			r.dome = &d
			g := exact(r)
			for _, tilt := range []float64{0, 30, 90} {
				for azimuth := 0.0; azimuth < 360; azimuth += 60 {
					normal := towards(tilt, azimuth)
					got, want, level := g.light(geom.Vec{}, normal, -1)[0], 0.0, 0.0
					for i := range n {
						y := (float64(i) + 0.5) / n
						s, c := math.Sincos(math.Pi * (1 + math.Sqrt(5)) * float64(i))
						v := geom.Vec{X: math.Sqrt(1-y*y) * c, Y: y, Z: math.Sqrt(1-y*y) * s}
						level += sky(v) * y
						if where == "in the open" || v.Z > 0 || -v.Y/v.Z > 1.5 {
							want += sky(v) * max(0, v.Dot(normal))
						}
					}
					off := math.Abs(got/(want/level) - 1)
					sums[where], worst[where], count[where] = sums[where]+off, max(worst[where], off), count[where]+1
				}
			}
		}
	}
	for where, most := range map[string][2]float64{"in the open": {0.011, 0.035}, "behind a wall": {0.02, 0.095}} {
		if mean := sums[where] / count[where]; mean > most[0] || worst[where] > most[1] {
			t.Errorf("%s: off by %.4f on average and %.4f at most, want %v", where, mean, worst[where], most)
		} else {
			t.Logf("%s: off by %.4f on average and %.4f at most", where, mean, worst[where])
		}
	}
}

// A fitted overcast sky is that sky, open level ground gets 1 of any, and no part of a sky is darker than nothing.
func TestSkiesAreFitted(t *testing.T) {
	d := fit(func(v geom.Vec) float64 { return 5 * (1 + 2*v.Y) })
	for k := range d {
		for i := range d[k] {
			near(t, "overcast", d[k][i], overcastSky[k][i], 1e-8)
		}
	}
	for altitude := 0.0; altitude <= 90; altitude += 7.5 {
		for azimuth := 0.0; azimuth < 45; azimuth += 7.5 {
			d := fit(clearSky(towards(altitude, azimuth)))
			g := exact(&room{sky: white, dome: &d})
			near(t, "open ground", g.light(geom.Vec{}, geom.Up, -1)[0], 1, 3e-6)
			for k := range d {
				for _, c := range skyCorners[k] {
					v := c.Unit()
					if l := d[k][0] + d[k][1]*v.X + d[k][2]*v.Y + d[k][3]*v.Z; l < -1e-9 {
						t.Errorf("the sun at %v, %v: a corner of part %d is %.3f", altitude, azimuth, k, l*math.Pi)
					}
				}
			}
		}
	}
}
