package light

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"boothmock/internal/basis/colour"
	"boothmock/internal/basis/geom"
)

// Light meets the room that cloth takes, without its folds and of one brightness all over, where the checks ask the cloth as it
// is drawn. What that changes is measured against light past the folds, which follow the drawn mesh to 2 mm, where somebody
// sees it: 2.4 of 255 levels on pictures, on average, of which 2.0 are there as well past flat strips as narrow as the folds,
// and so come from a drape's one brightness; more on the sides of works and on other things beside a drape.
func TestLightWithoutFolds(t *testing.T) {
	p, err := plan("demo.yaml")
	if err != nil {
		t.Fatal(err)
	}
	folded := *p
	folded.Parts = slices.Clone(p.Parts)
	for i := range folded.Parts {
		if part := &folded.Parts[i]; part.Blocks != nil && (part.Cloth != nil || part.Top != nil) {
			for _, c := range part.Solids { // each a part of its own, or they would be made one block again
				fold := *part
				fold.ID, fold.Solids, fold.Blocks = "fold", []geom.Convex{c}, nil
				folded.Parts = append(folded.Parts, fold)
			}
			part.Solids, part.Blocks = nil, nil
		}
	}
	coarse, fine := newRoom(p, eyes(p), nothing), newRoom(&folded, eyes(p), nothing)
	coarse.settle()
	fine.settle()
	expose := expose(coarse, p)
	if len(fine.solids) < 5*len(coarse.solids) {
		t.Fatalf("%d solids with folds, %d without: that is no test", len(fine.solids), len(coarse.solids))
	}
	a, b := newGatherer(coarse), newGatherer(fine)
	random := rand.New(rand.NewPCG(51, 52))
	off := map[string][]float64{}
	for i := range p.Parts {
		part := &p.Parts[i]
		if part.SeeThrough || part.Moving {
			continue
		}
		kind, skip, curve := "other things", -1, ofOther
		switch {
		case part.Work != nil:
			kind, skip, curve = "works", i, ofWorks
		case part.Flat:
			kind = "ground"
		case part.Blocks != nil:
			kind = "cloth"
		}
		for _, s := range part.Surfaces {
			for range 40 * (1 + 9*len(s.Mesh.Triangles)/1000) {
				f := s.Mesh.Triangles[random.IntN(len(s.Mesh.Triangles))]
				u, v := math.Sqrt(random.Float64()), random.Float64()
				x, y, z := s.Mesh.Vertices[f[0]], s.Mesh.Vertices[f[1]], s.Mesh.Vertices[f[2]]
				at := x.P.Mul(1 - u).Add(y.P.Mul(u * (1 - v))).Add(z.P.Mul(u * v))
				n := geom.Polygon{x.P, y.P, z.P}.Normal()
				if math.Abs(at.X) > p.Pitch.Width/2 || at.Z > 1.5 || at.Z < -p.Pitch.Depth || n.Dot(x.N) < 0.5 {
					continue
				}
				l, okl := level(coarse, a, expose, at, n, i, skip, curve)
				m, okm := level(fine, b, expose, at, n, i, skip, curve)
				if okl && okm && b.seen(at.Add(n.Mul(0.001)), n) {
					of := kind
					if part.Work != nil && n.Dot(part.Work.Face.Normal()) > 0.99 {
						of = "pictures"
					}
					off[of] = append(off[of], math.Abs(l-m))
				}
			}
		}
	}
	for _, c := range []struct {
		kind string
		most float64 // at nine places of ten, as measured and a little more
	}{{"pictures", 7}, {"ground", 12}, {"other things", 25}, {"works", 45}, {"cloth", 20}} {
		d := off[c.kind]
		slices.Sort(d)
		sum := 0.0
		for _, v := range d {
			sum += v
		}
		n := len(d)
		if n < 10 {
			t.Fatalf("%s: only %d places", c.kind, n)
		}
		t.Logf("%-12s %4d places: mean %.2f, 90 %% %.2f, 95 %% %.2f, all %.2f of 255", c.kind, n, sum/float64(n), d[n*9/10], d[n*95/100], d[n-1])
		if d[n*9/10] > c.most {
			t.Errorf("light on %s is off by %.2f of 255 at one place in ten of %d", c.kind, d[n*9/10], n)
		}
	}
}

// level is the light at a place of part number i as the picture of a white thing has it, from 0 to 255.
func level(r *room, g *gatherer, t tone, at, n geom.Vec, i, skip int, c *curve) (float64, bool) {
	q, ok := r.free(at, n, i)
	l := t.on(c).of(g.light(q, n, skip))
	return 255 * colour.Signal(min(1, l[1])), ok
}
