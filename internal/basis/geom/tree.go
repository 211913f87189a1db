package geom

import (
	"cmp"
	"slices"
)

// Tree keeps boxes, with sides along the axes, so that those near something are found without looking at each. Several
// goroutines may ask it.
type Tree struct {
	nodes []node
	order []int // the boxes' numbers; each node has a stretch of them
}

// node bounds the boxes order[from:to]. Its two halves are the next node and the one at second; a leaf has none.
type node struct {
	lo, hi           Vec
	from, to, second int
}

// leafBoxes is how many boxes are looked at one by one.
const leafBoxes = 4

// NewTree makes a tree of n boxes; bounds gives the corners of each. It takes n log² n steps.
func NewTree(n int, bounds func(i int) (lo, hi Vec)) *Tree {
	t := &Tree{order: make([]int, n)}
	los, his, mids := make([]Vec, n), make([]Vec, n), make([]Vec, n)
	for i := range n {
		t.order[i] = i
		los[i], his[i] = bounds(i)
		mids[i] = los[i].Lerp(his[i], 0.5)
	}
	if n == 0 {
		return t
	}
	var grow func(from, to int)
	grow = func(from, to int) {
		own := t.order[from:to]
		at := len(t.nodes)
		n := node{lo: los[own[0]], hi: his[own[0]], from: from, to: to}
		mlo, mhi := mids[own[0]], mids[own[0]]
		for _, i := range own[1:] {
			n.lo, n.hi = least(n.lo, los[i]), greatest(n.hi, his[i])
			mlo, mhi = least(mlo, mids[i]), greatest(mhi, mids[i])
		}
		t.nodes = append(t.nodes, n)
		if to-from <= leafBoxes {
			return
		}
		along := func(v Vec) float64 { return v.X } // the longest way from middle to middle
		if d := mhi.Sub(mlo); d.Y > d.X && d.Y >= d.Z {
			along = func(v Vec) float64 { return v.Y }
		} else if d.Z > d.X {
			along = func(v Vec) float64 { return v.Z }
		}
		slices.SortStableFunc(own, func(i, j int) int { return cmp.Compare(along(mids[i]), along(mids[j])) })
		half := (from + to) / 2
		grow(from, half)
		t.nodes[at].second = len(t.nodes)
		grow(half, to)
	}
	grow(0, n)
	return t
}

// Each visits the number of every box for which near may be true. near is asked about boxes that hold others, and must
// be true for those if it is true for one of the others. A visited box need not be near itself.
func (t *Tree) Each(near func(lo, hi Vec) bool, visit func(i int)) {
	if len(t.nodes) > 0 {
		t.each(0, near, visit)
	}
}

func (t *Tree) each(at int, near func(lo, hi Vec) bool, visit func(i int)) {
	n := &t.nodes[at]
	switch {
	case !near(n.lo, n.hi):
	case n.second == 0:
		for _, i := range t.order[n.from:n.to] {
			visit(i)
		}
	default:
		t.each(at+1, near, visit)
		t.each(n.second, near, visit)
	}
}

func least(a, b Vec) Vec { return Vec{min(a.X, b.X), min(a.Y, b.Y), min(a.Z, b.Z)} }

func greatest(a, b Vec) Vec { return Vec{max(a.X, b.X), max(a.Y, b.Y), max(a.Z, b.Z)} }
