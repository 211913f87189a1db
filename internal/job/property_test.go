package job_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"math/rand/v2"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"sync"
	"testing"

	"boothmock/internal/basis/geom"
	"boothmock/internal/find/check"
	"boothmock/internal/find/hang"
	"boothmock/internal/find/order"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/finding"
)

// plain are the random booths in the plain dialect, which many tests hold others against: each is made once.
var plain sync.Map // of seed to made

type made struct {
	text string
	plan *booth.Plan
	err  error
}

// randomBooth is the random booth of a seed, and its text.
func randomBooth(seed uint64, as dialect) (string, *booth.Plan, error) {
	usual := reflect.ValueOf(as).IsZero()
	if known, ok := plain.Load(seed); ok && usual {
		m := known.(made)
		return m.text, m.plan, m.err
	}
	text := randomScene(seeded(seed), as)
	p, err := build(text)
	if usual {
		plain.Store(seed, made{text, p, err})
	}
	return text, p, err
}

// pairs are random booths, each written in two ways that should be the same booth in what a test is about.
func pairs(t *testing.T, n int, a, b dialect, same func(t *testing.T, p, q *booth.Plan)) {
	t.Helper()
	both := 0
	for seed := range uint64(n) {
		one, p, err1 := randomBooth(seed, a)
		other, q, err2 := randomBooth(seed, b)
		if (err1 == nil) != (err2 == nil) {
			t.Errorf("booth %d: %v\nand %v\n%s\n%s", seed, err1, err2, one, other)
		}
		if err1 != nil || err2 != nil {
			continue
		}
		both++
		t.Run(fmt.Sprint(seed), func(t *testing.T) {
			same(t, p, q)
			if t.Failed() {
				t.Logf("%s\n%s", one, other)
			}
		})
	}
	if both < n*9/10 {
		t.Errorf("only %d of %d random booths can be built: they prove little", both, n)
	}
}

// ways are the checks of narrow places.
var ways = []string{"entrance", "reach", "turning circle"}

// found is a finding as one line, without its place in the file.
func found(f finding.Finding, message bool) string {
	if slices.Contains(ways, f.Check) { // where several places are equally narrow, these name one
		f.Item, message = "", false
	}
	s := fmt.Sprintf("%s %s %s %s", f.Check, f.Level, f.Item, f.View)
	if f.Figure != nil {
		digits := 7
		if slices.Contains(ways, f.Check) { // the middle of the circle inside is known to 0.01 mm
			digits = 4
		}
		s += fmt.Sprintf(" %.*f against %.7f %s", digits, f.Measured+1e-12, f.Limit, f.Unit)
	}
	if message {
		s += " " + f.Message
	}
	return strings.ReplaceAll(s, "-0.0000000", "0.0000000")
}

func findings(r check.Result) (out []string) {
	for _, f := range r.Findings {
		out = append(out, found(f, true))
	}
	return out
}

// differ tells what only one of two lists of lines has, in any order.
func differ(t *testing.T, what string, a, b []string) {
	t.Helper()
	a, b = slices.Sorted(slices.Values(a)), slices.Sorted(slices.Values(b))
	for _, one := range []struct {
		name     string
		own, not []string
	}{{"first", a, b}, {"second", b, a}} {
		left := slices.Clone(one.not)
		for _, line := range one.own {
			if i := slices.Index(left, line); i >= 0 {
				left = slices.Delete(left, i, i+1)
			} else {
				t.Errorf("%s: only the %s has %s", what, one.name, line)
			}
		}
	}
}

