package try

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"math"
	"path/filepath"
	"slices"
	"strings"

	"boothmock/internal/basis/unit"
	"boothmock/internal/basis/way"
	"boothmock/internal/find/check"
	"boothmock/internal/find/hang"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/finding"
	"boothmock/internal/plan/rules"
	"boothmock/internal/props/art"
)

// What an arrow key moves a thing by, in metres: the finest that a tape is read to at a fair; common practice, no source.
var steps = map[unit.System]float64{unit.Inches: 0.0254 / 8, unit.Centimetres: 0.005}

// newState is the state of the booth as it is, after another.
func (s *Session) newState(before *State) *State {
	p, report, sheet := s.booth.Plan, s.booth.Report(), s.booth.Sheet()
	st := &State{
		Title: s.heading(), Event: p.Event, Artist: p.Artist, File: s.shop.Path, Units: p.Units.String(), Step: steps[p.Units],
		Verdict: report.Verdict, Line: report.Line, report: report.Findings, Mended: []Found{}, Findings: []Found{},
		Hanging: rules.HangingCentre.In(p.Rules), Walls: []Wall{}, Works: []Work{}, Rows: []Row{},
	}
	st.found(before)
	for i := range p.Parts {
		if w := p.Parts[i].Wall; w != nil {
			st.Walls = append(st.Walls, Wall{ID: p.Parts[i].ID, Name: p.Parts[i].Name, Wide: w.Width, Low: w.Bottom, High: w.Top, Hold: string(w.Hold), Spacing: w.Spacing,
				Origin: thousandths([2]float64{p.Parts[i].Frame.Origin.X, p.Parts[i].Frame.Origin.Z}), Along: [2]float64{p.Parts[i].Frame.X.X, p.Parts[i].Frame.X.Z}})
		}
	}
	seen := s.seen()
	hung := map[booth.ID]hang.Work{}
	for _, w := range sheet.Walls {
		for _, k := range w.Works {
			id, _ := s.whole(k.ID)
			if first, ok := hung[id]; ok {
				first.Hooks = slices.Concat(first.Hooks, k.Hooks)
				k = first
			}
			hung[id] = k
		}
	}
	for _, w := range s.index.works {
		st.Works = append(st.Works, s.work(w, hung, seen, before))
	}
	for _, r := range p.Rows {
		st.Rows = append(st.Rows, Row{Number: r.Number, Wall: r.Wall, Works: r.Works, Centre: milli(r.Centre), Typed: fields(s.scene.Items("rows")[r.Number], rowOf)})
	}
	st.Ground, st.Goods = s.ground(), s.goods()
	st.sums(s, seen, before)
	s.note(st)
	return st
}

// heading is what the booth is called: after its fair and artist, else as its folder is.
func (s *Session) heading() string {
	p := s.booth.Plan
	if path, err := filepath.Abs(s.shop.Path); err == nil && s.shop.Path != "" && p.Event+p.Artist == "" {
		return unit.Capital(filepath.Base(filepath.Dir(path)))
	}
	return p.Title()
}

// note brings a state to what is true of its file and its past.
func (s *Session) note(st *State) {
	st.At, st.Variants, st.Saved, st.Trouble, st.Asks = s.at, s.variants, bytes.Equal(s.past.text, s.saved), s.trouble, ""
	st.Proposals, st.Loose = s.proposalsNow(), s.looseNow()
	st.Undo, st.Redo, st.History = "", "", nil
	if s.past.here > 0 {
		st.Undo = s.past.words(s.past.here)
	}
	if s.past.here+1 < s.past.len() {
		st.Redo = s.past.words(s.past.here + 1)
	}
	const most = 50 // lines of history: as many as anybody reads; undo goes further
	for i := max(0, s.past.here-most+1); i < min(s.past.len(), s.past.here+most); i++ {
		st.History = append(st.History, Past{i, unit.Capital(s.past.words(i)), i == s.past.here})
	}
	switch {
	case s.theirs != nil:
		st.Asks = "theirs"
	case s.rescued != nil:
		st.Asks = "rescued"
	}
}

// noted is the state again, after something that did not change the booth.
func (s *Session) noted() {
	s.at++
	st := *s.state
	s.note(&st)
	s.state = &st
	s.tell()
}

// found tells what was found, which of it is new since another state, and what of that is mended.
func (st *State) found(before *State) {
	was := finding.KnownOf(st.report)
	if before != nil {
		was = finding.KnownOf(before.report)
		st.Mended = told(finding.Beyond(before.report, st.report))
	}
	for _, f := range st.report {
		one := foundOf(f)
		one.New = !was.Take(f)
		st.Findings = append(st.Findings, one)
	}
}

