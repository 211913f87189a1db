// Package finding is what there is to say about a booth before the car is loaded, whoever says it: the checks, the hang
// sheet, the wind, the rehearsals. All of it is of one kind and is gathered in one report, whose verdict every output
// shows. It finds nothing itself.
//
// Measures are metres, degrees, kilograms, metres a second, minutes and shares from 0 to 1; messages are in the scene's
// own units.
package finding

import (
	"fmt"
	"slices"
	"strings"

	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
)

// Check is one question that is asked of a booth: its findings carry its name.
type Check struct {
	Name   string
	Doc    string // one sentence for people
	Source string // where its limits are from
}

// Level is how much a finding matters.
type Level string

const (
	Fail    Level = "fail"    // put it right before you go
	Caution Level = "caution" // worth a change
	Note    Level = "note"    // good to know
)

// Finding is one thing that there is to say.
type Finding struct {
	Check   string     `json:"check"`
	Level   Level      `json:"level"`
	Item    booth.ID   `json:"item"`
	With    booth.ID   `json:"with"`            // the other thing, of a finding about two; empty where there is none
	At      string     `json:"at"`              // file:line:col
	View    string     `json:"view"`            // the view concerned; empty where there is none
	Steps   []booth.ID `json:"steps,omitempty"` // at which it must be known, each with its list: "set-up/weights"
	*Figure            // left out where nothing was measured
	Message string     `json:"message"`
	More    int        `json:"more,omitempty"` // findings of the check and level that are only counted: this one stands for them
	Source  string     `json:"source"`
	Open    string     `json:"open,omitempty"` // what it leaves nobody able to say: the verdict's line says so too
}

// Sentence is the message with a large first letter and a full stop, unless it ends a sentence already.
func (f Finding) Sentence() string {
	if f.Message == "" || strings.ContainsAny(f.Message[len(f.Message)-1:], ".!?") {
		return unit.Capital(f.Message)
	}
	return unit.Capital(f.Message) + "."
}

// Names are "a, b, c and 5 others": of more than four the rest are counted.
func Names(names []string) string {
	const told = 4
	if n := len(names); n > told {
		names = append(slices.Clone(names[:told-1]), fmt.Sprintf("%d others", n-told+1))
	}
	return unit.List(names, "and")
}

// Several is a message about one thing or more: what is so of one, or of that many, which, and what to do.
func Several(names []string, one, many, then string) string {
	what := one
	if n := len(names); n > 1 {
		what = fmt.Sprintf(many, n)
	}
	return what + ": " + Names(names) + ". " + then
}

// Figure is what was measured and what it was compared with.
type Figure struct {
	Measured float64 `json:"measured"`
	Limit    float64 `json:"limit"`
	Unit     Unit    `json:"unit"`
}

// Unit is what a figure is measured in.
type Unit string

const (
	Metres    Unit = "m"
	Share     Unit = "share"
	Degrees   Unit = "deg"
	Kilograms Unit = "kg"
	Speed     Unit = "m/s"
	Minutes   Unit = "min"
	Count     Unit = "count"
	Lux       Unit = "lx"
	Watts     Unit = "W"
)