// sightlines holds all sightlines of two reports against each other, by name. owner is whom a share is put down to.
func sightlines(t *testing.T, a, b check.Result, name, owner func(string) string) {
	t.Helper()
	key := func(l check.Sightline) string { return string(l.Work) + " from " + l.From + " by " + l.Eye }
	of := map[string]check.Sightline{}
	for _, l := range b.Sightlines {
		of[key(l)] = l
	}
	if len(a.Sightlines) != len(b.Sightlines) {
		t.Errorf("%d and %d sightlines", len(a.Sightlines), len(b.Sightlines))
	}
	for _, l := range a.Sightlines {
		k := name(key(l))
		m, ok := of[k]
		if !ok {
			t.Errorf("no sightline %s", k)
			continue
		}
		if math.Abs(l.Visible-m.Visible) > 1e-9 || math.Abs(l.ViewSr-m.ViewSr) > 1e-9 || math.Abs(l.Turned-m.Turned) > 1e-6 {
			t.Errorf("%s: %v, %v sr, %v° and %v, %v sr, %v°", k, l.Visible, l.ViewSr, l.Turned, m.Visible, m.ViewSr, m.Turned)
		}
		shares := map[string]float64{}
		for _, h := range l.HiddenBy {
			shares[owner(name(string(h.Item)))] += h.Share
		}
		for _, h := range m.HiddenBy {
			shares[owner(string(h.Item))] -= h.Share
		}
		for item, d := range shares {
			if math.Abs(d) > 1e-3 { // walls that cross in a corner are met by some lines in either order
				t.Errorf("%s: %s hides %g more of it", k, item, d)
			}
		}
	}
}

// anybody is one owner for all: of two things that stand in each other the lines of sight meet either first, and which of
// them is asked first is no matter of left and right.
func anybody(string) string { return "" }

// tentAsOne is an item, or the tent for any part of it: where they touch they are equally near, and either has the blame.
func tentAsOne(item string) string {
	if strings.HasPrefix(item, "tent/") {
		return "tent"
	}
	return item
}

// widths holds the clear widths of two reports against each other, by name.
func widths(t *testing.T, a, b check.Result, name func(string) string) {
	t.Helper()
	of := map[string]float64{}
	width := func(c check.Clearance) float64 {
		if c.Width == nil {
			return 1e9
		}
		return *c.Width
	}
	for _, c := range b.Clearances {
		of[c.From+" "+string(c.To)] = width(c)
	}
	for _, c := range a.Clearances {
		k := name(c.From) + " " + name(string(c.To))
		exact := 1e-9
		if c.To == "inside" { // the middle of a circle that is known to 0.01 mm
			exact = 2e-5
		}
		if w, ok := of[k]; !ok || math.Abs(w-width(c)) > exact {
			t.Errorf("the way to %s is %v and %v wide", k, width(c), w)
		}
	}
	if a.Circle != nil && b.Circle != nil && math.Abs(a.Circle.Diameter-b.Circle.Diameter) > 2e-5 || (a.Circle == nil) != (b.Circle == nil) {
		t.Errorf("circles %v and %v", a.Circle, b.Circle)
	}
}

var hands = regexp.MustCompile(`\b(left|right)\b`)

// swapped is a text with left and right exchanged.
func swapped(s string) string {
	return hands.ReplaceAllStringFunc(s, func(w string) string {
		if w == "left" {
			return "right"
		}
		return "left"
	})
}

// either is a finding that does not say past which of two edges a thing stands that is as far past both, nor which of two
// things is named first, as that is the left one.
func either(s string) string {
	if strings.HasPrefix(s, "inside the pitch") {
		s = hands.ReplaceAllString(strings.ReplaceAll(s, "back edge", "left edge"), "one")
	}
	if k := others.FindStringIndex(s); k != nil {
		s = s[k[0]:]
	}
	words := strings.FieldsFunc(s, func(r rune) bool { return strings.ContainsRune(" ,:;", r) })
	return strings.Join(slices.Sorted(slices.Values(slices.DeleteFunc(words, func(w string) bool { return strings.HasPrefix(w, "work/") }))), " ")
}

// others end a list of names that is too long to be told: the names before are the first from the left.
var others = regexp.MustCompile(`\d+ others`)

// sides are what names the first or the last of three parts of a work.
var sides = regexp.MustCompile(`\bwork/w\d+x(/[23])?|part [13] of 3`)

