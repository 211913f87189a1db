package picture

import "boothmock/internal/basis/colour"

// texel is one place of an image in linear light: red, green and blue of 16 bits each, from the lowest on; 65535 is all light. So
// a texel is one look into memory, and two of its numbers are calculated with at once.
type texel uint64

// sixteen is the light of each byte of an sRGB picture.
var sixteen = func() (t [256]texel) {
	for b := range t {
		t[b] = texelNumber(colour.Light(uint8(b)))
	}
	return t
}()

func texelNumber(light float32) texel { return texel(light*65535 + 0.5) }

// texelOf is the texel of three bytes of an sRGB picture.
func texelOf(r, g, b uint8) texel { return sixteen[r] | sixteen[g]<<16 | sixteen[b]<<32 }

// lanes are the first and the third number of a texel, with room above each.
const lanes = 0xffff_0000_ffff

// meanOf is the mean of four texels, rounded.
func meanOf(p, q, r, s texel) texel {
	const half = 0x2_0000_0002
	odd := (p&lanes + q&lanes + r&lanes + s&lanes + half) >> 2 & lanes
	even := (p>>16&lanes + q>>16&lanes + r>>16&lanes + s>>16&lanes + half) >> 2 & lanes
	return odd | even<<16
}

const (
	places = 12
	unit   = 1 << places // a texel, in the whole numbers that places on a level are counted in
	centre = unit / 2    // of a texel
	whole  = 1 << 16     // the most that all shares of a blend may be together
)

// blend is a sum of shares of texels.
type blend struct{ redBlue, green texel }

// add takes in a share of the straight-line mix of four texels: one, the one right of it, and the two below them, at a place
// so many units right of the first one's centre and below it.
func (b *blend) add(p, q, r, s texel, right, below, share uint64) {
	wq, wr := share*right>>places, share*below>>places
	ws := wq * below >> places
	wq, wr = wq-ws, wr-ws
	wp := share - wq - wr - ws
	b.redBlue += p&lanes*texel(wp) + q&lanes*texel(wq) + r&lanes*texel(wr) + s&lanes*texel(ws)
	b.green += p>>16&lanes*texel(wp) + q>>16&lanes*texel(wq) + r>>16&lanes*texel(wr) + s>>16&lanes*texel(ws)
}

// light is the sum, of so many shares, in linear light from 0 to 1.
func (b *blend) light(shares uint64) rgb {
	part := 1 / (65535 * float32(shares))
	return rgb{float32(b.redBlue&0xffff_ffff) * part, float32(b.green) * part, float32(b.redBlue>>32) * part}
}
