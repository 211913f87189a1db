package job

import (
	"image"
	"math"
	"slices"

	"boothmock/internal/basis/geom"
	"boothmock/internal/find/order"
	"boothmock/internal/plan/booth"
	"boothmock/internal/view/drawing"
	"boothmock/internal/view/light"
	"boothmock/internal/view/picture"
)

// Pictures of steps are small: there is one for each, and they are looked at side by side.
const stepWidth, stepHeight = 640, 360

// drawSteps draws the steps of the three lists, as whoever does a step sees it: what it puts up, or takes away, and paler what else
// stands. A step of which there is nothing to see has nil.
func (m *Mockup) drawSteps(l site) map[order.Which][]*image.NRGBA {
	lists := m.Lists()
	var shots []shot
	for _, r := range lists {
		shots = append(shots, m.shots(l, r)...)
	}
	all, out := m.drawShots(shots), map[order.Which][]*image.NRGBA{}
	for _, r := range lists {
		n := len(r.Steps)
		out[r.Which], all = all[:n:n], all[n:]
	}
	return out
}

// shots are a list's. Taking down is setting up backwards: each picture is of what stands before the step.
func (m *Mockup) shots(l site, r order.Rehearsal) (out []shot) {
	before, stands := standing(m.Plan, r.Stands), r.Stands
	var laid []drawing.Thing // covers and closed sides, which stay
	for _, s := range r.Steps {
		if blank(r, s) {
			out = append(out, shot{})
			continue
		}
		after := standing(m.Plan, s.Shows)
		t := turn{Step: s, before: before, after: after, stands: s.Shows, laid: laid}
		if r.Which != order.SetUp {
			t.down, t.before, t.after, t.stands = true, after, before, stands
		}
		out = append(out, m.shoot(l, t))
		if s.Deed == booth.Closes { // it hides them
			laid = nil
		}
		laid = append(laid, lays(m.Plan, s)...)
		before, stands = after, s.Shows
	}
	return out
}

// blank is whether there is nothing to see of a step: nothing is put up or taken away, and the booth is neither still empty nor done.
func blank(r order.Rehearsal, s order.Step) bool {
	return len(s.Parts)+len(s.About)+len(s.Hooks) == 0 && s.Load == 0 && s.Deed == booth.Nothing && s.Place == "" && len(s.Shows) > 0 && s.Number < len(r.Steps)
}

// turn is a step in its list.
type turn struct {
	order.Step
	down          bool
	before, after map[int]float64 // what stands without, and with, what the step puts up or takes away
	stands        []order.Stand   // after
	laid          []drawing.Thing
}

func (m *Mockup) drawShots(shots []shot) []*image.NRGBA {
	out := make([]*image.NRGBA, len(shots))
	for i, s := range shots {
		if out[i] != nil || s.stage == nil {
			continue
		}
		var of []int // that are seen from the same place: a picture differs little from the one before
		var stages []*picture.Stage
		for k := i; k < len(shots); k++ {
			if shots[k].stage != nil && shots[k].view == s.view && shots[k].flat == s.flat {
				of, stages = append(of, k), append(stages, shots[k].stage)
			}
		}
		for n, img := range s.draw(stages) {
			out[of[n]] = img
		}
	}
	for i, s := range shots {
		if s.stage == nil {
			continue
		}
		at, eye := s.lens(m.Stage())
		if !s.whole {
			drawing.Fresh(out[i], at, s.fresh)
		}
		if s.leaves {
			drawing.Leaves(out[i], at, s.fresh, s.things)
		}
		for _, t := range s.things {
			t.Draw(out[i], at, eye)
		}
	}
	return out
}

var stepSize = picture.Options{Width: stepWidth, Height: stepHeight}

// stepFiles are the pictures of the steps as JPEG, for the page and for paper.
func (m *Mockup) stepFiles() (map[order.Which][][]byte, error) {
	out := map[order.Which][][]byte{}
	for which, pictures := range m.Steps() {
		for _, img := range pictures {
			var file []byte
			if img != nil {
				var err error
				if file, err = asJPEG(img, 66); err != nil {
					return nil, err
				}
			}
			out[which] = append(out[which], file)
		}
	}
	return out, nil
}

