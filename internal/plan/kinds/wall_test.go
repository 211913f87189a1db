package kinds

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"boothmock/internal/basis/geom"
	"boothmock/internal/plan/booth"
)

// A wall whose name says that it is one is not called a wall twice, and works go on calling it by its whole name.
func TestNameOfAWall(t *testing.T) {
	p := mustPlan(t, "units: in\nwalls: [{name: side wall, width: 3ft, hang on: panel}]\nworks: [{name: a, size: 9 x 9, wall: side wall}]\n")
	if w := p.Part("wall/side wall"); w == nil || w.Name != "the side wall" || w.Wall.Called != "side wall" {
		t.Errorf("%+v", w)
	}
}

// What a name says is not said again.
func TestNamesSayItOnce(t *testing.T) {
	for name, want := range map[string]string{"sales": "the sales table", "long table": "the long table", "Table 2": "the Table 2", "tablet": "the tablet table"} {
		if got := called(name, "table"); got != want {
			t.Errorf("%q is called %s, not %s", name, got, want)
		}
	}
}

// A run is joined where faces or backs meet: no two panels share room, no gap is left, and each face is as wide as it says.
func TestRunsAreJoined(t *testing.T) {
	for run, want := range map[string][]geom.Vec{ // the directions in which the faces look
		"[4ft, forward, 3ft]":             {{Z: 1}, {X: -1}},
		"[4ft, back, 3ft]":                {{Z: 1}, {X: 1}},
		"[2ft, forward, 3ft, back, 2ft]":  {{Z: 1}, {X: -1}, {Z: 1}},
		"[2ft, back, 3ft, back, 2ft]":     {{Z: 1}, {X: 1}, {Z: -1}},
		"[3ft, forward, 2ft, forward, 3]": {{Z: 1}, {X: -1}, {Z: -1}},
		"[2ft, 2ft]":                      {{Z: 1}, {Z: 1}},
	} {
		run = strings.Replace(run, ", 3]", ", 3ft]", 1)
		p := mustPlan(t, "units: in\nwalls: [{name: w, run: "+run+", hang on: panel, from left: 20, from front: 30}]\n")
		var last *booth.Part
		for i, z := range want {
			part := p.Part(booth.ID(fmt.Sprintf("wall/w %d", i+1)))
			if part == nil || part.Frame.Z.Dist(z) > 1e-12 {
				t.Fatalf("%s: panel %d is %+v", run, i+1, part)
			}
			if last != nil {
				gap := math.Inf(1)
				for _, a := range last.Solids[0].Corners {
					for _, b := range part.Solids[0].Corners {
						gap = min(gap, a.Dist(b))
					}
				}
				if d := geom.Overlap(geom.Map(last.Solids[0]), geom.Map(part.Solids[0])); d > 1e-9 || gap > 1e-9 {
					t.Errorf("%s: panels %d and %d share %g m, and are %g m apart", run, i, i+1, d, gap)
				}
			}
			last = part
		}
		lo, hi := geom.Vec{X: math.Inf(1), Z: math.Inf(1)}, geom.Vec{X: math.Inf(-1), Z: math.Inf(-1)}
		for _, part := range p.Parts {
			if part.Wall != nil {
				a, b := geom.Bounds(part.Solids[0].Corners)
				lo, hi = geom.Vec{X: min(lo.X, a.X), Z: min(lo.Z, a.Z)}, geom.Vec{X: max(hi.X, b.X), Z: max(hi.Z, b.Z)}
			}
		}
		if math.Abs(lo.X-(-5*0.3048+20*0.0254)) > 1e-9 || math.Abs(hi.Z-(-30*0.0254)) > 1e-9 {
			t.Errorf("%s: the run reaches from %v to %v", run, lo, hi)
		}
	}
}

// Both faces of a wall are walls to hang on, back to back, the second from its own left end.
func TestFacesAreBackToBack(t *testing.T) {
	p := mustPlan(t, "units: in\nwalls: [{name: w, width: 4ft, hang on: panel, faces: both, turn: 30}]\ndrapes: {walls: [w back], fullness: 1.5}\n")
	a, b := p.Part("wall/w"), p.Part("wall/w back")
	if a == nil || b == nil || b.Wall.Back != a.ID || len(b.Solids) != 0 || b.Wall.Cover != "drape/w back" || a.Wall.Cover != "" {
		t.Fatalf("%+v\n%+v", a, b)
	}
	deep := a.Frame.Local(b.Frame.Origin)
	if a.Frame.Z.Add(b.Frame.Z).Len() > 1e-12 || math.Abs(deep.X-a.Wall.Width) > 1e-12 || deep.Z > -panelThick || deep.Z < -panelThick-0.2 {
		t.Errorf("the second face is at %v of the first", deep)
	}
	tasks := 0
	for _, task := range p.SetUp.Tasks {
		if strings.HasPrefix(string(task.ID), "wall/") {
			tasks++
		}
	}
	if tasks != 1 {
		t.Errorf("one panel is stood up %d times", tasks)
	}
}

