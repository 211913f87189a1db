package try

import (
	"math"
	"slices"

	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/kinds"
	"boothmock/internal/plan/scene"
)

// fine is what a length is written to at best, in metres: half of 1/8 in.
const fine = 1.0 / 16 * 0.0254

// axis is one of the pitch's axes and the keys that say where along it a thing stands.
type axis struct {
	keys  []string
	signs []float64 // of a key's length, along the axis
	sides []string  // that a thing may stand against
	of    func(*booth.Part) float64
}

var axes = [2]axis{
	{[]string{"from left", "from right"}, []float64{1, -1}, []string{"left", "right"}, func(p *booth.Part) float64 { return p.Frame.Origin.X }},
	{[]string{"from front", "from back", "before front"}, []float64{-1, 1, 1}, []string{"front", "back"}, func(p *booth.Part) float64 { return p.Frame.Origin.Z }},
}

// stand brings the origin of a thing on the ground to X, Z and turns it, counterclockwise from above by Turn degrees from
// how it would stand unturned. With the field "by", all three are added to what they are.
func (s *Session) stand(a Ask) (string, error) {
	p, err := s.part(a.Item)
	if err != nil {
		return "", err
	}
	path, ok := s.index.parts[a.Item]
	if !ok || !s.stands(path) || p.Parent != "" {
		return "", refuse("%s does not stand on the ground by itself", p.Name)
	}
	was := s.turned(path)
	to := [2]float64{a.X, a.Z}
	if a.Field == "by" {
		to = [2]float64{p.Frame.Origin.X + a.X, p.Frame.Origin.Z + a.Z}
		a.Turn += was
	}
	turn := math.Mod(math.Round(a.Turn*2)/2, 360)
	words := p.Name + " moved"
	if math.Abs(turn-was) > 1e-6 {
		words = p.Name + " turned"
	}
	return s.edit(words, func(f *scene.File) (*scene.File, error) {
		if turn != was {
			if f, err = f.Set(under(path, key("turn")), unit.Angle(turn*math.Pi/180)); err != nil {
				return nil, err
			}
		}
		if a.Field == "by" && a.X == 0 && a.Z == 0 {
			return f, nil // it is turned where it stands: as far from the edges as before
		}
		for i := range axes {
			if turn == was && math.Abs(axes[i].of(p)-to[i]) < fine {
				continue
			}
			if f, err = s.put(f, path, a.Item, axes[i], to[i]); err != nil {
				return nil, err
			}
		}
		return f, nil
	})
}

// put states where along an axis a thing's origin is. How far that is from the edge that a key counts from, only the thing's
// own kind knows; so the scene is built with nothing there, and the rest is a difference.
func (s *Session) put(f *scene.File, path scene.Path, id booth.ID, x axis, to float64) (*scene.File, error) {
	e := f.Entry(path)
	k := 0
	for i, name := range x.keys {
		if e.Has(name) {
			k = i
		}
	}
	if !e.Has(x.keys[k]) && (to > 0) == (x.signs[0] > 0) {
		k = 1 // it is nearer to that side
	}
	bare, err := without(f, path, e, x.keys...)
	if err != nil {
		return nil, err
	}
	if side, _ := e.Values()["against"].(string); side == x.sides[0] || side == x.sides[1] {
		if at, err := s.origin(bare, id, x); err == nil && math.Abs(at-to) < fine {
			return bare, nil
		}
	}
	measure := func(k int) (float64, error) {
		g, err := without(f, path, e, other(x.keys, k)...)
		if err == nil {
			g, err = g.Set(under(path, key(x.keys[k])), unit.Length(0))
		}
		if err != nil {
			return 0, err
		}
		at, err := s.origin(g, id, x)
		return (to - at) * x.signs[k], err
	}
	v, err := measure(k)
	if err == nil && v < -fine && x.keys[0] == "from front" && path[0].Key != "walls" { // it comes to stand in the aisle, or back from there
		o := map[bool]int{true: 2, false: 0}[k == 0]
		var w float64
		if w, err = measure(o); w > v { // what is across the front edge goes to the side of it that is nearer
			k, v = o, w
		}
	}
	if err != nil {
		return nil, err
	}
	if f, err = without(f, path, e, other(x.keys, k)...); err != nil {
		return nil, err
	}
	if f, err = f.Set(under(path, key(x.keys[k])), unit.Length(max(0, v))); err != nil { // it stays on the pitch, or in the aisle
		return nil, err
	}
	return x.leave(f, path)
}

// leave has a thing against no side of an axis any more, where a length says how far along it the thing stands. It faces where it did.
func (x axis) leave(f *scene.File, path scene.Path) (*scene.File, error) {
	e := f.Entry(path)
	side, _ := e.Values()["against"].(string)
	if !slices.Contains(x.sides, side) {
		return f, nil
	}
	turn := math.Mod(turned(e)+map[string]float64{"left": 90, "right": -90}[side], 360) // its back was to that side
	f, err := f.Delete(under(path, key("against")))
	switch {
	case err != nil || turn == turned(e):
		return f, err
	case turn == 0:
		return f.Delete(under(path, key("turn")))
	}
	return f.Set(under(path, key("turn")), unit.Angle(turn*math.Pi/180))
}

// other are the keys but for one.
func other(keys []string, k int) (out []string) {
	for i, name := range keys {
		if i != k {
			out = append(out, name)
		}
	}
	return out
}

// origin is where a thing stands along an axis in a version of the scene.
func (s *Session) origin(f *scene.File, id booth.ID, x axis) (float64, error) {
	plan, err := s.shop.Build(f)
	if err != nil {
		return 0, err
	}
	p := plan.Part(id)
	if p == nil {
		return 0, refuse("It would not stand there")
	}
	return x.of(p), nil
}

// turned is how far an entry says that its thing is turned, in degrees.
func (s *Session) turned(path scene.Path) float64 { return turned(s.scene.Entry(path)) }

func turned(e scene.Item) float64 {
	text, ok := e.Values()["turn"].(string)
	if !ok {
		return 0
	}
	turn, _ := unit.ParseAngle(text)
	return turn.Degrees()
}

// stands is whether what a path leads to stands on the ground where its entry says: also a wall that is along no side.
func (s *Session) stands(path scene.Path) bool {
	if path[0].Key == "walls" {
		return !s.scene.Entry(path).Has("side")
	}
	for _, k := range kinds.All {
		if k.Key == path[0].Key {
			return k.Stands()
		}
	}
	return false
}
