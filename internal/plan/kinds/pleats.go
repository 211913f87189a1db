package kinds

import (
	"math"

	"boothmock/internal/basis/geom"
)

// sheetThick is how thick flat cloth is as a solid, in metres.
const sheetThick = 0.001

// pleats are the solids of cloth that hangs in folds: rows are its points in the frame, from the lowest row up, as many in each,
// each row level. Seen from above, cloth bulges to one side and then to the other. A piece of it that bulges to one side only
// is hidden just where the convex solid about it is: a line that comes in through the open side of a fold goes out through
// the cloth. Only over the upper edge and under the lower one can a steep line pass through a fold, or one end in it; so no
// piece is deeper than deepest metres.
func pleats(f geom.Frame, rows [][]geom.Vec, deepest float64) (out []geom.Convex) {
	n := len(rows[0])
	for from := 0; from < n-1; {
		to := from + 1
		for to+1 < n && bulges(rows, from, to+1, deepest) {
			to++
		}
		for low := 0; low < len(rows)-1; {
			high := low + 1
			for high+1 < len(rows) && straight(rows[low:high+2], from, to) {
				high++
			}
			out = append(out, geom.Prismatoid(f, rows[low][from:to+1], rows[high][from:to+1], sheetThick))
			low = high
		}
		from = to
	}
	return out
}

// bulges reports whether the points from one number up to another turn one way only, the same in all rows, are not too far
// from the line between their ends, and the solid from row to row stands out of the cloth nowhere: halfway it is as wide as the
// two rows are on average.
func bulges(rows [][]geom.Vec, from, to int, deepest float64) bool {
	const slack, out = 0.0002, 0.0005 // metres that a point may stand out on the other side, and the solid of the cloth
	way := 0.0
	for _, row := range rows {
		across := row[to].Sub(row[from])
		side := geom.Up.Cross(across).Unit()
		for i := from + 1; i < to; i++ {
			a, b := row[i].Sub(row[i-1]), row[i+1].Sub(row[i-1])
			off := (float64(a.X*b.Z) - float64(a.Z*b.X)) / b.Len()
			if math.Abs(a.Add(row[i-1]).Sub(row[from]).Dot(side)) > deepest {
				return false
			}
			if math.Abs(off) < slack {
				continue
			}
			if off*way < 0 {
				return false
			}
			way = off
		}
	}
	for k := range len(rows) - 1 {
		low, high := rows[k][from:to+1], rows[k+1][from:to+1]
		for _, row := range [2][]geom.Vec{low, high} {
			for i, v := range row[1:] {
				d := v.Sub(row[i])
				n := geom.Vec{X: d.Z, Z: -d.X}.Mul(math.Copysign(1, way)).Unit()
				l, h, both := math.Inf(-1), math.Inf(-1), math.Inf(-1)
				for j := range low {
					p, q := low[j].Dot(n), high[j].Dot(n)
					l, h, both = max(l, p), max(h, q), max(both, p+q)
				}
				if l+h-both > 2*out {
					return false
				}
			}
		}
	}
	return true
}

// straight reports whether cloth between two numbers of points runs straight from the lowest of some rows up to the highest.
func straight(rows [][]geom.Vec, from, to int) bool {
	const slack = 0.0005 // metres that a point between them may be off
	low, high := rows[0], rows[len(rows)-1]
	for _, row := range rows[1 : len(rows)-1] {
		t := (row[0].Y - low[0].Y) / (high[0].Y - low[0].Y)
		for i := from; i <= to; i++ {
			if row[i].Dist(low[i].Lerp(high[i], t)) > slack {
				return false
			}
		}
	}
	return true
}
