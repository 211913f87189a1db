package job_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

func (s *sketch) ground() {
	s.pitch = [2]float64{s.length(48, 240), s.length(48, 200)}
	s.add("pitch", s.set("width", s.pitch[0]), s.set("depth", s.pitch[1]), s.set("aisle", s.length(36, 240)),
		"ground: "+s.of("grass", "gravel", "asphalt", "timber", "carpet", "concrete"),
		"open: "+s.sides(s.some(15, "left", "right", "back")), "indoor: "+s.of("no", "no", "yes"), s.neighbours())
	if s.tent = s.chance(75); s.tent {
		s.leg = s.length(0.5, 6)
		eave, across := s.length(60, 130), 1+s.below(3)
		if s.even { // the legs between two tents are the left one's
			across = 1
		}
		s.add("tent", s.set("eave", eave), s.set("peak", min(eave+s.length(0, 60), 9.1)), s.set("leg", s.leg), s.set("valance", s.length(0, 20)),
			"roof: "+s.of("peak", "ridge", "flat"), fmt.Sprintf("tents across: %d", across), fmt.Sprintf("light through: %d%%", s.below(91)),
			"sidewalls: "+s.sides(s.some(15, "left", "right", "back")), s.maybe(30, func() string { return fmt.Sprintf("weight: %dlb", 20+s.below(60)) }),
			s.maybe(30, func() string { return fmt.Sprintf("ballast: %dlb", s.below(60)) }), s.maybe(8, func() string { return "valance text: Odile · prints" }))
	}
}

// neighbours are the fair around, in a quarter of the booths. They are drawn from bytes that nothing else reaches, so that the
// booths within are as they would be alone.
func (s *sketch) neighbours() string {
	all := s.draws
	defer func() { s.draws = all }()
	s.draws = s.draws[len(s.draws)*9/10:]
	if !s.chance(25) {
		return "neighbours: none"
	}
	fields := []string{"across: " + s.of("none", "tent", "drape")}
	for _, side := range []string{"left", "right", "back"} {
		if s.chance(20) {
			fields = append(fields, s.side(side)+": none")
		}
	}
	return "neighbours: {" + strings.Join(append(fields, s.set("gap", s.length(0, 30)), s.set("width", s.length(48, 150)), s.set("eave", s.length(60, 110))), ", ") + "}"
}

func (s *sketch) walls() {
	if sides := s.some(45, "left", "back", "right"); len(sides) > 0 && !s.even {
		bottom := s.length(0, 20)
		s.add("drapes", "walls: "+s.sides(sides), s.set("bottom", bottom), s.set("top", bottom+s.length(12, 90)),
			fmt.Sprintf("fullness: %d.%02d", 1+s.below(2), s.below(100)), s.maybe(20, func() string { return s.set("fold", s.length(1, 20)) }),
			s.maybe(30, func() string { return "grams: " + s.of("150", "40", "600") }))
	}
	for _, side := range []string{"back", "left", "right", "front", "back"} {
		percent := map[string]int{"front": 8}[side]
		name := s.side(side)
		if _, again := s.size[side]; again {
			side, name, percent = "back", "second", 8
		} else if percent == 0 {
			percent = 80
		}
		if !s.chance(percent) {
			continue
		}
		along := s.pitch[0]
		if side == "left" || side == "right" {
			along = s.pitch[1]
		}
		along -= 2 * s.leg
		start, width := 0.0, along
		if s.chance(20) && along > 0.8 {
			start = s.length(0, 12)
			width = (along - start) * float64(1+s.below(4)) / 4
		}
		width = math.Floor(width*1e6) / 1e6 // shorter than what there is by less than anybody can measure
		if width < 0.31 {
			continue
		}
		from := start
		if s.mirrored {
			from = along - start - width
		}
		bottom := s.length(0, 30)
		hold := s.of("mesh", "mesh", "chains", "rail", "panel", "none")
		if s.even && (hold == "chains" || hold == "mesh") { // the first chain or wire is at the left end
			hold = "panel"
		}
		s.size[strings.Replace(name, s.side(side), side, 1)] = width
		if hold != "none" {
			s.firm = append(s.firm, name)
		}
		s.add("walls", "side: "+s.side(side), "name: "+name, s.set("from left", max(0, from)), s.set("width", width),
			"hang on: "+hold, s.set("spacing", s.length(2, 14)), s.set("links", s.length(0.5, 3)),
			s.set("bottom", bottom), s.set("top", bottom+s.length(12, 90)), "faces: "+s.of("in", "in", "in", "in", "in", "in", "in", "out"),
			s.maybe(20, func() string { return fmt.Sprintf("holds: %dlb", 10+s.below(200)) }), s.apart(side))
	}
	if s.chance(30) {
		s.freeWall()
	}
}