// shot is a picture of a step before it is drawn; without a stage, none.
type shot struct {
	view   booth.View // from where, unless
	flat   flat       // it is a drawing to scale
	stage  *picture.Stage
	fresh  []geom.Convex   // what the step puts up
	things []drawing.Thing // what it is done with
	whole  bool            // nothing is paler
	leaves bool            // it goes away
}

// flat is a piece of a wall seen square on, or of the ground from above, from back to front metres off.
type flat struct {
	frame             geom.Frame
	wide, back, front float64
}

func (f flat) scale() float64 { return stepWidth / f.wide }

// draw draws stages from where the shot is seen.
func (s shot) draw(stages []*picture.Stage) []*image.NRGBA {
	if f := s.flat; f.wide > 0 {
		return picture.DrawEachFlat(stages, f.frame, f.wide, f.wide*stepHeight/stepWidth, f.scale(), f.back, f.front, nil)
	}
	return picture.DrawEach(stages, s.view, stepSize)
}

// lens is where points fall on the picture, and from where it is seen.
func (s shot) lens(stage *picture.Stage) (drawing.Lens, geom.Vec) {
	if f := s.flat; f.wide > 0 {
		return func(v geom.Vec) (x, y float64, ok bool) {
			p := f.frame.Local(v)
			return p.X * f.scale(), stepHeight - p.Y*f.scale(), true
		}, f.frame.At(geom.Vec{X: f.wide / 2, Y: f.wide / 4, Z: 50})
	}
	return func(v geom.Vec) (x, y float64, ok bool) {
		x, y, _, ok = stage.Project(s.view, stepSize, v)
		return x, y, ok
	}, s.view.From(booth.Eye{})
}

// news is what a step puts up, takes away or is about: its solids, the tent among it that stands half open, and the table.
func (s turn) news(p *booth.Plan) (fresh []geom.Convex, tent, table *booth.Part) {
	for i := range p.Parts {
		part := &p.Parts[i]
		low, ok := s.after[i]
		if was, stood := s.before[i]; !ok || stood && was == low && !slices.Contains(s.About, part.ID) {
			continue
		}
		if part.Tent != nil && low > 0 {
			tent = part
		}
		if part.Top != nil && part.Parent == "" {
			table = part
		}
		for _, c := range part.Room() {
			fresh = append(fresh, geom.World.Moved(geom.Vec{Y: -low}).Solid(c))
		}
	}
	return fresh, tent, table
}

// shoot says how a step is shown.
func (m *Mockup) shoot(l site, s turn) shot {
	p := m.Plan
	pieces := l.pieces(p, s.after)
	fresh, tent, table := s.news(p)
	out := shot{view: setUpView(p), fresh: fresh}
	lasts := s.Deed == booth.Covers || s.Deed == booth.Closes
	out.leaves = s.down && !lasts && (len(fresh) > 0 || s.Load > 0 || s.Deed != booth.Nothing)
	if s.Load > 0 { // a box is lost on a wide pitch
		out.view = viewOf(p, min(p.Pitch.Width, 3.5))
	}
	at := p.Part(s.Place)
	if table == nil && at != nil && at.Top != nil && at.Wall == nil {
		table = at
	}
	switch wall := wallAt(p, s.Place); {
	case tent != nil: // it stands half open: its own parts are drawn only when it is
		for i := range s.after {
			if _, stood := s.before[i]; !stood {
				delete(pieces, i)
			}
		}
		out.fresh, out.things = nil, halfOpen(p, tent)
	case s.Deed == booth.Weighs && at != nil:
		out.view, out.things = legView(p, at), weights(p, at)
	case s.Deed == booth.Pockets:
		out.things = cashBox(p)
	case s.Deed == booth.Covers && wall == nil: // seen from afar, as there are several
	case s.Load > 0 && s.down:
		out.things = onTrolley(p, s.Load)
	case s.Load > 0:
		out.things = append(waiting(p, s.Load-1), onTrolley(p, s.Load)...)
	case wall != nil:
		out.flat, out.things = squareOn(wall), atWall(p, wall, s.Step)
	case table != nil:
		out.flat = fromAbove(table)
	case len(s.About) > 0 && s.Deed == booth.Nothing:
		for _, id := range s.About {
			lo, hi := bounds(p.Part(id))
			at := lo.Lerp(hi, 0.5)
			out.things = append(out.things, drawing.Thing{Ring: &at})
		}
	case len(out.fresh) == 0 && len(s.stands) == 0:
		out.things = marks(p, s.down)
	case len(out.fresh) > 0 && s.Deed == booth.Nothing:
		out.view = nearer(out.view, out.fresh)
	case len(out.fresh) == 0 && s.Deed == booth.Nothing:
		out.whole = true
	}
	if out.things = append(lays(p, s.Step), out.things...); out.flat.wide == 0 && s.Deed != booth.Closes {
		out.things = append(slices.Clone(s.laid), out.things...)
	}
	out.stage = m.Stage().Standing(pieces)
	return out
}

