package hang

import (
	"fmt"
	"math"
	"strings"
)

// posts are what holds the ends of walls and pipes.
func (s Sheet) posts() string {
	if s.tented {
		return "the tent's legs or stands"
	}
	return "its stands"
}

// LoadSection is what hooks, wires, walls and pipes carry.
func (s Sheet) LoadSection() Section {
	sec := Section{Title: "What it carries"}
	if len(s.Walls)+len(s.Pipes) == 0 {
		return sec
	}
	sec.Intro = []string{
		"A picture wire pulls harder the flatter it is. At 30° each side pulls as much as the whole work weighs, at 10° nearly three times that: T = W / (2 sin a). Never below: the angle at which the wire would be over what is stated for it.",
		"The ends of a wall are where its upper edge is tied to " + s.posts() + "; mesh, panels and cloth weigh on them too.",
	}
	loads := Table{
		Title: "Works",
		Head:  []string{"work", "weight", "on each hook", "a hook holds", "enough?", "wire's angle", "pull in the wire", "the wire holds", "enough?"},
		Wide:  []float64{22, 9, 9, 9, 9, 13, 11, 9, 9},
	}
	var flat []string
	ends := Table{
		Title: "Walls",
		Head:  []string{"wall", "works on it", "at its left end", "at its right end", "it holds", "enough?"},
		Wide:  []float64{24, 22, 15, 15, 13, 11},
	}
	for _, w := range s.Walls {
		for _, work := range w.Works {
			l := work.Load
			row := []string{work.Title, s.known(l.Weight), s.newtons(l.Hook), s.known(l.StatedHook), l.HookJudged.answer(), none, none, none, none}
			if l.Angle != nil {
				row[5] = fmt.Sprintf("%.0f°", *l.Angle)
				if l.LeastAngle != nil {
					row[5] += fmt.Sprintf(", never below %.0f°", math.Ceil(*l.LeastAngle))
				}
				row[6], row[7], row[8] = s.newtons(l.Tension), s.known(l.StatedWire), l.WireJudged.answer()
				if !l.Steep {
					flat = append(flat, fmt.Sprintf("%s (%.0f°, %.1f times)", work.Title, *l.Angle, *l.Times))
				}
			}
			loads.Rows = append(loads.Rows, row)
		}
		on, left, right := s.weight(w.Load.Known+w.Load.Shelves), s.force(w.Load.Left), s.force(w.Load.Right)
		switch n := w.Load.Unstated; {
		case n > 0 && w.Load.Known+w.Load.Shelves == 0:
			on, left, right = "unknown", "unknown", "unknown"
		case n > 0:
			on, left, right = fmt.Sprintf("%s + %d unknown", on, n), left+" or more", right+" or more"
		}
		ends.Rows = append(ends.Rows, []string{w.Name, on, left, right, s.known(w.Load.Stated), w.Load.Judged.answer()})
	}
	pipes := Table{Title: "Pipes", Head: []string{"pipe of", "length", "cloth on it", "it holds", "enough?"}, Wide: []float64{30, 20, 20, 18, 12}}
	for _, p := range s.Pipes {
		cloth := 0.0
		if p.Cloth != nil {
			cloth = *p.Cloth
		}
		pipes.Rows = append(pipes.Rows, []string{p.Name, s.full(p.Length), s.known(cloth), s.known(p.Stated), p.Judged.answer()})
	}
	sec.Tables = filled(loads, ends, pipes)
	if len(flat) > 0 {
		sec.Notes = append(sec.Notes, "Flat wires, each side of which pulls more than the whole work weighs: "+strings.Join(flat, ", ")+". A longer wire eases it.")
	}
	return sec
}
