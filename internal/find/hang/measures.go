package hang

import (
	"fmt"
	"slices"
	"strings"

	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/hook"
)

// Measures are the measures that a step needs where it is done, one thing a line: of the works whose hooks it sets, and of
// the parts that it puts up. A part that needs none, such as a tent's legs, gives no line.
func (s Sheet) Measures(p *booth.Plan, hooks, parts []booth.ID) []string {
	out := []string{}
	for _, w := range s.Walls {
		for _, k := range w.Works {
			if slices.Contains(hooks, k.ID) {
				out = append(out, s.hookMeasures(w, k)...)
			}
		}
	}
	for i := range p.Parts {
		if part := &p.Parts[i]; slices.Contains(parts, part.ID) {
			if line := s.measure(p, part); line != "" {
				out = append(out, unit.Capital(line))
			}
		}
	}
	return out
}

// hookMeasures is a line for each hook of a work.
func (s Sheet) hookMeasures(w Wall, k Work) []string {
	var out []string
	for _, h := range k.Hooks {
		line := fmt.Sprintf("Hook %d, for “%s”: %s from the left end, %s from the right end, %s up", h.Number, k.Title, s.full(h.X), s.full(w.Width-h.X), s.full(h.Grip))
		if on := w.fromTop(h); on != "" {
			line += ", on " + on + " from the top"
		}
		if h.Loop > 0 {
			line += fmt.Sprintf("; tie loop %s", s.full(h.Loop))
		}
		out = append(out, line)
	}
	return out
}

// measure is where a part goes, in words; empty if its step says it already.
func (s Sheet) measure(p *booth.Plan, part *booth.Part) string {
	switch c := part.Cloth; {
	case part.Tent != nil:
		t := part.Tent
		return fmt.Sprintf("%s wide and %s deep, %s to the eave", s.full(t.Width), s.full(t.Depth), s.full(t.Eave))
	case part.Wall != nil:
		return fmt.Sprintf("%s: %s long, from %s to %s above the ground", part.Name, s.full(part.Wall.Width), s.full(part.Wall.Bottom), s.full(part.Wall.Top))
	case c != nil:
		return fmt.Sprintf("%s: %s long, from %s to %s above the ground", part.Name, s.full(c.Width), s.full(c.Bottom), s.full(c.Top))
	case part.Work != nil && part.Work.Hung != nil:
		return s.workMeasure(part)
	case part.Parent != "" && p.Part(part.Parent).Wall != nil:
		return s.pinned(p.Part(part.Parent), part)
	case part.Parent != "" && len(part.Room()) > 0:
		return s.standsOn(p.Part(part.Parent), part)
	case part.Parent == "" && len(part.Room()) > 0:
		return s.standsAt(p, part)
	}
	return ""
}

// workMeasure is where a hung work's hooks and edges are.
func (s Sheet) workMeasure(part *booth.Part) string {
	for _, w := range s.Walls {
		for _, k := range w.Works {
			if k.ID != part.ID {
				continue
			}
			var hooks []string
			for _, h := range k.Hooks {
				hooks = append(hooks, fmt.Sprint(h.Number))
			}
			on := "no hook holds it"
			switch len(hooks) {
			case 0:
			case 1:
				on = "hook " + hooks[0]
			default:
				on = "hooks " + unit.List(hooks, "and")
			}
			return fmt.Sprintf("“%s”: %s, its left edge %s from the left end, its middle %s up", k.Title, on, s.full(k.X0), s.full((k.Y0+k.Y1)/2))
		}
	}
	return ""
}

// pinned is where a tag or a sign goes on a wall.
func (s Sheet) pinned(wall, part *booth.Part) string {
	var corners []geom.Vec
	for _, f := range part.Surfaces {
		for _, v := range f.Mesh.Vertices {
			corners = append(corners, wall.Frame.Local(v.P))
		}
	}
	if len(corners) == 0 {
		return ""
	}
	lo, _ := geom.Bounds(corners)
	return fmt.Sprintf("%s: its left edge %s from the left end, its lower edge %s up", strings.TrimPrefix(part.Name, "the "), s.full(lo.X), s.full(lo.Y))
}

// standsAt is where a thing stands on the pitch, as somebody sees it who looks in from the aisle.
func (s Sheet) standsAt(p *booth.Plan, part *booth.Part) string {
	lo, hi := part.In(geom.World)
	across := fmt.Sprintf("its left side %s from the pitch's left edge", s.full(lo.X+p.Pitch.Width/2))
	if lo.X+hi.X > 0 {
		across = fmt.Sprintf("its right side %s from the pitch's right edge", s.full(p.Pitch.Width/2-hi.X))
	}
	return fmt.Sprintf("%s, as you look in: %s, its front %s behind the front edge", part.Name, across, s.full(-hi.Z))
}

// standsOn is where a thing stands on another, as somebody sees it who stands before that; empty if it is part of it, such as a cloth.
func (s Sheet) standsOn(top, part *booth.Part) string {
	if len(top.Room()) == 0 {
		return ""
	}
	under, over := top.In(top.Frame)
	lo, hi := part.In(top.Frame)
	if lo.Y < over.Y-0.01 {
		return ""
	}
	return fmt.Sprintf("%s, as you stand before %s: its left side %s from the left end, its front %s from the front", part.Name, top.Name, s.full(lo.X-under.X), s.full(over.Z-hi.Z))
}

// fromTop is what of its wall a hook holds on to, counted from the top: "wire 7".
func (w Wall) fromTop(h Hook) string {
	return hook.FromTop(&booth.Wall{Hold: w.Hold, Bottom: w.Bottom, Top: w.Top, Spacing: w.Step, Link: w.Step}, h.Grip)
}
