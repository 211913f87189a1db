package kinds

import (
	"fmt"
	"strings"
	"testing"
	"testing/fstest"

	"boothmock/internal/plan/rules"
	"boothmock/internal/plan/scene"
)

// Of a whole list are missing those that nothing in the scene or in the list excuses. By hand.
func TestWholeList(t *testing.T) {
	list := "No,Title,Height,Width,Unit,Status\n" +
		"1,Heron,10,10,in,\n" + // hangs
		"2,Weir,10,10,in,\n" + // waits
		"3,Barn,large,,in,\n" + // cannot be read
		"4,Owl,large,,in,\n" + // cannot be read, but the scene says how large it is, and hangs it
		"5,Pears,,,in,\n" + // has no size
		"6,Moths,10,10,in,\n" + // two of a title: one hangs
		"7,Moths,10,10,in,\n" +
		"8,Hay,10,10,in,sold\n" +
		"9,Elm,10,10,in,spare\n" +
		"10,Oak,10,10,in,\n" + // the scene says that it is a spare
		"11,Ash,10,10,in,\n" // nowhere in the scene
	works := "works:\n  - {name: heron, wall: back, left: 2}\n  - {name: weir}\n  - {name: owl, size: 10 x 10, wall: back, left: 20}\n" +
		"  - {name: moths a, title: Moths, size: 10 x 10, wall: back, left: 40}\n  - {name: oak, status: spare}\n"
	for says, want := range map[string]string{
		"sheet: works.csv\nwhole list: yes\n":  "3 Weir unplaced work/weir; 4 Barn unread ; 6 Pears unsized ; 8 Moths unplaced ; 12 Ash unplaced ",
		"sheet: works.csv\nwhole list: no\n":   "",
		"sheet: works.csv\n":                   "",
		"sheet: works.csv\nwhole list: most\n": "a.yaml:3:13",
		"whole list: yes\n":                    "a.yaml:2:13",
	} {
		fsys := fstest.MapFS{"works.csv": {Data: []byte(list)}, "a.yaml": {Data: []byte("units: in\n" + says + "walls: [{side: back}]\n" + works)}}
		f, err := scene.Read(fsys, "a.yaml")
		if err != nil {
			t.Fatal(err)
		}
		p, err := Build(f, rules.Book{}, fsys)
		if err != nil {
			if !strings.HasPrefix(want, "a.yaml") || !strings.Contains(err.Error(), want) {
				t.Errorf("%s%v", says, err)
			}
			continue
		}
		var got []string
		for _, m := range p.Missing {
			got = append(got, fmt.Sprint(m.Number, " ", m.Title, " ", m.Lack, " ", m.ID))
		}
		if strings.Join(got, "; ") != want {
			t.Errorf("%s%q, want %q", says, got, want)
		}
	}
}
