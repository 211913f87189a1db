// Package film makes the short film of a visitor who walks up the aisle, turns and steps into the booth.
//
// It is written twice. Animated WebP has all colours, no dither, and a quarter of the size: it is for messages and browsers. The
// animated GIF is what every mail program has shown for decades, and the only one that some show at all. MP4 has no encoder with
// a clean licence that runs within a program in Go alone (looked for in November 2026).
package film

import (
	"image"
	"runtime"
	"sync"
	"sync/atomic"

	"boothmock/internal/plan/booth"
	"boothmock/internal/view/picture"
)

// What a phone shows across its width without scaling up, and what a mail carries.
const width, height = 640, 360

// Shoot draws the pictures of the film, without other people: the visitor would walk through them. brighter is how all looks to
// an eye at a view that has got used to the light there; see picture.Options.
func Shoot(s *picture.Stage, walk []booth.View, brighter func(booth.View) [3]float32) []*image.NRGBA {
	out := make([]*image.NRGBA, len(walk))
	each(len(walk), func(i int) {
		out[i] = s.Draw(walk[i], picture.Options{Width: width, Height: height, Quick: true, Alone: true, Brighter: brighter(walk[i])})
	})
	return out
}

// each runs do for 0 to n-1 over all cores.
func each(n int, do func(i int)) {
	var next atomic.Int64
	var wait sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		wait.Go(func() {
			for i := int(next.Add(1)) - 1; i < n; i = int(next.Add(1)) - 1 {
				do(i)
			}
		})
	}
	wait.Wait()
}
