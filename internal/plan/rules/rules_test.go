package rules

import (
	"errors"
	"fmt"
	"math"
	"reflect"
	"strings"
	"testing"

	"boothmock/internal/basis/fault"
	"boothmock/internal/basis/unit"
)

func layer(name string, sys unit.System, stated bool, values map[string]any) Layer {
	return Layer{name, sys, stated, values, func(rule string) fault.Place { return fault.Place{File: name, Line: 3, Col: 7} }}
}

func find(t *testing.T, b Book, name string, sys unit.System) Line {
	t.Helper()
	for _, l := range b.Explain(sys) {
		if l.Name == name {
			return l
		}
	}
	t.Fatalf("no rule %q", name)
	return Line{}
}

// The figures of the 2010 ADA Standards that rules stand on, as printed there in inches: 403.5.1 (36, and 32 for at most
// 24), 304.3.1 (60), 307.4 (80), 307.2 (4 and 27), 902.3 (28 to 34).
func TestPublishedRules(t *testing.T) {
	for r, inches := range map[Length]float64{RouteWidth: 36, PinchWidth: 32, PinchLength: 24, TurningCircle: 60, Headroom: 80, Protrusion: 4, CaneHeight: 27, TopLow: 28, TopHigh: 34} {
		if got := find(t, Book{}, r.Name, unit.Inches); got.Value != fmt.Sprintf("%g in", inches) || got.Layer != Practice || !strings.Contains(got.Source, "2010 ADA") {
			t.Errorf("%+v, want %g in", got, inches)
		}
	}
}

// What stands on common practice, and the eye heights: no source prints the practice values, so that this holds is only that nobody
// changes one by accident. The eyes, in inches: ANSUR II (2012) standing eye height, as their doc says; the 1991 ADAAG's figure A3 gives 43 to
// 51 for a wheelchair, whose middle is 47; NUREG-0700 rev. 3 gives 45 degrees.
func TestValuesByPractice(t *testing.T) {
	for name, want := range map[string]string{
		"hanging centre": "58 in", "centre tolerance": "2 in", "level tolerance": "1/8 in", "gap between works": "2 in", "margin at wall ends": "2 in",
		"viewing distance": "60 in", "reading distance": "24 in", "scanning distance": "24 in",
		"adult eye": "62 1/4 in", "tall eye": "69 in", "short eye": "56 in", "wheelchair eye": "47 in", "child eye": "41 in", "seated eye": "29 3/8 in",
		"visible share": "90%", "turned away": "45°", "shape tolerance": "2%",
		"frame time": "4 min", "weight time": "1 min", "cloth time": "5 min", "panel time": "8 min", "hook time": "1 min", "work time": "2 min", "tag time": "1 min",
		"sun on a work": "15 min", "sun in the eye": "30°", "lux on a work": "100 lx", "even light": "30%", "mirrored": "10%", "power": "500 W", "light on works": "10%",
		"table time": "4 min", "thing time": "1 min", "banner time": "6 min",
	} {
		if got := find(t, Book{}, name, unit.Inches).Value; got != want {
			t.Errorf("%s: %s, want %s", name, got, want)
		}
	}
}

// What is told in eighths of an inch or whole hundredths is held to the hair as well.
func TestFineValues(t *testing.T) {
	for r, inches := range map[Length]float64{LevelSlack: 0.125, AdultEye: 62.2, SeatEye: 29.4} {
		if got := r.In(Book{}) / unit.Inch.M(); math.Abs(got-inches) > 1e-9 {
			t.Errorf("%s: %v in", r.Name, got)
		}
	}
}

func TestEachRuleIsWhole(t *testing.T) {
	names := map[string]bool{}
	for i, l := range (Book{}).Explain(unit.Inches) {
		if l.Name == "" || l.Doc == "" || l.Source == "" || names[l.Name] || l.Name != strings.ToLower(l.Name) {
			t.Errorf("rule %d: %+v", i, l)
		}
		names[l.Name] = true
		// Its own value, printed, is a value that it takes.
		b, err := Merge(nil, []string{l.Name + "=" + l.Value})
		if err != nil || find(t, b, l.Name, unit.Inches).Value != l.Value {
			t.Errorf("%s=%s: %v", l.Name, l.Value, err)
		}
		if got := b.layer(l.Name); got != "command line" {
			t.Errorf("%s comes from %s", l.Name, got)
		}
	}
}

