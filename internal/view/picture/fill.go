package picture

import (
	"cmp"
	"math"
	"math/bits"
	"runtime"
	"slices"
	"sync"
	"sync/atomic"
)

// tile is the side, in pixels, of the squares that the picture is drawn in: small enough to stay in a core's cache.
const tile = 64

// pattern is the places in a pixel at which a triangle is looked for, from its middle, in pixels. Their mean is the
// middle, and each is a multiple of 1/32, so that edge values stay exact.
type pattern struct {
	x, y []float64
	half float64 // the farthest that any is from the middle along x or y
	// texels is how many of them, at least, a pixel must be wide on an image for a smaller version of the image to be looked
	// at: with more, what is seen of it is exacter.
	texels float64
}

// fine is 16 places, one in every row and column of a 16 × 16 grid. The arrangement was found by search: among those it
// has the least error in the share of the pixel that a straight edge cuts off, over 48 directions and 29 distances.
var fine = func() (p pattern) {
	for column, row := range [...]float64{12, 5, 1, 9, 15, 6, 2, 10, 13, 4, 8, 0, 14, 7, 11, 3} {
		p.x = append(p.x, (float64(column)+0.5)/16-0.5)
		p.y = append(p.y, (row+0.5)/16-0.5)
	}
	p.half, p.texels = 15.0/32, 4
	return p
}()

// coarse is 4 places, one in every row and column of a 4 × 4 grid.
var coarse = pattern{
	x:      []float64{-0.125, 0.375, -0.375, 0.125},
	y:      []float64{-0.375, -0.125, 0.125, 0.375},
	half:   0.375,
	texels: 2,
}

// middle is the middle of the pixel alone. With it no pixel is ever mixed.
var middle = pattern{x: []float64{0}, y: []float64{0}}

// mixed marks a pixel whose samples see more than one triangle.
const mixed = math.MaxUint32

// slate is one goroutine's memory for one tile. A pixel that is all one triangle's is only its number in whole; of a mixed
// pixel, parts says which triangle which of its samples see.
type slate struct {
	*pattern
	whole [tile * tile]uint32
	parts [tile * tile][16]part
	near  []queued // the tile's triangles, the nearest first

	// floor is for each block of the tile a depth from which on all that is seen in it lies nearer. It was true when it was
	// calculated, and stays so, as what is seen only comes nearer; stale is where it may have become better since.
	floor [blocks * blocks]float64
	stale [blocks * blocks]bool

	// Of the triangle in hand: what a sample's place adds to each edge's value at the middle of the pixel, once reckon was
	// called; and the most that it can add or take.
	ready bool
	shift [4][16]float64
	sway  [4]float64
	won   bool // it has shown in a pixel

	filter filter // of the pixels in hand, if a texture covers what they show
	window window // if an image lies on it
}

// queued is a triangle and its depth where it is nearest.
type queued struct {
	triangle uint32
	depth    float64
}

// part is the samples of a pixel, a bit each, that see a triangle. Those of a mixed pixel are listed until all samples
// are.
type part struct{ triangle, samples uint32 }

// A tile is divided into blocks, of so many pixels a side, to pass over what is hidden.
const (
	block  = 8
	blocks = tile / block
)

// slates are the slates that no goroutine has in hand.
var slates = sync.Pool{New: func() any { return new(slate) }}

// paint calls do for tiles of the frame, by their numbers, with the triangles that show in them, over all cores.
func (f *frame) paint(numbers []int, do func(l *slate, x0, y0 int)) {
	var next atomic.Int64
	var wait sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), len(numbers)) {
		wait.Go(func() {
			l := slates.Get().(*slate)
			defer slates.Put(l)
			l.pattern = f.pattern
			for i := int(next.Add(1)) - 1; i < len(numbers); i = int(next.Add(1)) - 1 {
				x0, y0 := f.corner(numbers[i])
				clear(l.whole[:])
				clear(l.floor[:])
				clear(l.stale[:])
				l.near = l.near[:0]
				for _, n := range f.in(numbers[i]) {
					t := &f.triangles[n]
					l.near = append(l.near, queued{n, t.nearest(max(t.x0, x0), min(t.x1, x0+tile), max(t.y0, y0), min(t.y1, y0+tile))})
				}
				slices.SortFunc(l.near, func(a, b queued) int {
					return cmp.Or(cmp.Compare(b.depth, a.depth), cmp.Compare(a.triangle, b.triangle))
				})
				for _, a := range l.near {
					l.fill(f, a.triangle, x0, y0)
				}
				do(l, x0, y0)
			}
		})
	}
	wait.Wait()
}