// partsSwapped is a text with the outer parts of works exchanged that have three in the booth.
func partsSwapped(p *booth.Plan, s string) string {
	return sides.ReplaceAllStringFunc(s, func(w string) string {
		switch first, last := strings.CutSuffix(w, "/3"); {
		case strings.HasSuffix(w, "/2"):
		case w == "part 1 of 3":
			return "part 3 of 3"
		case w == "part 3 of 3":
			return "part 1 of 3"
		case last:
			return first
		case p.Part(booth.ID(w)+"/3") != nil:
			return w + "/3"
		}
		return w
	})
}

// A booth in a mirror has the findings, sightlines and widths of the booth, left and right exchanged.
func TestMirrored(t *testing.T) {
	pairs(t, booths(t, 12, 50), dialect{even: true}, dialect{even: true, mirrored: true}, func(t *testing.T, p, q *booth.Plan) {
		a, b := check.Run(p), check.Run(q)
		if c, d := a.Circle, b.Circle; c != nil && d != nil && math.Hypot(c.Centre[0]+d.Centre[0], c.Centre[1]-d.Centre[1]) > 1e-3 {
			return // of several circles that are as large either is the one that the way in leads to
		}
		swapped := func(s string) string { return partsSwapped(p, swapped(s)) }
		var flipped []string
		for _, f := range findings(a) {
			flipped = append(flipped, either(swapped(f)))
		}
		var others []string
		for _, f := range findings(b) {
			others = append(others, either(f))
		}
		differ(t, "findings", flipped, others)
		sightlines(t, a, b, swapped, anybody)
		widths(t, a, b, swapped)
	})
}

// What works are called is no matter to anything.
func TestRenamed(t *testing.T) {
	other := func(n string) string { return "z" + n[1:len(n)-1] + "q" } // of the same length, in the same order
	named := regexp.MustCompile(`\bw\d+x\b`)
	pairs(t, booths(t, 4, 20), dialect{}, dialect{name: other}, func(t *testing.T, p, q *booth.Plan) {
		a, b := everything(t, p), everything(t, q)
		for i := range a {
			if x, y := named.ReplaceAllStringFunc(a[i], other), b[i]; x != y {
				t.Errorf("renamed, other: %s", firstDifference(x, y))
			}
		}
	})
}

// everything is what is said of a booth, as JSON.
func everything(t *testing.T, p *booth.Plan) []string {
	r, err := order.Of(p, order.Options{})
	if err != nil {
		t.Fatal(err)
	}
	var out []string
	for _, v := range []any{check.Run(p), hang.Of(p), r} {
		var b bytes.Buffer
		e := json.NewEncoder(&b)
		e.SetEscapeHTML(false)
		if err := e.Encode(v); err != nil {
			t.Fatal(err)
		}
		out = append(out, b.String())
	}
	return out
}

func firstDifference(a, b string) string {
	i := 0
	for i < min(len(a), len(b)) && a[i] == b[i] {
		i++
	}
	cut := func(s string) string { return s[max(0, i-120):min(len(s), i+60)] }
	return cut(a) + "\nand " + cut(b)
}

// The order of entries in the file is no matter to what the checks measure.
func TestReordered(t *testing.T) {
	plain := func(r check.Result) (out []string) {
		for _, f := range r.Findings {
			if slices.Contains([]string{"gaps", "centres", "two in one place"}, f.Check) {
				f.Item = "" // the first of several
			}
			out = append(out, found(f, false))
		}
		return out
	}
	pairs(t, booths(t, 6, 30), dialect{}, dialect{mixed: rand.New(rand.NewPCG(5, 5))}, func(t *testing.T, p, q *booth.Plan) {
		a, b := check.Run(p), check.Run(q)
		same := func(s string) string { return s }
		differ(t, "findings", plain(a), plain(b))
		sightlines(t, a, b, same, tentAsOne)
		widths(t, a, b, same)
	})
}

