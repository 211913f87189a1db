package glb

import (
	"encoding/binary"
	"math"

	"boothmock/internal/basis/camera"
	"boothmock/internal/plan/booth"

	"github.com/qmuntal/gltf"
)

// Motion is what moves. The zero value moves nothing. The booth is finished in a viewer that plays no animations, and at the
// beginning and the end of each.
type Motion struct {
	Rises []Rise       // of parts as the booth is set up: the animation "set-up"
	End   float64      // seconds that setting up takes
	Walk  []booth.View // where a visitor stands and looks, one after the other: the animation "walk-in" of a camera of its own
	Rate  float64      // of them a second
}

// Rise is how a part comes to its place.
type Rise struct {
	Part   booth.ID
	Shown  float64 // seconds from when setting up begins until it is there
	Low    float64 // metres that it stands lower at first
	Raised float64 // seconds until it no longer does
}

const finished = 3.0 // seconds that "set-up" shows the finished booth, at its beginning and at its end: time to see what it is

var (
	timeline  = layout{component: gltf.ComponentFloat, kind: gltf.AccessorScalar}
	triples   = layout{component: gltf.ComponentFloat, kind: gltf.AccessorVec3}
	rotations = layout{component: gltf.ComponentFloat, kind: gltf.AccessorVec4}
)

// move adds the animations. Many viewers play the first one unasked, over and over: that is the walk, which moves a camera and
// leaves the booth alone. Others play all at once, or show how each begins: so the set-up begins with the finished booth.
func (b *builder) move(m Motion) {
	b.walkIn(m)
	b.setUp(m)
}

// setUp lets parts vanish and appear again by a scale of 0, which glTF 2.0 names for it ("Transformations"), and rise by a
// place that jumps. What hangs on a part appears and rises with it.
func (b *builder) setUp(m Motion) {
	rises := map[booth.ID]Rise{}
	for _, r := range m.Rises {
		rises[r.Part] = r
	}
	a := &gltf.Animation{Name: "set-up"}
	inputs := map[float64]int{} // by the second at which it jumps
	channel := func(node int, path gltf.TRSProperty, at float64, before, after [3]float64) {
		in, ok := inputs[at]
		if !ok {
			end := finished + max(m.End, at) + finished
			in = b.floats(timeline, 0, finished, finished+at, end)
			times := b.doc.Accessors[in]
			times.Min, times.Max = []float64{0}, []float64{float64(float32(end))}
			inputs[at] = in
		}
		var values []float64
		for _, v := range [][3]float64{after, before, after, after} {
			values = append(values, v[:]...)
		}
		a.Channels = append(a.Channels, &gltf.AnimationChannel{Sampler: len(a.Samplers), Target: gltf.AnimationChannelTarget{Node: gltf.Index(node), Path: path}})
		a.Samplers = append(a.Samplers, &gltf.AnimationSampler{Input: in, Output: b.floats(triples, values...), Interpolation: gltf.InterpolationStep})
	}
	for i := range b.plan.Parts {
		part := &b.plan.Parts[i]
		r, ok := rises[part.ID]
		node, drawn := b.nodes[part.ID]
		if !ok || !drawn {
			continue
		}
		above := rises[part.Parent]
		if r.Shown > above.Shown {
			channel(node, gltf.TRSScale, r.Shown, [3]float64{}, [3]float64{1, 1, 1})
		}
		if r.Low > 0 && r.Raised != above.Raised {
			place := b.doc.Nodes[node].Translation
			low := place
			low[1] = round(low[1] - r.Low)
			channel(node, gltf.TRSTranslation, r.Raised, low, place)
		}
	}
	if len(a.Channels) > 0 {
		b.doc.Animations = append(b.doc.Animations, a)
	}
}

// walkIn adds a camera that walks.
func (b *builder) walkIn(m Motion) {
	if len(m.Walk) < 2 || !(m.Rate > 0) {
		return
	}
	var times, places, turns []float64
	last := [4]float64{0, 0, 0, 1}
	for i, v := range m.Walk {
		from := v.From(b.plan.Eyes[0])
		q := towards(camera.At(from, v.Look, v.Across, aspect).Ahead)
		if dot := float64(q[0]*last[0]) + float64(q[1]*last[1]) + float64(q[2]*last[2]) + float64(q[3]*last[3]); dot < 0 {
			for k := range q { // the same turn, the shorter way from the one before
				q[k] = -q[k]
			}
		}
		last = q
		times = append(times, float64(i)/m.Rate)
		places = append(places, from.X, from.Y, from.Z)
		turns = append(turns, q[:]...)
	}
	end := m.Walk[len(m.Walk)-1]
	node := b.camera(b.doc.Nodes[0], end)
	in := b.floats(timeline, times...)
	b.doc.Accessors[in].Min, b.doc.Accessors[in].Max = []float64{0}, []float64{float64(float32(times[len(times)-1]))}
	target := func(path gltf.TRSProperty) gltf.AnimationChannelTarget {
		return gltf.AnimationChannelTarget{Node: gltf.Index(node), Path: path}
	}
	b.doc.Animations = append(b.doc.Animations, &gltf.Animation{
		Name: "walk-in",
		Samplers: []*gltf.AnimationSampler{
			{Input: in, Output: b.floats(triples, places...), Interpolation: gltf.InterpolationLinear},
			{Input: in, Output: b.floats(rotations, turns...), Interpolation: gltf.InterpolationLinear},
		},
		Channels: []*gltf.AnimationChannel{{Sampler: 0, Target: target(gltf.TRSTranslation)}, {Sampler: 1, Target: target(gltf.TRSRotation)}},
	})
}

// floats adds numbers, as many to an element as the layout's kind has.
func (b *builder) floats(l layout, values ...float64) int {
	var data []byte
	for _, v := range values {
		data = binary.LittleEndian.AppendUint32(data, math.Float32bits(float32(v)))
	}
	return b.accessor(l, len(values)/l.kind.Components(), data)
}