// bin finds the triangles that may show in each tile.
func (f *frame) bin() {
	f.bins, f.list = binned(f.across*((f.height+tile-1)/tile), func(put func(tile, triangle int)) {
		for i := range f.triangles {
			t := &f.triangles[i]
			for y := t.y0 / tile; y*tile < t.y1; y++ {
				for x := t.x0 / tile; x*tile < t.x1; x++ {
					if t.touches(x*tile, y*tile) {
						put(y*f.across+x, i)
					}
				}
			}
		}
	})
}

// binned sorts numbers into count bins: those of bin k are list[bins[k]:bins[k+1]], in the order in which each puts them. each is
// called twice.
func binned(count int, each func(put func(bin, number int))) (bins, list []uint32) {
	bins = make([]uint32, count+1)
	each(func(k, _ int) { bins[k+1]++ })
	for k := range count {
		bins[k+1] += bins[k]
	}
	list = make([]uint32, bins[count])
	filled := slices.Clone(bins)
	each(func(k, i int) { list[filled[k]] = uint32(i); filled[k]++ })
	return bins, list
}

// all are the numbers of all tiles.
func (f *frame) all() []int {
	out := make([]int, len(f.bins)-1)
	for i := range out {
		out[i] = i
	}
	return out
}

// corner is the upper left pixel of a tile.
func (f *frame) corner(number int) (x, y int) {
	return number % f.across * tile, number / f.across * tile
}

// in are the triangles that may show in a tile, in their order.
func (f *frame) in(number int) []uint32 { return f.list[f.bins[number]:f.bins[number+1]] }

// flush is the share of a depth that is not told from it: what is within a fifth of a millimetre at ten metres.
const flush = 1 - 2e-5

// over is how much of its own depth triangle n, and how much of its depth triangle old, brings to their comparison. Of what
// lies flush the one that comes later in the plan is seen.
func over(n, old uint32) (mine, theirs float64) {
	if n > old {
		return 1, flush
	}
	return flush, 1
}

// touches is false where the tile at x, y is wholly outside of one of the triangle's edges.
func (t *triangle) touches(x, y int) bool {
	for i := range t.sides {
		e := float64(t.a[i]*float64(x)) + float64(t.b[i]*float64(y)) + t.c[i]
		if e+max(0, t.a[i]*tile)+max(0, t.b[i]*tile) < 0 {
			return false
		}
	}
	return true
}

// holds is whether a place on the screen is on the triangle, the same on any processor.
func (t *triangle) holds(x, y float64) bool {
	for i := range t.sides {
		if float64(t.a[i]*x)+float64(t.b[i]*y)+t.c[i] < 0 {
			return false
		}
	}
	return true
}

// fill draws triangle n into the tile whose upper left pixel is x0, y0.
func (l *slate) fill(f *frame, n uint32, x0, y0 int) {
	t := &f.triangles[n]
	l.ready = false
	left, right := max(t.x0, x0), min(t.x1, x0+tile)
	for i := range t.sides {
		l.sway[i] = (math.Abs(t.a[i]) + math.Abs(t.b[i])) * l.half
	}
	for y, last := max(t.y0, y0), min(t.y1, y0+tile); y < last; {
		end := min(y0+(y-y0)/block*block+block, last)
		if !l.hides(t, left, right, y, end, x0, y0) {
			l.won = false
			for ; y < end; y++ {
				l.row(f, t, n, left, right, y, x0, y0)
			}
			if !l.won {
				l.reckonFloor(f, left, right, end-1, x0, y0)
			}
		}
		y = end
	}
}

// hides is whether what is seen already lies before the triangle, in some pixels of a row of blocks.
func (l *slate) hides(t *triangle, left, right, top, bottom, x0, y0 int) bool {
	first := (top - y0) / block * blocks
	for from := left; from < right; {
		b := (from - x0) / block
		to := min(x0+(b+1)*block, right)
		if t.nearest(from, to, top, bottom) >= flush*l.floor[first+b] {
			return false
		}
		from = to
	}
	return true
}

