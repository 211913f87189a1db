package kinds

import (
	"math"

	"boothmock/internal/basis/fault"
	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/glass"
	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/hook"
	"boothmock/internal/plan/rules"
	"boothmock/internal/plan/scene"
	"boothmock/internal/props/art"
	"boothmock/internal/props/stocklist"
)

// Work is an artwork: a canvas with depth, or framed.
type Work struct {
	Name    string       `yaml:"name" must:"yes" doc:"a short name of your own, used by rows"`
	Title   string       `yaml:"title" doc:"its title; the name if left out"`
	Image   string       `yaml:"image" doc:"a photograph of the work, in the scene's folder: JPEG, PNG, WebP, TIFF, HEIC or AVIF"`
	Model   string       `yaml:"model" doc:"of a sculpture: a .glb (glTF 2.0) in the scene's folder with its shape, upright and facing +Z; it is then drawn, and seen, from all sides, and its image is for lists and the page"`
	Corners []Corner     `yaml:"corners" such:"[120 95, 1830 140, 1795 1320, 150 1290]" each:"^ *[^ ]*[0-9][^ ]* +[^ ]*[0-9][^ ]* *$" count:"4" doc:"where the work's corners are in its photograph, which is then straightened: needed if the photograph shows more than the work, or at a slant. Four corners in this order: upper left, upper right, lower right, lower left. Each is two numbers with a blank between, pixels from the left and pixels from the top of the upright photograph, as a photo program shows them under the pointer"`
	Size    unit.Extent  `yaml:"size" range:"1in..20ft" doc:"height x width of the picture itself, as catalogues write it; of a work in parts that of each. Needed unless the sheet says it. With a third length, height x width x depth, it is a sculpture: it stands where on: says, on a pedestal, a table, a shelf or the ground, as round as the outline of its photograph, which is cut out where that is transparent"`
	Parts   []Piece      `yaml:"parts" most:"24" doc:"of a diptych or a series: its parts from left to right, such as [{image: left.jpg}, {image: right.jpg}]. They hang side by side, their middles level, or one above the other with stacked: yes, each by its own hooks, and are one work with one title, price and tag. A part has the work's size unless it says another; a part without a photograph is cut out of the work's own, which shows all of them as they hang"`
	Apart   *unit.Length `yaml:"apart" range:"0in..4ft" doc:"clear space between its parts; 2 in if left out; on chains it is wider where each part needs a chain of its own"`
	Stacked bool         `yaml:"stacked" doc:"yes: its parts hang one above the other, the first at the top"`
	Paper   unit.Size    `yaml:"paper" range:"1in..20ft" doc:"height x width of the sheet that it is printed on, if that is larger than the picture: its margin is seen, unless a mat hides it, and a frame goes around it"`
	Depth   unit.Length  `yaml:"depth" range:"1/16in..12in" doc:"how far a canvas stands out from the wall"`
	Medium  string       `yaml:"medium" doc:"oil on canvas, linocut, …"`
	Edition string       `yaml:"edition" doc:"such as 3/20"`
	Year    string       `yaml:"year" doc:"when it was made"`
	Weight  unit.Weight  `yaml:"weight" doc:"what it weighs, ready to hang"`
	Price   unit.Money   `yaml:"price" doc:"what it costs"`
	Value   unit.Money   `yaml:"value" doc:"what it is insured for, on the list for insurance and customs; its price if left out"`
	Link    string       `yaml:"link" doc:"address of its page, as a code on its wall label"`
	Status  string       `yaml:"status" oneof:"for sale|from|on hold|not for sale|on request|spare" doc:"what visitors are told instead of its price, or before it: from, where the price is the least that it can cost; a spare hangs nowhere and waits for a place, as does every work that no row, wall or table has"`
	Sold    bool         `yaml:"sold" doc:"yes: it is sold; where it hangs, its tag says so"`
	Edge    Colour       `yaml:"edge" doc:"colour of a canvas's sides"`
	Frame   *Frame       `yaml:"frame" doc:"a frame, with or without a mat"`
	Glazing string       `yaml:"glazing" oneof:"none glass acrylic low-reflection" doc:"what is before the picture in its frame; left out, nothing is said of reflections"`
	Wall    string       `yaml:"wall" doc:"the wall it hangs on, when no row places it"`
	Left    *unit.Length `yaml:"left" doc:"from the wall's left end to the work's left edge; the middle of the wall if left out"`
	Centre  *unit.Length `yaml:"centre" doc:"height of its middle; the house rule if left out"`
	Under   string       `yaml:"under" doc:"the work that it hangs under, middle below middle"`
	Gap     *unit.Length `yaml:"gap" doc:"clear space to the work above it"`
	Family  string       `yaml:"family" doc:"works of one family hang side by side when a better arrangement is sought"`
	Pinned  bool         `yaml:"pinned" doc:"yes: it keeps its row and its place in it when a better arrangement is sought"`
	Matters float64      `yaml:"matters" range:"0..100" doc:"how much it counts, beside the others, when a better arrangement is sought"`
	Fixing  `yaml:",squash"`
	Resting `yaml:",squash"`
	Turn    unit.Angle `yaml:"turn" range:"-360..360" doc:"how far it is turned, counterclockwise seen from above"`
	away    string     // why it is not to come, by the list
}

