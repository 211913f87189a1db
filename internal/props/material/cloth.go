package material

import "math"

// Cloth and wood. A thread is too thin to see from two steps away: what is seen is how threads swell and thin out.
var (
	Drape  = &Tile{Name: "drape", Metres: 0.5, side: 256, quality: 75, draw: drawDrape}
	Linen  = &Tile{Name: "linen", Metres: 0.36, side: 256, quality: 70, draw: drawLinen}
	Canopy = &Tile{Name: "canopy cloth", Metres: 0.6, side: 256, quality: 75, draw: drawCanopy}
	Wood   = &Tile{Name: "wood", Metres: 0.6, side: 256, quality: 75, draw: drawWood}
)

// drawDrape is plain heavy cloth: warp down the tile, weft along it.
func drawDrape(side int) tones {
	r := chance(21)
	warp, weft, nap := soft(side, r, 0, 9), soft(side, r, 7, 0), soft(side, r, 3, 3)
	return grey(layer{warp, 0.016}, layer{weft, 0.011}, layer{nap, 0.011})
}

// drawLinen has thick and thin threads both ways.
func drawLinen(side int) tones {
	r := chance(22)
	warp, weft, slub := soft(side, r, 0, 8), soft(side, r, 8, 0), soft(side, r, 16, 1)
	return grey(layer{warp, 0.016}, layer{weft, 0.018}, layer{slub, 0.008})
}

// drawCanopy is thin coated cloth, nearly without a mark.
func drawCanopy(side int) tones {
	r := chance(23)
	warp, weft, cloud := soft(side, r, 0, 6), soft(side, r, 6, 0), soft(side, r, 8, 8)
	return grey(layer{warp, 0.006}, layer{weft, 0.006}, layer{cloud, 0.003})
}

// drawWood is straight-grained wood; the grain runs along the tile.
func drawWood(side int) tones {
	r := chance(24)
	fine, broad, sway := soft(side, r, 30, 0), soft(side, r, 60, 3), soft(side, r, 40, 12)
	rings := field{side, make([]float32, side*side)}
	for i := range rings.v {
		y := float64(i/side) / float64(side)
		rings.v[i] = float32(math.Sin(float64(2*math.Pi*14*y) + float64(1.6*float64(sway.v[i]))))
	}
	return grey(layer{fine, 0.04}, layer{broad, 0.04}, layer{rings, 0.035})
}
