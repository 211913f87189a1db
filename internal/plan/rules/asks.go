package rules

import (
	"errors"
	"fmt"
	"maps"
	"slices"
	"strings"

	"boothmock/internal/basis/fault"
	"boothmock/internal/basis/unit"
)

// Ask is something that the fair's rule sheet asks of every booth, in its own words. One of the fields is set.
type Ask struct {
	At     fault.Place
	Says   string       // the sheet's own words
	Weight *unit.Weight // ballast on each leg
	Height *unit.Length // that nothing is higher than
	Line   *unit.Length // how far things may stand out from the front edge, into the aisle
	Flame  bool         // cloth and tent carry flame labels
	Boards bool         // no boards stand on the ground
	Quiet  *unit.Hours  // when nobody sets up or takes down
	Arrive *unit.Hours  // when to come on the first day
}

// asks is the key under which a rule sheet lists what it asks.
const asks = "asks"

// asked are the keys of an ask beside its words, with an example each.
var asked = map[string]string{
	"ballast": "40lb", "height": "12ft", "aisle line": "0in", "flame label": "yes", "no boards": "yes", "quiet": "20:00 to 8:00", "arrive": "6:30 to 8:00",
}

// Asks is what the fair's rule sheet asks, in its order.
func (b Book) Asks() []Ask { return b.asks }

// asks are what a layer's list says; what is wrong in it is added to the faults.
func (l Layer) asks(faults *fault.List) (out []Ask) {
	list, ok := l.Values[asks].([]any)
	if _, says := l.Values[asks]; says && !ok {
		faults.Add(l.At(asks), `write a list such as asks: [{says: "40 lb on each leg", ballast: 40lb}]`, "asks: want a list")
	}
	for i, v := range list {
		at := l.At(fmt.Sprintf("%s.%d", asks, i))
		entry, ok := v.(map[string]any)
		a := Ask{At: at}
		keys := slices.Sorted(maps.Keys(entry))
		a.Says, _ = entry["says"].(string)
		if keys = slices.DeleteFunc(keys, func(k string) bool { return k == "says" }); !ok || strings.TrimSpace(a.Says) == "" || len(keys) != 1 {
			faults.Add(at, `write for example {says: "40 lb on each leg", ballast: 40lb}`, "asks: an entry has the sheet's own words as says, and one thing that they ask")
			continue
		}
		text, _ := entry[keys[0]].(string)
		if err := a.set(keys[0], strings.TrimSpace(text), l); err != nil {
			faults.Add(at, err.Hint, "%s: %s", keys[0], err.Text)
			continue
		}
		out = append(out, a)
	}
	return out
}

// set reads what an ask asks.
func (a *Ask) set(key, text string, l Layer) *unit.Error {
	var err error
	switch key {
	case "ballast":
		var w unit.Weight
		w, err = unit.ParseWeight(text, l.Units, l.UnitsStated)
		a.Weight = &w
	case "height", "aisle line":
		var m unit.Length
		m, err = unit.ParseLength(text, l.Units, l.UnitsStated)
		if a.Line = &m; key == "height" {
			a.Line, a.Height = nil, &m
		}
	case "arrive":
		a.Arrive = &unit.Hours{}
		err = a.Arrive.UnmarshalText([]byte(text))
	case "quiet": // over midnight
		var halves [2]unit.Hours
		from, to, _ := strings.Cut(text, " to ")
		for i, half := range []string{from, to} {
			if err == nil {
				err = halves[i].UnmarshalText([]byte("0:00 to " + half))
			}
		}
		a.Quiet = &unit.Hours{From: halves[0].To, To: halves[1].To}
	case "flame label", "no boards":
		if text != "yes" && text != "true" {
			return &unit.Error{Text: unit.Quote(text) + " is not yes", Hint: "write yes, or leave the entry out"}
		}
		a.Flame, a.Boards = key == "flame label", key == "no boards"
	default:
		names := slices.Sorted(maps.Keys(asked))
		if near, ok := fault.Nearest(key, names); ok {
			return &unit.Error{Text: "nothing is known by that name", Hint: "did you mean " + near + "?"}
		}
		return &unit.Error{Text: "nothing is known by that name", Hint: "one of " + unit.List(names, "and")}
	}
	var e *unit.Error
	if errors.As(err, &e) {
		return e
	}
	return nil
}