// UsualFrame is the width of a frame of which none is stated; common practice, no source.
const UsualFrame = 0.75 * unit.Inch

// Frame is the frame and mat of a work.
type Frame struct {
	Width  unit.Length `yaml:"width" range:"1/8in..12in" doc:"width of the frame's face; 3/4 in if left out, and then no list says how large it is with its frame"`
	Depth  unit.Length `yaml:"depth" range:"1/8in..8in" doc:"how far it stands out from the wall"`
	Colour Colour      `yaml:"colour" doc:"colour of the frame; nearly black if left out"`
	Mat    unit.Length `yaml:"mat" range:"0in..12in" doc:"width of the mat around the picture; 0 for none"`
	Card   Colour      `yaml:"mat colour" doc:"colour of the mat; nearly white if left out"`
	usual  bool        // no width is stated
}

var workKind = kind("works", "Artworks: canvases, or framed with a mat.", mostWorks,
	Work{Matters: 1, Depth: usualDepth, Edge: Colour{0xee, 0xeb, 0xe3}}, readWorks)

// WorkID is the ID of the work that a scene calls so.
func WorkID(name string) booth.ID { return id("work", name) }

// workEntry is a work on its way to its wall.
type workEntry struct {
	Work
	item   scene.Item
	image  *art.Image
	fixing booth.Fixing
	hung   *booth.Hung // set once its place on a wall is known

	pieces []*workEntry  // of a work in parts
	part   int           // of a part: which one, from 1
	whole  *booth.Listed // and of what
}

// outer is the height and width with frame and mat, in metres.
func (e *workEntry) outer() (h, w float64) {
	h, w = e.shown()
	if e.Frame != nil {
		b := 2 * (e.Frame.Width + e.Frame.Mat).M()
		h, w = h+b, w+b
	}
	return h, w
}

// thick is how far the work stands out from the wall, in metres.
func (e *workEntry) thick() float64 {
	if e.Size.C > 0 {
		return e.Size.C.M()
	}
	if e.Frame != nil {
		return e.Frame.Depth.M()
	}
	return e.Depth.M()
}

