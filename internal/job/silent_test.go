package job_test

import (
	"fmt"
	"strings"
	"testing"

	"boothmock/internal/find/check"
)

// What stood in, on or before something else and was passed over without a word: a small scene each, and what is told.
func TestNothingHidesSilently(t *testing.T) {
	const room = "units: in\npitch: {width: 10ft, depth: 10ft, indoor: true, neighbours: none}\nwalls: [{side: back, hang on: panel, top: 90, bottom: 6}]\n"
	work := func(name, rest string) string { return "{name: " + name + ", size: 24 x 36, " + rest + "}" }
	for _, c := range []struct{ name, text, want string }{
		{"a sign inside a canvas",
			"works: [" + work("heron", "wall: back, left: 40") + "]\nsigns: [{name: welcome, text: [cards], size: 10 x 8, wall: back, left: 50, centre: 58}]\n",
			"fail: The welcome sign and heron overlap by 8 x 10 in on the back wall: move the welcome sign 17 in up"},
		{"signs on each other",
			"signs: [{name: a, text: [x], size: 10 x 8, wall: back, left: 40}, {name: b, text: [y], size: 10 x 8, wall: back, left: 44}]\n",
			"fail: The b sign and the a sign overlap by 4 x 10 in on the back wall: move the b sign 4 in to the right"},
		{"a price tag under the next frame",
			"works: [" + work("heron", "wall: back, left: 40, centre: 70") + ", " + work("weir", "under: heron, gap: 2") + "]\ntags: {}\n",
			"fail: Weir and the tag of heron overlap by 3 1/2 x 3/4 in on the back wall: move weir 3/4 in down"},
		{"a banner behind a work",
			"works: [" + work("heron", "wall: back, left: 40") + "]\nbanner: {text: Odile, size: 12 x 60, wall: back}\n",
			"fail: The banner and heron overlap by 36 x 12 in on the back wall: move the banner 18 in up"},
		{"a sign past the wall's end",
			"signs: [{name: welcome, text: [cards], size: 10 x 12, wall: back, left: 115}]\n",
			"fail: The welcome sign sticks out 7 in past the right end of the back wall"},
		{"a sign a little past the wall's end",
			"signs: [{name: welcome, text: [cards], size: 10 x 12, wall: back, left: 110}]\n",
			"caution: The welcome sign sticks out 2 in past the right end of the back wall"},
		{"a sign above the wall",
			"signs: [{name: welcome, text: [cards], size: 10 x 12, wall: back, centre: 88}]\n",
			"caution: The upper edge of the welcome sign is 3 in above the highest place for a hook on the back wall"},
		{"a visitor in a table",
			"tables: [{name: sales, size: 48 x 24, from left: 36, from front: 20}]\nvisitors: [{name: looker, from left: 50, from front: 30}]\n",
			"caution: The visitor looker and the sales table take the same room: move the visitor looker"},
		{"a banner wider than its table",
			"tables: [{name: sales, size: 48 x 24, from left: 36, from front: 20, cloth: linen}]\nbanner: {text: Odile, size: 12 x 60, on: sales}\n",
			"caution: The banner is 12 in wider than the sales table"},
		{"two tables in one place",
			"tables: [{name: sales, size: 48 x 24, from left: 10, from front: 20}, {name: prints, size: 30 x 20, from left: 56 7/8, from front: 20}]\n",
			"fail: The prints table and the sales table take the same room: move the prints table 1 1/8 in to the right"},
		{"two things that share a top",
			"tables: [{name: sales, size: 48 x 24, from left: 10, from front: 20, on top: [{name: guest book, size: 10 x 8 x 1, along: 10, back: 2}, {name: rack, size: 9 x 6 x 5, along: 18, back: 4}]}]\n",
			"fail: The rack and the guest book share 2 x 6 in of the top of the sales table: move the rack 2 in to the right, as you stand before the sales table"},
		{"a work wider than its pedestal",
			"pedestals: [{name: low, size: 12 x 12}]\nworks: [" + work("heron", "on: low") + "]\n",
			"caution: Heron tips easily: the middle of its weight is 6 in from the nearest end of the low pedestal; a quarter of its width, 9 in, is usual"},
		{"a work that falls off its table",
			"tables: [{name: sales, size: 48 x 24, from left: 36, from front: 20}]\nworks: [" + work("heron", "on: sales, along: 35") + "]\n",
			"fail: Heron falls: the middle of its weight is 5 in past the right end of the sales table"},
		{"a tag behind a thing on the table",
			"tables: [{name: sales, size: 60 x 24, against: back, height: 30, on top: [{name: crate, size: 60 x 22 x 40, back: 1}]}]\nworks: [" + work("heron", "wall: back") + "]\ntags: {}\n",
			"caution: The crate hides 100% of the tag of heron from somebody who stands before it"},
		{"a banner behind a screen",
			"pedestals: [{name: tall, size: 60 x 12, height: 70, from front: 4}]\nbanner: {text: Odile, size: 12 x 40, wall: back}\n",
			"fail: The tall pedestal hides 100% of the banner from across the aisle"},
		{"a sign turned to the wall",
			"tables: [{name: sales, size: 48 x 24, from left: 36, from front: 20}]\nsigns: [{name: welcome, text: [cards], size: 10 x 8, on: sales, turn: 180}]\n",
			"caution: The welcome sign faces away from before the entrance: nobody reads it from there"},
		{"the back of a work before the chair",
			"tables: [{name: sales, size: 48 x 22, against: left, from front: 10}]\nchair: {against: left, from front: 62}\nworks: [" + work("dahlias", "on: sales, along: 5, turn: -70") + "]\n",
			"note: The back of dahlias fills"},
		{"two tents in one sentence", "tent: {eave: 84, valance: 9, tents across: 2}\n",
			"caution: The front valance of the left tent and the front valance of the right tent hang 75 in above the ground"},
	} {
		p, err := build(room + c.text)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		var told []string
		for _, f := range check.Run(p).Findings {
			told = append(told, fmt.Sprintf("%s: %s", f.Level, f.Message))
		}
		if n := strings.Count("\n"+strings.Join(told, "\n"), "\n"+c.want); n != 1 {
			t.Errorf("%s: want once %s\ntold:\n%s", c.name, c.want, strings.Join(told, "\n"))
		}
	}
}