// wallAt is the wall of that ID, or that the cloth of that ID hangs before.
func wallAt(p *booth.Plan, id booth.ID) *booth.Part {
	for i := range p.Parts {
		if w := &p.Parts[i]; id != "" && w.Wall != nil && (w.ID == id || w.Wall.Cover == id) {
			return w
		}
	}
	return nil
}

// setUpView is from the far side of the aisle, a little to the left: the whole tent is seen with its feet, and the back wall below
// its valance.
func setUpView(p *booth.Plan) booth.View { return viewOf(p, p.Pitch.Width) }

// viewOf is the same of so much of the pitch's width only, where loads are set down.
func viewOf(p *booth.Plan, wide float64) booth.View {
	w, d := p.Pitch.Width, p.Pitch.Depth
	const across = 62 * math.Pi / 180
	away := 1.95 * wide / 2 / math.Tan(across/2) // metres before the front edge at which nearly twice its width is seen
	return booth.View{Name: "set-up", Stand: geom.Vec{X: -0.22 * w, Z: away}, Height: 1.75, Look: geom.Vec{X: -0.22 * (w - wide), Y: 1.35, Z: -0.3 * d}, Across: across}
}

// nearer is a view turned towards what is small in it, and so narrow that this fills some third of the height.
func nearer(v booth.View, fresh []geom.Convex) booth.View {
	lo, hi := geom.BoundsOf(fresh)
	const least = 0.8 // metres: of what is smaller, what is around it says where it is
	middle, size := lo.Lerp(hi, 0.5), max(hi.Sub(lo).Len(), least)
	across := 2 * math.Atan(1.5*size*stepWidth/stepHeight/middle.Dist(v.From(booth.Eye{})))
	if across < v.Across {
		v.Look, v.Across = middle, across
	}
	return v
}

// legView is near the tent's left front leg, as somebody sees it who fastens a weight to it.
func legView(p *booth.Plan, tent *booth.Part) booth.View {
	lo, hi := family(p, tent)
	return booth.View{Name: "leg", Stand: geom.Vec{X: lo.X - 1.1, Z: hi.Z + 2.2}, Height: 1.3, Look: geom.Vec{X: lo.X + 0.5, Y: 0.55, Z: hi.Z}, Across: 60 * math.Pi / 180}
}

// squareOn is a wall seen square on, with a little of what is beside and above it.
func squareOn(wall *booth.Part) flat {
	wide := max(wall.Wall.Width+0.7, (wall.Wall.Top+0.35)*stepWidth/stepHeight) // metres
	return flat{wall.Frame.Moved(geom.Vec{X: (wall.Wall.Width - wide) / 2, Y: -0.1}), wide, -0.3, 0.3}
}

// fromAbove is a table seen from above, with a step of ground around it.
func fromAbove(table *booth.Part) flat {
	lo, hi := bounds(table)
	wide := max(hi.X-lo.X+1.2, (hi.Z-lo.Z+0.8)*stepWidth/stepHeight) // metres
	corner := geom.Vec{X: (lo.X + hi.X - wide) / 2, Z: (lo.Z+hi.Z)/2 + wide/2*stepHeight/stepWidth}
	return flat{geom.Frame{Origin: corner, X: geom.Vec{X: 1}, Y: geom.Vec{Z: -1}, Z: geom.Vec{Y: 1}}, wide, -0.1, 1.9}
}