// readWorks reads the works and their images; rows then place them, and hangWorks makes their parts.
func readWorks(s *Site, entries []entry[Work]) {
	var wishes []art.Wish
	var at []func() fault.Place
	var with []*workEntry
	for _, en := range entries {
		it, e := en.item, &workEntry{Work: en.says, item: en.item}
		before := len(*s.file.Faults())
		if s.fromSheet(it, &e.Work); e.unsized() && len(*s.file.Faults()) == before && !s.unread["sheet"] {
			it.Fault("", "height x width of the picture itself, as catalogues write it", "size is missing")
		}
		if e.Title == "" {
			e.Title = e.Name
		}
		if e.Frame != nil {
			f := *e.Frame
			if f.Width == 0 {
				f.Width, f.usual = UsualFrame, true
			}
			if f.Depth == 0 {
				f.Depth = 0.75 * unit.Inch
			}
			if f.Colour == (Colour{}) {
				f.Colour = Colour{0x2b, 0x27, 0x24}
			}
			if f.Card == (Colour{}) {
				f.Card = Colour{0xf4, 0xf1, 0xe9}
			}
			e.Frame = &f
		} else if e.Glazing != "" && e.Glazing != string(glass.None) {
			it.Fault("glazing", "give it a frame: {} too, or leave this out", "%q has no frame that could hold %s", e.Name, e.Glazing)
		}
		if !harmless(e.Link) {
			if it.Has("link") {
				it.Fault("link", "begin it with https:, mailto: or tel:", "%s is no address that visitors should open", unit.Quote(e.Link))
			}
			e.Link = "" // of the list: no code is drawn
		}
		if before, ok := s.works[e.Name]; ok {
			it.Fault("name", "give each work its own name", "the name %q is taken already, at line %d", e.Name, before.item.At("name").Line)
			continue
		}
		s.sculpted(e)
		s.lay(e)
		s.divide(e)
		if e.pieces == nil {
			e.fixing = s.fixing(e)
		}
		s.works[e.Name] = e
		s.order = append(s.order, e)
		for _, p := range append([]*workEntry{e}, e.pieces...) {
			if n := len(p.Corners); n > 0 && (n != 4 || p.Image == "") {
				it.Fault(p.field("corners"), "give four, such as [120 95, 1830 140, 1795 1320, 150 1290], and the image", "%q has %d corners", e.Name, n)
				p.Corners = nil
			}
			if p.Image != "" {
				wishes, at, with = append(wishes, p.wish()), append(at, func() fault.Place { return it.At(p.field("image")) }), append(with, p)
			}
		}
	}
	ration(wishes, with)
	for i, img := range s.images(wishes, at) {
		with[i].image = img
	}
	for _, e := range s.order {
		s.picture(e)
	}
}

// workPixels is how many pixels the photographs of all works may have together, about: 256 MB while pictures are drawn.
const workPixels = 64_000_000

// ration lowers what is wanted of the photographs, of all alike, until together they have no more than workPixels: the more
// works, the smaller each is seen. It goes by steps, so that one work more seldom changes what was kept of the others.
func ration(wishes []art.Wish, of []*workEntry) {
	total := 0.0
	for i, w := range wishes {
		side := float64(min(w.Side, art.MaxSide))
		long, short := max(of[i].Size.A, of[i].Size.B).M(), min(of[i].Size.A, of[i].Size.B).M()
		if long > 0 {
			total += side * side * short / long
		}
	}
	share := 1.0
	for total*share*share > workPixels {
		share *= math.Sqrt2 / 2
	}
	for i := range wishes {
		if share < 1 {
			wishes[i].Side = max(1, int(share*float64(min(wishes[i].Side, art.MaxSide))))
		}
	}
}

// Wish is what is wanted of the photograph of a work so large: as many pixels as somebody sees who steps up to it.
func Wish(image string, size unit.Size) art.Wish {
	const near, least = 1600, 640 // pixels a metre; pixels
	return art.Wish{Name: image, Side: max(least, int(near*max(size.A.M(), size.B.M())))}
}

func (e *workEntry) wish() art.Wish {
	wish := Wish(e.Image, e.Size.Size)
	if len(e.Corners) == 4 {
		wish.Corners, wish.Shape = &art.Quad{}, e.Size.B.M()/e.Size.A.M()
		for i, c := range e.Corners {
			wish.Corners[i] = art.Spot(c)
		}
	}
	return wish
}

