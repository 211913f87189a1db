package hang

import (
	"fmt"
	"strconv"

	"boothmock/internal/unit"
	"boothmock/internal/wind"
)

// WindSection is the ballast and what wind it is good for.
func (s Sheet) WindSection() Section {
	w := s.Weather
	friction := fmt.Sprintf("friction %.2g", w.Friction)
	if w.FrictionAssumed {
		friction += " (not stated: the lowest of the textbook values, for feet on wet or smooth ground, is taken)"
	}
	about := "below every Beaufort force"
	if w.Force >= 0 {
		about = "about the gusts of " + wind.Describe(w.Force)
	}
	sec := Section{Title: "Wind and weights", Intro: []string{
		fmt.Sprintf("Figured for gusts of %s: %s. Exposure %s of ASCE 7, %s, lift %.2g of the wind's pressure under the canopy.", s.speed(w.Gust), about, w.Exposure, friction, w.Lift),
		fmt.Sprintf("Tent: %s. Ballast: %s on each of %d legs.", s.known(w.Tent), s.known(w.Ballast), w.Legs),
	}}
	if w.Tent == 0 {
		sec.Intro[1] += " What the tent weighs is not stated and counted as nothing, which is on the safe side."
	}
	t := Table{Head: []string{"", "walls up", "walls down"}, Wide: []float64{50, 25, 25}}
	row := func(what string, of func(WindState) string) {
		t.Rows = append(t.Rows, []string{what, of(w.Up), of(w.Down)})
	}
	row("the worse wind comes from", func(x WindState) string { return x.From })
	row("it pushes sideways with", func(x WindState) string { return s.force(x.Push) })
	row("it lifts with", func(x WindState) string { return s.force(x.Lifts) })
	row("tent and ballast that hold against sliding", func(x WindState) string { return s.weight(x.ToSlide) })
	row("tent and ballast that hold against tipping", func(x WindState) string { return s.weight(x.ToTip) })
	row("BALLAST NEEDED ON EACH LEG for these gusts", func(x WindState) string { return s.weight(x.PerLeg) })
	good := func(x WindState) string {
		if w.Tent == 0 && w.Ballast == 0 {
			return "unknown: no weight stated"
		}
		force := "not even force 0"
		if x.GoodForce >= 0 {
			force = fmt.Sprintf("force %d", x.GoodForce)
		}
		return fmt.Sprintf("%s (%s)", s.speed(x.GoodFor), force)
	}
	row("with what is stated, good for gusts up to", good)
	row("it slides from", func(x WindState) string { return s.moves(x.SlidesAt) })
	row("it tips from", func(x WindState) string { return s.moves(x.TipsAt) })
	sec.Tables = []Table{t}
	switch {
	case w.Tent == 0 && w.Ballast == 0:
		sec.Notes = append(sec.Notes, "Write weight and ballast under tent in the scene, and this page says what wind the booth is good for and when the walls must come down.")
	case w.Down.GoodFor > w.Up.GoodFor:
		sec.Notes = append(sec.Notes, fmt.Sprintf("THE WALLS COME DOWN before gusts reach %s. With the walls down the tent is good for gusts up to %s: before that, the tent comes down too.", s.speed(w.Up.GoodFor), s.speed(w.Down.GoodFor)))
	default:
		sec.Notes = append(sec.Notes, fmt.Sprintf("Taking the walls down does not help here: the tent comes down before gusts reach %s.", s.speed(w.Up.GoodFor)))
	}
	if !w.Up.Enough && w.Ballast > 0 {
		sec.Notes = append(sec.Notes, fmt.Sprintf("The stated ballast of %s a leg is not enough for these gusts with the walls up.", s.weight(w.Ballast)))
	}
	if w.Ballast > 0 && w.Ballast < PerLegPractice-1e-9 {
		sec.Notes = append(sec.Notes, fmt.Sprintf("The stated ballast is less than the %s a leg that many fairs ask for.", s.weight(PerLegPractice)))
	}
	sec.Notes = append(sec.Notes, w.Notes...)
	return sec
}

// moves is the speed from which a tent moves; nothing can be said of a tent without a stated weight.
func (s Sheet) moves(v float64) string {
	if v == 0 {
		return "unknown: no weight stated"
	}
	return s.speed(v)
}