// seen is the share of every work that the usual visitor sees from the first view.
func (s *Session) seen() map[booth.ID]float64 {
	p := s.booth.Plan
	out := map[booth.ID]float64{}
	if len(p.Views) == 0 || len(p.Eyes) == 0 {
		return out
	}
	for _, l := range s.booth.Checks().Sightlines {
		if l.From == p.Views[0].Name && l.Eye == p.Eyes[0].Name {
			id, parts := s.whole(l.Work)
			if l.Turned <= 0 {
				l.Visible = 0
			}
			out[id] += l.Visible / float64(parts)
		}
	}
	return out
}

// whole is the work that a part belongs to, and how many parts it has.
func (s *Session) whole(id booth.ID) (booth.ID, int) {
	if w := s.booth.Plan.Part(id).Work; w.Whole != nil {
		return w.Whole.ID, len(w.Whole.Work.Each)
	}
	return id, 1
}

func (s *Session) work(w named, hung map[booth.ID]hang.Work, seen map[booth.ID]float64, before *State) Work {
	high, wide := s.outer(w)
	out := Work{
		ID: w.id, Title: s.title(w), Wide: milli(wide), High: milli(high), Row: -1, Waits: w.waits, Hooks: []Hook{}, Seen: -1, Was: -1,
		Typed: fields(w.item, s.workFields(w)), Where: "waits",
	}
	p, k := s.booth.Plan.Part(w.id), s.artwork(w)
	out.Size = k.Size(s.booth.Plan.Units)
	if k.Image != nil {
		out.Image = s.link(k.Image)
	}
	if k.FramedHeight > 0 {
		out.Border, out.Frame = milli((k.FramedHeight-k.Height)/2), "framed"
	}
	if p == nil {
		return out
	}
	if v, ok := seen[w.id]; ok {
		out.Seen, out.Was = v, v
		if before != nil {
			for _, b := range before.Works {
				if b.ID == w.id && b.Seen >= 0 {
					out.Was = b.Seen
				}
			}
		}
	}
	if k.Hung == nil {
		out.On = s.booth.Plan.Part(p.Parent).Name
		out.Where = "on " + out.On
		return out
	}
	out.Wall, out.Left, out.Centre = k.Hung.Wall, milli(k.Hung.X0), milli(k.Hung.Centre())
	out.Where = fmt.Sprintf("on %s, its middle %s up, %s from the left end", s.booth.Plan.Part(k.Hung.Wall).Name, s.length(k.Hung.Centre()), s.length(k.Hung.X0))
	if k.Hung.Under != "" {
		out.Under = s.booth.Plan.Part(k.Hung.Under).Work.Itself().Title
	} else {
		out.Row, out.Place = s.index.row(w.name)
	}
	var at []string
	for _, h := range hung[w.id].Hooks {
		out.Hooks = append(out.Hooks, Hook{milli(h.X), milli(h.Y)})
		at = append(at, s.length(h.X))
	}
	if len(at) > 0 {
		out.Hang = fmt.Sprintf("%s at %s from the left end, %s up", map[bool]string{true: "Hook", false: "Hooks"}[len(at) == 1], unit.List(at, "and"), s.length(hung[w.id].Hooks[0].Y))
	}
	if why := hung[w.id].Problem; why != "" {
		out.Hang = strings.TrimPrefix(out.Hang+". It "+why, ". ")
	}
	return out
}

// ground is the booth from above.
func (s *Session) ground() Ground {
	p, checks := s.booth.Plan, s.booth.Checks()
	g := Ground{Wide: p.Pitch.Width, Deep: p.Pitch.Depth, Aisle: p.Pitch.Aisle, Open: []string{}, Things: []Thing{}, Floor: s.floor(checks)}
	for side, open := range p.Pitch.Open {
		if open {
			g.Open = append(g.Open, booth.Side(side).String())
		}
	}
	for i := range p.Parts {
		if t, ok := s.thing(&p.Parts[i]); ok {
			g.Things = append(g.Things, t)
		}
	}
	return g
}

