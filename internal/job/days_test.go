package job

import (
	"strings"
	"testing"

	"boothmock/internal/find/hang"
)

// Three days by their forecasts: a calm night leaves the walls up and the night's list is done; in a night with more wind than the tent stands
// it comes down, and is set up again in the morning; the last evening is the strike. Each step of the night has its people and minutes.
func TestDays(t *testing.T) {
	const scene = `units: in
pitch: {width: 10ft, depth: 10ft, aisle: 12ft, neighbours: none}
tent: {eave: 86, weight: 60lb, ballast: 40lb}
walls: [{side: back, top: 82}]
tables: [{name: desk, size: 40 x 24, against: left}]
works: [{name: a, size: 30 x 40, weight: 8lb}]
rows: [{wall: back, works: [a]}]
set-up: {people: 2, names: [Ada, Bo], time: 3h}
fair:
  dates: [2026-06-12, 2026-06-13, 2026-06-14]
  hours: 10:00 to 18:00
  zone: America/Chicago
  latitude: 42
  longitude: -90
  entrance faces: south
  days:
    - {date: 2026-06-12, wind: 5 mph, night wind: 6 mph, night rain: yes}
    - {date: 2026-06-13, hours: 9:00 to 17:00, night wind: 90 mph}
`
	m := mocked(t, scene)
	s, p := days(m), m.Plan
	if len(s.Tables) != 3 {
		t.Fatalf("%d days", len(s.Tables))
	}
	text := func(t hang.Table) string {
		var out []string
		for _, r := range t.Rows {
			out = append(out, strings.Join(r, "|"))
		}
		return t.Title + "\n" + strings.Join(out, "\n")
	}
	for i, want := range [][]string{
		{"Friday, 12 June 2026, open 10:00 to 18:00", "07:00|Set up: ", "|Ada and Bo|", "10:00|Walls and cloth stay up: gusts of 5 mph are forecast", "18:00|Night: Walls and cloth stay up", "18:00|Night: Rain: the desk table is covered", "18:00|Take the money"},
		{"Saturday, 13 June 2026, open 9:00 to 17:00", "Uncover, hang again", "09:00|No wind is stated", "17:00|Night: The tent is down and all is packed: gusts of 90 mph", "17:00|Take down for the night"},
		{"07:00|Set up: ", "18:00|Take down: "},
	} {
		got := text(s.Tables[i])
		for _, w := range want {
			if !strings.Contains(strings.ReplaceAll(got, "open 09:00", "open 9:00"), w) {
				t.Errorf("day %d has no %q:\n%s", i+1, w, got)
			}
		}
	}
	if got := text(s.Tables[1]); strings.Contains(got, "Take the money") {
		t.Errorf("the tent is gone, and the night's list is there:\n%s", got)
	}
	found := false
	for _, f := range m.Report().Findings {
		found = found || strings.Contains(f.Message, "In the night after Saturday, 13 June, gusts of 90 mph are forecast")
	}
	if !found {
		t.Errorf("nothing is found about the windy night: %v", m.Report().Findings)
	}
	if p.Weather.Gust < 2.2 || p.Weather.Gust > 2.3 || !p.Weather.Stated { // 5 mph, the only day's wind that is stated
		t.Errorf("the day's wind is not what the tent is held against: %+v", p.Weather)
	}
}

func mocked(t *testing.T, scene string) *Mockup {
	t.Helper()
	w := Workshop{}
	f, err := w.Parse([]byte(scene))
	if err != nil {
		t.Fatal(err)
	}
	p, err := w.Build(f)
	if err != nil {
		t.Fatal(err)
	}
	m, err := New(p)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// Five days of wind: in each, morning and evening do what follows from what stood before and from what the wind lets stand, in this order.
// The tent is good for 18 mph with its drape and for more without.
func TestDaysInTheWind(t *testing.T) {
	m := mocked(t, `units: in
pitch: {width: 10ft, depth: 10ft, aisle: 12ft, neighbours: none}
tent: {eave: 86, weight: 60lb, ballast: 80lb}
walls: [{side: back, top: 82}]
drapes: {walls: [back]}
works: [{name: a, size: 30 x 40, weight: 8lb}]
rows: [{wall: back, works: [a]}]
set-up: {people: 2, names: [Ada, Bo], time: 3h}
fair:
  dates: [2026-06-12, 2026-06-13, 2026-06-14, 2026-06-15, 2026-06-16]
  hours: 10:00 to 18:00
  zone: America/Chicago
  latitude: 42
  longitude: -90
  entrance faces: south
  days:
    - {date: 2026-06-12, wind: 24 mph, rain: yes, night wind: 5 mph}
    - {date: 2026-06-13, wind: 5 mph, night wind: 24 mph, night rain: yes}
    - {date: 2026-06-14, wind: 5 mph, night wind: 90 mph}
    - {date: 2026-06-15, wind: 90 mph, night wind: 5 mph}
    - {date: 2026-06-16, wind: 5 mph}
`)
	if up, down := m.Sheet().Weather.Up.GoodFor, m.Sheet().Weather.Down.GoodFor; up > 24*0.447 || down < 24*0.447 {
		t.Fatalf("good for %v and %v m/s", up, down)
	}
	s := days(m)
	for i, want := range [][]string{
		{"Set up, but for works, drapes and curtains", "The bare tent stays up", "Rain: no wall keeps it out", "Night: ", "Take the money", "Look round once more"},
		{"Uncover, hang drapes and works again", "Walls and cloth stay up", "Night: The bare tent", "Night: Rain: ", "Take down what still hangs of the works", "Take the money", "Look round"},
		{"Uncover, hang drapes and works again", "Walls and cloth stay up", "Night: The tent is down", "Take down for the night: "},
		{"The tent is down"},
		{"Set up: ", "Of it: ", "Walls and cloth stay up", "Take down: "},
	} {
		var got []string
		for _, r := range s.Tables[i].Rows {
			got = append(got, r[1])
		}
		k := 0
		for _, line := range got {
			if k < len(want) && strings.HasPrefix(line, want[k]) {
				k++
			}
		}
		text := strings.Join(got, "\n")
		if k < len(want) {
			t.Errorf("day %d has no %q in its place:\n%s", i+1, want[k], text)
		}
		if i < 2 && (strings.Contains(text, "Take the works of") || strings.Contains(text, "Close the open sides")) {
			t.Errorf("day %d ends with a bare tent:\n%s", i+1, text)
		}
		if len(want) == 1 && len(got) != 1 {
			t.Errorf("all is packed, and there is something to do:\n%s", text)
		}
	}
}

// A tag that touches the work beside its own is told; an eighth of an inch away it is not, and its own work never is.
func TestTagThatTouches(t *testing.T) {
	for left, want := range map[string]bool{"34.5": true, "34.6": true, "34.7": false} {
		m := mocked(t, `units: in
pitch: {neighbours: none}
walls: [{side: back, hang on: panel}]
works:
  - {name: one, size: 30 x 20, wall: back, left: 10, centre: 56}
  - {name: two, size: 30 x 20, wall: back, left: `+left+`, centre: 56}
tags: {size: 2 x 3.5, beside: right, gap: 1in}
`)
		found := false
		for _, f := range m.Report().Findings {
			if strings.Contains(f.Message, "touches") {
				found = true
				if f.Item != "tag/one" || f.With != "work/two" {
					t.Errorf("two from %s in: %s and %s touch", left, f.Item, f.With)
				}
			}
		}
		if found != want {
			t.Errorf("two from %s in: touched is %v", left, found)
		}
	}
}