// nearest is a depth that the triangle does not come before in a rectangle of pixels.
func (t *triangle) nearest(left, right, top, bottom int) float64 {
	most := math.Inf(-1)
	for i := range t.sides - 2 {
		d := &t.panes[i].depth
		most = max(most, d.c+max(d.x*float64(left), d.x*float64(right))+max(d.y*float64(top), d.y*float64(bottom)))
	}
	return min(t.top, most)
}

// reckonFloor reckons the floors of a row of blocks anew, where they may have become better.
func (l *slate) reckonFloor(f *frame, left, right, y, x0, y0 int) {
	row := (y - y0) / block
	for b := (left - x0) / block; b <= (right-1-x0)/block; b++ {
		if k := row*blocks + b; l.stale[k] {
			l.stale[k] = false
			l.floor[k] = l.deepest(f, b*block, row*block, x0, y0)
		}
	}
}

// deepest is a depth from which on all that is seen in the block from pixel x, y of the tile lies nearer.
func (l *slate) deepest(f *frame, x, y, x0, y0 int) float64 {
	least := math.Inf(1)
	for j := y; j < y+block; j++ {
		for i := x; i < x+block; i++ {
			px, py := float64(x0+i)+0.5, float64(y0+j)+0.5
			p := j*tile + i
			if n := l.whole[p]; n != mixed {
				least = min(least, f.triangles[n].deepest(px, py, l.half))
				continue
			}
			left := l.all()
			for k := 0; left != 0; k++ {
				q := l.parts[p][k]
				left &^= q.samples
				least = min(least, f.triangles[q.triangle].deepest(px, py, l.half))
			}
		}
		if least <= 0 {
			break
		}
	}
	return least
}

// deepest is the triangle's depth where it is farthest within a pixel.
func (t *triangle) deepest(px, py, half float64) float64 {
	d := &t.pane(px, py).depth
	return d.at(px, py) - d.sway(half)
}

func (l *slate) all() uint32 { return 1<<len(l.x) - 1 }

// row draws the pixels of a row.
func (l *slate) row(f *frame, t *triangle, n uint32, left, right, y, x0, y0 int) {
	py := float64(y) + 0.5
	var e [4]float64
	from, to := float64(left), float64(right) // pixels that may be touched
	inFrom, inTo := from, to                  // pixels that are wholly inside
	for i := range t.sides {
		e[i] = float64(t.b[i]*py) + t.c[i]
		most, least := e[i]+l.sway[i], e[i]-l.sway[i]+t.owns[i]
		switch a := t.a[i]; {
		case a > 0:
			if v := math.Floor(-most*t.per[i] - 0.5 - 1e-6); v > from {
				from = v
			}
			if v := math.Ceil(-least*t.per[i] - 0.5); v > inFrom {
				inFrom = v
			}
			if inFrom < inTo && float64(a*(inFrom+0.5))+least < 0 { // the product was rounded
				inFrom++
			}
		case a < 0:
			if v := math.Ceil(-most*t.per[i]-0.5+1e-6) + 1; v < to {
				to = v
			}
			if v := math.Floor(-least*t.per[i]-0.5) + 1; v < inTo {
				inTo = v
			}
			if inFrom < inTo && float64(a*(inTo-0.5))+least < 0 {
				inTo--
			}
		default:
			if most < 0 {
				to = from
			}
			if least < 0 {
				inTo = inFrom
			}
		}
	}
	if from >= to {
		return
	}
	if inFrom >= inTo {
		inFrom, inTo = to, to
	}
	first := (y-y0)*tile - x0
	for x := int(from); x < int(inFrom); x++ {
		l.edge(f, t, n, x, py, &e, first+x)
	}
	l.run(f, t, n, int(inFrom), int(inTo), py, first)
	for x := int(inTo); x < int(to); x++ {
		l.edge(f, t, n, x, py, &e, first+x)
	}
}