// The unit that lengths are written in is no matter: in, ft, mm, cm and m are the same booth, word for word, and a booth
// in centimetres has the same numbers.
func TestUnits(t *testing.T) {
	for _, c := range []dialect{{write: "in"}, {write: "ft"}, {write: "mm"}, {write: "cm"}, {write: "m"}, {units: "cm"}} {
		t.Run(c.units+c.write, func(t *testing.T) {
			pairs(t, booths(t, 1, 5), dialect{}, c, func(t *testing.T, p, q *booth.Plan) {
				a, b := everything(t, p), everything(t, q)
				for i := range a {
					var x, y any
					if json.Unmarshal([]byte(a[i]), &x) != nil || json.Unmarshal([]byte(b[i]), &y) != nil {
						t.Fatal("no JSON")
					}
					alike(t, "", x, y, c.units == "")
				}
			})
		})
	}
}

// eitherOf are keys of findings.json that name one of several places that may be as good: of equally narrow gaps, of
// circles as large.
var eitherOf = []string{"between", "at", "stand", "centre"}

// alike holds two values of JSON against each other: numbers to rounding, and words if they should be the same.
func alike(t *testing.T, at string, a, b any, words bool) {
	switch a := a.(type) {
	case map[string]any:
		b, ok := b.(map[string]any)
		if !ok || len(a) != len(b) {
			t.Errorf("%s: %v and %v", at, a, b)
			return
		}
		for k := range a {
			if slices.Contains(eitherOf, k) || !words && k == "hardware" { // pipes are sold by the foot or by the metre
				continue
			}
			alike(t, at+"."+k, a[k], b[k], words)
		}
	case []any:
		b, ok := b.([]any)
		if !ok || len(a) != len(b) {
			t.Errorf("%s: %v\nand %v", at, a, b)
			return
		}
		for i := range a {
			alike(t, fmt.Sprintf("%s.%d", at, i), a[i], b[i], words)
		}
	case float64:
		if b, ok := b.(float64); !ok || math.Abs(a-b) > 1e-7*max(1, math.Abs(a)) {
			t.Errorf("%s: %v and %v", at, a, b)
		}
	case string:
		if b, ok := b.(string); !ok || words && a != b && !strings.HasSuffix(at, ".at") {
			t.Errorf("%s: %q and %q", at, a, b)
		}
	default:
		if a != b {
			t.Errorf("%s: %v and %v", at, a, b)
		}
	}
}

// Another thing in a booth never shows more of a work, from anywhere and to anybody.
func TestAnotherSolidShowsNoMore(t *testing.T) {
	r := rand.New(rand.NewPCG(8, 9))
	less := 0
	n := booths(t, 8, 30)
	for seed := range uint64(n) {
		_, p, err := randomBooth(seed, dialect{})
		if err != nil {
			continue
		}
		before := check.Run(p).Sightlines
		span := func(lo, hi float64) float64 { return lo + r.Float64()*(hi-lo) }
		f := geom.World.Moved(geom.Vec{X: span(-2, 2), Y: span(0, 1.6), Z: span(-3, 2)}).Turned(span(0, 7))
		crate := geom.Box(f, geom.Vec{}, geom.Vec{X: span(0.02, 1), Y: span(0.02, 1), Z: span(0.02, 1)})
		q := *p
		q.Parts = append(slices.Clone(p.Parts), booth.Part{ID: "crate", Name: "the crate", Frame: f, Solids: []geom.Convex{crate}})
		for i, l := range check.Run(&q).Sightlines {
			if l.Work != before[i].Work || l.Visible > before[i].Visible+1e-9 || l.ViewSr > before[i].ViewSr+1e-9 {
				t.Errorf("booth %d: %s from %s by %s shows %v, without the crate %v", seed, l.Work, l.From, l.Eye, l.Visible, before[i].Visible)
			}
			if l.Visible < before[i].Visible-1e-6 {
				less++
			}
		}
	}
	if less < n {
		t.Errorf("the crates hide something on %d sightlines only: that proves little", less)
	}
	t.Logf("%d sightlines show less", less)
}
