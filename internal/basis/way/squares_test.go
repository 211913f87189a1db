package way

import (
	"math"
	"math/rand/v2"
	"testing"
)

// The second way to know: squares of 2 cm, marked where an obstacle is, distances from square to square (the exact
// transform of Felzenszwalb and Huttenlocher, Theory of Computing 8, 2012), and the best way grown square by square.
// It knows nothing of chains, and is right to about two squares.
func TestWidestAgreesWithSquares(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	blocked, tight := 0, 0
	for n := range 200 {
		shapes, from, to := layout(r)
		got := floor(shapes...).Widest(from, to).Width
		want := bySquares(shapes, from, to)
		if math.Abs(got-want) > 0.07 && !(got < 0.07 && want < 0.07) {
			t.Errorf("layout %d: %.3f m, by squares %.3f m", n, got, want)
		}
		if got == 0 {
			blocked++
		} else if got < 2*min(floor(shapes...).Clearance(from).Width, floor(shapes...).Clearance(to).Width) {
			tight++
		}
	}
	if blocked < 10 || tight < 30 {
		t.Errorf("the layouts test little: %d without a way, %d with a narrow place", blocked, tight)
	}
}

func bySquares(shapes []Shape, from, to Point) float64 {
	const n, step = 160, 0.02 // 3.2 m from -0.1 on
	place := func(i, j int) Point { return Point{-0.1 + step*float64(i), -0.1 + step*float64(j)} }
	dist := make([]float64, n*n)
	for k := range dist {
		dist[k] = 1e9
	}
	for _, s := range shapes {
		lo, hi := s[0], s[0]
		for _, p := range s {
			lo, hi = Point{min(lo.X, p.X), min(lo.Z, p.Z)}, Point{max(hi.X, p.X), max(hi.Z, p.Z)}
		}
		for j := range n {
			for i := range n {
				p := place(i, j)
				if p.X >= lo.X && p.X <= hi.X && p.Z >= lo.Z && p.Z <= hi.Z && byAngles(s, p) {
					dist[j*n+i] = 0
				}
			}
		}
		for k, a := range s { // edges, for shapes thinner than a square
			b := s[(k+1)%len(s)]
			for m := range 400 {
				q := a.lerp(b, float64(m)/399)
				i, j := int(math.Round((q.X+0.1)/step)), int(math.Round((q.Z+0.1)/step))
				if i >= 0 && i < n && j >= 0 && j < n {
					dist[j*n+i] = 0
				}
			}
		}
	}
	line := make([]float64, n)
	for pass := range 2 {
		for j := range n {
			for i := range n {
				if pass == 0 {
					line[i] = dist[j*n+i]
				} else {
					line[i] = dist[i*n+j]
				}
			}
			for i, d := range envelope(line) {
				if pass == 0 {
					dist[j*n+i] = d
				} else {
					dist[i*n+j] = d
				}
			}
		}
	}
	// Widest way first: buckets by squared distance are enough for a test, so a plain sorted list by threshold halving.
	start := func(p Point) int {
		return int(math.Round((p.Z+0.1)/step))*n + int(math.Round((p.X+0.1)/step))
	}
	lo, hi := 0.0, math.Sqrt(min(dist[start(from)], dist[start(to)]))
	reach := func(r float64) bool {
		seen := make([]bool, n*n)
		todo := []int{start(from)}
		for len(todo) > 0 {
			k := todo[len(todo)-1]
			todo = todo[:len(todo)-1]
			if seen[k] || dist[k] < r*r || dist[k] == 0 {
				continue
			}
			seen[k] = true
			for _, d := range [4]int{1, -1, n, -n} {
				if k+d >= 0 && k+d < n*n {
					todo = append(todo, k+d)
				}
			}
		}
		return seen[start(to)]
	}
	if reach(hi) {
		return 2 * hi * step
	}
	for range 12 {
		if mid := (lo + hi) / 2; reach(mid) {
			lo = mid
		} else {
			hi = mid
		}
	}
	return 2 * lo * step
}

// byAngles is point-in-polygon by the turning angle.
func byAngles(s Shape, p Point) bool {
	sum := 0.0
	for i, a := range s {
		a, b := a.sub(p), s[(i+1)%len(s)].sub(p)
		sum += math.Atan2(a.cross(b), a.dot(b))
	}
	return math.Abs(sum) > math.Pi
}

// envelope is the lower envelope of parabolas rooted at f.
func envelope(f []float64) []float64 {
	n := len(f)
	v, z, out := make([]int, n), make([]float64, n+1), make([]float64, n)
	k := 0
	z[0], z[1] = math.Inf(-1), math.Inf(1)
	for q := 1; q < n; q++ {
		meet := func() float64 {
			return ((f[q] + float64(q*q)) - (f[v[k]] + float64(v[k]*v[k]))) / float64(2*q-2*v[k])
		}
		s := meet()
		for s <= z[k] {
			k--
			s = meet()
		}
		k++
		v[k], z[k], z[k+1] = q, s, math.Inf(1)
	}
	k = 0
	for q := range n {
		for z[k+1] < float64(q) {
			k++
		}
		d := q - v[k]
		out[q] = float64(d*d) + f[v[k]]
	}
	return out
}
