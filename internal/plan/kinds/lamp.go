package kinds

import (
	"fmt"
	"io"
	"math"

	"boothmock/internal/basis/fault"
	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/lamp"
	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/scene"
)

// Lamp is something that gives light.
type Lamp struct {
	Name    string       `yaml:"name" must:"yes" doc:"what it is called"`
	Clip    string       `yaml:"clip to" doc:"where it is clamped: a wall's name, for the wall's upper edge or the rail along it; or a bar of the tent: front bar, left bar, back bar or right bar"`
	Left    *unit.Length `yaml:"left" doc:"from the left end of that wall or bar as you face it from inside; before what it is aimed at if left out"`
	Arm     unit.Length  `yaml:"arm" range:"0in..6ft" doc:"how far it stands out from that wall or bar, into the booth"`
	Height  *unit.Length `yaml:"height" range:"1in..16ft" doc:"of its head: above the ground, or above the table that it stands on. Clamped, it is on top of the wall or under the bar if left out"`
	Aim     string       `yaml:"aim" doc:"the work that it is aimed at; or down"`
	AimAt   *Spot        `yaml:"aim at" doc:"the place that it is aimed at, if that is no work"`
	Lumens  *float64     `yaml:"lumens" range:"1..50000" doc:"the light that it gives, as its box says it"`
	Beam    unit.Angle   `yaml:"beam" range:"4..180" doc:"the beam angle that its box says"`
	File    string       `yaml:"file" doc:"the maker's file of its light, .ies (ANSI/IES LM-63), in the scene's folder: then lumens, beam and watts can be left out"`
	Watts   *float64     `yaml:"watts" range:"0.1..5000" doc:"what it draws"`
	Kelvin  float64      `yaml:"kelvin" range:"1700..20000" doc:"its colour temperature: 2700 is warm, 4000 neutral, 6500 as daylight"`
	Battery float64      `yaml:"watt hours" range:"0..20000" doc:"of the battery that feeds it alone; left out, it hangs on the mains"`
	Open    bool         `yaml:"outdoors" doc:"yes: its maker says that it may be used in the open, as IP44 or more does"`
	Colour  Colour       `yaml:"colour" doc:"colour of its head and arm"`
	Resting `yaml:",squash"`
	Placing `yaml:",squash"`
}

// Spot is a place in the pitch.
type Spot struct {
	Left   unit.Length `yaml:"from left" doc:"from the left edge of the pitch"`
	Front  unit.Length `yaml:"from front" doc:"from the front edge of the pitch"`
	Height unit.Length `yaml:"height" doc:"above the ground"`
}

// usualLamp: a lamp of 800 lm and 36 degrees, 3000 K, on an arm of 18 in is common practice, no source.
var usualLamp = Lamp{Beam: unit.Degrees(36), Kelvin: 3000, Arm: 18 * unit.Inch, Colour: Colour{0x26, 0x27, 0x29}}

const (
	usualLumens = 800.0
	usualStand  = 1.8   // metres: height of a lamp's head on a stand
	usualHead   = 0.04  // metres: radius of a lamp's opening
	headLong    = 0.11  // metres
	lampRod     = 0.008 // metres: radius of its arm or stand
	lampGrams   = 700
	clampGrip   = 0.02 // metres: half the size of its clamp
	lampSides   = 12
)

var lampKind = many("lamps", "Lamps: clamped to a wall, a rail or a bar of the tent, or standing on a table or the ground; aimed at a work, at a place or down.",
	usualLamp, buildLamps)

func buildLamps(s *Site, entries []entry[Lamp]) {
	for _, en := range entries {
		l := lampEntry{Lamp: en.says, Site: s, it: en.item}
		p := booth.Part{ID: id("lamp", l.Name), Kind: "lamps", Name: called(l.Name, "lamp"), At: l.it.At(""), Lamp: &booth.Lamp{
			Kelvin: l.Kelvin, Battery: l.Battery, Outdoor: l.Open, Toward: geom.Up.Neg(), Radius: usualHead,
		}}
		aim, ok := l.aim(p.Lamp)
		if !ok || !l.light(p.Lamp) {
			continue
		}
		from, foot, ok := l.stands(&p, aim)
		if !ok {
			continue
		}
		if aim != nil {
			p.Lamp.Toward = aim.Sub(from).Unit()
		}
		if p.Lamp.Toward == (geom.Vec{}) {
			l.it.Fault("aim at", "aim it at something else", "%s is aimed at the place where it is itself", p.Name)
			continue
		}
		l.shape(&p, from, foot)
		p.Bring = fmt.Sprintf("lamp %s with its lead", l.Name)
		if l.Battery > 0 {
			p.Bring = fmt.Sprintf("lamp %s with its battery, charged", l.Name)
		}
		s.add(p)
	}
}

