package kinds

import (
	"strings"
	"testing"
	"testing/fstest"

	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/rules"
	"boothmock/internal/plan/scene"
)

func TestSheetOfWorks(t *testing.T) {
	fsys := fstest.MapFS{
		"list/works.csv": {Data: []byte("No,Title,Size,Price,Weight,Medium\n7,Heron at the weir,24 x 36,\"1,250\",8lb,oil\n8,Moths,small,140,,linocut\n9,Pears,10 x 10 cm,90,,\n9,Quinces,12 x 12,90,,\n")},
		"away/list.csv":  {Data: []byte("Title,Size,Status\nHeron,24 x 36,spare\nPears,10 x 12,at home\n")},
		"away.yaml":      {Data: []byte("units: in\nsheet: away/list.csv\nwalls: [{side: back}]\nworks:\n  - {name: heron, wall: back, left: 0}\n  - {name: pears, wall: back, left: 50, status: for sale}\n")},
		"a.yaml":         {Data: []byte("units: in\nsheet: list/works.csv\nwalls: [{side: back}]\nworks:\n  - {name: heron at the weir, wall: back, price: 1300}\n")},
		"b.yaml":         {Data: []byte("units: in\nsheet: list/works.csv\nwalls: [{side: back}]\nworks:\n  - {name: moths, wall: back}\n  - {name: \"9\", wall: back}\n  - {name: qinces, wall: back}\n  - {name: barn, size: 8 x 10, wall: back}\n")},
		"c.yaml":         {Data: []byte("units: in\nsheet: list/work.csv\nwalls: [{side: back}]\nworks:\n  - {name: barn, wall: back}\n")},
	}
	build := func(name string) (*Site, error) {
		f, err := scene.Read(fsys, name)
		if err != nil {
			t.Fatal(err)
		}
		p, err := Build(f, rules.Book{}, fsys)
		return &Site{Plan: p}, err
	}
	s, err := build("a.yaml")
	if err != nil {
		t.Fatal(err)
	}
	w := s.Plan.Part("work/heron at the weir").Work
	if w.Title != "Heron at the weir" || unit.Length(w.Height).Format(unit.Inches) != "24 in" || w.Price != 130000 || w.Medium != "oil" || w.Weight != 8*unit.Pound {
		t.Errorf("%+v", w)
	}
	if s, err = build("away.yaml"); err != nil || s.Plan.Part("work/heron").Work.Away != "spare" || s.Plan.Part("work/pears").Work.Away != "" {
		t.Errorf("a spare of the list that hangs, and one of which the scene says otherwise: %v", err)
	}
	_, err = build("b.yaml")
	for _, want := range []string{"b.yaml:5:12: row 3 of list/works.csv cannot be read: Size:", `rows 4 and 5 of list/works.csv are both "9"`, `did you mean "Quinces"?`} {
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%v\nwant %s", err, want)
		}
	}
	if strings.Contains(err.Error(), "barn") {
		t.Errorf("a work with a size of its own needs no row: %v", err)
	}
	_, err = build("c.yaml")
	if err == nil || !strings.Contains(err.Error(), "c.yaml:2:8: list/work.csv: there is no such sheet (there is list/works.csv)") || strings.Contains(err.Error(), "size is missing") {
		t.Error(err)
	}
}