func TestLaterLayersWin(t *testing.T) {
	settings := layer("settings", unit.Inches, true, map[string]any{"hanging centre": "57", "gap between works": "3", "visible share": "80%", "turned away": "40", "headroom": "90"})
	sheet := layer("sheet", unit.Centimetres, true, map[string]any{"hanging centre": "150", "gap between works": "10", "visible share": "0.85"})
	scene := layer("scene", unit.Centimetres, true, map[string]any{"hanging centre": "155", "gap between works": "12"})
	env := []string{"HOME=/", "BOOTHMOCK_HANGING_CENTRE=160", "BOOTHMOCK_HEADROOM=7ft"}
	b, err := Merge(env, []string{"Hanging  Centre = 1.65m"}, settings, sheet, scene)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ name, value, layer string }{
		{"hanging centre", "165 cm", "command line"},
		{"headroom", "213.4 cm", "environment"},
		{"gap between works", "12 cm", "scene"},
		{"visible share", "85%", "sheet"},
		{"turned away", "40°", "settings"},
		{"route width", "91.4 cm", Practice},
	} {
		if l := find(t, b, c.name, unit.Centimetres); l.Value != c.value || l.Layer != c.layer {
			t.Errorf("%+v, want %s from %s", l, c.value, c.layer)
		}
	}
	if got := find(t, b, "turned away", unit.Inches).Source; got != "in place of 45°: NUREG-0700 rev. 3, 11.2.1.1-5, written for displays" {
		t.Errorf("source: %s", got)
	}
	if HangingCentre.In(b) != 1.65 || VisibleShare.In(b) != 0.85 || RouteWidth.In(b) != RouteWidth.Default.M() || Headroom.In(Book{}) != Headroom.Default.M() {
		t.Error("In does not give the values of the book")
	}
	// Without the flag the environment's bare 160 is in the scene's units.
	if b, err := Merge(env, nil, settings, sheet, scene); err != nil || HangingCentre.In(b) != 1.6 {
		t.Errorf("%v, %v", HangingCentre.In(b), err)
	}
}

// Degrees come out of a layer as they went in, to the last bit.
func TestAnglesAreExact(t *testing.T) {
	for d := range 91 {
		if b, err := Merge(nil, []string{fmt.Sprintf("turned away=%ddeg", d)}); err != nil || TurnedAway.In(b) != float64(d) {
			t.Errorf("%d is %v (%v)", d, TurnedAway.In(b), err)
		}
	}
}

// All faults of all layers are reported, also of values that a later layer replaces.
func TestFaults(t *testing.T) {
	low := layer("low.yaml", unit.Inches, false, map[string]any{"hanging centre": "58", "hanging center": "58in", "speed": "3", "headroom": nil, "turning circle": []any{"1"}})
	high := layer("high.yaml", unit.Centimetres, false, map[string]any{"hanging centre": "400ft", "visible share": "90", "turned away": "100", "gap between works": "-1in", "pinch width": ""})
	_, err := Merge([]string{"BOOTHMOCK_GAP=2in", "BOOTHMOCK_HEADROOM=high"}, []string{"headroom", "pinch length=3", "=4in"}, low, high)
	want := `command line: "headroom" is not a rule and its value (write for example "hanging centre=60in")
command line: there is no rule "" (boothmock explain rules lists all of them)
command line: pinch length: a length needs a unit (write 3in, 3ft or 3cm)
environment: there is no rule "gap" (boothmock explain rules lists all of them)
environment: headroom: "high" is not a length (write 24in, 18 1/2in, 5ft, 5'6", 60cm or 1.2m)
high.yaml:3:7: gap between works: "-1in" is out of range (from 0 to 609.6 cm)
high.yaml:3:7: hanging centre: "400ft" is out of range (from 0 to 609.6 cm)
high.yaml:3:7: pinch width: is empty; want a length (write 24in, 18 1/2in, 5ft, 5'6", 60cm or 1.2m)
high.yaml:3:7: turned away: "100" is out of range (from 0° to 90°)
high.yaml:3:7: visible share: "90" is not a share (write 90% or 0.9)
low.yaml:3:7: there is no rule "hanging center" (did you mean hanging centre?)
low.yaml:3:7: hanging centre: a length needs a unit (write 58in, 58ft or 58cm)
low.yaml:3:7: headroom: has no value (write for example 80 in)
low.yaml:3:7: there is no rule "speed" (boothmock explain rules lists all of them)
low.yaml:3:7: turning circle: want one value (write for example 60 in)`
	var list fault.List
	if fmt.Sprint(err) != want || !errors.As(err, &list) {
		t.Errorf("got\n%v\nwant\n%s", err, want)
	}
}