// lampEntry is an entry of lamps on its way to its part.
type lampEntry struct {
	Lamp
	*Site
	it scene.Item
}

// aim is the point that the lamp is aimed at; nil: it points down.
func (l lampEntry) aim(of *booth.Lamp) (*geom.Vec, bool) {
	if l.Aim != "" && l.AimAt != nil {
		l.it.Fault("aim at", "keep one of the two", "both aim and aim at are given")
		return nil, false
	}
	of.Aimed = l.Aim != "" || l.AimAt != nil
	switch {
	case l.AimAt != nil:
		return &geom.Vec{X: l.AimAt.Left.M() - l.Plan.Pitch.Width/2, Y: l.AimAt.Height.M(), Z: -l.AimAt.Front.M()}, true
	case l.Aim == "" || l.Aim == "down":
		return nil, true
	}
	work := l.Plan.Part(id("work", l.Aim))
	switch {
	case work != nil:
		of.Aim = work.ID
		at := work.Work.Face.Centre()
		return &at, true
	case l.works[l.Aim] != nil:
		l.it.Fault("aim", "hang it first", "%q hangs nowhere", l.Aim)
	default:
		l.unknown(l.it, "aim", "work", l.Aim, names(l.works), "works")
	}
	return nil, false
}

// light is what the lamp gives: by its maker's file, or as a spot.
func (l lampEntry) light(of *booth.Lamp) bool {
	of.Beam = lamp.Spot(usualLumens, float64(l.Beam))
	if l.File != "" {
		if l.it.Has("beam") {
			l.it.Fault("beam", "keep one of the two", "the maker's file says how wide the beam is")
			return false
		}
		f, err := l.read()
		if err != nil {
			at := l.it.At("file")
			if e, ok := err.(fault.Fault); ok && e.At.Line > 0 {
				err = fault.Fault{Text: e.At.String() + ": " + e.Text, Hint: e.Hint}
			}
			l.refuse(at, err)
			return false
		}
		of.Beam, of.Watts = f.Beam, f.Watts
		if f.Radius > 0 {
			of.Radius = max(0.01, min(f.Radius, 0.25))
		}
	}
	if l.Lumens != nil {
		of.Beam = of.Beam.With(*l.Lumens)
	}
	if l.Watts != nil {
		of.Watts = *l.Watts
	}
	return true
}

// read reads the maker's file.
func (l lampEntry) read() (lamp.File, error) {
	clean, err := scene.Inside(l.File)
	if err != nil {
		return lamp.File{}, fault.Fault{Text: err.Error(), Hint: "keep the lamp's file in the scene's own folder, or below it"}
	}
	f, err := l.fsys.Open(clean)
	if err != nil {
		return lamp.File{}, fault.Fault{Text: fmt.Sprintf("there is no file %s that can be read", unit.Quote(l.File)), Hint: "keep it beside the scene"}
	}
	defer f.Close()
	text, err := io.ReadAll(io.LimitReader(f, lamp.MostBytes+1))
	if err != nil {
		return lamp.File{}, fault.Fault{Text: fmt.Sprintf("%s cannot be read", unit.Quote(l.File))}
	}
	return lamp.Read(clean, text)
}

