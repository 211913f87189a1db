package shade

import (
	"math"
	"strings"
	"testing"
	"time"

	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/sun"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/finding"
)

// bare is a fair without a tent: a work on a wall whose face looks where the entrance does.
func bare(faces, more string) string {
	return "units: in\nfair: {dates: [2026-06-13], hours: '12:00 to 16:00', zone: '-5:00', latitude: 42.5, longitude: -90, entrance faces: " + faces + more + "}\n" +
		"pitch: {width: 10ft, depth: 10ft, neighbours: none}\nwalls: [{side: back, hang on: panel, top: 90}]\n" +
		"works: [{name: one, size: 24 x 36, wall: back, left: 40, centre: 60, medium: MEDIUM}]\n"
}

func of(list []finding.Finding, check string) (out []finding.Finding) {
	for _, f := range list {
		if f.Check == check {
			out = append(out, f)
		}
	}
	return out
}

// Without a tent a wall that looks south is in the sun all afternoon, and one that looks north never at these hours. The dose is the
// sum, by hand, of the sun's light over the cosine.
func TestOpenWall(t *testing.T) {
	p := example(t, bare("south", ""))
	list := works(p, newHall(p, nil))
	if len(list) != 1 || len(list[0].Spells) != 1 || len(list[0].Spells[0]) != 1 {
		t.Fatalf("%+v", list)
	}
	s := list[0].Spells[0][0]
	if s.Minutes() != 240 || list[0].Most != 1 {
		t.Errorf("in the sun for %v minutes, %v of it", s.Minutes(), list[0].Most)
	}
	sum := 0.0
	for at := s.From; at.Before(s.To); at = at.Add(time.Minute) {
		pos := sun.At(at, sun.Place{Latitude: 42.5 * math.Pi / 180, Longitude: -90 * math.Pi / 180})
		// The cosine to a south wall: cos altitude · cos (azimuth - 180°).
		sum += 127_500 * math.Exp(-0.21/math.Sin(pos.Altitude)) * max(0, math.Cos(pos.Altitude)*math.Cos(pos.Azimuth-math.Pi)) / 60
	}
	if math.Abs(list[0].Dose/sum-1) > 0.005 {
		t.Errorf("a dose of %v, by hand %v", list[0].Dose, sum)
	}
	if got := Findings(example(t, bare("north", ""))); len(of(got, "sun on works")) != 0 {
		t.Errorf("a wall that looks north: %v", got)
	}
	if got := Findings(example(t, bare("south", ", sky: overcast"))); len(got) != 0 {
		t.Errorf("under clouds: %v", got)
	}
}

// An awning or a board over a wall casts a shadow as deep as similar triangles say, hour by hour: its depth times the tangent
// of the profile angle, tan altitude / cos (azimuth - the wall's).
func TestShadowOfABoard(t *testing.T) {
	p := example(t, bare("south", ""))
	i := 0
	for ; p.Parts[i].Work == nil; i++ {
	}
	face := p.Parts[i].Work.Face
	lo, hi := geom.Bounds(face)
	const out = 0.15 // metres
	board := geom.Box(geom.World, geom.Vec{X: -20, Y: hi.Y, Z: lo.Z - 0.01}, geom.Vec{X: 20, Y: hi.Y + 0.001, Z: lo.Z + out})
	h := newHall(p, nil, board).hang(0)
	c := newCourse(p.Fair, nil)
	partly := 0
	c.each(10*time.Minute, func(at time.Time, _ int, _ float64) {
		pos := sun.At(at, c.place)
		depth := out * math.Tan(pos.Altitude) / math.Cos(pos.Azimuth-math.Pi)
		want := max(0, 1-depth/(hi.Y-lo.Y))
		if pos.Azimuth > 1.5*math.Pi {
			want = 0
		}
		toward, _ := c.at(at)
		if got := h.lit(face, i, toward); math.Abs(got-want) > 0.004 {
			t.Errorf("%s: %v of it is lit, want %v", at.Format("15:04"), got, want)
		}
		if want > 0 && want < 1 {
			partly++
		}
	})
	if partly == 0 {
		t.Error("the board never shades a part")
	}
}