// hangWorks finds a place for the works that no row has placed, and makes the parts of all.
func (s *Site) hangWorks() {
	for _, e := range s.order {
		for _, other := range [2]struct{ field, says string }{{"under", e.Under}, {"on", e.On}} {
			switch {
			case other.says == "":
			case e.hung != nil:
				e.item.Fault(other.field, "take that away, or the name out of the row", "%q hangs in a row, and %s: says otherwise", e.Name, other.field)
			case e.Wall != "":
				e.item.Fault(other.field, "keep one of the two", "%q has a wall, and %s: says otherwise", e.Name, other.field)
			case other.field == "on" && e.Under != "":
				e.item.Fault(other.field, "keep one of the two", "%q hangs under %q, and on: says otherwise", e.Name, e.Under)
			}
		}
		if e.hung == nil && e.Wall != "" {
			s.hangByHand(e)
		}
	}
	for more := true; more; { // a work may hang under one that itself hangs under another
		more = false
		for _, e := range s.order {
			if above := s.works[e.Under]; e.hung == nil && above != nil && above.hung != nil {
				s.hangUnder(e, above)
				more = true
			}
		}
	}
	for _, e := range s.order {
		switch {
		case e.hung != nil:
			s.hungParts(e)
		case e.On != "" && e.Size.C > 0:
			s.stands(e)
		case e.On != "":
			h, w := e.outer()
			const lean = 12 * 3.14159265358979 / 180 // a table easel leans back about 12 degrees; common practice, no source
			f, parent, ok := s.rest(e.item, e.Resting, e.Turn, w, e.thick())
			if t := s.tops[e.On]; ok && t.wall && e.Turn == 0 {
				f = t.leaning(f, e.Resting, h, e.thick())
			} else {
				f = f.Tilted(lean)
			}
			if ok {
				s.workPart(e, f.Moved(geom.Vec{Y: h / 2}), parent)
			}
		case e.Under != "" && s.works[e.Under] == nil:
			s.unknown(e.item, "under", "work", e.Under, names(s.works), "works")
		case e.Under != "":
			e.item.Fault("under", "hang the upper one first", "%q hangs nowhere itself", e.Under)
		case e.Wall == "" && !s.unread["works "+e.Name]:
			s.Plan.Waiting = append(s.Plan.Waiting, booth.Waiting{ID: id("work", e.Name), At: e.item.At(""), Work: s.artwork(e)})
		}
		if e.Status == string(stocklist.Spare) && e.item.Has("status") && (e.hung != nil || e.On != "") {
			e.item.Fault("status", "take that away, or the name out of the row", "%q is a spare, and hangs", e.Name)
		}
	}
	for i := range s.Plan.Parts {
		if p := &s.Plan.Parts[i]; p.Wall != nil && p.Wall.Hold == booth.Rail {
			s.wire(p)
		}
	}
}

// wire gives a rail its wires, one for each hook that is below it.
func (s *Site) wire(rail *booth.Part) {
	const cord = 0.002 // metres: common practice, no source
	var wires []geom.Wires
	for _, e := range s.order {
		if e.hung == nil || e.hung.Wall != rail.ID {
			continue
		}
		for _, h := range e.hung.Hooks {
			if rail.Wall.Top-h.Y < cord {
				continue
			}
			at := geom.Vec{X: h.X, Y: h.Y, Z: -cord}
			wires = append(wires, geom.Wires{From: rail.Frame.At(at), Along: rail.Frame.Turn(geom.Vec{Y: rail.Wall.Top - h.Y}), Count: 1, Radius: cord / 2})
		}
	}
	screen(rail, wires, rail.Frame.Z)
}

func (s *Site) hangByHand(e *workEntry) {
	wall := s.wall(e.item, "wall", e.Wall)
	if wall == nil {
		return
	}
	left := (wall.Wall.Width - e.wide(wall.Wall)) / 2
	if e.Left != nil {
		left = e.Left.M()
	}
	centre := rules.HangingCentre.In(s.Plan.Rules)
	if e.Centre != nil {
		centre = e.Centre.M()
	}
	s.hang(e, wall, left, centre, booth.Hung{At: e.item.At("wall")})
}

