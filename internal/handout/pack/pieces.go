package pack

import (
	"fmt"
	"math"
	"slices"

	"boothmock/internal/basis/unit"
	"boothmock/internal/basis/way"
	"boothmock/internal/find/hang"
	"boothmock/internal/plan/booth"
)

// piece is a thing that stands on the ground by itself, with its place on the pitch: metres from the left and the front edge.
type piece struct {
	name             string
	left, right      float64
	front, back      float64
	long, deep, high float64   // its own, along its own axes
	turned           float64   // degrees from how it would stand facing the front
	outline          way.Shape // as it stands on the ground, without its gaps
}

// pieces are what a carpenter or somebody who helps needs the places of: tables, bins, pedestals, panels, tents' legs left out.
func pieces(p *booth.Plan) (out []piece) {
	for i := range p.Parts {
		part := &p.Parts[i]
		if part.Parent != "" || part.Moving || part.Beyond || part.Flat || part.Sheet || part.Tent != nil || part.Cloth != nil || part.Work != nil || len(part.Room()) == 0 {
			continue
		}
		if part.Wall != nil && part.Wall.Hold != booth.Panel {
			continue // mesh and chains hang from the tent
		}
		q := piece{name: part.Name, left: math.Inf(1), right: math.Inf(-1), front: math.Inf(1), back: math.Inf(-1)}
		lo, hi := [3]float64{1e9, 1e9, 1e9}, [3]float64{-1e9, -1e9, -1e9}
		for _, c := range part.Room() {
			if foot := way.Footprint(c, 0, 10); len(foot) > 2 {
				q.outline = append(q.outline, foot...)
			}
			for _, v := range c.Corners {
				x, z := v.X+p.Pitch.Width/2, -v.Z
				q.left, q.right, q.front, q.back = min(q.left, x), max(q.right, x), min(q.front, z), max(q.back, z)
				own := part.Frame.Local(v)
				for k, m := range [3]float64{own.X, v.Y, own.Z} {
					lo[k], hi[k] = min(lo[k], m), max(hi[k], m)
				}
			}
		}
		if lo[1] > 0.05 { // it hangs
			continue
		}
		q.long, q.high, q.deep = hi[0]-lo[0], hi[1], hi[2]-lo[2]
		q.outline = way.Hull(q.outline)
		q.turned = math.Atan2(part.Frame.Z.X, part.Frame.Z.Z) * 180 / math.Pi
		out = append(out, q)
	}
	return out
}

// scales that a plan is drawn at, the largest first.
var scales = []float64{10, 20, 25, 50, 100, 200}

// ground draws the pieces on the pitch to a named scale, with a chain of measures to the left and one to the front edge, and
// lists each with its own sizes and its place.
func (d *paper) ground(Sheets) {
	all := pieces(d.plan)
	d.page("P", "Pieces and their places")
	d.say("Pieces and their places", "B", title, 0)
	const chains, foot = 22.0, 10.0 // mm for the chains, and for what stands below
	w, deep := d.plan.Pitch.Width, d.plan.Pitch.Depth
	scale := scales[len(scales)-1]
	for _, s := range scales {
		if w*1000/s <= d.wide-2*margin-chains && deep*1000/s <= (d.high-d.y-margin)*0.8-chains-foot {
			scale = s
			break
		}
	}
	mm := 1000 / scale
	d.say(fmt.Sprintf("%s. Scale 1:%.0f: print at full size, and check one measure. The front edge is below; places are clear distances from the left and the front edge of the pitch, which is %s wide and %s deep.",
		d.plan.Title(), scale, d.measure(w), d.measure(deep)), "", body, 0)
	d.y += apart
	x0, y0 := margin+chains, d.y
	at := func(x, z float64) (float64, float64) { return x0 + x*mm, y0 + (deep-z)*mm }
	d.pdf.SetLineWidth(bold)
	d.pdf.Rect(x0, y0, w*mm, deep*mm, "D")
	d.pdf.SetLineWidth(plain)
	var xs, zs []float64
	for i, q := range all {
		for k, from := range q.outline {
			to := q.outline[(k+1)%len(q.outline)]
			ax, ay := at(from.X+w/2, -from.Z)
			bx, by := at(to.X+w/2, -to.Z)
			d.pdf.Line(ax, ay, bx, by)
		}
		cx, cy := at((q.left+q.right)/2, (q.front+q.back)/2)
		d.letters("B", body)
		d.put(cx-1.5, cy+1.3, fmt.Sprint(i+1))
		xs, zs = append(xs, q.left, q.right), append(zs, q.front, q.back)
	}
	d.y = y0 + deep*mm
	d.chain(xs, w, func(v float64) (float64, float64) { x, _ := at(v, 0); return x, d.y + 3 }, false)
	d.chain(zs, deep, func(v float64) (float64, float64) { _, y := at(0, v); return x0 - 3, y }, true)
	d.y += chains
	d.table(d.placed(all))
}

// chain draws the distances from one edge of the pitch to the other between the edges of pieces; where there is no room for a
// number it goes further out, and distances of less than a finger's width are part of the next.
func (d *paper) chain(edges []float64, whole float64, at func(v float64) (x, y float64), upright bool) {
	const finger = 0.02 // metres
	all := []float64{0, whole}
	for _, e := range edges {
		if e > finger && e < whole-finger {
			all = append(all, e)
		}
	}
	slices.Sort(all)
	all = slices.CompactFunc(all, func(a, b float64) bool { return math.Abs(a-b) < finger })
	all[len(all)-1] = whole
	d.letters("", caption)
	level := 0
	for i, v := range all {
		x, y := at(v)
		d.pdf.Line(x-1, y+1, x+1, y-1)
		if i == 0 {
			continue
		}
		px, py := at(all[i-1])
		d.pdf.Line(px, py, x, y)
		text := d.measure(v - all[i-1])
		wide := d.pdf.GetStringWidth(text)
		level = (level + 1) % 3
		if long := math.Hypot(x-px, y-py); long > wide+2 {
			level = 0
		}
		if out := 4 + 4*float64(level); upright {
			mx, my := x-out+3, (y+py)/2+wide/2
			d.pdf.TransformBegin()
			d.pdf.TransformRotate(90, mx, my)
			d.pdf.Text(mx, my, text)
			d.pdf.TransformEnd()
		} else {
			d.put((x+px)/2-wide/2, y+out, text)
		}
	}
}

// placed is the pieces as a table.
func (d *paper) placed(all []piece) hang.Table {
	t := hang.Table{
		Head: []string{"", "piece", "long x deep x high", "from the left edge", "from the front edge", "turned"}, Wide: []float64{5, 28, 30, 18, 18, 9},
	}
	for i, q := range all {
		turned := ""
		if math.Abs(q.turned) > 0.5 {
			turned = unit.Degrees(q.turned).Format()
		}
		t.Rows = append(t.Rows, []string{
			fmt.Sprint(i + 1), unit.Capital(q.name), d.measure(q.long) + " x " + d.measure(q.deep) + " x " + d.measure(q.high), d.measure(q.left), d.measure(q.front), turned,
		})
	}
	return t
}

// measure is a length as the scene has it.
func (d *paper) measure(m float64) string { return d.plan.Measure(m) }