// apart is a distance of a wall from its side, now and then with a store behind it.
func (s *sketch) apart(side string) string {
	if !s.chance(15) {
		return ""
	}
	deep := map[string]float64{"left": s.pitch[0], "right": s.pitch[0]}[side]
	if deep == 0 {
		deep = s.pitch[1]
	}
	far := s.set("distance", 0.16+float64(s.below(5))/5*max(0, deep-2*s.leg-0.2)*0.9)
	if !s.even && s.chance(50) { // its curtain hangs in folds
		far += ", closed: yes"
	}
	return far
}

// freeWall is a panel or a run of them that stands anywhere, with works on one face or both.
func (s *sketch) freeWall() {
	names, faces := []string{"wing"}, s.of("in", "both")
	wide := []float64{s.length(12, 70)}
	shape := s.set("width", wide[0])
	if !s.even && s.chance(40) { // a run begins at its left end
		names, shape = nil, "run: ["
		wide = append(wide, s.length(12, 50))
		if s.chance(50) {
			wide = append(wide, s.length(12, 50))
		}
		for i, w := range wide {
			names = append(names, fmt.Sprintf("wing %d", i+1))
			if i > 0 {
				shape += ", " + s.of("forward", "back", "forward 60", "back 35") + ", "
			}
			shape += s.written(w)
		}
		shape += "]"
	}
	for i, n := range names {
		s.size[n] = wide[i]
		if faces == "both" {
			s.size[n+" back"] = wide[i]
		}
	}
	left, right := "from left", "from right"
	if s.mirrored {
		left, right = right, left
	}
	hold := s.of("panel", "panel", "rail", "none")
	if !s.even {
		hold = s.of("panel", "panel", "mesh", "chains", "rail", "none")
		if s.chance(30) {
			s.add("drapes", "walls: ["+names[0]+"]", fmt.Sprintf("fullness: %d.%02d", 1+s.below(2), s.below(100)))
		}
	}
	bottom := s.length(0, 20)
	s.add("walls", "name: wing", shape, "faces: "+faces, "hang on: "+hold, s.set("bottom", bottom), s.set("top", bottom+s.length(12, 80)),
		s.maybe(60, func() string { return s.set(s.of(left, right), s.length(0, 100)) }), s.maybe(60, func() string { return s.set(s.of("from front", "from back"), s.length(0, 80)) }),
		s.maybe(60, func() string { return s.turn(s.below(720) - 360) }), s.maybe(30, func() string { return s.set("feet", s.length(0, 40)) }), s.maybe(20, func() string { return "tied: yes" }))
}

// placing is where a thing that is w wide and d deep, in metres, stands on the ground.
func (s *sketch) placing() []string {
	left, right := "from left", "from right"
	if s.mirrored {
		left, right = right, left
	}
	var out []string
	if s.chance(45) {
		out = append(out, "against: "+s.side(s.of("left", "right", "back", "front")))
	}
	if s.chance(50) {
		out = append(out, s.set(s.of(left, right), s.length(0, 120)))
	}
	if s.chance(50) {
		out = append(out, s.set(s.of("from front", "from back", "before front"), s.length(0, 90)))
	}
	if s.chance(30) {
		out = append(out, s.turn(s.below(720)-360))
	}
	return out
}

func (s *sketch) turn(degrees int) string {
	if s.mirrored {
		degrees = -degrees
	}
	return fmt.Sprintf("turn: %d", degrees)
}

// on is where a thing that is w wide and d deep, turned by so many degrees, stands on a table or pedestal; it fits there.
func (s *sketch) on(w, d float64, degrees int) (fields []string, ok bool) {
	if len(s.tops) == 0 {
		return nil, false
	}
	k := s.below(len(s.tops))
	t := s.tops[k]
	sin, cos := math.Sincos(float64(degrees) * math.Pi / 180)
	w, d = math.Abs(cos)*w+math.Abs(sin)*d, math.Abs(sin)*w+math.Abs(cos)*d
	if w > t[0] || d > t[1] {
		return nil, false
	}
	along := float64(s.below(5)) / 4 * (t[0] - w)
	if s.mirrored {
		along = t[0] - w - along
	}
	return []string{fmt.Sprintf("on: t%d", k), s.set("along", along), s.set("back", float64(s.below(5))/4*(t[1]-d))}, true
}

