package main

import "math"

// noise is smooth value noise in -1..1 with features about one unit across.
func noise(seed int, x, y float64) float64 {
	fx, fy := math.Floor(x), math.Floor(y)
	ix, iy := int(fx), int(fy)
	tx, ty := x-fx, y-fy
	tx, ty = tx*tx*(3-2*tx), ty*ty*(3-2*ty)
	a := lerp(lattice(seed, ix, iy), lattice(seed, ix+1, iy), tx)
	b := lerp(lattice(seed, ix, iy+1), lattice(seed, ix+1, iy+1), tx)
	return lerp(a, b, ty)
}

// lattice is a fixed pseudo-random number in -1..1 for a grid point.
func lattice(seed, x, y int) float64 {
	h := uint32(x)*0x8da6b343 ^ uint32(y)*0xd8163841 ^ uint32(seed)*0xcb1ab31f
	h = (h ^ h>>15) * 0x2c1b3c6d
	h = (h ^ h>>12) * 0x297a2d39
	h ^= h >> 15
	return float64(h)/float64(math.MaxUint32)*2 - 1
}

// fbm sums octaves of noise, each half the size and half the strength of the one before.
func fbm(seed int, x, y float64, octaves int) float64 {
	sum, amp, total := 0.0, 1.0, 0.0
	for i := range octaves {
		sum += amp * noise(seed+i*17, x, y)
		total += amp
		amp *= 0.5
		x, y = x*2.03, y*2.03
	}
	return sum / total
}