// A store is the ground from its side to its wall, over the whole side; curtains close what the wall leaves open.
func TestStore(t *testing.T) {
	p := mustPlan(t, "units: in\npitch: {width: 10ft, depth: 10ft, indoor: yes}\nwalls: [{side: back, name: screen, distance: 2ft, width: 7ft, from left: 1ft, hang on: panel, closed: yes}]\n")
	if len(p.Stores) != 1 || len(p.Stores[0].Curtains) != 2 {
		t.Fatalf("%+v", p.Stores)
	}
	lo, hi := geom.Bounds(p.Stores[0].Ground)
	if math.Abs(hi.X-lo.X-3.048) > 1e-9 || math.Abs(hi.Z-lo.Z-2*0.3048-panelThick) > 1e-9 || math.Abs(lo.Z+3.048) > 1e-9 {
		t.Errorf("the store is from %v to %v", lo, hi)
	}
	for id, wide := range map[booth.ID]float64{"curtain/screen-left": 0.3048, "curtain/screen-right": 2 * 0.3048} {
		if c := p.Part(id); c == nil || math.Abs(c.Cloth.Width-wide) > 1e-9 || !c.Cloth.Free {
			t.Errorf("%s: %+v", id, c)
		}
	}
}

// What cannot be built is said where it stands.
func TestWallFaults(t *testing.T) {
	for entry, want := range map[string]string{
		"{}":                             "a wall has neither side nor name",
		"{name: w}":                      `the free wall "w" has no width`,
		"{name: w, run: [4ft, forward]}": `nothing is joined at "forward"`,
		"{name: w, run: [back, 4ft]}":    `nothing is joined at "back"`,
		"{name: w, run: [4ft, forward 120, 4ft]}":                    "is no turn of up to 90 degrees",
		"{name: w, run: [4ft, sideways, 4ft]}":                       `"sideways" is no width of a panel`,
		"{name: w, run: [4ft, 101ft]}":                               `"101ft" is no width of a panel`,
		"{name: w, run: [4ft, 5in]}":                                 `"5in" is no width of a panel`,
		"{name: w, run: [4ft], width: 3ft}":                          "the run says how wide each panel is",
		"{name: w, width: 4ft, closed: yes}":                         `a wall without a side has no "closed"`,
		"{side: back, turn: 20}":                                     `a wall along a side has no "turn"`,
		"{side: back, closed: yes}":                                  "there is no room behind the wall for a store",
		"{side: back, distance: 40ft}":                               "the wall stands beyond the other side of the pitch",
		"{name: w, width: 4ft, from left: 3, from right: 4}":         `both "from left" and "from right" are given`,
		"{side: back}]\ndrapes: [{walls: [bakc]}":                    `there is no side or wall "bakc"`,
		"{name: w, width: 4ft}]\ndrapes: [{walls: [w]},{walls: [w]}": `"w" is draped already`,
	} {
		if _, err := plan(t, "units: in\nwalls: ["+entry+"]\n"); !strings.Contains(fmt.Sprint(err), want) {
			t.Errorf("%s: got %s, want %s", entry, err, want)
		}
	}
}

// Works on a rail hang by a wire from it to each hook, which is drawn and hides what is behind it.
func TestRailHasWires(t *testing.T) {
	p := mustPlan(t, "units: in\nwalls: [{side: left, hang on: rail, top: 80}]\nworks:\n  - {name: a, size: 30 x 40, wall: left, left: 20, centre: 55}\n  - {name: b, size: 12 x 12, wall: left, left: 80, centre: 55}\n")
	rail := p.Part("wall/left")
	var hooks []booth.Hook
	for _, id := range []booth.ID{"work/a", "work/b"} {
		hooks = append(hooks, p.Part(id).Work.Hung.Hooks...)
	}
	if len(hooks) < 2 || len(rail.Screen) != len(hooks) || len(rail.Surfaces) != 2 {
		t.Fatalf("%d hooks, %d wires, %d surfaces", len(hooks), len(rail.Screen), len(rail.Surfaces))
	}
	for i, w := range rail.Screen {
		a, b := w.Ends(0)
		from, to := rail.Frame.Local(a), rail.Frame.Local(b)
		if math.Abs(from.X-hooks[i].X) > 1e-9 || math.Abs(from.Y-hooks[i].Y) > 1e-9 || math.Abs(to.Y-80*0.0254) > 1e-9 {
			t.Errorf("the wire of hook %d runs from %v to %v, and the hook is at %v", i, from, to, hooks[i])
		}
	}
}
