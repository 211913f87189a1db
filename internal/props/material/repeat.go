package material

import (
	"image"

	"boothmock/internal/props/art"
)

// RepeatSide is how many pixels a tile of a photograph has along a side, if the photograph has as many.
const RepeatSide = 512

// Repeat is the middle of a photograph as a square tile without a seam, and the share of the photograph's width that it covers. Over an
// eighth of the square the one end fades into the other.
func Repeat(m *art.Image) (tile *art.Image, share float64) {
	square := min(m.Width, m.Height)
	fade := square / 8
	from := square - fade
	side := RepeatSide
	for side > from && side > 1 {
		side /= 2
	}
	tile = art.Drawn(m.Name+", as cloth", image.Pt(side, side), func(to *image.NRGBA) {
		photo := m.Pixels()
		corner := photo.Rect.Min.Add(image.Pt((m.Width-square)/2, (m.Height-square)/2))
		joined := image.NewNRGBA(image.Rect(0, 0, from, from))
		at := func(x, y, k int) int { return int(photo.Pix[photo.PixOffset(corner.X+x, corner.Y+y)+k]) }
		across := func(x, y, k int) int { // with its left and right ends joined
			if x >= fade {
				return at(x, y, k)
			}
			return (at(x, y, k)*x + at(x+from, y, k)*(fade-x)) / fade
		}
		for y := range from {
			for x := range from {
				for k := range 3 {
					v := across(x, y, k)
					if y < fade {
						v = (v*y + across(x, y+from, k)*(fade-y)) / fade
					}
					joined.Pix[joined.PixOffset(x, y)+k] = uint8(v)
				}
				joined.Pix[joined.PixOffset(x, y)+3] = 255
			}
		}
		copy(to.Pix, art.Shrink(joined, to.Rect.Size()).Pix)
	})
	return tile, float64(from) / float64(m.Width)
}
