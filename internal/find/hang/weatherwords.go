package hang

import (
	"fmt"
	"math"

	"boothmock/internal/basis/unit"
	"boothmock/internal/basis/wind"
	"boothmock/internal/plan/booth"
)

// WindSection is the ballast and what wind it is good for.
func (s Sheet) WindSection() Section {
	w := s.Weather
	friction := fmt.Sprintf("friction %.2g", w.Friction)
	if w.FrictionAssumed {
		friction += " (not stated: the lowest of the textbook values, for feet on wet or smooth ground, is taken)"
	}
	stated := ""
	if !w.GustStated {
		stated = " (the scene states no wind; this one is only a guess)"
	}
	about := "below every Beaufort force"
	if w.Force >= 0 {
		about = "about the gusts of " + wind.Describe(w.Force)
	}
	sec := Section{Title: "Wind and weights", Intro: []string{
		fmt.Sprintf("Figured for gusts of %s%s: %s. Exposure %s of ASCE 7, %s.", wind.Speed(w.Gust).Format(s.system), stated, about, w.Exposure, friction),
		fmt.Sprintf("Tent: %s. Ballast: %s on each of %d legs.", s.known(w.Tent), s.known(w.Ballast), w.Legs),
	}}
	if w.Stake > 0 {
		sec.Intro[1] += fmt.Sprintf(" A stake at each leg, which you state to hold %s, counts as so much weight.", s.weight(w.Stake))
	}
	if w.Tent == 0 {
		sec.Intro[1] += " What the tent weighs is not stated and counted as nothing, which is on the safe side."
	}
	t := Table{Head: []string{"", "walls up", "walls down"}, Wide: []float64{50, 25, 25}}
	row := func(what string, of func(WindState) string) {
		t.Rows = append(t.Rows, []string{what, of(w.Up), of(w.Down)})
	}
	row("the worse wind comes from", func(x WindState) string { return x.From })
	row("it meets cloth, panels and works of", func(x WindState) string { return s.area(x.Area) })
	row("whose middle is above the ground by", func(x WindState) string { return s.full(x.Height) })
	row("from the windward legs to the leeward ones", func(x WindState) string { return s.full(x.Base) })
	row("it pushes sideways with", func(x WindState) string { return s.force(x.Push) })
	row("it lifts with", func(x WindState) string { return s.force(x.Lifts) })
	row("tent and ballast that hold against sliding", func(x WindState) string { return s.weight(x.ToSlide) })
	row("tent and ballast that hold against tipping", func(x WindState) string { return s.weight(x.ToTip) })
	row("BALLAST NEEDED ON EACH LEG for these gusts", func(x WindState) string { return s.weight(x.PerLeg) })
	good := func(x WindState) string {
		if w.Tent == 0 && w.leg() == 0 {
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
	case w.Tent == 0 && w.leg() == 0:
		sec.Notes = append(sec.Notes, "Write weight and ballast under tent in the scene, and this page says what wind the booth is good for and when the walls must come down.")
	case w.Down.GoodFor > w.Up.GoodFor:
		sec.Notes = append(sec.Notes, fmt.Sprintf("THE WALLS COME DOWN in gusts of more than %s. With the walls down the tent is good for gusts up to %s: in more, the tent comes down too.", s.speed(w.Up.GoodFor), s.speed(w.Down.GoodFor)))
	default:
		sec.Notes = append(sec.Notes, fmt.Sprintf("Taking the walls down does not help here: the tent comes down in gusts of more than %s.", s.speed(w.Up.GoodFor)))
	}
	if w.Ballast > 0 && w.Ballast < PerLegPractice-1e-9 {
		sec.Notes = append(sec.Notes, fmt.Sprintf("The stated ballast is less than the %s a leg that many fairs ask for.", s.weight(PerLegPractice)))
	}
	if w.Stake > 0 {
		sec.Notes = append(sec.Notes, "Stakes: "+booth.StakeCaution)
	}
	sec.Notes = append(append(sec.Notes, s.method()), w.Notes...)
	return sec
}

// method is how the figures of the table follow from each other, with the numbers of this booth.
func (s Sheet) method() string {
	w := s.Weather
	law := fmt.Sprintf("0.00256 V² (V in mph) = %.3g lb on each ft²", asWeight(wind.Pressure(w.Gust, 1, 1)).Kg()/unit.Pound.Kg()*float64(unit.Foot*unit.Foot))
	if s.system == unit.Centimetres {
		law = fmt.Sprintf("0.0625 V² (V in m/s) = %.3g kg on each m²", asWeight(wind.Pressure(w.Gust, 1, 1)).Kg())
	}
	lessStake := ""
	if w.Stake > 0 {
		lessStake = ", less what its stake holds"
	}
	return fmt.Sprintf("Worked out so: a gust of V presses with %s. Sideways that counts %.3g (Kz, for the height) × %.3g (Kd) × %.3g (G) × %.2g (windward and leeward walls) times the area above. Upwards it counts %.2g times the %s of canopy, with none of the other factors, which is on the safe side. Against sliding: (sideways / friction + upwards) / %.2g. Against tipping: (2 × sideways × height of the middle / distance of the legs + upwards) / %.2g. On each leg: the larger of the two, less the tent's weight, over %d legs%s.",
		law, w.HeightFactor, wind.Directional, wind.GustEffect, wind.Wall, w.Lift, s.area(w.Roof), wind.Counted, wind.Counted, w.Legs, lessStake)
}

// area is m² in the units of the readers.
func (s Sheet) area(m2 float64) string {
	if s.system == unit.Centimetres {
		return fmt.Sprintf("%.3g m²", m2)
	}
	return fmt.Sprintf("%.3g ft²", m2/float64(unit.Foot*unit.Foot))
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
			o.Side, s.length(o.Width) + " x " + s.full(o.Height), s.length(o.BuyWidth) + " x " + s.full(o.Height), fmt.Sprint(o.Curtains), short, unit.AsIn(s.currency, unit.Length(o.Line).FormatFeet(s.system)),
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

// weatherNotes are what the wind figures leave out and who decides, then the published thresholds for tents. They
// differ from place to place: they say what to ask for, not what holds at this fair.
func weatherNotes(p *booth.Plan) []string {
	area := p.Pitch.Width * p.Pitch.Depth
	return []string{
		"Sources: velocity pressure, Kz, Kd and the gust factor G as in ASCE 7; 1.3 for windward and leeward walls together and the lift under a canopy from memory, of the order of its coefficients; plain statics for sliding and for tipping about the leeward legs; 0.6 of all dead weight counted, as in its 0.6 D + W. All tents are taken as tied together, with the ballast spread evenly over the legs.",
		"Left out: gusts that are turned or squeezed by buildings and neighbours, an open front that catches wind like a cup, uneven or soft ground, ropes and stakes (on grass, anchors that are screwed or driven in hold far better than weights; ask whether they are allowed), wet cloth, and the strength of frame, joints and canopy. Many light frames bend or break before they tip.",
		"A forecast or a Beaufort force is a mean wind; gusts are taken here as 1.5 times the mean (common practice, no source). Watch the gusts in the forecast, and the sky.",
		"A tent must be roped, braced and anchored against the weather and against collapse: International Fire Code 2018, 3103.9, which gives no number. Many fairs ask for 40 lb or more on each leg (common practice; no standard found). Ask what yours asks for.",
		fmt.Sprintf("Permits: your canopy covers %.0f ft² (%.0f m²). The International Fire Code 2018 asks for a permit above 400 ft² (3103.2; open on all sides: up to 700 ft²); tents closer than 12 ft count together, so a row of booths may need the organiser's permit. Cities set other limits, from 120 to 900 ft². The code also asks for 20 ft to buildings, cars and engines (3103.8.2).", squareFeet(area), area),
		"Fire: fairs ask for cloth that passes NFPA 701 (drapes and table skirts by its method 1 below 21 oz a square yard, tents and banners by method 2), with its label sewn in. Keep an extinguisher where the organiser wants one, and nothing hot under the canopy.",
		"The organiser, the local code and a licensed engineer or tent contractor decide. If any of them says less, or says take it down, do that.",
	}
}

// squareFeet is m² in ft².
func squareFeet(m2 float64) float64 { return math.Round(m2 / (0.3048 * 0.3048)) }
