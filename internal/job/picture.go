package job

import (
	"bytes"
	"image"
	"sync"

	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/unit"
	"boothmock/internal/basis/way"
	"boothmock/internal/find/check"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/rules"
	"boothmock/internal/props/art"
	"boothmock/internal/view/drawing"
	"boothmock/internal/view/picture"
)

// Picture is one picture of a booth: what a visitor sees from a view, or a drawing to scale.
type Picture struct {
	Name, Doc string
	View      *booth.View // nil for a drawing
	Draw      func(m *Mockup, o Look) *image.NRGBA
}

// Look is how to draw a picture. The zero value is 1920 by 1080 pixels, the usual visitor's eye, nothing hatched.
type Look struct {
	picture.Options
	Hidden bool // what the eye does not see of works is hatched; in a drawing, what it does not see from the entrance
}

// Pictures are all the pictures of this booth: the views, then the drawings.
func Pictures(p *booth.Plan) []Picture {
	var out []Picture
	for _, v := range p.Views {
		out = append(out, Picture{v.Name, v.Doc, &v, func(m *Mockup, o Look) *image.NRGBA {
			o.Brighter = m.brighter(v, eye(p, o.Eye))
			stage := m.Stage()
			if v.Bare {
				stage = stage.In(m.Lit().Bare(p))
			}
			img := stage.Draw(v, o.Options)
			if o.Hidden {
				drawing.Hatch(img, stage, v, o.Options, hidden(p, v, o.Eye))
			}
			return img
		}})
	}
	for _, d := range drawing.Of(p) {
		out = append(out, Picture{d.Name, d.Doc, nil, func(m *Mockup, o Look) *image.NRGBA {
			n := drawing.Notes{Floor: floor(m)}
			if v := entrance(p); o.Hidden && v != nil {
				e := eye(p, o.Eye)
				n.Hidden = hidden(p, *v, e)
				n.Eye = e.Name + " eye (" + unit.Length(v.From(e).Y).Format(p.Units) + "), from the entrance"
			}
			return d.Draw(m.Even(), drawing.Options{Width: o.Width, Height: o.Height}, n)
		}})
	}
	return out
}

// brighter is how all looks to an eye that has got used to the light where it is; a picture for a jury is exposed for the works, as a
// photographer does it.
func (m *Mockup) brighter(v booth.View, e booth.Eye) [3]float32 {
	if v.Bare {
		return [3]float32{}
	}
	return m.Lit().Brighter(m.Plan, v.From(e))
}

// picture is a picture as a build writes it. Those that are on the page too are kept, as several outputs are made of them.
func (m *Mockup) picture(d Picture) *image.NRGBA {
	if !onPage(d) {
		return d.Draw(m, Look{})
	}
	once, _ := m.kept.LoadOrStore(d.Name, sync.OnceValue(func() *image.NRGBA { return d.Draw(m, Look{}) }))
	return once.(func() *image.NRGBA)()
}

// onPage is whether the page shows the picture. It draws the walls itself, with their hooks.
func onPage(d Picture) bool { return d.View != nil || d.Name == "plan" }

// opening is the picture of the first view, so many pixels wide and high.
func (m *Mockup) opening(width, height int) *image.NRGBA {
	return art.Shrink(m.picture(Pictures(m.Plan)[0]), image.Pt(width, height))
}

func asJPEG(m *image.NRGBA, quality int) ([]byte, error) {
	var b bytes.Buffer
	err := picture.WriteJPEG(&b, m, quality)
	return b.Bytes(), err
}

func entrance(p *booth.Plan) *booth.View {
	for i := range p.Views {
		if p.Views[i].Name == "entrance" {
			return &p.Views[i]
		}
	}
	return nil
}

// eye is the eye that was asked for, or the usual visitor's.
func eye(p *booth.Plan, e booth.Eye) booth.Eye {
	if e == (booth.Eye{}) {
		e = p.Eyes[0]
	}
	return e
}

// hidden are the parts of works that an eye does not see.
func hidden(p *booth.Plan, v booth.View, e booth.Eye) []geom.Polygon {
	var out []geom.Polygon
	for _, l := range check.Veils(p, v, eye(p, e)) {
		out = append(out, l.Pieces...)
	}
	return out
}

// floor is how people come in, as the checks found it.
func floor(m *Mockup) *drawing.Floor {
	f := &drawing.Floor{Way: m.Checks().Way, Turning: rules.TurningCircle.In(m.Plan.Rules)}
	if c := m.Checks().Circle; c != nil {
		f.OK = true
		f.Circle = &way.Circle{Centre: way.Point{X: c.Centre[0], Z: c.Centre[1]}, Diameter: c.Diameter}
	}
	for _, c := range m.Checks().Clearances {
		if c.From == "entrance" && c.To == "inside" && c.Width != nil {
			f.Width = *c.Width
			f.Narrow = &[2]way.Point{{X: c.At[0][0], Z: c.At[0][1]}, {X: c.At[1][0], Z: c.At[1][1]}}
		}
	}
	return f
}
