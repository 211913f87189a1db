package check

import (
	"slices"

	"boothmock/internal/basis/geom"
	"boothmock/internal/plan/booth"
)

// couple is two parts by their numbers, the later one of the plan second.
type couple struct{ a, b int }

// near visits the couples, of the parts that take part, whose bounds come nearer to each other than gap metres, in the order of
// the later ones; where gap is negative, those whose bounds reach farther than that into each other. The time grows with
// the parts and the couples, not with all the couples that there could be.
func (p *Pass) near(gap float64, takesPart func(*booth.Part) bool, visit func(couple)) {
	var parts []int
	var los, his []geom.Vec
	for i := range p.Plan.Parts {
		part := &p.Plan.Parts[i]
		if len(part.Solids) == 0 || !takesPart(part) {
			continue
		}
		lo, hi := geom.BoundsOf(part.Room())
		parts, los, his = append(parts, i), append(los, lo), append(his, hi)
	}
	tree := geom.NewTree(len(parts), func(k int) (lo, hi geom.Vec) { return los[k], his[k] })
	var with []int
	for k, b := range parts {
		meets := func(lo, hi geom.Vec) bool { return space(lo, hi, los[k], his[k]) < gap }
		with = with[:0]
		tree.Each(meets, func(j int) {
			if j < k && meets(los[j], his[j]) {
				with = append(with, parts[j])
			}
		})
		slices.Sort(with)
		for _, a := range with {
			visit(couple{a, b})
		}
	}
}

// space is the clear space between two boxes along the axis on which they have most, in metres; negative is how far they
// reach into each other.
func space(alo, ahi, blo, bhi geom.Vec) float64 {
	return max(blo.X-ahi.X, alo.X-bhi.X, blo.Y-ahi.Y, alo.Y-bhi.Y, blo.Z-ahi.Z, alo.Z-bhi.Z)
}
