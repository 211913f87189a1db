package material

import (
	"bytes"
	"crypto/sha256"
	"image/jpeg"
	"math"
	"testing"

	"boothmock/internal/basis/colour"
)

var all = []*Tile{Grass, Gravel, Asphalt, Concrete, Boards, Carpet, Drape, Linen, Canopy, Wood}

// fresh is the tile drawn anew.
func fresh(t *Tile) *Tile {
	return &Tile{Name: t.Name, Metres: t.Metres, side: t.side, quality: t.quality, draw: t.draw}
}

// Across the edges a tile changes no more than it does between any other two rows and columns.
func TestTilesHaveNoSeam(t *testing.T) {
	for _, tile := range all {
		m := tile.Image().Pixels()
		side := m.Rect.Dx()
		at := func(x, y int) float64 { return float64(colour.Light(m.Pix[y%side*m.Stride+4*(x%side)+1])) }
		step := func(dx, dy int, line int) float64 { // mean square change from one row or column to the next
			sum := 0.0
			for i := range side {
				x, y := line, i
				if dy == 1 {
					x, y = i, line
				}
				d := at(x+dx, y+dy) - at(x, y)
				sum += d * d
			}
			return sum / float64(side)
		}
		for _, way := range [][2]int{{1, 0}, {0, 1}} {
			mean, most := 0.0, 0.0
			for line := range side - 1 {
				s := step(way[0], way[1], line)
				mean, most = mean+s/float64(side-1), max(most, s)
			}
			seam := step(way[0], way[1], side-1)
			if seam > 2*mean && seam > most {
				t.Errorf("%s: %v across the seam the light changes by %.2g, elsewhere by %.2g and at most %.2g", tile.Name, way, seam, mean, most)
			}
		}
	}
}

// A tile laid over a colour keeps that colour in its mean: to a level of the sRGB byte, except for what would have to be
// lighter than white.
func TestMeanColour(t *testing.T) {
	for _, tile := range all {
		m := tile.Mean()
		for _, c := range [][3]uint8{{0x74, 0x8a, 0x4e}, {0x8b, 0x8f, 0x94}, {0x2f, 0x3b, 0x36}, {200, 190, 180}} {
			over := tile.Over(c)
			for k := range c {
				if over[k] == 255 {
					continue
				}
				if got := 255 * colour.Signal(float64(colour.Light(over[k]))*m[k]); math.Abs(got-float64(c[k])) > 1 {
					t.Errorf("%s over %v looks like %.2f, channel %d", tile.Name, c, got, k)
				}
			}
		}
	}
	// White cloth can be no whiter than its tile: at most 2 % of the light is lost on a canopy and 6 % on a table cloth.
	for tile, least := range map[*Tile]float64{Canopy: 0.98, Drape: 0.94, Linen: 0.94} {
		if m := tile.Mean(); m[0] < least {
			t.Errorf("%s: white sends back %.3f of the light", tile.Name, m[0])
		}
	}
}

// Cloth is calmer than the eye's notice of an edge; nothing but gravel, grass and boards is anything but calm.
func TestTilesAreCalm(t *testing.T) {
	for tile, most := range map[*Tile]float64{Canopy: 0.015, Drape: 0.03, Linen: 0.035, Concrete: 0.06, Wood: 0.08, Carpet: 0.12, Boards: 0.15, Asphalt: 0.2, Grass: 0.3, Gravel: 0.35} {
		m, mean := tile.Image().Pixels(), tile.Mean()[1]
		sum := 0.0
		for i := 1; i < len(m.Pix); i += 4 {
			d := float64(colour.Light(m.Pix[i]))/mean - 1
			sum += d * d
		}
		if got := math.Sqrt(sum / float64(len(m.Pix)/4)); got > most || got < most/4 {
			t.Errorf("%s: light differs from its mean by %.3f of it, want up to %.3f", tile.Name, got, most)
		}
	}
}

// No tile repeats itself at a glance: seen in squares of an eighth of its width, none stands out.
func TestTilesAreEven(t *testing.T) {
	const n = 8
	for _, tile := range all {
		m, mean := tile.Image().Pixels(), tile.Mean()
		side := m.Rect.Dx()
		for i := range n * n {
			sum := 0.0
			for y := i / n * side / n; y < (i/n+1)*side/n; y++ {
				for x := i % n * side / n; x < (i%n+1)*side/n; x++ {
					sum += float64(colour.Light(m.Pix[y*m.Stride+4*x+1]))
				}
			}
			if off := sum*n*n/float64(side*side)/mean[1] - 1; math.Abs(off) > 0.05 && tile != Boards {
				t.Errorf("%s: square %d is %.1f %% lighter than the whole", tile.Name, i, 100*off)
			}
		}
	}
}

// The same bytes every time, small enough to be sent along, and a file that shows what the picture shows.
func TestFiles(t *testing.T) {
	for _, tile := range all {
		im := tile.Image()
		again := fresh(tile).Image()
		if sha256.Sum256(im.Encoded()) != sha256.Sum256(again.Encoded()) || !bytes.Equal(im.Pixels().Pix, again.Pixels().Pix) {
			t.Errorf("%s is not the same twice", tile.Name)
		}
		if len(im.Encoded()) > 60_000 || im.MIME != "image/jpeg" {
			t.Errorf("%s: %d bytes of %s", tile.Name, len(im.Encoded()), im.MIME)
		}
		back, err := jpeg.Decode(bytes.NewReader(im.Encoded()))
		if err != nil || back.Bounds() != im.Pixels().Rect || im.Width != im.Height || im.Width&(im.Width-1) != 0 || im.Width != back.Bounds().Dx() {
			t.Fatalf("%s: %v, %v", tile.Name, back.Bounds(), err)
		}
		sum, n := 0.0, 0
		for y := range im.Height {
			for x := range im.Width {
				_, g, _, _ := back.At(x, y).RGBA()
				sum, n = sum+float64(colour.Light(uint8(g>>8))), n+1
			}
		}
		if got := sum / float64(n); math.Abs(got/tile.Mean()[1]-1) > 0.02 {
			t.Errorf("%s: the file's mean light is %.4f, the picture's %.4f", tile.Name, got, tile.Mean()[1])
		}
	}
}

// The demo's tiles: what a run pays for them.
func BenchmarkTiles(b *testing.B) {
	for b.Loop() {
		for _, t := range []*Tile{Grass, Drape, Linen, Canopy, Wood} {
			fresh(t).Image()
		}
	}
}