// RainSection is what to buy against rain.
func (s Sheet) RainSection() Section {
	r := s.Rain
	open := Table{
		Title: "Open sides",
		Head:  []string{"side", "opening, width x height", "one sheet to buy, width x height", "or ready-made curtains", "they end above the ground by", "line"},
		Wide:  []float64{10, 21, 22, 17, 17, 13},
	}
	for _, o := range r.Openings {
		short := none
		if o.Short > 0 {
			short = s.full(o.Short)
		}
		open.Rows = append(open.Rows, []string{
			o.Side, s.length(o.Width) + " x " + s.full(o.Height), s.length(o.BuyWidth) + " x " + s.full(o.Height), fmt.Sprint(o.Curtains), short, unit.Length(o.Line).FormatFeet(s.system),
		})
	}
	sec := Section{Title: "Rain", Tables: []Table{open}}
	if len(r.Openings) == 0 {
		sec.Tables = nil
		sec.Intro = []string{"The tent's own walls close every side."}
	} else {
		sec.Intro = []string{fmt.Sprintf("Curtains overlap by %s and hang on a line along the eave, outside the legs. Ready-made ones are taken as %s x %s, height x width.", s.full(r.Overlap), s.length(r.Curtain[0]), s.full(r.Curtain[1]))}
	}
	if len(r.Covers) > 0 {
		covers := Table{Title: "Covers, over what stands on it too", Head: []string{"table", "its top", "sheet to buy, at least"}, Wide: []float64{36, 30, 34}}
		for _, c := range r.Covers {
			covers.Rows = append(covers.Rows, []string{c.Name, s.length(c.Length) + " x " + s.full(c.Depth), s.length(c.BuyLength) + " x " + s.full(c.BuyDepth)})
		}
		sec.Tables = append(sec.Tables, covers)
	}
	sec.Notes = []string{
		"Curtains are walls to the wind: the walls-up figures hold for them. Take them down when walls must come down.",
		"Push water off the canopy before it makes a pool, from inside and with something soft. Keep cables and power banks off the ground. Keep a way out that opens by hand.",
	}
	return sec
}

// ListSection is everything to buy and to pack.
func (s Sheet) ListSection() Section {
	items := func(title string, list []Item) Table {
		t := Table{Title: title, Head: []string{"", "what", "need", "spare", "for"}, Wide: []float64{6, 40, 8, 8, 38}}
		for _, i := range list {
			spare, why := none, i.Why
			if i.Spare > 0 {
				spare = fmt.Sprint(i.Spare)
			}
			if i.Weight != nil {
				if why != "" {
					why += "; "
				}
				why += s.weight(*i.Weight) + " each"
			}
			t.Rows = append(t.Rows, []string{"[ ]", i.What, fmt.Sprint(i.Need), spare, why})
		}
		return t
	}
	sec := Section{Title: "What to bring", Tables: []Table{items("Packing list", s.Kit), items("Hardware", s.Hardware)}}
	if len(s.Cloth) > 0 {
		t := Table{
			Title: "Cloth to buy",
			Head:  []string{"for", "fullness", "flat width", "cut length", "widths of the bolt", "length to buy", "or sheets", "weight"},
			Wide:  []float64{20, 9, 12, 12, 15, 12, 11, 9},
		}
		for _, c := range s.Cloth {
			sheets, weight := none, "unknown"
			if x := c.Sheet; x != nil {
				sheets = fmt.Sprint(x.Count)
				if x.Turned {
					sheets += ", turned"
				}
				if x.Short > 0 {
					sheets += ", " + s.full(x.Short) + " short"
				}
			}
			if c.Weight != nil {
				weight = s.weight(*c.Weight)
			}
			t.Rows = append(t.Rows, []string{
				c.Name, strconv.FormatFloat(c.Fullness, 'f', -1, 64), s.full(c.Flat), s.full(c.Drop), fmt.Sprintf("%d of %s", c.Widths, s.full(c.Bolt)), unit.Length(c.Metres).FormatFeet(s.system), sheets, weight,
			})
		}
		sec.Tables = append(sec.Tables, t)
		sec.Notes = append(sec.Notes, fmt.Sprintf("Cloth counts %s for the pipe's pocket, %s for the lower hem and %s for each side hem (common practice, no source). Seams take a little more.", s.full(pocket), s.full(hem), s.full(sideHem)))
	}
	w := Table{Title: "Weights as far as they are stated", Head: []string{"", "known", "not stated"}, Wide: []float64{50, 25, 25}}
	known, unknown := 0.0, 0
	for _, x := range s.Weights {
		w.Rows = append(w.Rows, []string{x.What, s.known(x.Known), fmt.Sprint(x.Unknown)})
		known, unknown = known+x.Known, unknown+x.Unknown
	}
	w.Rows = append(w.Rows, []string{"together", s.known(known), fmt.Sprint(unknown)})
	sec.Tables = append(sec.Tables, w)
	sec.Notes = append(sec.Notes, "The car carries more than this: tables, mesh, panels and boxes are not in the weights. Look up what your car may carry.")
	return sec
}
