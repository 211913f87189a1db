package kinds

import (
	"fmt"
	"slices"
	"strings"

	"boothmock/internal/basis/answer"
	"boothmock/internal/basis/fault"
	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/rules"
	"boothmock/internal/props/art"
	"boothmock/internal/props/lettering"
)

// Sign is a board with words, and a code if it has an address.
type Sign struct {
	Name    string       `yaml:"name" doc:"a short name of your own"`
	Text    []string     `yaml:"text" must:"yes" most:"40" doc:"its lines; the first is the heading"`
	Address string       `yaml:"address" doc:"what a phone opens from the square code; no code if left out"`
	Size    unit.Size    `yaml:"size" range:"1in..6ft" doc:"height x width"`
	Ink     Colour       `yaml:"ink" doc:"colour of the letters"`
	Paper   Colour       `yaml:"paper" doc:"colour of the board"`
	Wall    string       `yaml:"wall" doc:"the wall that it hangs on"`
	Left    *unit.Length `yaml:"left" doc:"from the wall's left end to its left edge; the middle if left out"`
	Centre  *unit.Length `yaml:"centre" doc:"height of its middle on the wall; the house rule if left out"`
	Resting `yaml:",squash"`
	Turn    unit.Angle `yaml:"turn" range:"-360..360" doc:"how far it is turned, counterclockwise seen from above"`
}

var signKind = many("signs", "Boards with words, on a wall or standing on a table.",
	Sign{Size: unit.Size{A: 11 * unit.Inch, B: 8.5 * unit.Inch}, Ink: Colour{0x2b, 0x2f, 0x36}, Paper: Colour{0xfb, 0xf9, 0xf3}}, buildSigns)

// schemes are the beginnings of addresses that do nothing on a visitor's phone but open a page, a letter or a call.
var schemes = []string{"http", "https", "mailto", "tel"}

// harmless is whether an address does no more on a visitor's phone than that.
func harmless(address string) bool {
	scheme, _, ok := strings.Cut(address, ":")
	return !ok || strings.ContainsAny(scheme, "./") || slices.Contains(schemes, strings.ToLower(scheme))
}

// signPixels is how many pixels all signs may have together: beyond ten large ones each is drawn coarser.
const signPixels = 32_000_000

const boardThick = 0.003 // metres: card in a stand, foam board

func buildSigns(s *Site, entries []entry[Sign]) {
	for _, en := range entries {
		it, e := en.item, en.says
		h, w := e.Size.A.M(), e.Size.B.M()
		p := booth.Part{ID: en.id("sign", e.Name), Kind: "signs", Name: "the sign", At: it.At(""), Dressing: true}
		if e.Name != "" {
			p.Name = called(e.Name, "sign")
		}
		switch {
		case e.On != "":
			const lean = 0.2 // radians that a card stand leans back
			f, parent, ok := s.rest(it, e.Resting, e.Turn, w, 0.05)
			if !ok {
				continue
			}
			p.Frame, p.Parent = f.Tilted(lean).Moved(geom.Vec{Y: h / 2}), parent
		case e.Wall != "":
			wall := s.wall(it, "wall", e.Wall)
			if wall == nil {
				continue
			}
			x, y := wall.Wall.Width/2, rules.HangingCentre.In(s.Plan.Rules)
			if e.Left != nil {
				x = e.Left.M() + w/2
			}
			if e.Centre != nil {
				y = e.Centre.M()
			}
			p.Frame, p.Parent = wall.Frame.Moved(geom.Vec{X: x, Y: y}), wall.ID
		default:
			it.Fault("", "say wall: and a wall's name, or on: and a table's", "the sign stands nowhere")
			continue
		}
		p.Bring = bring(p.Name, e.Size.Format(s.file.Units))
		if !harmless(e.Address) {
			it.Fault("address", "begin it with https:, mailto: or tel:", "%s is no address that visitors should open", unit.Quote(e.Address))
			continue
		}
		words := lettering.TableSign(e.Text[0], e.Text[1:], e.Address)
		words.Ink, words.Paper, words.Most = e.Ink, e.Paper, signPixels/len(entries)
		s.board(&p, words, w, h, it.At("text"))
		if p.Lettering != nil {
			p.Lettering.From = booth.Entrance
		}
		s.add(p)
	}
}

// board gives the part the shape of a thin board with lettering on its front, w x h metres about its frame's origin.
func (s *Site) board(p *booth.Part, words lettering.Sign, w, h float64, at fault.Place) {
	f := p.Frame
	box := geom.Box(f, geom.Vec{X: -w / 2, Y: -h / 2}, geom.Vec{X: w / 2, Y: h / 2, Z: boardThick})
	img := s.letter(words, p, box.Face(0), w, h, at)
	var rest geom.Mesh
	for i := 1; i < len(box.Faces); i++ { // face 0 is the front
		rest.AddPolygon(box.Face(i))
	}
	p.Solids = []geom.Convex{box}
	p.Surfaces = []booth.Surface{
		{Mesh: geom.ImageRect(box.Face(0)), Look: booth.Look{Colour: booth.Colour{255, 255, 255}, Image: img}},
		{Mesh: rest, Look: plainLook(booth.Colour(words.Paper))},
	}
}

// letter draws words for a face of w x h metres and says on the part what there is to read; what cannot be drawn at all is
// a fault at the place.
func (s *Site) letter(words lettering.Sign, p *booth.Part, face geom.Polygon, w, h float64, at fault.Place) *art.Image {
	words.Width, words.Height = w, h
	is := answer.Of(s.kept, lettered(fmt.Sprintf("%#v", words)), func() (drawn, int) {
		d, err := words.Draw()
		if err != nil {
			return drawn{err: err}, 1 << 10
		}
		return drawn{d, nil}, d.Image.Bytes()
	})
	if is.err != nil {
		s.refuse(at, is.err)
		return nil
	}
	d := is.Drawn
	p.Unwritten = d.Unknown()
	p.Lettering = &booth.Lettering{Face: face, Code: d.Code}
	if d.Code > 0 {
		p.Lettering.Square = spot(face, d.At)
	}
	if len(d.Letters) > 0 {
		p.Lettering.Largest, p.Lettering.Least = d.Letters[0], slices.Min(d.Letters)
	}
	named := *d.Image
	named.Name = string(p.ID)
	return &named
}

// spot is a place on a face, whose first corner is low on the left and which has four.
func spot(face geom.Polygon, at lettering.Spot) geom.Polygon {
	across, up := face[1].Sub(face[0]), face[3].Sub(face[0])
	point := func(u, v float64) geom.Vec { return face[0].Add(across.Mul(u)).Add(up.Mul(v)) }
	return geom.Polygon{point(at.Left, at.Low), point(at.Right, at.Low), point(at.Right, at.High), point(at.Left, at.High)}
}

// lettered is all that lettering is made from: its fields, as Go writes them.
type lettered string

type drawn struct {
	lettering.Drawn
	err error
}