// stands is where the lamp's head is and where its arm or stand begins, and says on the part what it stands on or hangs from.
func (l lampEntry) stands(p *booth.Part, aim *geom.Vec) (head, foot geom.Vec, ok bool) {
	if l.Clip != "" && l.On != "" {
		l.it.Fault("on", "keep one of the two", "%q is clamped, and on: says otherwise", l.Name)
		return head, foot, false
	}
	switch {
	case l.Clip != "":
		return l.clipped(p, aim)
	case l.On != "":
		f, parent, ok := l.rest(l.it, l.Resting, l.Turn, 2*lampFoot, 2*lampFoot)
		if !ok {
			return head, foot, false
		}
		p.Frame, p.Parent = f, parent
		up := 0.4
		if l.Height != nil {
			up = l.Height.M()
		}
		return f.At(geom.Vec{Y: max(up, headLong)}), f.Origin, true
	}
	for _, field := range []string{"left", "arm", "along", "back"} {
		if l.it.Has(field) {
			l.it.Fault(field, "say clip to: and a wall, on: and a table, or where on the ground it stands", "%q stands on the ground, and %q is of one that does not", l.Name, field)
			return head, foot, false
		}
	}
	p.Frame = l.stand(l.it, l.Placing, 2*standFoot, 2*standFoot)
	up := usualStand
	if l.Height != nil {
		up = l.Height.M()
	}
	return p.Frame.At(geom.Vec{Y: max(up, headLong)}), p.Frame.Origin, true
}

const (
	lampFoot  = 0.07 // metres: radius of a table lamp's foot
	standFoot = 0.16 // metres: the same of a lamp on the ground
)

// clipped is where a clamped lamp's head and clamp are.
func (l lampEntry) clipped(p *booth.Part, aim *geom.Vec) (head, clamp geom.Vec, ok bool) {
	var f geom.Frame
	var width, top, under float64
	if side, long, _, bar := l.bar(l.Clip); bar {
		if l.eave == 0 {
			l.it.Fault("clip to", "write the name of a wall", "without a tent there is no %s", l.Clip)
			return head, clamp, false
		}
		f, width, top, under = side, long, l.eave-barUnder, 0.03
		p.Parent = l.tent()
	} else {
		wall := l.wall(l.it, "clip to", l.Clip)
		if wall == nil {
			return head, clamp, false
		}
		f, width, top, under, p.Parent = wall.Frame, wall.Wall.Width, wall.Wall.Top, -clampGrip, wall.ID
		if c := l.Plan.Part(wall.Wall.Cover); c != nil && c.Cloth != nil { // over the cloth, and not through it
			top = max(top, c.Cloth.Top)
		}
	}
	x := width / 2
	switch {
	case l.Left != nil:
		x = l.Left.M()
	case aim != nil:
		x = max(0, min(width, f.Local(l.before(*aim, f)).X))
	}
	p.Clamped = true
	y := top - under
	if l.Height != nil {
		y = l.Height.M()
	}
	if x > width {
		l.it.Fault("left", "it is "+unit.Length(width).Format(l.file.Units)+" wide", "%q is clamped beyond the end of %s", l.Name, l.Clip)
		return head, clamp, false
	}
	p.Frame = f.Moved(geom.Vec{X: x, Y: y})
	return f.At(geom.Vec{X: x, Y: y, Z: max(l.Arm.M(), headLong/2)}), f.At(geom.Vec{X: x, Y: top - under}), true
}

// before is the point of a wall or a bar that a lamp is best clamped at: above what it is aimed at; where that hangs on another
// wall, as far before it as to its side, so that its light does not graze it.
func (l lampEntry) before(aim geom.Vec, f geom.Frame) geom.Vec {
	work := l.Plan.Part(id("work", l.Aim))
	if work == nil {
		return aim
	}
	out := work.Work.Face.Normal()
	if math.Abs(out.Dot(f.Z)) > math.Cos(45*deg) {
		return aim
	}
	aside := math.Abs(f.Local(aim).Z - max(l.Arm.M(), headLong/2)) // metres
	return aim.Add(geom.Vec{X: out.X, Z: out.Z}.Mul(aside))
}

