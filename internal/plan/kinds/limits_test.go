package kinds

import (
	"fmt"
	"strings"
	"testing"

	"boothmock/internal/basis/unit"
	"boothmock/internal/props/art"
)

// What is more than can be built is refused at its place, and what is just as much is not.
func TestLimits(t *testing.T) {
	lines := func(n int, format string) string {
		var b strings.Builder
		for k := range n {
			fmt.Fprintf(&b, format+"\n", k)
		}
		return b.String()
	}
	const tiny = "  - {name: w%d, size: 6 x 5, wall: back}"
	for _, c := range []struct{ name, text, want string }{
		{"works", "units: in\nwalls: [{side: back}]\nworks:\n" + lines(mostWorks+1, tiny),
			"a.yaml:3004:5: there are 3001 works; a scene may have 3000 at most (build a part of the booth at a time)"},
		{"pedestals", "units: in\npedestals:\n" + lines(mostEntries+1, "  - {name: p%d}"), "a.yaml:303:5: there are 301 pedestals; a scene may have 300 at most"},
		{"tasks", "units: in\ntasks:\n" + lines(mostEntries+1, "  - {do: Dust, name: t%d}"), "a.yaml:303:5: there are 301 tasks; a scene may have 300 at most"},
		{"prints", "units: in\nbins:\n" + lines(mostEntries, "  - {name: b%d, prints: 60}"), "with the b"},
		{"wires", "pitch: {width: 100ft, depth: 100ft}\nwalls:\n" + lines(80, "  - {side: back, name: m%d, top: 16ft, bottom: 0in, spacing: 1/2in}"), "with the m"},
	} {
		if _, err := plan(t, c.text); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %.300v; want %q", c.name, err, c.want)
		}
	}
	p := mustPlan(t, "units: in\nwalls: [{side: back}]\npedestals:\n"+lines(mostEntries, "  - {name: p%d}"))
	if p.Part("pedestal/p299") == nil || p.Part("pedestal/p300") != nil {
		t.Error("300 pedestals are not there")
	}
}

// Each of many photographs and tags is smaller, so that together they stay within bounds.
func TestManyShareTheirPixels(t *testing.T) {
	for _, n := range []int{1, 400} {
		var b strings.Builder
		b.WriteString("units: in\nwalls: [{side: back, top: 16ft}]\ntags: {}\nworks:\n")
		for k := range n {
			fmt.Fprintf(&b, "  - {name: w%d, size: 24 x 48, wall: back}\n", k)
		}
		pixels := 0
		for _, part := range mustPlan(t, b.String()).Parts {
			if part.Lettering != nil {
				for _, s := range part.Surfaces {
					if s.Look.Image != nil {
						pixels += s.Look.Image.Width * s.Look.Image.Height
					}
				}
			}
		}
		if pixels < n*8_000 || pixels > tagPixels*11/10 {
			t.Errorf("the tags of %d works have %d pixels", n, pixels)
		}
	}
}

// So is each of many signs; one alone is as sharp as ever.
func TestManySignsShareTheirPixels(t *testing.T) {
	for _, n := range []int{1, 40} {
		text := "units: in\nwalls: [{side: back}]\nsigns:\n"
		for k := range n {
			text += fmt.Sprintf("  - {name: s%d, text: [Prints], size: 24 x 36, wall: back}\n", k)
		}
		pixels := 0
		for _, part := range mustPlan(t, text).Parts {
			for _, s := range part.Surfaces {
				if s.Look.Image != nil {
					pixels += s.Look.Image.Width * s.Look.Image.Height
				}
			}
		}
		if pixels < min(n*2_000_000, signPixels*9/10) || pixels > signPixels*11/10 {
			t.Errorf("%d signs have %d pixels", n, pixels)
		}
	}
}

// Photographs are wished smaller by steps, and never all of them as large as the first would be.
func TestRation(t *testing.T) {
	for n, want := range map[int]int{10: 1950, 30: 1378, 300: 344, 3000: 121} {
		entries, wishes := make([]*workEntry, n), make([]art.Wish, n)
		for i := range n {
			entries[i] = &workEntry{}
			entries[i].Size.Size = unit.Size{A: 48 * unit.Inch, B: 48 * unit.Inch}
			wishes[i] = entries[i].wish()
		}
		ration(wishes, entries)
		total := 0
		for _, w := range wishes {
			total += w.Side * w.Side
		}
		if total > workPixels || wishes[0].Side != want {
			t.Errorf("%d photographs are wished %d pixels high, %d pixels in all; want %d", n, wishes[0].Side, total, want)
		}
	}
}
