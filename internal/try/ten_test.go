package try_test

import (
	"bytes"
	"image"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"boothmock/internal/basis/unit"
	"boothmock/internal/job"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/start"
	"boothmock/internal/try"
)

// ten are a painter's photographs, and the sizes of what they show as somebody types them.
var ten = [][2]string{
	{"Harbour at noon", "24 x 36"}, {"two boats", "16 x 20"}, {"the_red_barn", "18x24"}, {"Kale", "8 x 10"}, {"Onions", "8 x 10"},
	{"Leeks", "8 x 10"}, {"December, evening", "30 x 30"}, {"gate", "12 × 16"}, {"The long field", "20 x 40"}, {"Self with hat", "14 x 11"},
}

// begun is a scene in a folder with ten photographs and nothing else.
func begun(t *testing.T) (s *try.Session, path string) {
	t.Helper()
	dir := t.TempDir()
	for _, one := range ten {
		size, err := unit.ParseSize(one[1], unit.Inches, true)
		if err != nil {
			t.Fatal(err)
		}
		var file bytes.Buffer
		if err := png.Encode(&file, image.NewGray(image.Rect(0, 0, int(size.B/unit.Inch), int(size.A/unit.Inch)))); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(dir, one[0]+".png"), file.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	if _, _, err := job.Start(dir, start.Options{Bare: true}); err != nil {
		t.Fatal(err)
	}
	path = filepath.Join(dir, start.SceneFile)
	return tryAt(t, path), path
}

// Somebody who only ever sees the page hangs ten works from their photographs, moves the table and saves: the scene is one that a person
// would have written.
func TestTenWorksAreHung(t *testing.T) {
	s, path := begun(t)
	st := s.State()
	if len(st.Loose) != 10 || s.Image(st.Loose[3].Image) == nil || s.Image("image/none") != nil {
		t.Fatalf("these are offered: %v", st.Loose)
	}
	id := map[string]booth.ID{}
	for _, one := range ten {
		out := s.Say(try.Ask{Version: try.Version, Do: "bring", Name: one[0] + ".png", Title: strings.Replace(one[0], "the_red_barn", "The red barn", 1), Text: one[1]})
		if out.Refused != "" {
			t.Fatal(out.Refused)
		}
		st, id[one[0]] = out.State, out.Added
	}
	if len(st.Loose) != 0 || len(st.Works) != 10 {
		t.Errorf("%d works, and these are offered yet: %v", len(st.Works), st.Loose)
	}
	refused(t, s, try.Ask{Do: "bring", Name: "booth.yaml", Title: "A scene", Text: "8 x 10"})
	row := func(n int) *int { return &n }
	to := func(title, wall string, n, place int) {
		t.Helper()
		say(t, s, try.Ask{Do: "hang", Item: id[title], With: booth.ID("wall/" + wall), Row: row(n), Place: place})
	}
	to("Harbour at noon", "back", 0, 0)
	to("two boats", "back", 0, 1)
	to("the_red_barn", "back", 0, 0)
	to("Kale", "left", 1, 0)
	to("Onions", "left", 1, 1)
	to("Leeks", "left", 1, 1)
	to("December, evening", "right", 2, 0)
	to("gate", "right", 2, 1)
	say(t, s, try.Ask{Do: "hang", Item: id["The long field"], With: "wall/left", X: 1.4, Y: 1.5})
	say(t, s, try.Ask{Do: "hang", Item: id["Self with hat"], With: "wall/right", X: 1.9, Y: 1.473})
	say(t, s, try.Ask{Do: "swap", Item: id["gate"], With: id["two boats"]})
	say(t, s, try.Ask{Do: "hang", Item: id["gate"], With: "wall/right", Row: row(2), Place: 2})
	desk := thingOf(t, st, "table/desk")
	say(t, s, try.Ask{Do: "stand", Item: desk.ID, X: desk.X + 1.5, Z: desk.Z - 0.3, Turn: desk.Turn})
	say(t, s, try.Ask{Do: "save"})
	want := `
tables:
  - {name: desk, size: 30 x 20, height: 30, cloth: linen, from front: 19 3/4, from right: 37 1/4, turn: 90}

tags: {}

works:
  - {name: harbour, title: Harbour at noon, image: Harbour at noon.png, size: 24 x 36}
  - {name: boats, title: two boats, image: two boats.png, size: 16 x 20}
  - {name: barn, title: The red barn, image: the_red_barn.png, size: 18 x 24}
  - {name: kale, title: Kale, image: Kale.png, size: 8 x 10}
  - {name: onions, title: Onions, image: Onions.png, size: 8 x 10}
  - {name: leeks, title: Leeks, image: Leeks.png, size: 8 x 10}
  - {name: december, title: "December, evening", image: "December, evening.png", size: 30 x 30}
  - {name: gate, title: gate, image: gate.png, size: 12 x 16}
  - {name: field, title: The long field, image: The long field.png, size: 20 x 40, wall: left, left: 55 1/8, centre: 59}
  - {name: self, title: Self with hat, image: Self with hat.png, size: 14 x 11, wall: right, left: 74 3/4}

rows:
  - {wall: back, works: [barn, harbour]}
  - {wall: left, works: [kale, leeks, onions]}
  - {wall: right, works: [december, boats, gate]}
`
	if got := contents(t, path); !strings.HasSuffix(got, want) {
		t.Errorf("the scene says:\n%s", got)
	}
}
