package compare

import (
	"fmt"
	"math"
	"strings"
	"testing"
	"testing/fstest"

	"boothmock/internal/find/check"
	"boothmock/internal/find/hang"
	"boothmock/internal/find/order"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/finding"
	"boothmock/internal/plan/kinds"
	"boothmock/internal/plan/rules"
	"boothmock/internal/plan/scene"
)

const plain = `units: in
pitch: {width: 10ft, depth: 10ft, aisle: 12ft, neighbours: none}
walls: [{side: back, top: 82}, {side: left, top: 82}]
tables: [{name: desk, size: 40 x 24, height: 30, from left: 60, from front: 30}]
works:
  - {name: a, title: Heron, size: 24 x 36, price: 480, weight: 6lb}
  - {name: b, title: Weir, size: 20 x 20, price: 300}
  - {name: c, title: Moths, size: 10 x 10, price: 90}
rows:
  - {wall: back, works: [a, b], gap: 6}
  - {wall: left, works: [c]}
`

func side(t *testing.T, text string) Side {
	t.Helper()
	f, err := scene.Parse("a.yaml", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	p, err := kinds.Build(f, rules.Book{}, fstest.MapFS{})
	if err != nil {
		t.Fatal(err)
	}
	r, err := order.Of(p, order.Options{Which: order.SetUp})
	if err != nil {
		t.Fatal(err)
	}
	c := check.Run(p)
	return Side{p, finding.Gather(p, nil, c.Findings), c, hang.Of(p), r}
}

// Each edit of a scene is told as what it is, and only as that: a work that comes between others moves them, and nothing else.
func TestWords(t *testing.T) {
	for edit, want := range map[string]string{
		"":                                          "",
		"price: 480|price: 520":                     "Heron costs $520 instead of $480",
		"weight: 6lb|weight: 8lb":                   "Heron weighs 8 lb instead of 6 lb",
		"title: Heron|title: Grey heron":            "Grey heron is called Grey heron instead of Heron",
		"size: 10 x 10|size: 12 x 10":               "Moths is 12 x 10 in instead of 10 x 10 in",
		"works: [c]|works: [c], centre: 60":         "Moths is 2 in higher",
		"from front: 30|from front: 20":             "the desk table is 10 in nearer to the aisle",
		"from left: 60|from left: 64":               "the desk table is 4 in to the right",
		"size: 40 x 24|size: 48 x 24":               "the desk table is 4 in to the right; the desk table is 48 in wide, 24 in deep, 30 in high instead of 40 in wide, 24 in deep, 30 in high",
		"works: [a, b]|works: [b, a]":               "Heron is 26 in to the right; Weir is 42 in to the left",
		"works: [c]|works: [c, b]|, b], gap|], gap": "",
		"[a, b], gap|[a], gap":                      "Heron is 13 in to the right; Weir hangs no more and waits",
		"10ft, aisle|12ft, aisle":                   "the pitch is 12 ft deep instead of 10 ft; the left wall is 144 in wide, 1/4 in deep, 76 in high instead of 120 in wide, 1/4 in deep, 76 in high; Moths is 12 in to the right", // the middle of a wider wall
	} {
		text := plain
		if parts := strings.Split(edit, "|"); len(parts) >= 2 {
			for i := 0; i+1 < len(parts); i += 2 {
				text = strings.Replace(text, parts[i], parts[i+1], 1)
			}
			if text == plain {
				t.Fatalf("%s changes nothing", edit)
			}
		}
		r := Of(side(t, plain), side(t, text))
		var got []string
		for _, x := range r.Things {
			got = append(got, x.Name+" "+x.Words)
		}
		if want != "" && strings.Join(got, "; ") != want || edit == "" && len(got) > 0 {
			t.Errorf("%s: %s\nwant %s", edit, strings.Join(got, "; "), want)
		}
		if r.Same != (edit == "") {
			t.Errorf("%s: the plans are said to be alike: %v", edit, r.Same)
		}
	}
	r := Of(side(t, plain), side(t, strings.NewReplacer("works: [c]", "works: [c, b]", ", b], gap", "], gap").Replace(plain)))
	if got := fmt.Sprint(r.Things); !strings.Contains(got, "Weir moved is on the left wall, not on the back wall") {
		t.Error(got)
	}
}

// What both plans come to, counted by hand: three works, two hooks each at the most, $870 on the walls; without b, which waits,
// $570. The comparison is the same from either end.
func TestTotals(t *testing.T) {
	a, b := side(t, plain), side(t, strings.Replace(plain, "[a, b], gap", "[a], gap", 1))
	there, back := Of(a, b), Of(b, a)
	for i, x := range there.Totals {
		y := back.Totals[i]
		if x.Name != y.Name || x.Words[0] != y.Words[1] || x.Words[1] != y.Words[0] {
			t.Errorf("%+v and back %+v", x, y)
		}
		switch x.Name {
		case "works on view":
			if x.Words != [2]string{"3", "2"} {
				t.Errorf("%+v", x)
			}
		case "works that wait":
			if x.Words != [2]string{"0", "1"} {
				t.Errorf("%+v", x)
			}
		case "money on the walls":
			if x.Words != [2]string{"$870", "$570"} {
				t.Errorf("%+v", x)
			}
		}
	}
	if len(there.Gone) != len(back.New) || len(there.New) != len(back.Gone) || len(there.New) == 0 {
		t.Errorf("%d gone and %d new; back %d and %d", len(there.Gone), len(there.New), len(back.Gone), len(back.New))
	}
	mean := 0.0
	for _, s := range there.Seen {
		if s.Shares[0] == nil || *s.Shares[0] < 0 || *s.Shares[0] > 1 {
			t.Fatalf("%+v", s)
		}
		mean += *s.Shares[0] / 3
		if (s.ID == booth.ID("work/b")) != (s.Shares[1] == nil) {
			t.Errorf("%+v", s)
		}
	}
	if math.Abs(mean-there.Average[0]) > 1e-12 {
		t.Errorf("on average %v, and of all works %v", there.Average[0], mean)
	}
}

// Cloth of another colour, and a canopy that lets other light through, are changes too.
func TestLooksDiffer(t *testing.T) {
	tented := strings.Replace(plain, "tables", "tent: {}\ndrapes: {walls: [left], cloth: \"#806040\"}\ntables", 1)
	other := strings.NewReplacer("tent: {}", "tent: {canopy: \"#1c2438\", light through: 2%}", "#806040", "#405060").Replace(tented)
	var got []string
	for _, x := range Of(side(t, tented), side(t, other)).Things {
		if x.What != Changed {
			t.Errorf("%+v", x)
		}
		got = append(got, x.Name+" "+x.Words)
	}
	all := strings.Join(got, "; ")
	if want := "the canopy has another colour and lets 2% of the light through instead of 25%; the left drape has another colour"; all != want {
		t.Errorf("%s\nwant %s", all, want)
	}
}