// shape is the head, pointing as the lamp does, with its opening at from; and what holds it, from foot on.
func (l lampEntry) shape(p *booth.Part, from, foot geom.Vec) {
	d := p.Lamp.Toward
	side := geom.Vec{X: 1}
	if x := d.Cross(geom.Up); x.Len() > 1e-6 {
		side = x.Unit()
	}
	r := max(p.Lamp.Radius, 0.01)
	f := geom.Frame{Origin: from, X: side, Y: d.Neg(), Z: side.Cross(d.Neg())}
	head := geom.Drum(f, lampSides, 0, r, r, headLong, 0.8*r, 0.8*r)
	solids := []geom.Convex{head}
	var opening, rest geom.Mesh
	front := 0
	for i := range head.Faces {
		if head.Face(i).Normal().Dot(d) > head.Face(front).Normal().Dot(d) {
			front = i
		}
	}
	for i := range head.Faces {
		if i == front {
			opening.AddPolygon(head.Face(i))
		} else {
			rest.AddPolygon(head.Face(i))
		}
	}
	neck := from.Add(d.Mul(-headLong / 2))
	if neck.Dist(foot) > 0.02 {
		solids = append(solids, geom.Rod(foot, neck, lampRod, 6))
	}
	switch {
	case l.Clip != "":
		solids = append(solids, geom.Box(geom.Frame{Origin: foot, X: p.Frame.X, Y: p.Frame.Y, Z: p.Frame.Z}, geom.Vec{X: -clampGrip, Y: -clampGrip, Z: 0}, geom.Vec{X: clampGrip, Y: clampGrip, Z: 2 * clampGrip}))
	case l.On != "":
		solids = append(solids, geom.Drum(p.Frame, lampSides, 0, lampFoot, lampFoot, 0.015, lampFoot, lampFoot))
	default:
		solids = append(solids, geom.Drum(p.Frame, lampSides, 0, standFoot, standFoot, 0.015, standFoot, standFoot))
	}
	for _, c := range solids[1:] {
		rest.AddSolid(c)
	}
	p.Lamp.At, p.Lamp.Side = from, side
	p.Solids = solids
	p.Surfaces = []booth.Surface{
		{Mesh: opening, Look: booth.Look{Colour: booth.Colour{255, 255, 255}, Glows: true}},
		{Mesh: rest, Look: plainLook(booth.Colour(l.Colour))},
	}
}

// Cautions about lamps, which hold whatever the local rules and the makers say more.
const (
	hotLamp = "A lamp gets hot and falls: keep it as far from cloth, paper and works as its label says, and tie what hangs over people with a second line."
	leads   = "Leads lie along the edges, taped down or covered where anybody walks, with their plugs off the ground and dry; a lead on its reel is wound off. " +
		"Outdoors only lamps and leads that are made for it, behind a residual-current device. Ask the organiser; what is more than a plug in a socket is an electrician's."
)

// lampTask clamps and aims the lamps, when all else stands. One on a table stands there with what else is on it.
func (s *Site) lampTask() {
	var parts []booth.ID
	var cargo []booth.Cargo
	for i := range s.Plan.Parts {
		p := &s.Plan.Parts[i]
		if p.Lamp == nil || s.Plan.Part(p.Parent) != nil && s.Plan.Part(p.Parent).Wall == nil && s.Plan.Part(p.Parent).Tent == nil {
			continue
		}
		parts = append(parts, p.ID)
		cargo = append(cargo, booth.Cargo{What: p.Bring, Count: 1, Weight: grams(lampGrams), Assumed: true})
	}
	if len(parts) == 0 {
		return
	}
	const each = 4 // minutes to clamp, connect and aim one: common practice, no source
	minutes := unit.Minutes(each * len(parts))
	s.setUp(booth.Task{
		ID: "lamps", Name: "Clamp, connect and aim the lamps", At: s.Plan.Part(parts[0]).At, After: taskIDs(s.Plan.SetUp.Tasks), Crew: 1, Minutes: minutes, Parts: parts, Fetch: cargo,
		Check: "None shines into the eyes of whoever steps in; no lead lies where people walk.", Caution: hotLamp + " " + leads + " " + ladder,
	})
	s.strike(booth.Task{
		ID: "lamps", Name: "Unplug the lamps, let them cool and take them down", After: []booth.ID{"money"}, Crew: 1, Minutes: unit.Minutes(math.Ceil(float64(minutes) / 2)), Fetch: cargo, Caution: ladder,
	})
	s.night(booth.Task{ID: "lamps", Name: "Unplug the lamps", After: []booth.ID{"money"}, Crew: 1, Minutes: 2, About: parts})
}