// On the day of the equinox the shadow of a point runs along a straight line from west to east, as far north of the point as it is high
// times the tangent of the latitude (textbook; the sun is on the celestial equator, within 0.2 degrees on that day). All day a small
// plate's shadow is where similar triangles say, and as large as the plate.
func TestShadowOfADay(t *testing.T) {
	const high, half = 2.0, 0.05 // metres
	at := strings.Replace(bare("south", ""), "2026-06-13", "2026-03-20", 1)
	p := example(t, strings.Replace(at, "12:00 to 16:00", "7:30 to 16:30", 1))
	for i := range p.Parts { // nothing else is there
		p.Parts[i].Solids, p.Parts[i].Screen = nil, nil
	}
	h := newHall(p, nil, geom.Box(geom.World, geom.Vec{X: -half, Y: high, Z: -half}, geom.Vec{X: half, Y: high + 1e-4, Z: half})).hang(0)
	c := newCourse(p.Fair, nil)
	north := -high * math.Tan(42.5*math.Pi/180) // the entrance faces south, so north is -Z
	looked := 0
	c.each(15*time.Minute, func(at time.Time, _ int, _ float64) {
		pos := sun.At(at, c.place)
		toward, _ := c.at(at)
		long := high / math.Tan(pos.Altitude)
		tip := geom.Vec{X: -long * math.Sin(pos.Azimuth), Z: long * math.Cos(pos.Azimuth)} // away from the sun; east is +X
		if math.Abs(tip.Z-north) > 0.004*math.Hypot(high, long)/math.Sin(pos.Altitude) {
			t.Errorf("%s: the shadow is %.3f m north, want %.3f", at.Format("15:04"), -tip.Z, -north)
		}
		square := func(half float64) geom.Polygon {
			x, z := tip.X, tip.Z
			return geom.Polygon{{X: x - half, Z: z + half}, {X: x + half, Z: z + half}, {X: x + half, Z: z - half}, {X: x - half, Z: z - half}}
		}
		if got, want := h.lit(square(2*half), -2, toward), 1-0.25; math.Abs(got-want) > 0.004 {
			t.Errorf("%s: %.4f of the ground about the shadow is lit, want %.4f", at.Format("15:04"), got, want)
		}
		if got := h.lit(square(half*0.98), -2, toward); got > 0.001 {
			t.Errorf("%s: %.4f of the ground in the shadow is lit", at.Format("15:04"), got)
		}
		looked++
	})
	if looked != 36 {
		t.Errorf("%d times of the day were looked at", looked)
	}
}

// What is said to help helps as much, when it is done: the scene with the two works exchanged has the doses that were foretold.
func TestMendsHold(t *testing.T) {
	text := "units: in\nfair: {dates: [2026-06-13], hours: '13:00 to 17:00', zone: '-5:00', latitude: 42.5, longitude: -90, entrance faces: west}\n" +
		"pitch: {width: 10ft, depth: 10ft, neighbours: none}\nwalls: [{side: back, hang on: panel, top: 82}, {side: right, hang on: panel, top: 82}]\n" +
		"works:\n  - {name: print, size: 20 x 24, wall: A, left: 60, centre: 55, medium: watercolour}\n  - {name: oil, size: 20 x 24, wall: B, left: 90, centre: 55, medium: oil}\n"
	plan := func(a, b string) *search {
		return searching(example(t, strings.NewReplacer("wall: A", "wall: "+a, "wall: B", "wall: "+b).Replace(text)))
	}
	s := plan("back", "right")
	before := s.now
	m := s.swapping()
	if m.words != "exchange print and oil" {
		t.Fatalf("%+v", m)
	}
	q := strings.NewReplacer("name: print", "name: oil2", "name: oil,", "name: print,").Replace(text)
	q = strings.ReplaceAll(strings.ReplaceAll(strings.ReplaceAll(q, "name: oil2", "name: oil"), "medium: watercolour", "medium: X"), "medium: oil", "medium: watercolour")
	q = strings.NewReplacer("medium: X", "medium: oil", "wall: A", "wall: back", "wall: B", "wall: right").Replace(q)
	done := searching(example(t, q))
	if got := done.now / before; math.Abs(got-m.left) > 0.001 {
		t.Errorf("%v of the effect was foretold, %v is left", m.left, got)
	}
	turned := s.turning()
	w := searching(example(t, strings.Replace(strings.NewReplacer("wall: A", "wall: back", "wall: B", "wall: right").Replace(text), "faces: west", "faces: "+strings.TrimPrefix(turned.words, "a pitch whose entrance faces "), 1)))
	if got := w.now / before; math.Abs(got-turned.left) > 1e-9 {
		t.Errorf("%s leaves %v, not %v", turned.words, got, turned.left)
	}
}