// run draws the pixels from one to before another, which the triangle covers wholly; pixel x is number row + x of the
// tile. It is put for the whole run, with what the pixels share calculated once.
func (l *slate) run(f *frame, t *triangle, n uint32, from, to int, py float64, row int) {
	all := l.all()
	var lead plane
	var sway float64
	var before, behind *pane // of which lead is
	for x := from; x < to; x++ {
		px := float64(x) + 0.5
		old := l.whole[row+x]
		if old == mixed {
			l.put(f, n, all, px, py, row+x)
			continue
		}
		if p, q := t.pane(px, py), f.triangles[old].pane(px, py); p != before || q != behind {
			before, behind = p, q
			lead = leads(n, old, p, q)
			sway = lead.sway(l.half)
		}
		if most := lead.at(px, py) + sway; most-2*sway >= 0 {
			l.take(row+x, n)
		} else if most >= 0 {
			l.put(f, n, all, px, py, row+x)
		}
	}
}

// take gives pixel p to triangle n, or lets it be mixed.
func (l *slate) take(p int, n uint32) {
	l.whole[p] = n
	l.won = true
	l.stale[p/(tile*block)*blocks+p%tile/block] = true
}

// edge draws a pixel that the triangle may cover in part.
func (l *slate) edge(f *frame, t *triangle, n uint32, x int, py float64, row *[4]float64, p int) {
	px := float64(x) + 0.5
	if old := l.whole[p]; old != mixed {
		lead := f.lead(n, old, px, py)
		if lead.at(px, py)+lead.sway(l.half) < 0 {
			return
		}
	}
	if !l.ready {
		l.reckon(t)
	}
	outside := uint32(0)
	for i := range t.sides {
		e := row[i] + float64(t.a[i]*px)
		if e+l.sway[i] < 0 {
			return
		}
		if e-l.sway[i]+t.owns[i] < 0 {
			signs := uint32(0) // the first sample's ends up lowest
			for s := len(l.x) - 1; s >= 0; s-- {
				signs = signs<<1 | uint32(math.Float64bits(e+l.shift[i][s&15])>>63)
			}
			outside |= signs
		}
	}
	if cover := l.all() &^ outside; cover != 0 {
		l.put(f, n, cover, px, py, p)
	}
}

// lead is by how much triangle n is before triangle old about a place on the screen.
func (f *frame) lead(n, old uint32, px, py float64) plane {
	return leads(n, old, f.triangles[n].pane(px, py), f.triangles[old].pane(px, py))
}

// leads is by how much a pane of triangle n is before one of triangle old: of two planes, a plane too.
func leads(n, old uint32, p, q *pane) plane {
	mine, theirs := over(n, old)
	return plane{mine*p.depth.x - theirs*q.depth.x, mine*p.depth.y - theirs*q.depth.y, mine*p.depth.c - theirs*q.depth.c}
}

// reckon prepares what depends on the triangle and the samples' places.
func (l *slate) reckon(t *triangle) {
	for s := range l.x {
		for i := range t.sides {
			l.shift[i][s] = float64(t.a[i]*l.x[s]) + float64(t.b[i]*l.y[s]) + t.owns[i]
		}
	}
	l.ready = true
}

// put draws the covered samples of pixel p, whose middle is at px, py on the screen.
func (l *slate) put(f *frame, n, cover uint32, px, py float64, p int) {
	parts := &l.parts[p]
	if old := l.whole[p]; old != mixed {
		parts[0] = part{old, l.all()}
	}
	won, kept := uint32(0), 0
	for left, i := l.all(), 0; left != 0; i++ {
		q := parts[i]
		left &^= q.samples
		if m := q.samples & cover; m != 0 {
			m = l.before(f, n, q.triangle, m, px, py)
			won |= m
			q.samples &^= m
		}
		if q.samples != 0 {
			parts[kept] = q
			kept++
		}
	}
	switch won {
	case 0:
	case l.all():
		l.take(p, n)
	default:
		parts[kept] = part{n, won}
		l.take(p, mixed)
	}
}

// before is at which of some samples of the pixel about px, py triangle n is seen before triangle old.
func (l *slate) before(f *frame, n, old, samples uint32, px, py float64) uint32 {
	lead := f.lead(n, old, px, py)
	middle, sway := lead.at(px, py), lead.sway(l.half)
	if middle-sway >= 0 {
		return samples
	}
	if middle+sway < 0 {
		return 0
	}
	for m := samples; m != 0; m &= m - 1 {
		if s := bits.TrailingZeros32(m); middle+lead.x*l.x[s]+lead.y*l.y[s] < 0 {
			samples &^= 1 << s
		}
	}
	return samples
}
