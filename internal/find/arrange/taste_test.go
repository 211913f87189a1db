package arrange

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"boothmock/internal/plan/booth"
)

// party is a booth of nine works in two rows, of which the last two wait. Works of three mediums hang mixed up.
const party = `units: in
pitch: {width: 10ft, depth: 10ft, aisle: 12ft, neighbours: none}
tent: {eave: 86}
walls: [{side: back, top: 82}, {side: left, top: 82}]
works:
  - {name: a, size: 20 x 24, medium: oil}
  - {name: b, size: 12 x 12, medium: linocut}
  - {name: c, size: 24 x 20, medium: oil}
  - {name: d, size: 12 x 14, medium: linocut}
  - {name: e, size: 16 x 16, medium: etching, pinned: yes}
  - {name: f, size: 20 x 16, medium: oil}
  - {name: g, size: 10 x 12, medium: etching}
  - {name: h, size: 9 x 9, medium: linocut}
  - {name: i, size: 60 x 110, medium: oil}
rows:
  - {wall: back, works: [a, b, c, d, i]}
  - {wall: left, works: [e, f, g, h]}
`

// Hung calmly, no row has more of its wall covered than is calm; full, every spare that fits hangs, and none that does not; by
// family, mediums stand together. A pinned work stays in all of them, and no rule is broken.
func TestWaysDiffer(t *testing.T) {
	plan := planOf(t, party)
	h := Of(plan, "work/h", "work/i")
	ways, _ := h.Ways()
	if len(ways) != 3 {
		t.Fatalf("%d ways", len(ways))
	}
	on := map[string][]string{}
	for _, w := range ways {
		l := make(layout, 3)
		for r, row := range w.Rows {
			for _, id := range row.Works {
				on[w.Name] = append(on[w.Name], strings.TrimPrefix(string(id), "work/"))
				l[r] = append(l[r], slices.IndexFunc(h.pieces, func(p piece) bool { return plan.Parts[p.part].ID == id }))
			}
		}
		a := h.begin(l)
		if f := a.faults(); !f.within(h.allowed) {
			t.Errorf("%s breaks more than now: %+v", w.Name, f)
		}
		if w.Rows[1].Works[0] != booth.ID("work/e") {
			t.Errorf("%s moved the pinned work: %v", w.Name, w.Rows)
		}
		for r := range a.rows {
			if share := a.rows[r].covered / h.rows[r].Room; w.Name == "calm" && share > calmShare+1e-9 {
				t.Errorf("calm covers %.2f of row %d", share, r+1)
			}
		}
		if apart := a.split(func(p *piece) int { return p.kin }); w.Name == "family" && apart > 1 { // oil, linocut, and two etchings of which one is pinned
			t.Errorf("by family, mediums hang apart %d times: %v", apart, w.Rows)
		}
	}
	if n := len(on["calm"]); n >= 7 || n < 3 {
		t.Errorf("calm hangs %v", on["calm"])
	}
	if got := slices.Sorted(slices.Values(on["full"])); strings.Join(got, "") != "abcdefgh" {
		t.Errorf("full hangs %v", got)
	}
	if got := slices.Sorted(slices.Values(on["family"])); strings.Join(got, "") != "abcdefg" {
		t.Errorf("by family hangs %v", got)
	}
}

// Without spares there is nothing more to hang.
func TestFullWithoutSpares(t *testing.T) {
	ways, _ := Of(planOf(t, small)).Ways()
	for _, w := range ways {
		if (w.Rows == nil) != (w.Name == "full") {
			t.Errorf("%+v", w)
		}
	}
}

// Hung full, what hangs now still hangs: a large work does not come down for several small ones. Hung calmly, rows are no less even than now.
func TestFullKeepsWhatHangs(t *testing.T) {
	names, works, spares := "", "", []booth.ID{"work/h"}
	for n := range 14 {
		names += fmt.Sprintf(", s%d", n)
		works += fmt.Sprintf("  - {name: s%d, size: 14 x 14}\n", n)
		spares = append(spares, booth.ID(fmt.Sprintf("work/s%d", n)))
	}
	h := Of(planOf(t, strings.NewReplacer("{name: a, size: 20 x 24,", "{name: a, size: 50 x 60,", "  - {name: i, size: 60 x 110, medium: oil}\n", works, "works: [a, b, c, d, i]", "works: [a, b, d"+names+"]", "works: [e, f, g, h]", "works: [e, c, f, g, h]").Replace(party)), spares...)
	ways, _ := h.Ways()
	for _, w := range ways {
		uneven := [2]float64{}
		for i, l := range []layout{h.present(), h.layoutOf(w.Rows)} {
			for _, r := range h.begin(l).rows {
				uneven[i] += r.uneven
			}
		}
		if w.Name == "calm" && uneven[1] > uneven[0] {
			t.Errorf("calm: works beside each other differ by %.2f m, now by %.2f m: %v", uneven[1], uneven[0], w.Rows)
		}
		for _, id := range []booth.ID{"work/a", "work/b", "work/c", "work/d", "work/e", "work/f", "work/g"} {
			if !slices.ContainsFunc(w.Rows, func(r booth.Row) bool { return slices.Contains(r.Works, id) }) && w.Name == "full" {
				t.Errorf("full takes down %s: %v", id, w.Rows)
			}
		}
	}
}

// layoutOf is the layout of rows.
func (h *Hall) layoutOf(rows []booth.Row) layout {
	l := make(layout, len(rows)+1)
	for r, row := range rows {
		for _, id := range row.Works {
			l[r] = append(l[r], slices.IndexFunc(h.pieces, func(p piece) bool { return h.plan.Parts[p.part].ID == id }))
		}
	}
	return l
}
