package material

import "math"

// What a booth stands on. The sizes of stones, blades and boards are common practice, no source.
var (
	Grass    = &Tile{Name: "grass", Metres: 2, side: 512, quality: 54, draw: drawGrass}
	Gravel   = &Tile{Name: "gravel", Metres: 1.2, side: 512, quality: 60, draw: drawGravel}
	Asphalt  = &Tile{Name: "asphalt", Metres: 1.2, side: 512, quality: 60, draw: drawAsphalt}
	Concrete = &Tile{Name: "concrete", Metres: 2.4, side: 512, quality: 75, draw: drawConcrete}
	Boards   = &Tile{Name: "floor boards", Metres: 1.92, side: 512, quality: 70, draw: drawBoards}
	Carpet   = &Tile{Name: "carpet", Metres: 0.8, side: 512, quality: 55, draw: drawCarpet}
)

// drawGrass lays blades of mown grass over each other, 4 mm to the pixel, the lower ones darker.
func drawGrass(side int) tones {
	r := chance(11)
	out := tones{make([]float32, 3*side*side), 3}
	for i := range side * side {
		t := 0.5 + float32(0.2*r.Float32())
		out.light[3*i], out.light[3*i+1], out.light[3*i+2] = t, t, t
	}
	fresh, thick := soft(side, r, 9, 9), soft(side, r, 22, 22)
	const blades = 46000
	for n := range blades {
		x, y := float64(side)*r.Float64(), float64(side)*r.Float64()
		at := int(y)*side + int(x)
		dy, dx := math.Sincos(2 * math.Pi * r.Float64())
		long := 4 + float64(6*r.Float64())
		tone := 0.66 + float32(0.42*float32(n)/blades) + float32(0.34*(r.Float32()-0.5)) + float32(0.02*thick.v[at])
		dry := float32(0.03*fresh.v[at]) + float32(0.2*(r.Float32()-0.5)) // less blue and more red
		c := [3]float32{tone * (1 + dry), tone, tone * (1 - dry)}
		for s := 0.0; s < long; s++ {
			i := 3 * (int(y+float64(s*dy))&(side-1)*side + int(x+float64(s*dx))&(side-1))
			tip := 0.86 + float32(0.2*s/long)
			for k := range 3 {
				out.light[i+k] = c[k] * tip
			}
		}
	}
	return out
}

// drawGravel lays rounded stones of 8 to 30 mm over each other, the small ones first.
func drawGravel(side int) tones {
	r := chance(12)
	out := grey(layer{soft(side, r, 1, 1), 0.1})
	for i := range out.light {
		out.light[i] *= 0.55
	}
	const stones = 11000
	for n := range stones {
		x, y := r.IntN(side), r.IntN(side)
		rx := 1.8 + float64(4.6*math.Pow(float64(n)/stones, 3)*r.Float64()) + r.Float64()
		ry := rx * (0.6 + float64(0.4*r.Float64()))
		s, c := math.Sincos(math.Pi * r.Float64())
		tone := float32(0.68) + float32(0.26*(r.Float32()+r.Float32()))
		for j := -7; j <= 7; j++ {
			for i := -7; i <= 7; i++ {
				a := (float64(c*float64(i)) + float64(s*float64(j))) / rx
				b := (float64(c*float64(j)) - float64(s*float64(i))) / ry
				d := float64(a*a) + float64(b*b)
				if d > 1 {
					continue
				}
				// A little lighter on the one side, dark where it meets its neighbours.
				out.light[(y+j)&(side-1)*side+(x+i)&(side-1)] = tone * (1 - float32(0.12*float64(i+j)/rx) - float32(0.4*d*d))
			}
		}
	}
	return out
}

// drawAsphalt is fine grit in a dark binder, with a few lighter stones.
func drawAsphalt(side int) tones {
	r := chance(13)
	grit, worn, mottle := soft(side, r, 1, 1), soft(side, r, 26, 26), soft(side, r, 5, 5)
	out := grey(layer{grit, 0.13}, layer{mottle, 0.035}, layer{worn, 0.012})
	for range 2600 {
		i, t := r.IntN(side*side), float32(1.25)+float32(0.5*r.Float32())
		for _, at := range [4]int{i, (i + 1) % (side * side), (i + side) % (side * side), (i + side + 1) % (side * side)} {
			out.light[at] = t
		}
	}
	return out
}

// drawConcrete is a floated slab: clouds, and pores too small to see one by one.
func drawConcrete(side int) tones {
	r := chance(14)
	clouds, mottle, pores := soft(side, r, 34, 34), soft(side, r, 7, 7), soft(side, r, 1, 1)
	return grey(layer{clouds, 0.014}, layer{mottle, 0.014}, layer{pores, 0.032})
}

// drawBoards are sixteen boards of 120 mm running down the tile, each of two lengths with a tone and a grain of their own.
func drawBoards(side int) tones {
	const count = 16
	r := chance(15)
	grain, streak := soft(side, r, 0, 22), soft(side, r, 2, 70)
	out := grey(layer{grain, 0.045}, layer{streak, 0.045})
	wide, long := side/count, side/2
	for b := range count {
		joint := (b*7%count*2*wide + r.IntN(wide)) % long
		tone := [2]float32{0.93 + float32(0.14*r.Float32()), 0.93 + float32(0.14*r.Float32())}
		for y := range side {
			along := (y - joint + side) % side
			t := tone[along/long]
			if along%long == 0 {
				t *= 0.75
			}
			for x := range wide {
				out.light[y*side+b*wide+x] *= t
			}
			out.light[y*side+b*wide] *= 0.68 // the gap between two boards
		}
	}
	return out
}

// drawCarpet is cut pile, 1.6 mm to the pixel.
func drawCarpet(side int) tones {
	r := chance(16)
	pile, heather := soft(side, r, 1, 1), soft(side, r, 6, 6)
	return grey(layer{pile, 0.1}, layer{heather, 0.03})
}
