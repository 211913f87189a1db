package compare

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
)

// slight is how far a thing may be off in metres, or turned in radians, and count as where it was: what is printed as 0.
const slight = float64(unit.Inch) / 16

func whole(v float64) string { return strconv.FormatFloat(v, 'f', 0, 64) }

// things are the things that differ, in the order of the first plan and then of the second.
func things(a, b *booth.Plan) []Thing {
	out := []Thing{}
	type change struct{ at, words string }
	told := map[change]bool{}
	if words := pitch(a, b); words != "" {
		out = append(out, Thing{"pitch", "the pitch", Resized, words})
	}
	for i := range a.Parts {
		p := &a.Parts[i]
		if !counts(a, p) {
			continue
		}
		if q := b.Part(p.ID); q == nil {
			words := "is gone"
			if waits(b, p.ID) {
				words = "hangs no more and waits"
			}
			out = append(out, Thing{p.ID, p.Name, Removed, words})
		} else {
			for _, d := range differ(a, b, p, q) {
				if entry := (change{p.At.String(), d.Words}); d.What != Changed || !told[entry] { // a canopy and its valances are one entry
					told[entry] = true
					out = append(out, d)
				}
			}
		}
	}
	for i := range b.Parts {
		if q := &b.Parts[i]; counts(b, q) && a.Part(q.ID) == nil {
			out = append(out, Thing{q.ID, q.Name, Added, "is new, " + where(b, q)})
		}
	}
	return out
}

// Lines are the things in sentences, works first: what is gone and what is new in one each, the others in one a thing. Unless all are wanted, of many
// those of the surroundings and of the tent, and more than a page of the others, are counted only.
func Lines(things []Thing, all bool) (lines []string, more int) {
	const most, named = 12, 10
	var order []booth.ID
	by := map[booth.ID][]Thing{}
	for _, t := range things {
		if by[t.ID] == nil {
			order = append(order, t.ID)
		}
		by[t.ID] = append(by[t.ID], t)
	}
	slices.SortStableFunc(order, func(a, b booth.ID) int { return cmp.Compare(rank(a), rank(b)) })
	sorts := map[string][]string{}
	var told []string
	for _, id := range order {
		of := by[id]
		var words []string
		for _, t := range of {
			words = append(words, t.Words)
		}
		what := ""
		if len(of) == 1 && of[0].Words == "is gone" {
			what = "gone"
		} else if of[0].What == Added {
			what = "new"
		}
		switch {
		case all:
			for _, t := range of {
				told = append(told, t.Name+" "+t.Words+".")
			}
		case rank(id) > 1 && len(order) > most:
			more++
		case what != "":
			sorts[what] = append(sorts[what], of[0].Name)
		default:
			told = append(told, of[0].Name+" "+strings.Join(words, "; ")+".")
		}
	}
	for _, what := range []string{"gone", "new"} {
		names := sorts[what]
		if n := len(names); n > named {
			names = append(names[:named-1:named-1], fmt.Sprintf("%d more", n-named+1))
		}
		switch len(names) {
		case 0:
		case 1:
			lines = append(lines, names[0]+" is "+what+".")
		default:
			lines = append(lines, unit.List(names, "and")+" are "+what+".")
		}
	}
	if n := len(told); n > most && !all {
		told, more = told[:most], more+n-most
	}
	return append(lines, told...), more
}

// rank is how much a thing matters to whoever hangs works: works first, then what else is theirs, then the tent and the surroundings.
func rank(id booth.ID) int {
	switch kind, _, _ := strings.Cut(string(id), "/"); kind {
	case "work":
		return 0
	case "tent", "neighbour", "lead", "visitor", "drape", "wood":
		return 2
	}
	return 1
}

// counts is whether a part is a thing of its own: the ground is not, a tag goes where its work goes, and posts along a side where their wall goes.
func counts(of *booth.Plan, p *booth.Part) bool {
	if w := of.Part(p.FeetOf); w != nil && !w.Wall.Free {
		return false
	}
	return !p.Flat && !strings.HasPrefix(string(p.ID), "tag/")
}

func waits(p *booth.Plan, id booth.ID) bool {
	for _, w := range p.Waiting {
		if w.ID == id {
			return true
		}
	}
	return false
}

func pitch(a, b *booth.Plan) string {
	var out []string
	for _, m := range []struct {
		what string
		a, b float64
	}{{"wide", a.Pitch.Width, b.Pitch.Width}, {"deep", a.Pitch.Depth, b.Pitch.Depth}} {
		if math.Abs(m.a-m.b) > slight {
			out = append(out, fmt.Sprintf("%s %s instead of %s", unit.Length(m.b).FormatFeet(b.Units), m.what, unit.Length(m.a).FormatFeet(b.Units)))
		}
	}
	if len(out) == 0 {
		return ""
	}
	return "is " + unit.List(out, "and")
}

// where is where a thing is, in words.
func where(p *booth.Plan, q *booth.Part) string {
	if on := p.Part(q.Parent); on != nil {
		return "on " + on.Name
	}
	return "on the ground"
}