func (s *sketch) furniture() {
	for range s.below(4) {
		w, d, h := s.length(6, 80), s.length(6, 40), s.length(6, 50)
		var things []string
		for k := range s.below(3) {
			tw, td := s.length(0.125, 10), s.length(0.125, 10)
			if tw > w || td > d {
				continue
			}
			along, shape := float64(s.below(5))/4*(w-tw), s.of("box", "stack", "jar", "rack")
			if s.mirrored {
				along = w - tw - along
			}
			if s.even {
				shape = "box"
			}
			things = append(things, fmt.Sprintf("{name: thing %d %d, %s, %s, shape: %s, for visitors: %s}", len(s.tops), k,
				s.sized("size", tw, td, s.length(0.125, 20)), s.set("along", along), shape, s.of("no", "yes")))
		}
		s.add("tables", append(s.placing(), fmt.Sprintf("name: t%d", len(s.tops)), s.sized("size", w, d), s.set("height", h),
			s.maybe(50, func() string { return map[bool]string{false: "cloth: linen"}[s.even] }), "on top: ["+strings.Join(things, ", ")+"]")...)
		s.tops = append(s.tops, [3]float64{w, d, h})
	}
	for range s.below(3) {
		w, d, h := s.length(4, 40), s.length(4, 40), s.length(4, 60)
		s.add("pedestals", append(s.placing(), fmt.Sprintf("name: t%d", len(s.tops)), s.sized("size", w, d), s.set("height", h))...)
		s.tops = append(s.tops, [3]float64{w, d, h})
	}
	for k := range s.below(3) {
		w, d := s.length(6, 30), s.length(6, 30)
		at, ok := []string(nil), false
		if s.chance(30) {
			at, ok = s.on(w, d, 0)
		}
		if !ok {
			at = s.placing()
		}
		s.add("bins", append(at, fmt.Sprintf("name: b%d", k), s.sized("size", w, d, s.length(6, 50)), fmt.Sprintf("prints: %d", 1+s.below(60)))...)
	}
	s.belongings()
	if s.chance(30) {
		s.add("chair", append(s.placing(), s.set("seat", s.length(8, 40)), s.set("width", s.length(8, 40)))...)
	}
	if s.chance(30) {
		s.add("hooks", s.set("drop", s.length(0.25, 6)), s.set("shortest loop", s.length(0.125, 3)), fmt.Sprintf("hold: %dlb", 1+s.below(60)))
	}
}

// belongings are up to three things of every shape, drawn from bytes that nothing else reaches.
func (s *sketch) belongings() {
	all := s.draws
	defer func() { s.draws = all }()
	s.draws = s.draws[len(s.draws)*4/5:]
	for k := range s.below(4) {
		what := s.of("crate", "box", "round", "easel", "rug", "bench", "cooler", "plant", "a-board", "umbrella", "spinner", "mirror", "lamp-stand", "clothes-rail", "board", "frame")
		if s.even && what != "box" && what != "rug" { // round things have corners of their own, boards a grain
			continue
		}
		s.add("things", append(s.placing(), fmt.Sprintf("name: thing %d", k), "what: "+what,
			s.maybe(50, func() string { return s.sized("size", s.length(4, 60), s.length(4, 60), s.length(4, 70)) }))...)
	}
	if len(s.tops) > 0 && s.chance(40) {
		k, w := s.below(len(s.tops)), s.length(2, 20)
		if room := s.tops[k][0] - w; room > 0 {
			left := float64(s.below(5)) / 4 * room
			if s.mirrored {
				left = room - left
			}
			s.add("things", "name: hung", fmt.Sprintf("hangs on: t%d", k), s.set("left", left), s.sized("size", w, s.length(1, 6), s.length(1, 20)))
		}
	}
	if s.even { // the grain of wood
		return
	}
	if s.tent && s.chance(30) {
		s.add("things", "name: from a bar", "what: "+s.of("round", "board", "bag-hooks"), "hangs under: "+s.of("front", "left", "right", "back")+" bar", s.turn(s.below(4)*90),
			s.sized("size", s.length(2, 20), s.length(1, 12), s.length(1, 20)), s.maybe(50, func() string { return s.set("height", s.length(20, 60)) }))
	}
	if s.chance(20) {
		s.add("things", append(s.placing(), "name: a tree", "what: tree", s.sized("size", s.length(30, 150), s.length(30, 150), s.length(180, 230)))...)
	}
	if len(s.firm) > 0 && s.chance(40) { // the works may stand on it that come after it
		w, d, high := s.length(6, 50), s.length(2, 14), s.length(2, 60)
		s.add("things", fmt.Sprintf("name: t%d", len(s.tops)), "what: "+s.of("shelf", "ledge"), "wall: "+s.firm[s.below(len(s.firm))], s.set("height", high),
			s.sized("size", w, d, s.length(0.5, 2)), s.maybe(60, func() string { return s.set("left", s.length(0, 60)) }))
		s.tops = append(s.tops, [3]float64{w, d, high})
	}
}

