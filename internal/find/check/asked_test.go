package check

import (
	"strings"
	"testing"
	"testing/fstest"

	"boothmock/internal/basis/fault"
	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/kinds"
	"boothmock/internal/plan/rules"
	"boothmock/internal/plan/scene"
)

// What a fair asks is found in the sheet's own words, at its limit and past it: 40 lb are 40 lb, and what stands on the line is
// not past it.
func TestWhatAFairAsks(t *testing.T) {
	ask := func(values ...any) rules.Book {
		b, err := rules.Merge(nil, nil, rules.Layer{Name: "sheet", Units: unit.Inches, UnitsStated: true, Values: map[string]any{"asks": values}, At: func(string) fault.Place { return fault.Place{File: "rules.yaml"} }})
		if err != nil {
			t.Fatal(err)
		}
		return b
	}
	one := func(key, value string) any { return map[string]any{"says": "As it stands in the sheet.", key: value} }
	found := func(b rules.Book, scenes string) string {
		p := builtFrom(t, b, "units: in\npitch: {width: 10ft, depth: 10ft, aisle: 12ft}\ntent: {eave: 86, peak: 120, ballast: 40lb}\n"+scenes)
		var out []string
		for _, f := range Run(p).Findings {
			if f.Check == inside.Name && f.Item == "thing/board" && len(b.Asks()) > 0 && b.Asks()[0].Line != nil {
				t.Errorf("the line is the fair's, and is told twice: %s", f.Message)
			}
			if f.Check == asked.Name {
				out = append(out, f.Message)
			}
		}
		return strings.Join(out, "\n")
	}
	const board = "things: [{name: board, size: 20 x 4 x 40, before front: 12}]\n"
	for _, c := range []struct {
		ask            any
		scene, message string
	}{
		{one("ballast", "40lb"), "", ""},
		{one("ballast", "41lb"), "", "The fair asks “As it stands in the sheet”; 40 lb stand on each leg of"},
		{one("height", "10ft 1in"), "", ""},
		{one("height", "9ft"), "", "reaches 120 in up; 108 in is the most"},
		{one("aisle line", "16in"), board, ""},
		{one("aisle line", "12in"), board, "stands 16 in out from the front edge; 12 in is the most"},
		{one("no boards", "yes"), board, ""},
		{one("no boards", "yes"), "things: [{name: today, what: a-board, before front: 12}]\n", "the today stands on the ground"},
		{one("no boards", "yes"), "tables: [{name: prints, size: 48 x 24}]\nthings: [{name: today, what: a-board, on: prints}]\n", ""},
		{one("flame label", "yes"), "", "the scene states no flame labels"},
		{one("flame label", "yes"), "flame labels: on every cloth\n", ""},
	} {
		if got := found(ask(c.ask), c.scene); c.message == "" && got != "" || !strings.Contains(got, c.message) {
			t.Errorf("%v: %q, want %q", c.ask, got, c.message)
		}
	}
}

// An entry that asks nothing, or what nobody knows, is refused at its place.
func TestAsksThatCannotBeRead(t *testing.T) {
	for want, v := range map[string]any{
		"asks: want a list":                                                "40lb",
		"asks: an entry has the sheet's own words":                         []any{map[string]any{"ballast": "40lb"}},
		"balast: nothing is known by that name (did you mean ballast?)":    []any{map[string]any{"says": "a", "balast": "40lb"}},
		`no boards: "no" is not yes`:                                       []any{map[string]any{"says": "a", "no boards": "no"}},
		"asks: an entry has the sheet's own words as says, and one thing ": []any{map[string]any{"says": "a", "height": "9ft", "quiet": "20:00 to 8:00"}},
	} {
		_, err := rules.Merge(nil, nil, rules.Layer{Units: unit.Inches, UnitsStated: true, Values: map[string]any{"asks": v}, At: func(key string) fault.Place { return fault.Place{File: "rules.yaml"} }})
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%v: %v, want %q", v, err, want)
		}
	}
}

// A board in the aisle is for the fair to allow: without a rule that speaks of boards or of the aisle's line, that is to be asked.
func TestABoardInTheAisle(t *testing.T) {
	for what, want := range map[string]Level{"a-board": Caution, "box": Fail} {
		found := Level("")
		for _, f := range Run(builtFrom(t, rules.Book{}, "units: in\npitch: {width: 10ft, depth: 10ft, aisle: 12ft}\nthings: [{name: today, what: "+what+", before front: 6}]\n")).Findings {
			if f.Check == inside.Name {
				found = f.Level
			}
		}
		if found != want {
			t.Errorf("%s: %q, want %q", what, found, want)
		}
	}
}

// builtFrom is the booth of a scene's text.
func builtFrom(t *testing.T, b rules.Book, text string) *booth.Plan {
	t.Helper()
	f, err := scene.Parse("a.yaml", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	p, err := kinds.Build(f, b, fstest.MapFS{})
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// A table on the front line with cloth and a banner before it, as many stand: hem and banner are in the aisle, and it is nothing to mend.
func TestABannerBeforeTheFrontLine(t *testing.T) {
	for _, f := range Run(builtFrom(t, rules.Book{}, "units: in\npitch: {width: 10ft, depth: 10ft, aisle: 12ft}\ntables: [{name: desk, size: 48 x 24, cloth: linen, from front: 0}]\nbanner: {text: Marrowby, size: 10 x 40, on: desk}\n")).Findings {
		if f.Check == inside.Name {
			t.Error(f.Message)
		}
	}
}