// hangUnder hangs a work under where the upper one really hangs, which its hooks decide.
func (s *Site) hangUnder(e, above *workEntry) {
	gap := rules.Gap.In(s.Plan.Rules)
	if e.Gap != nil {
		gap = e.Gap.M()
	}
	h, _ := e.outer()
	u := above.hung
	wall := s.Plan.Part(u.Wall)
	s.hang(e, wall, (u.X0+u.X1-e.wide(wall.Wall))/2, u.Y0-gap-h/2, booth.Hung{Row: u.Row, Under: id("work", above.Name), At: e.item.At("under")})
}

// hang gives the work its place on the wall: its left edge should be so far from the wall's left end and its middle so
// high, in metres, and hooks hold it as near to that as they can.
func (s *Site) hang(e *workEntry, wall *booth.Part, left, centre float64, as booth.Hung) {
	if e.pieces != nil {
		s.hangPieces(e, wall, left, centre, as)
		return
	}
	h, w := e.outer()
	as.Wall, as.Depth = wall.ID, e.thick()
	as.X0, as.X1, as.Y0, as.Y1 = left, left+w, centre-h/2, centre+h/2
	hook.Hang(&as, wall.Wall, e.fixing, s.Plan.Hooks, rules.LevelSlack.In(s.Plan.Rules))
	e.hung = &as
}

// wall finds a wall by its name; an unknown one is a fault at the field.
func (s *Site) wall(it scene.Item, field, name string) *booth.Part {
	id, ok := s.walls[name]
	if !ok {
		s.unknown(it, field, "wall", name, names(s.walls), "walls")
		return nil
	}
	return s.Plan.Part(id)
}

// workPart makes the part of a work whose middle is at the frame's origin, with its back on the frame's plane.
func (s *Site) workPart(e *workEntry, f geom.Frame, parent booth.ID) {
	oh, ow := e.outer()
	h, w, deep := e.Size.A.M(), e.Size.B.M(), e.thick()
	p := booth.Part{ID: booth.PartID(id("work", e.Name), e.part), Parent: parent, Kind: "works", Name: e.Title, At: e.item.At(""), Frame: f}
	look := booth.Look{Colour: booth.Colour{0xe6, 0xe2, 0xd8}}
	if e.image != nil {
		look = booth.Look{Colour: booth.Colour{255, 255, 255}, Image: e.image}
	}
	box := func(x0, y0, z0, x1, y1, z1 float64) geom.Convex {
		return geom.Box(f, geom.Vec{X: x0, Y: y0, Z: z0}, geom.Vec{X: x1, Y: y1, Z: z1})
	}
	var face geom.Polygon
	if e.Frame == nil {
		canvas := box(-ow/2, -oh/2, 0, ow/2, oh/2, deep)
		face = geom.Rect(f.Moved(geom.Vec{Z: deep}), -w/2, -h/2, w/2, h/2)
		sides := geom.Mesh{}
		for i := 1; i < len(canvas.Faces); i++ { // face 0 is the picture
			sides.AddPolygon(canvas.Face(i))
		}
		p.Solids = []geom.Convex{canvas}
		p.Surfaces = []booth.Surface{{Mesh: geom.ImageRect(face), Look: look}, {Mesh: sides, Look: plainLook(booth.Colour(e.Edge))}}
		p.Surfaces = append(p.Surfaces, e.margin(f.Moved(geom.Vec{Z: deep}))...)
	} else {
		b := e.Frame.Width.M()
		recess := min(0.004, deep/2) // metres from the frame's front back to the picture
		z := deep - recess
		back := box(-ow/2+b, -oh/2+b, 0, ow/2-b, oh/2-b, z)
		bars := []geom.Convex{
			box(-ow/2, -oh/2, 0, ow/2, -oh/2+b, deep), box(-ow/2, oh/2-b, 0, ow/2, oh/2, deep),
			box(-ow/2, -oh/2+b, 0, -ow/2+b, oh/2-b, deep), box(ow/2-b, -oh/2+b, 0, ow/2, oh/2-b, deep),
		}
		inner := f.Moved(geom.Vec{Z: z})
		face = geom.Rect(inner, -w/2, -h/2, w/2, h/2)
		p.Solids = append([]geom.Convex{back}, bars...)
		p.Surfaces = []booth.Surface{{Mesh: geom.ImageRect(face), Look: look}, block(booth.Colour(e.Frame.Colour), bars...)}
		p.Surfaces = append(p.Surfaces, e.margin(inner)...)
		if m := e.Frame.Mat.M(); m > 0 {
			p.Surfaces = append(p.Surfaces, matted(inner, h, w, m, min(matThick, recess/2, m), booth.Colour(e.Frame.Card))...)
		}
		for i := range p.Surfaces {
			if i != 1 { // the bars of the frame
				p.Surfaces[i].Look.Glass = glass.Kind(e.Glazing)
			}
		}
	}
	work := s.artwork(e)
	work.Face = face
	p.Work = &work
	s.add(p)
}