// titles are of every kind that a title can be.
var titles = []string{"Heron at the weir", "No", "7", "Étude: \\\"blue\\\" #3", "<b>&amp;</b>", "潮汐", "A" + strings.Repeat("long and longer ", 9), "'", "0x1p-3", "- ~ *x"}

func (s *sketch) workName(k int) string {
	n := fmt.Sprintf("w%dx", k)
	if s.name != nil {
		return s.name(n)
	}
	return n
}

// parts are the parts of some works that hang, and how wide it is with them. They are drawn from bytes that nothing else reaches.
func (s *sketch) parts(k int, w, border float64) (field string, wide float64) {
	all := s.draws
	defer func() { s.draws = all }()
	s.draws = s.draws[(len(s.draws)*7/8+5*k)%len(s.draws):]
	if !s.chance(20) {
		return "", w + border
	}
	apart := s.length(0, 6)
	each, widest := []string{"{}", "{}", "{}"}, w
	wide = 3*(w+border) + 2*apart
	if s.chance(50) {
		last := s.length(4, 40)
		each[2] = "{" + s.sized("size", s.length(4, 40), last) + "}"
		wide, widest = wide+last-w, max(w, last)
	}
	end := ""
	if !s.even && s.chance(30) { // what is one above the other is not turned round in a mirror
		wide, end = widest+border, ", stacked: yes"
	} else if s.mirrored {
		slices.Reverse(each)
	}
	return "parts: [" + strings.Join(each, ", ") + "], " + s.set("apart", apart) + end, wide
}

func (s *sketch) works() {
	hung := slices.Sorted(func(yield func(string) bool) {
		for w := range s.size {
			if !yield(w) {
				return
			}
		}
	})
	rows := map[string][]string{}
	loose := map[int]bool{}
	for k := range s.below(9) {
		h, w := s.length(1, 60), s.length(1, 60)
		if s.chance(60) {
			h, w = s.length(8, 36), s.length(8, 36)
		}
		thick, border := s.length(0.0625, 4), 0.0
		fields := []string{"name: " + s.workName(k), `title: "` + titles[s.below(len(titles))] + `"`, s.sized("size", h, w), s.set("depth", thick)}
		if s.chance(35) {
			face, mat := s.length(0.125, 3), s.length(0, 4)
			thick, border = s.length(0.125, 3), 2*(face+mat)
			fields = append(fields, fmt.Sprintf("frame: {%s, %s, %s}", s.set("width", face), s.set("depth", thick), s.set("mat", mat)))
		}
		fields = append(fields, s.maybe(30, func() string { return "image: a.png" }), s.maybe(50, func() string { return fmt.Sprintf("weight: %dlb", 1+s.below(40)) }),
			s.maybe(50, func() string { return fmt.Sprintf("price: %d.%02d", s.below(60000), s.below(100)) }),
			s.maybe(40, func() string {
				return "hang by: " + s.of("rings", "sawtooth", "cleat", fmt.Sprintf("wire, hooks: %d", s.below(3)))
			}))
		how := s.below(10)
		if how == 9 {
			degrees := s.below(720) - 360
			if k%2 == 1 { // a sculpture
				h, w = max(h, 0.0254), max(w, 0.0254)
				fields = []string{fields[0], fields[1], s.sized("size", h, w, max(w/2, 0.0254)), s.maybe(50, func() string { return "image: a.png" })}
				border, thick = 0, max(w/2, 0.0254)
			}
			if at, ok := s.on(w+border, thick, degrees); ok {
				s.add("works", append(append(fields, at...), s.turn(degrees))...)
				continue
			}
		}
		if len(hung) == 0 {
			continue
		}
		wall, wide := hung[s.below(len(hung))], w+border
		if parts, all := s.parts(k, w, border); parts != "" && !(how == 6 && loose[k-1]) {
			fields, wide = append(fields, parts), all
		}
		switch {
		case how < 6:
			rows[wall] = append(rows[wall], s.workName(k))
		case how == 6 && loose[k-1]:
			fields = append(fields, "under: "+s.workName(k-1), s.maybe(70, func() string { return s.set("gap", s.length(0, 10)) }))
		default:
			left := s.length(0, 100)
			if other := s.size[wall] - left - wide; s.mirrored {
				left = other
			} else if s.even && other < 0 { // it would stand out beyond the left end in a mirror, which no scene can say
				left = -1
			}
			fields = append(fields, "wall: "+s.side(wall), s.maybe(70, func() string { return s.set("centre", s.length(0, 110)) }))
			if left >= 0 {
				fields = append(fields, s.set("left", left))
			}
		}
		loose[k] = true
		s.add("works", fields...)
	}
	for _, wall := range hung {
		if len(rows[wall]) == 0 {
			continue
		}
		left, right := "from left", "from right"
		if s.mirrored {
			left, right = right, left
			slices.Reverse(rows[wall])
		}
		s.add("rows", "wall: "+s.side(wall), "works: ["+strings.Join(rows[wall], ", ")+"]", s.maybe(60, func() string { return s.set("centre", s.length(20, 90)) }),
			s.maybe(30, func() string { return s.set("gap", s.length(0, 12)) }), s.maybe(20, func() string { return s.set(left, s.length(0, 20)) }),
			s.maybe(20, func() string { return s.set(right, s.length(0, 20)) }))
	}
}