// Merging does not write into what it is given.
func TestMergeLeavesLayersAlone(t *testing.T) {
	l := layer("scene", unit.Inches, true, map[string]any{"hanging centre": "60"})
	layers := make([]Layer, 1, 8)
	layers[0] = l
	for range 2 {
		if b, err := Merge([]string{"BOOTHMOCK_HANGING_CENTRE=61"}, nil, layers...); err != nil || HangingCentre.In(b) < 1.5494-1e-12 {
			t.Fatal(err)
		}
	}
	if l.Values["hanging centre"] != "60" || layers[:2][1].Values != nil {
		t.Error("a layer was changed")
	}
}

// A rule takes its limits and nothing beyond them.
func TestLimitsOfRules(t *testing.T) {
	for rule, texts := range map[string]string{
		"turned away": "0|90|91|-1", "headroom": "0in|20ft|20ft 1in|-1in", "visible share": "0%|100%|101%|-1%", "frame time": "0|4h|241 min|-1",
		"lux on a work": "0 lx|20000|20001|-1", "power": "0|20000 W|20001 W|NaN",
	} {
		for i, text := range strings.Split(texts, "|") {
			if _, err := Merge(nil, []string{rule + "=" + text}); (err == nil) != (i < 2) {
				t.Errorf("%s=%s: %v", rule, text, err)
			}
		}
	}
	if b, _ := Merge(nil, []string{"power=500"}); !Power.Stated(b) || Power.Stated(Book{}) {
		t.Error("what is stated is taken for practice, or the other way round")
	}
}

// What a fair's sheet asks is read each as what it is.
func TestAsks(t *testing.T) {
	weight, length, quiet, arrive := unit.Weight(20), unit.Length(4), unit.Hours{From: 1200, To: 480}, unit.Hours{From: 390, To: 480}
	for key, c := range map[string]struct {
		text string
		want Ask
	}{
		"ballast": {"20kg", Ask{Weight: &weight}}, "height": {"4m", Ask{Height: &length}}, "aisle line": {"4m", Ask{Line: &length}},
		"flame label": {"yes", Ask{Flame: true}}, "no boards": {"true", Ask{Boards: true}}, "quiet": {"20:00 to 8:00", Ask{Quiet: &quiet}}, "arrive": {"6:30 to 8:00", Ask{Arrive: &arrive}},
	} {
		b, err := Merge(nil, nil, layer("sheet", unit.Inches, true, map[string]any{"asks": []any{map[string]any{"says": "so it says", key: c.text}}}))
		c.want.Says, c.want.At = "so it says", fault.Place{File: "sheet", Line: 3, Col: 7}
		if err != nil || !reflect.DeepEqual(b.Asks(), []Ask{c.want}) {
			t.Errorf("%s: %v, %+v", key, err, b.Asks())
		}
	}
	for _, c := range []struct {
		asks any
		want string
	}{
		{"boards", "asks: want a list"}, {[]any{"boards"}, "an entry has"}, {[]any{map[string]any{"says": " ", "ballast": "40lb"}}, "an entry has"},
		{[]any{map[string]any{"says": "x", "ballast": "40lb", "height": "12ft"}}, "an entry has"}, {[]any{map[string]any{"says": "x"}}, "an entry has"},
		{[]any{map[string]any{"says": "x", "ballast": "heavy"}}, "ballast: "}, {[]any{map[string]any{"says": "x", "no boards": "no"}}, "is not yes"},
		{[]any{map[string]any{"says": "x", "quiet": "20:00 to noon"}}, "quiet: "}, {[]any{map[string]any{"says": "x", "quiet": "late to 8:00"}}, "quiet: "},
		{[]any{map[string]any{"says": "x", "balast": "40lb"}}, "did you mean ballast?"}, {[]any{map[string]any{"says": "x", "zeppelins": "1"}}, "one of aisle line, arrive"},
	} {
		if _, err := Merge(nil, nil, layer("sheet", unit.Inches, true, map[string]any{"asks": c.asks})); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%v: %v, want %s", c.asks, err, c.want)
		}
	}
}