// CIE 157's categories (from memory), by words that artists use.
func TestSensitivity(t *testing.T) {
	for medium, want := range map[string]float64{
		"oil on canvas": 600_000, "Acrylic on paper": 600_000, "watercolour": 150_000, "linocut": 150_000, "etching and aquatint": 150_000,
		"giclée print": 15_000, "colour photograph": 15_000, "bronze": 0, "stoneware": 0, "felt pens": 15_000, "pen and ink": 150_000, "oils": 600_000,
	} {
		if c, ok := sensitivity(medium); !ok || c.Year != want {
			t.Errorf("%s: %v, %v; want %v", medium, c.Year, ok, want)
		}
	}
	for _, medium := range []string{"", "toil", "plasma"} {
		if c, ok := sensitivity(medium); ok {
			t.Errorf("%q is taken to be %s", medium, c.Name)
		}
	}
}

// The words for each kind of medium, and what is said at night and of eyes.
func TestFindings(t *testing.T) {
	for medium, want := range map[string]string{
		"watercolour": "museums allow watercolour (moderately sensitive) 150,000 lx·h in a year", `""`: "its medium is not stated",
		"plasma": "how fast “plasma” fades is not known here", "bronze": "which does not fade bronze",
	} {
		got := of(Findings(example(t, strings.Replace(bare("south", ""), "MEDIUM", medium, 1))), "sun on works")
		if len(got) != 2 || !strings.Contains(strings.ReplaceAll(got[0].Message, `"`, "“"), strings.NewReplacer("“", "“", "”", "“").Replace(want)) || got[0].Level != finding.Caution {
			t.Errorf("%s: %+v", medium, got)
		}
	}
	late := strings.Replace(bare("south", ""), "12:00 to 16:00", "18:00 to 23:00", 1)
	if got := of(Findings(example(t, late)), "nightfall"); len(got) != 1 || !strings.Contains(got[0].Message, "The sun is down from 20:") {
		t.Errorf("at night: %+v", got)
	}
	// Before a booth that faces east and has no tent, whoever looks in looks west, into the setting sun.
	if got := of(Findings(example(t, strings.Replace(bare("east", ""), "12:00 to 16:00", "17:00 to 20:00", 1))), "sun in the eye"); len(got) != 1 || got[0].View != "entrance" {
		t.Errorf("the setting sun: %+v", got)
	}
	p := example(t, bare("south", ""))
	p.Pitch.Indoor, p.Pitch.Ceiling = true, 1000
	if got := Findings(p); got != nil {
		t.Errorf("in a hall: %v", got)
	}
	p.Pitch.Indoor, p.Fair = false, nil
	if got := Findings(p); got != nil {
		t.Errorf("of no fair: %v", got)
	}
}

// Whiles are found to a quarter of a minute, those that reach to the end too.
func TestSpells(t *testing.T) {
	from := time.Date(2026, 6, 13, 10, 0, 0, 0, time.UTC)
	d := booth.Opening{From: from, To: from.Add(2 * time.Hour)}
	at := func(minutes float64) time.Time { return from.Add(time.Duration(minutes * float64(time.Minute))) }
	got := spells(d, 5*time.Minute, func(t time.Time) bool {
		m := t.Sub(from).Minutes()
		return m < 7 || m > 31.3 && m < 44.4 || m > 118
	})
	want := []Spell{{from, at(7)}, {at(31.3), at(44.4)}, {at(118), d.To}}
	if len(got) != len(want) {
		t.Fatalf("%v", got)
	}
	for i := range got {
		if got[i].From.Sub(want[i].From).Abs() > 15*time.Second || got[i].To.Sub(want[i].To).Abs() > 15*time.Second {
			t.Errorf("%v, want %v", got[i], want[i])
		}
	}
}

// Under a canopy that lets next to no light through, works on the back wall read as dark from the aisle; under a white one, in the
// open or in a hall they do not. The source of the limit is in its rule.
func TestDarkBooth(t *testing.T) {
	text := read(t, "demo.yaml")
	for canopy, want := range map[string]bool{"": false, "\n  canopy: \"#1d2740\"\n  light through: 2%": true} {
		p := example(t, strings.Replace(text, "peak: 128", "peak: 128"+canopy, 1))
		got := of(Findings(p), "light on works")
		if (len(got) == 1) != want {
			t.Errorf("canopy %q: %+v", canopy, got)
		}
		if want && (got[0].Measured >= 0.1 || !strings.Contains(got[0].Message, "Reed bunting") || !strings.Contains(got[0].Message, "from outside they read as dark")) {
			t.Errorf("%+v", got[0])
		}
	}
	for _, name := range []string{"hall.yaml", "corner.yaml"} {
		if got := of(Findings(example(t, read(t, name))), "light on works"); len(got) != 0 {
			t.Errorf("%s: %+v", name, got)
		}
	}
}

func searching(p *booth.Plan) *search { return newSearch(p, newHall(p, nil, sheets(p)...)) }