// floor is the way in of the booth, or of one that differs by where something stands.
func (s *Session) floor(checks check.Result) Floor {
	g := Floor{Way: [][2]float64{}, Words: checks.WayInWords(s.booth.Plan)}
	for _, q := range checks.Way {
		g.Way = append(g.Way, [2]float64{milli(q.X), milli(q.Z)})
	}
	if len(checks.Clearances) > 0 && checks.Clearances[0].Width != nil && len(checks.Clearances[0].At) == 2 {
		c := checks.Clearances[0]
		g.Narrow = &Narrow{From: thousandths(c.At[0]), To: thousandths(c.At[1]), Words: s.length(*c.Width)}
	}
	if c := checks.Circle; c != nil {
		g.Circle = &Circle{X: milli(c.Centre[0]), Z: milli(c.Centre[1]), R: milli(c.Diameter / 2), Words: s.length(c.Diameter)}
	}
	return g
}

// thing is a part as it is seen from above; ok is false for what is not drawn there.
func (s *Session) thing(p *booth.Part) (t Thing, ok bool) {
	const overhead = 2.0 // metres: what is higher hangs over the plan, and is not on it
	if p.Work != nil || p.Flat || p.Sheet || p.Kind == "tags" {
		return t, false
	}
	t = Thing{ID: p.ID, Name: p.Name, Kind: p.Kind, Outline: outline(p, overhead), X: milli(p.Frame.Origin.X), Z: milli(p.Frame.Origin.Z), Typed: []Typed{}}
	path, there := s.index.parts[p.ID]
	t.Goes = there && s.removes(path)
	switch {
	case !there:
	case p.Parent != "" && t.Goes:
		t.Turn, t.Typed, t.Where = s.turned(path), fields(s.scene.Entry(path), slices.Concat(onTop, sized[path[0].Key])), "on "+s.booth.Plan.Part(p.Parent).Name
	case p.Parent == "" && s.stands(path):
		t.Moves, t.Turn, t.Typed = true, s.turned(path), fields(s.scene.Entry(path), s.groundFields(path))
		t.Where = fmt.Sprintf("its middle %s from the front edge, %s %s of the middle", s.length(-t.Z), s.length(math.Abs(t.X)), map[bool]string{true: "left", false: "right"}[t.X < 0])
	}
	return t, len(t.Outline) > 0
}

// outline is the ground under a part, in as few pieces as show it: one around a thing that is moved or has many.
func outline(p *booth.Part, overhead float64) [][][2]float64 {
	const few = 12
	var points []way.Point
	var out [][][2]float64
	for _, c := range p.Room() {
		if f := way.Footprint(c, 0, overhead); f != nil {
			var one [][2]float64
			for _, q := range f {
				one = append(one, [2]float64{milli(q.X), milli(q.Z)})
				points = append(points, q)
			}
			out = append(out, one)
		}
	}
	if len(out) <= 1 || p.Cloth != nil && len(out) <= few || p.Tent != nil {
		return out
	}
	var around [][2]float64
	for _, q := range way.Hull(points) {
		around = append(around, [2]float64{milli(q.X), milli(q.Z)})
	}
	return [][][2]float64{around}
}

// sums are figures for the whole booth.
func (st *State) sums(s *Session, seen map[booth.ID]float64, before *State) {
	total, hooks, hanging := 0.0, 0, 0
	for _, w := range st.Works {
		if w.Wall != "" {
			hanging++
		}
		total += max(0, seen[w.ID])
		hooks += len(w.Hooks)
	}
	setUp := s.booth.SetUp()
	kg := 0.0
	for _, l := range setUp.Loads {
		kg += l.Weight
	}
	share := "–"
	if n := len(seen); n > 0 {
		share = unit.Share(total / float64(n)).Whole()
	}
	st.Sums = []Sum{
		{What: "Seen from the entrance, on average", Is: share},
		{What: "Works that hang", Is: fmt.Sprint(hanging)},
		{What: "Hooks", Is: fmt.Sprint(hooks)},
		{What: "Set-up", Is: unit.Minutes(setUp.Length).Format()},
		{What: "To carry", Is: unit.Weight(kg).Format(s.booth.Plan.Units)},
	}
	for i := range st.Sums {
		if before != nil {
			st.Sums[i].Was = before.Sums[i].Is
		}
	}
}

// link is the address of an image: it changes with the image.
func (s *Session) link(i *art.Image) string {
	if s.images[i.Content] == "" {
		h := sha256.Sum256(i.Encoded())
		s.images[i.Content] = "image/" + hex.EncodeToString(h[:12])
	}
	s.files[s.images[i.Content]] = i
	return s.images[i.Content]
}

// milli rounds to a tenth of a millimetre.
func milli(x float64) float64 { return math.Round(x*1e4)/1e4 + 0 }

func thousandths(p [2]float64) [2]float64 { return [2]float64{milli(p[0]), milli(p[1])} }