// artwork is what is known of a work, wherever it is.
func (s *Site) artwork(e *workEntry) booth.Work {
	w := booth.Work{
		Title: e.Title, Medium: e.Medium, Edition: e.Edition, Year: e.Year, Height: e.Size.A.M(), Width: e.Size.B.M(), Depth: e.thick(), Weight: e.Weight, Price: e.Price,
		Value: e.Value, Link: e.Link, Sold: e.Sold, Away: e.away, Image: e.image, ImageAt: e.item.At(e.field("image")), Hung: e.hung, Fixing: e.fixing,
		Family: e.Family, Pinned: e.Pinned, Matters: e.Matters, Glazing: glass.Kind(e.Glazing), Part: e.part, Whole: e.whole, Sculpture: e.Size.C > 0, Sheet: e.Paper,
	}
	for _, p := range e.pieces {
		w.Each = append(w.Each, p.Size.Size)
	}
	switch s := stocklist.Status(e.Status); s {
	case stocklist.From, stocklist.OnHold, stocklist.NotForSale, stocklist.OnRequest:
		w.Status = e.Status
	}
	if e.Frame != nil {
		w.FramedHeight, w.FramedWidth = e.outer()
		w.FrameStated = !e.Frame.usual
	}
	return w
}

const matThick = 0.0014 // metres: mat board of four plies; common practice, no source

// matted is a mat m wide around a picture of height h and width w, thick metres before it, and the bevel of its window,
// cut at 45 degrees, which shows the board's white core. The picture's plane is the frame's.
func matted(f geom.Frame, h, w, m, thick float64, c booth.Colour) []booth.Surface {
	ring := func(x, y, z float64) [4]geom.Vec {
		return [4]geom.Vec{f.At(geom.Vec{X: -x, Y: -y, Z: z}), f.At(geom.Vec{X: x, Y: -y, Z: z}), f.At(geom.Vec{X: x, Y: y, Z: z}), f.At(geom.Vec{X: -x, Y: y, Z: z})}
	}
	window, cut, edge := ring(w/2, h/2, 0), ring(w/2+thick, h/2+thick, thick), ring(w/2+m, h/2+m, thick)
	var card, core geom.Mesh
	for i := range 4 {
		j := (i + 1) % 4
		if m > thick {
			card.AddPolygon(geom.Polygon{edge[i], edge[j], cut[j], cut[i]})
		}
		core.AddPolygon(geom.Polygon{cut[i], cut[j], window[j], window[i]})
	}
	return []booth.Surface{{Mesh: card, Look: plainLook(c)}, {Mesh: core, Look: plainLook(booth.Colour{0xfc, 0xfb, 0xf8})}}
}
