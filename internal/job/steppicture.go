package job

import (
	"image"
	"math"
	"slices"

	"boothmock/internal/basis/geom"
	"boothmock/internal/find/order"
	"boothmock/internal/plan/booth"
	"boothmock/internal/view/light"
	"boothmock/internal/view/picture"
)

// Pictures of steps are small: there is one for each, and they are looked at side by side.
const stepWidth, stepHeight = 640, 360

// drawSteps draws the booth as it stands after each step of its set-up.
func (m *Mockup) drawSteps() []*image.NRGBA {
	l := newSite(m.Plan, m.Stage())
	steps := m.SetUp().Steps
	var stages []*picture.Stage
	var of []int // by step: which of the stages shows it
	for i, s := range steps {
		if i == 0 || !slices.Equal(s.Shows, steps[i-1].Shows) { // else nothing is seen of the step
			stages = append(stages, m.Stage().Standing(l.pieces(m.Plan, s)))
		}
		of = append(of, len(stages)-1)
	}
	drawn := picture.DrawEach(stages, setUpView(m.Plan), picture.Options{Width: stepWidth, Height: stepHeight})
	var out []*image.NRGBA
	for _, n := range of {
		out = append(out, drawn[n])
	}
	return out
}

// stepFiles are the pictures of the steps as JPEG.
func (m *Mockup) stepFiles(quality int) ([][]byte, error) {
	var out [][]byte
	steps := m.Steps()
	for i, img := range steps {
		if i > 0 && img == steps[i-1] {
			out = append(out, out[i-1])
			continue
		}
		file, err := asJPEG(img, quality)
		if err != nil {
			return nil, err
		}
		out = append(out, file)
	}
	return out, nil
}

// setUpView is from the far side of the aisle, a little to the left: the whole tent is seen, and the back wall below its
// valance.
func setUpView(p *booth.Plan) booth.View {
	w, d := p.Pitch.Width, p.Pitch.Depth
	const across = 62 * math.Pi / 180
	away := 1.75 * w / 2 / math.Tan(across/2) // metres before the front edge at which three quarters more than its width is seen
	return booth.View{Name: "set-up", Stand: geom.Vec{X: -0.22 * w, Z: away}, Height: 1.75, Look: geom.Vec{Y: 1.45, Z: -0.3 * d}, Across: across}
}

// standing is which parts stand after the step, by their numbers, and how much lower than in the end. What no step puts
// up is there from the beginning, or with what it hangs on; people are left out.
func standing(p *booth.Plan, s order.Step) map[int]float64 {
	built := map[booth.ID]bool{}
	for _, t := range p.SetUp.Tasks {
		for _, id := range t.Parts {
			built[id] = true
		}
	}
	stands := map[booth.ID]float64{}
	for _, v := range s.Shows {
		stands[v.Part] = v.Low
	}
	out := map[int]float64{}
	for i := range p.Parts {
		part := &p.Parts[i]
		if part.Beyond && !part.Flat { // those across the aisle stand before the eye
			continue
		}
		id := part.ID
		for !built[id] && id != "" {
			id = p.Part(id).Parent
		}
		if low, ok := stands[id]; ok || id == "" && !part.Moving {
			out[i] = low
		}
	}
	return out
}

// site is the booth in the light of four moments: while nothing stands, when the frame and walls stand, when cloth hangs there
// too, and finished. To light every step would take longer than all pictures together.
type site struct{ open, frame, shell, finished *picture.Stage }

func newSite(p *booth.Plan, finished *picture.Stage) site {
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
	}
}

// isShell is whether a part is of the tent, a wall to hang on, or a cloth of a side.
func isShell(p *booth.Plan, q booth.Part) bool {
	of := p.Part(q.Parent)
	return q.Shell || q.Tent != nil || q.Wall != nil || q.Cloth != nil && !q.Cloth.Rain || of != nil && of.Tent != nil
}

// near is how close, in metres, a thing is to another one whose light it changes in plain sight.
const near = 0.5

// pieces are the parts that stand after a step. A part of the shell, and the ground, is in the light of the finished
// booth as soon as nothing near it is still missing.
func (l site) pieces(p *booth.Plan, s order.Step) map[int]picture.Piece {
	stands := standing(p, s)
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

func bounds(part *booth.Part) (lo, hi geom.Vec) {
	var corners []geom.Vec
	for _, c := range part.Room() {
		corners = append(corners, c.Corners...)
	}
	return geom.Bounds(corners)
}
