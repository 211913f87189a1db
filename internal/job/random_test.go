package job_test

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"math"
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"
	"testing/fstest"

	"boothmock/internal/basis/answer"
	"boothmock/internal/find/order"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/kinds"
	"boothmock/internal/plan/rules"
	"boothmock/internal/plan/scene"
)

// draws are choices made of bytes, and the first choice each time when those have run out: so a fuzzer changes choices.
type draws []byte

// below is a number from 0 to n-1.
func (d *draws) below(n int) int {
	v := 0
	for m := 1; m < n; m *= 256 {
		v *= 256
		if len(*d) > 0 {
			v, *d = v+int((*d)[0]), (*d)[1:]
		}
	}
	return v % n
}

func (d *draws) chance(percent int) bool { return d.below(100) >= 100-percent }

// length is a length between two numbers of inches, in metres: mostly of eighths, now and then of tenths of a millimetre.
func (d *draws) length(lo, hi float64) float64 {
	v := lo*0.0254 + float64(d.below(int((hi-lo)*8)+1))*0.0254/8
	if d.chance(15) {
		v = min(hi*0.0254, v+float64(d.below(250))*1e-4)
	}
	return v
}

func (d *draws) of(words ...string) string { return words[d.below(len(words))] }

// some are some of the words, in their order.
func (d *draws) some(percent int, words ...string) (out []string) {
	for _, w := range words {
		if d.chance(percent) {
			out = append(out, w)
		}
	}
	return out
}

// dialect is how a random scene is written down. The same choices in another dialect are the same booth.
type dialect struct {
	units    string              // of the scene, "in" or "cm"; "in" if empty
	write    string              // the unit that lengths are written in: "in", "ft", "mm", "cm" or "m"; bare numbers in units if empty
	mirrored bool                // left is right
	even     bool                // nothing that has a left and a right of its own: people, tags, several tents, chains, wires, cloth in folds, things on tables that are no boxes
	name     func(string) string // what a work is called; nil: as it comes
	mixed    *rand.Rand          // shuffles what has no order; nil: as it comes
}

// sketch is a random scene on its way to its text.
type sketch struct {
	draws
	dialect
	keys    []string
	entries map[string][]string
	tent    bool
	leg     float64            // metres
	size    map[string]float64 // width of walls, by name; metres
	tops    [][3]float64       // tables and pedestals t0, t1, …: width, depth, height
	firm    []string           // walls that something holds on to
	pitch   [2]float64
}

// randomScene is a scene made of the bytes, written in the dialect: several kinds, odd sizes, things that overlap or stand
// outside of the pitch.
func randomScene(choices []byte, as dialect) string {
	s := &sketch{draws: choices, dialect: as, entries: map[string][]string{}, size: map[string]float64{}}
	s.ground()
	s.walls()
	s.furniture()
	s.works()
	s.rest()
	return s.text()
}

func (s *sketch) text() string {
	var b strings.Builder
	fmt.Fprintf(&b, "units: %s\n", s.system())
	if s.mixed != nil {
		s.mixed.Shuffle(len(s.keys), func(i, j int) { s.keys[i], s.keys[j] = s.keys[j], s.keys[i] })
	}
	for _, key := range s.keys {
		e := s.entries[key]
		if len(e) == 1 && slices.Contains([]string{"pitch", "tent", "chair", "hooks", "tags", "banner", "weather", "set-up", "rules"}, key) {
			fmt.Fprintf(&b, "%s: %s\n", key, e[0])
			continue
		}
		if s.mixed != nil {
			s.mixed.Shuffle(len(e), func(i, j int) { e[i], e[j] = e[j], e[i] })
		}
		fmt.Fprintf(&b, "%s:\n  - %s\n", key, strings.Join(e, "\n  - "))
	}
	return b.String()
}

func (s *sketch) system() string {
	if s.units == "" {
		return "in"
	}
	return s.units
}

// add adds an entry of fields, empty ones left out.
func (s *sketch) add(key string, fields ...string) {
	if len(s.entries[key]) == 0 {
		s.keys = append(s.keys, key)
	}
	fields = slices.DeleteFunc(fields, func(f string) bool { return f == "" })
	s.entries[key] = append(s.entries[key], "{"+strings.Join(fields, ", ")+"}")
}

// written is a length in the dialect.
func (s *sketch) written(m float64) string {
	number := func(v float64) string { return strconv.FormatFloat(math.Round(v*1e13)/1e13, 'f', -1, 64) }
	switch s.write {
	case "in":
		return number(m/0.0254) + "in"
	case "ft":
		sign := ""
		if m < 0 {
			sign, m = "-", -m
		}
		feet := math.Floor(m/0.3048 + 1e-9)
		return sign + number(feet) + "ft " + number(max(0, m-feet*0.3048)/0.0254) + "in"
	case "mm":
		return number(m*1000) + "mm"
	case "cm":
		return number(m*100) + "cm"
	case "m":
		return number(m) + "m"
	}
	if s.system() == "cm" {
		return number(m * 100)
	}
	return number(m / 0.0254)
}

func (s *sketch) set(key string, m float64) string { return key + ": " + s.written(m) }

func (s *sketch) sized(key string, m ...float64) string {
	var out []string
	for _, v := range m {
		out = append(out, s.written(v))
	}
	return key + ": " + strings.Join(out, " x ")
}

// maybe is the field in so many of a hundred cases.
func (s *sketch) maybe(percent int, field func() string) string {
	if s.chance(percent) {
		return field()
	}
	return ""
}

func (s *sketch) side(name string) string {
	switch {
	case s.mirrored && name == "left":
		return "right"
	case s.mirrored && name == "right":
		return "left"
	}
	return name
}

func (s *sketch) sides(names []string) string {
	for i, n := range names {
		names[i] = s.side(n)
	}
	return "[" + strings.Join(names, ", ") + "]"
}

var smallPicture = func() []byte {
	m := image.NewNRGBA(image.Rect(0, 0, 12, 9))
	for i := range 12 * 9 {
		m.Set(i%12, i/12, color.NRGBA{uint8(20 * (i % 12)), uint8(25 * (i / 12)), 90, 255})
	}
	var b bytes.Buffer
	if err := png.Encode(&b, m); err != nil {
		panic(err)
	}
	return b.Bytes()
}()

// build is the booth of a scene's text. The error is a fault.List.
func build(text string) (*booth.Plan, error) { return buildAgain(text, nil) }

// buildAgain is build after another version of the scene.
func buildAgain(text string, kept *answer.Kept) (*booth.Plan, error) {
	f, err := scene.Parse("booth.yaml", []byte(text))
	if err != nil {
		return nil, err
	}
	var layers []rules.Layer
	if own, ok := f.Item("rules"); ok {
		layers = append(layers, rules.Layer{Name: "this scene", Units: f.Units, UnitsStated: f.UnitsStated, Values: own.Values(), At: own.At})
	}
	book, err := rules.Merge(nil, nil, layers...)
	if err != nil {
		return nil, err
	}
	p, err := kinds.Again(f, book, fstest.MapFS{"a.png": {Data: smallPicture}, "ring.glb": {Data: ringModel()}}, kept)
	if err == nil {
		err = order.Check(p)
	}
	return p, err
}

// seeded are so many bytes from a seed.
func seeded(seed uint64) []byte {
	r := rand.New(rand.NewPCG(seed, 11))
	b := make([]byte, 600)
	for i := range b {
		b[i] = byte(r.Uint32())
	}
	return b
}
