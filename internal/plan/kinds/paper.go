package kinds

import (
	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
)

// backing is how thick a sheet is on the board behind it; common practice, no source.
const backing = unit.Inch / 8

const usualDepth = 1.5 * unit.Inch // of a canvas; common practice, no source

var paperWhite = booth.Colour{0xf7, 0xf4, 0xec}

// lay checks the sheet that a print is on. A mat hides its margin.
func (s *Site) lay(e *workEntry) {
	p, is := e.Paper, e.Size
	several, small := len(e.Parts) > 0 || is.C > 0, p.A < is.A || p.B < is.B
	switch typed := e.item.Has("paper"); {
	case p.A == 0:
		return
	case several && typed:
		e.item.Fault("paper", "leave it out", "%q is in parts, or a sculpture, and no single sheet", e.Name)
	case small && typed:
		e.item.Fault("paper", "say height x width of the whole sheet", "the sheet of %q is smaller than its picture, %s", e.Name, is.Size.Format(s.file.Units))
	}
	if several || small || e.Frame != nil && e.Frame.Mat > 0 {
		e.Paper = unit.Size{}
	} else if e.Depth == usualDepth && !e.item.Has("depth") {
		e.Depth = backing
	}
}

// shown is the height and width of what is seen within a frame: the picture, or the sheet that it is on. In metres.
func (e *workEntry) shown() (h, w float64) {
	if e.Paper.A > 0 {
		return e.Paper.A.M(), e.Paper.B.M()
	}
	return e.Size.A.M(), e.Size.B.M()
}

// margin is the sheet around a picture, in the picture's plane.
func (e *workEntry) margin(f geom.Frame) []booth.Surface {
	if e.Paper.A == 0 {
		return nil
	}
	ring := func(h, w float64) [4]geom.Vec { return [4]geom.Vec(geom.Rect(f, -w/2, -h/2, w/2, h/2)) }
	inner, outer := ring(e.Size.A.M(), e.Size.B.M()), ring(e.shown())
	var sheet geom.Mesh
	for i := range inner {
		j := (i + 1) % len(inner)
		if side := (geom.Polygon{outer[i], outer[j], inner[j], inner[i]}); side.Area() > 1e-9 {
			sheet.AddPolygon(side)
		}
	}
	if len(sheet.Triangles) == 0 {
		return nil
	}
	return []booth.Surface{{Mesh: sheet, Look: plainLook(paperWhite)}}
}