// standing is which parts stand, by their numbers, and how much lower than in the end. What no step puts up is there from
// the beginning, and what hangs on something that is gone is gone with it; people are left out.
func standing(p *booth.Plan, list []order.Stand) map[int]float64 {
	built := map[booth.ID]bool{}
	for _, t := range p.SetUp.Tasks {
		for _, id := range t.Parts {
			built[id] = true
		}
	}
	stands := map[booth.ID]float64{}
	for _, v := range list {
		stands[v.Part] = v.Low
	}
	out := map[int]float64{}
	for i := range p.Parts {
		part := &p.Parts[i]
		if part.Beyond && !part.Flat { // those across the aisle stand before the eye
			continue
		}
		low, ok, first := 0.0, true, true
		for q := part; q != nil && ok; q = p.Part(q.Parent) {
			if !built[q.ID] {
				continue
			}
			if lower, stand := stands[q.ID]; !stand {
				ok = false
			} else if first {
				low, first = lower, false
			}
		}
		if ok && !(first && part.Moving) {
			out[i] = low
		}
	}
	return out
}

// site is the booth in the light of four moments: while nothing stands, when the frame and walls stand, when cloth hangs there
// too, and finished; and in even light, for what has shadows on it of things that are still missing. To light every step would
// take longer than all pictures together.
type site struct{ open, frame, shell, finished, even *picture.Stage }

func newSite(p *booth.Plan, finished, even *picture.Stage) site {
	eye := setUpView(p).From(booth.Eye{})
	eyes := []geom.Vec{eye, eye.Add(geom.Vec{Y: 1})} // the second sees the roof as the first does before it is raised
	only := func(keep func(booth.Part) bool) *picture.Stage {
		q := *p // parts keep their numbers: those that are left out show nothing and shade nothing
		q.Parts = make([]booth.Part, len(p.Parts))
		for i, part := range p.Parts {
			if keep(part) {
				q.Parts[i] = part
			}
		}
		return picture.NewStage(&q, light.Rough(&q, eyes))
	}
	return site{
		open:     only(func(q booth.Part) bool { return q.Flat }),
		frame:    only(func(q booth.Part) bool { return q.Flat || isShell(p, q) && q.Cloth == nil }),
		shell:    only(func(q booth.Part) bool { return q.Flat || isShell(p, q) }),
		finished: finished,
		even:     even,
	}
}

// isShell is whether a part is of the tent, a wall to hang on, or a cloth of a side.
func isShell(p *booth.Plan, q booth.Part) bool {
	of := p.Part(q.Parent)
	return q.Shell || q.Tent != nil || q.Wall != nil || q.Cloth != nil && !q.Cloth.Rain || of != nil && of.Tent != nil
}

// near is how close, in metres, a thing is to another one whose light it changes in plain sight.
const near = 0.5

// pieces are the parts of what stands. A part of the shell, and the ground, is in the light of the finished
// booth as soon as nothing near it is still missing.
func (l site) pieces(p *booth.Plan, stands map[int]float64) map[int]picture.Piece {
	roofed := false
	var cloth, things []int // that are still missing
	for i := range p.Parts {
		low, ok := stands[i]
		part := &p.Parts[i]
		roofed = roofed || ok && low == 0 && isShell(p, *part)
		switch {
		case ok || len(part.Solids) == 0 || part.Moving:
		case !isShell(p, *part):
			things = append(things, i)
		case part.Cloth != nil:
			cloth = append(cloth, i)
		}
	}
	out := map[int]picture.Piece{}
	for i, low := range stands {
		part := &p.Parts[i]
		from := l.finished
		switch {
		case part.Flat && !roofed:
			from = l.open
		case !part.Flat && !isShell(p, *part):
			if slices.ContainsFunc(things, func(k int) bool { return p.Parts[k].Parent == part.ID }) {
				from = l.even
			}
		case part.Cloth == nil && anyNear(p, part, cloth):
			from = l.frame
		case anyNear(p, part, things):
			from = l.shell
		}
		out[i] = picture.Piece{From: from, Low: low}
	}
	return out
}

// anyNear is whether one of the other parts, by their numbers, is near the part; everything is near the ground.
func anyNear(p *booth.Plan, part *booth.Part, others []int) bool {
	lo, hi := bounds(part)
	for _, k := range others {
		a, b := bounds(&p.Parts[k])
		if part.Flat || a.X < hi.X+near && b.X > lo.X-near && a.Y < hi.Y+near && b.Y > lo.Y-near && a.Z < hi.Z+near && b.Z > lo.Z-near {
			return true
		}
	}
	return false
}

func bounds(part *booth.Part) (lo, hi geom.Vec) { return geom.BoundsOf(part.Room()) }