// differ is how a thing of both plans differs.
func differ(a, b *booth.Plan, p, q *booth.Part) (out []Thing) {
	say := func(w What, format string, args ...any) {
		out = append(out, Thing{p.ID, q.Name, w, fmt.Sprintf(format, args...)})
	}
	if p.Parent != q.Parent {
		say(Moved, "is %s, not %s", where(b, q), where(a, p))
	} else if words := moved(a, b, p, q); words != "" {
		say(Moved, "is %s", words)
	}
	if p.Work == nil && p.Cloth == nil {
		if d := turned(p.Frame, q.Frame); d > 0.5 && !withParent(a, b, p, q) {
			say(Turned, "is turned by %s", unit.Degrees(d).Format())
		}
	}
	if was, is := size(b.Units, p), size(b.Units, q); was != is {
		say(Resized, "is %s instead of %s", is, was)
	}
	if words := looks(p, q); words != "" {
		say(Changed, "%s", words)
	}
	if v, w := p.Work, q.Work; v != nil && w != nil && w.Part <= 1 {
		v, w = v.Itself(), w.Itself()
		for _, c := range [][3]string{
			{"costs", amount(a, v), amount(b, w)}, {"weighs", weight(v.Weight, b.Units), weight(w.Weight, b.Units)}, {"is called", v.Title, w.Title},
		} {
			if c[1] != c[2] {
				say(Changed, "%s %s instead of %s", c[0], c[2], c[1])
			}
		}
	}
	return out
}

// looks is what looks otherwise on a thing: the first colour that differs, and the first cloth that lets other light through.
func looks(p, q *booth.Part) string {
	var out []string
	for i := range min(len(p.Surfaces), len(q.Surfaces)) {
		was, is := p.Surfaces[i].Look, q.Surfaces[i].Look
		if was.Colour != is.Colour {
			out = append(out, "has another colour")
		}
		if was.Passes != is.Passes {
			out = append(out, fmt.Sprintf("lets %s of the light through instead of %s", unit.Share(is.Passes).Format(), unit.Share(was.Passes).Format()))
		}
		if len(out) > 0 {
			break
		}
	}
	return unit.List(out, "and")
}

func amount(p *booth.Plan, w *booth.Work) string {
	if s := w.Amount(p.Currency); s != "" {
		return s
	}
	return "no stated price"
}

func weight(w unit.Weight, sys unit.System) string {
	if w == 0 {
		return "what is not stated"
	}
	return w.Format(sys)
}

// moved is how far and where to a thing was moved beside what it is on; empty if it was not.
func moved(a, b *booth.Plan, p, q *booth.Part) string {
	length := func(m float64) string { return unit.Length(math.Abs(m)).Format(b.Units) }
	var out []string
	add := func(by float64, more, less string) {
		if math.Abs(by) <= slight {
			return
		}
		if by < 0 {
			more = less
		}
		out = append(out, length(by)+" "+more)
	}
	if v, w := p.Work, q.Work; v != nil && w != nil && v.Hung != nil && w.Hung != nil { // by the middle, as it may have another size
		add((w.Hung.X0+w.Hung.X1-v.Hung.X0-v.Hung.X1)/2, "to the right", "to the left")
		add(w.Hung.Centre()-v.Hung.Centre(), "higher", "lower")
		return unit.List(out, "and")
	}
	if p.Wall != nil || p.Cloth != nil || p.Tent != nil || withParent(a, b, p, q) {
		if p.Wall == nil || !p.Wall.Free { // what stands at the edge of the pitch goes with the pitch
			return ""
		}
	}
	d := q.Frame.Origin.Sub(p.Frame.Origin)
	add(d.X, "to the right", "to the left")
	add(d.Z, "nearer to the aisle", "farther from the aisle")
	add(d.Y, "higher", "lower")
	return unit.List(out, "and")
}

// withParent is whether a thing is where it was beside what it stands on, which may have been moved.
func withParent(a, b *booth.Plan, p, q *booth.Part) bool {
	on, under := a.Part(p.Parent), b.Part(q.Parent)
	if on == nil || under == nil {
		return false
	}
	return under.Frame.Local(q.Frame.Origin).Dist(on.Frame.Local(p.Frame.Origin)) <= slight && math.Abs(turned(on.Frame, p.Frame)-turned(under.Frame, q.Frame)) < 0.5
}

// turned is the angle between the fronts of two frames seen from above, in degrees.
func turned(a, b geom.Frame) float64 {
	d := math.Atan2(a.Z.X, a.Z.Z) - math.Atan2(b.Z.X, b.Z.Z)
	return math.Abs(math.Remainder(d, 2*math.Pi)) * 180 / math.Pi
}

// size is how large a thing is, in words: of a work as catalogues write it, else width, depth and height over all.
func size(sys unit.System, p *booth.Part) string {
	if p.Work != nil {
		return p.Work.Size(sys)
	}
	if p.Moving || p.Dressing && p.Lettering == nil {
		return ""
	}
	if len(p.Room()) == 0 {
		return ""
	}
	lo, hi := p.In(p.Frame)
	d := hi.Sub(lo)
	var out []string
	for _, m := range []struct {
		v    float64
		what string
	}{{d.X, "wide"}, {d.Z, "deep"}, {d.Y, "high"}} {
		out = append(out, unit.Length(m.v).Format(sys)+" "+m.what)
	}
	return strings.Join(out, ", ")
}
