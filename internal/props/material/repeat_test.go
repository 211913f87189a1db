package material

import (
	"image"
	"image/color"
	"math"
	"testing"

	"boothmock/internal/props/art"
)

// A photograph of stripes and a slope, wider than high: the tile is 7/8 of the square in its middle, has the stripes where they are, and
// across its seams the light changes no more than within it.
func TestRepeat(t *testing.T) {
	m := image.NewNRGBA(image.Rect(0, 0, 1200, 800))
	for x := range 1200 {
		for y := range 800 {
			v := uint8(100 + 50*math.Sin(float64(x)/20) + float64(y)/10)
			m.SetNRGBA(x, y, color.NRGBA{v, v / 2, 20, 255})
		}
	}
	tile, share := Repeat(art.Ready("cloth.jpg", "image/jpeg", nil, m))
	if math.Abs(share-700.0/1200) > 1e-12 || tile.Width != RepeatSide || tile.Height != RepeatSide {
		t.Fatalf("%d x %d pixels, %v of the width", tile.Width, tile.Height, share)
	}
	got := tile.Pixels()
	red := func(x, y int) int {
		return int(got.NRGBAAt((x+RepeatSide)%RepeatSide, (y+RepeatSide)%RepeatSide).R)
	}
	for _, way := range [][2]int{{1, 0}, {0, 1}} {
		step := func(x, y int) int { d := red(x, y) - red(x+way[0], y+way[1]); return max(d, -d) }
		most, seam := 0, 0
		for i := range RepeatSide - 1 {
			most = max(most, step(i*way[0]+200*way[1], i*way[1]+200*way[0]))
		}
		for k := range RepeatSide {
			x, y := way[0]*(RepeatSide-1)+k*way[1], way[1]*(RepeatSide-1)+k*way[0]
			seam = max(seam, step(x, y))
		}
		if seam > 2*most {
			t.Errorf("%v: across the seam the red changes by %d, elsewhere by %d at most", way, seam, most)
		}
	}
	for _, x := range []int{100, 250, 400, 500} { // past the fade the tile is the photograph
		at := 200 + float64(x)*700/RepeatSide
		if want := 100 + 50*math.Sin(at/20) + 300*700.0/RepeatSide/10; math.Abs(float64(red(x, 300))-want) > 4 {
			t.Errorf("at %d it is %d, want %.0f", x, red(x, 300), want)
		}
	}
	if small, _ := Repeat(art.Ready("a", "image/png", nil, image.NewNRGBA(image.Rect(0, 0, 30, 40)))); small.Width != 16 || small.Pixels().Rect.Dx() != 16 {
		t.Errorf("a small photograph makes %d pixels", small.Width)
	}
}
