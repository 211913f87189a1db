// Package crowd writes booths of as many works as wanted, to measure the program with: nobody hangs three thousand works,
// but somebody's list has so many.
package crowd

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// room is a pitch and how works hang in it; lengths in inches but for the pitch's, in feet.
type room struct {
	most          int // works that hang in it
	width, depth  int
	top           int // of what a hook holds on to
	high, wide    int // size of a work
	first, apart  int // height of the lowest row's middle, and from row to row
	tables, bins  int
	tentsAcross   int
	rowsOnOneWall int
}

// Pitches grow with the works: ten feet square up to thirty, forty by twenty feet for hundreds, forty feet square for thousands.
var rooms = []room{
	{most: 30, width: 10, depth: 10, top: 82, high: 14, wide: 11, first: 46, apart: 24, tables: 1, bins: 1, tentsAcross: 1, rowsOnOneWall: 2},
	{most: 300, width: 40, depth: 20, top: 144, high: 12, wide: 9, first: 30, apart: 20, tables: 6, bins: 8, tentsAcross: 4, rowsOnOneWall: 5},
	{most: 3000, width: 40, depth: 40, top: 190, high: 6, wide: 5, first: 12, apart: 9, tables: 20, bins: 40, tentsAcross: 4, rowsOnOneWall: 20},
}

// roomFor is the smallest of the pitches that n works hang in.
func roomFor(n int) room {
	for _, r := range rooms {
		if n <= r.most {
			return r
		}
	}
	return rooms[len(rooms)-1]
}

// Scene is the text of a scene with n works, up to 3000, with a picture each from the folder art, tags, tables with things
// on them, bins and visitors. Beyond thirty works its solids are more than two hundred.
func Scene(n int) string {
	r := roomFor(n)
	var b strings.Builder
	say := func(format string, args ...any) { fmt.Fprintf(&b, format+"\n", args...) }
	say("event: Lower Fennick Green Art Fair\nartist: Odile Marrowby\nunits: in")
	say("pitch: {width: %dft, depth: %dft, aisle: 12ft, ground: grass}", r.width, r.depth)
	say("tent: {eave: %d, peak: %d, roof: ridge, tents across: %d}", min(r.top+7, 192), r.top+60, r.tentsAcross)
	say("drapes: {walls: [left, back, right], cloth: \"#8b8f94\", top: %d}", min(r.top+2, 192))
	say("walls:\n  - {side: left, top: %d}\n  - {side: back, top: %d}\n  - {side: right, top: %d}", r.top, r.top, r.top)
	say("tags: {}\ntables:")
	for k := range r.tables {
		say("  - {name: table %d, size: 48 x 20, height: 30, cloth: linen, from left: %d, from front: %d, on top: [", k+1, 40+k%5*84, 60+k/5*96)
		for thing := range 5 {
			say("      {name: pile %d, size: 6 x 8 x 4, along: %d},", 5*k+thing+1, 2+9*thing)
		}
		say("    ]}")
	}
	say("bins:")
	for k := range r.bins {
		say("  - {name: bin %d, size: 20 x 16 x 33, prints: 20, from left: %d, from front: %d}", k+1, 44+k%10*40, 26+k/10*96)
	}
	say("works:")
	for k := range n {
		say("  - {name: w%d, title: Study %d, image: art/%d.jpg, size: %d x %d, weight: 3lb, price: 140}", k+1, k+1, k+1, r.high, r.wide)
	}
	say("rows:")
	sides := []string{"back", "left", "right"}
	long := map[string]int{"back": r.width, "left": r.depth, "right": r.depth}
	whole := (r.width + 2*r.depth) * r.rowsOnOneWall
	hung := 0
	for row := range r.rowsOnOneWall {
		for _, side := range sides {
			m := min((r.most*long[side]+whole-1)/whole, n-hung)
			if m == 0 {
				continue
			}
			var names []string
			for k := range m {
				names = append(names, fmt.Sprint("w", hung+k+1))
			}
			hung += m
			say("  - {wall: %s, centre: %d, works: [%s]}", side, r.first+row*r.apart, strings.Join(names, ", "))
		}
	}
	say("visitors: [{who: adult, from left: 50, from front: 20}]")
	return b.String()
}

// Sheet is a list of n works with sizes and prices, as CSV.
func Sheet(n int) string {
	var b strings.Builder
	b.WriteString("No,Title,Height (in),Width (in),Price,File\n")
	for k := range n {
		fmt.Fprintf(&b, "%d,Study %d,%d,%d,140,%d.jpg\n", k+1, k+1, 12+k%7, 9+k%5, k+1)
	}
	return b.String()
}

// Write writes a scene of n works with their pictures into dir and returns its path.
func Write(dir string, n int) (string, error) {
	if err := os.MkdirAll(filepath.Join(dir, "art"), 0o755); err != nil {
		return "", err
	}
	r := roomFor(n)
	var paintings [24][]byte
	for k := range min(n, len(paintings)) {
		var err error
		if paintings[k], err = paint(k, 640*r.wide/r.high, 640); err != nil {
			return "", err
		}
	}
	for k := range n { // what stands behind the end of a JPEG is not shown, but makes each file one of its own
		file := fmt.Appendf(slices.Clip(paintings[k%len(paintings)]), "%d", k)
		if err := os.WriteFile(filepath.Join(dir, "art", fmt.Sprint(k+1, ".jpg")), file, 0o644); err != nil {
			return "", err
		}
	}
	path := filepath.Join(dir, "booth.yaml")
	return path, os.WriteFile(path, []byte(Scene(n)), 0o644)
}

// paint is the k-th picture as a JPEG: no two are alike.
func paint(k, w, h int) ([]byte, error) {
	m := image.NewRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			noise := uint32(x+1) * 2654435761 * uint32(y+k+1) >> 29
			m.SetRGBA(x, y, color.RGBA{uint8(x*(k%7)/8 + 40), uint8(y*200/h + int(noise)*4), uint8(k * 37), 255})
		}
	}
	var b bytes.Buffer
	err := jpeg.Encode(&b, m, &jpeg.Options{Quality: 80})
	return b.Bytes(), err
}