func (s *sketch) rest() {
	if s.chance(20) {
		fields := []string{"beside: " + s.of("below", "right"), s.set("gap", s.length(0, 3)), s.sized("size", s.length(0.5, 4), s.length(0.5, 6))}
		if !s.even {
			s.add("tags", fields...)
		}
	}
	for k := range 2 {
		if !s.chance(10) {
			continue
		}
		degrees := s.below(720) - 360
		h, w := s.length(1, 30), s.length(1, 30)
		at, ok := s.on(w, 0.05, degrees)
		if wall := s.of("back", "left"); !ok && s.size[wall] > 0 {
			at, ok = []string{"wall: " + s.side(wall), s.set("centre", s.length(10, 80))}, true
		} else if ok {
			at = append(at, s.turn(degrees))
		}
		if ok {
			s.add("signs", append(at, fmt.Sprintf("name: s%d", k), `text: ["`+titles[s.below(len(titles))]+`", cards]`, s.sized("size", h, w),
				s.maybe(30, func() string { return "address: https://example.org/odile" }))...)
		}
	}
	if s.chance(10) {
		s.add("banner", "text: Odile", s.sized("size", s.length(3, 40), s.length(3, 130)), s.set("top", s.length(12, 120)),
			s.maybe(30, func() string {
				if len(s.tops) == 0 {
					return ""
				}
				return fmt.Sprintf("on: t%d", s.below(len(s.tops)))
			}))
	}
	for k := range s.below(3) {
		fields := append(s.placing(), fmt.Sprintf("name: v%d", k), "who: "+s.of("adult", "child", "wheelchair"))
		if !s.even {
			s.add("visitors", fields...)
		}
	}
	if s.chance(25) {
		s.add("kit", "name: flowers", fmt.Sprintf("count: %d", 1+s.below(12)), "weight: 3lb")
	}
	if s.chance(40) {
		rain := "no"
		if s.tent && !s.even {
			rain = s.of("no", "yes")
		}
		s.add("weather", fmt.Sprintf("wind: force %d", s.below(12)), "around: "+s.of("built", "open", "water"), "rain: "+rain)
	}
	if s.chance(40) {
		s.add("set-up", fmt.Sprintf("people: %d", 1+s.below(5)), fmt.Sprintf("time: %d min", 10+s.below(240)), fmt.Sprintf("trolley: %dlb", 5+s.below(200)), "night: "+s.of("off", "covered"))
	}
	for k := range s.below(3) {
		s.add("tasks", fmt.Sprintf("do: chore %d", k), fmt.Sprintf("name: c%d", k), fmt.Sprintf("minutes: %d", s.below(60)), "of: "+s.of("set-up", "strike", "night"),
			s.maybe(30, func() string { return "after: [everything]" }), s.maybe(30, func() string { return fmt.Sprintf("people: %d", s.below(4)) }))
	}
	if s.chance(25) {
		s.add("rules", s.set("hanging centre", s.length(40, 70)), s.set("route width", s.length(20, 40)), fmt.Sprintf("visible share: %d%%", 50+s.below(51)))
	}
}
