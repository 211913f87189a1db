package glb

import (
	"bytes"
	"encoding/binary"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"boothmock/internal/basis/geom"
	"boothmock/internal/plan/booth"

	"github.com/qmuntal/gltf"
)

// moving is the test booth with a set-up of four seconds, in which the tent is first low, and a walk of a second.
func moving(t testing.TB) (*booth.Plan, []byte) {
	p := testBooth(t)
	m := Motion{
		Rises: []Rise{
			{Part: "tent", Shown: 1, Low: 0.8, Raised: 2},
			{Part: "wall/back", Shown: 2}, {Part: "drape/back", Shown: 2}, // with its wall, no channel of its own
			{Part: "work/heron", Shown: 3}, {Part: "work/heron-2", Shown: 3},
			{Part: "table/prints", Shown: 4}, {Part: "nothing/there", Shown: 4},
		},
		End: 4, Rate: 4,
	}
	for k := range 5 { // a quarter turn to the left, walking in
		a := float64(k) * math.Pi / 8
		stand := geom.Vec{X: float64(k) / 4, Z: 2 - float64(k)/2}
		m.Walk = append(m.Walk, booth.View{Name: "walk-in", Stand: stand, Look: stand.Add(geom.Vec{X: -math.Sin(a), Y: p.Eyes[0].Height, Z: -math.Cos(a)}), Across: 1.2})
	}
	var b bytes.Buffer
	if err := Write(&b, p, litUp(p), m); err != nil {
		t.Fatal(err)
	}
	return p, b.Bytes()
}

// numbers are the floats of an accessor.
func numbers(d *gltf.Document, accessor int) []float64 {
	a := d.Accessors[accessor]
	v := d.BufferViews[*a.BufferView]
	data := d.Buffers[0].Data[v.ByteOffset+a.ByteOffset:]
	out := make([]float64, a.Count*a.Type.Components())
	for i := range out {
		out[i] = float64(math.Float32frombits(binary.LittleEndian.Uint32(data[4*i:])))
	}
	return out
}

// step is the value that a channel of three numbers has at a second: the last one that has begun (glTF 2.0, STEP).
func step(t *testing.T, d *gltf.Document, s *gltf.AnimationSampler, second float64) [3]float64 {
	t.Helper()
	if s.Interpolation != gltf.InterpolationStep {
		t.Fatalf("interpolation %v, want STEP", s.Interpolation)
	}
	times, values := numbers(d, s.Input), numbers(d, s.Output)
	k := 0
	for k+1 < len(times) && times[k+1] <= second {
		k++
	}
	return [3]float64(values[3*k : 3*k+3])
}

// Worked by hand from the set-up above: what is seen, and how high the tent stands, half a second after each step. Whoever
// shows how an animation begins or ends shows the finished booth.
func TestSetUpAppearsInOrder(t *testing.T) {
	_, file := moving(t)
	d := decode(t, file)
	at := nodes(t, d) // which also checks that without the animation every node has its full size
	names := map[int]string{}
	for i, n := range d.Nodes {
		names[i] = n.Name
	}
	a := d.Animations[1]
	if a.Name != "set-up" {
		t.Fatalf("the second animation is %q", a.Name)
	}
	seen := func(second float64) (shown map[string]bool, tent float64) {
		shown = map[string]bool{}
		tent = at["tent"].at.Y
		for _, c := range a.Channels {
			v := step(t, d, a.Samplers[c.Sampler], second)
			switch name := names[*c.Target.Node]; c.Target.Path {
			case gltf.TRSScale:
				if v != [3]float64{} && v != [3]float64{1, 1, 1} {
					t.Errorf("%s has the scale %v", name, v)
				}
				shown[name] = v == [3]float64{1, 1, 1}
			case gltf.TRSTranslation:
				if name != "tent" {
					t.Errorf("%s rises", name)
				}
				tent = v[1]
			}
		}
		return shown, tent
	}
	all := "tent wall/back work/heron work/heron-2 table/prints"
	for second, want := range map[float64]string{
		-finished: all, -0.1: all, 0.5: "", 1.5: "tent", 2.5: "tent wall/back", 3.5: "tent wall/back work/heron work/heron-2", 4.5: all, 4 + finished: all,
	} {
		shown, tent := seen(finished + second)
		for name, is := range shown {
			if is != strings.Contains(" "+want+" ", " "+name+" ") {
				t.Errorf("after %g s %s is shown: %v", second, name, is)
			}
		}
		if len(shown) != 5 {
			t.Errorf("%d parts appear, want 5: the drape comes with its wall", len(shown))
		}
		if low := second > 0 && second < 2; low != (math.Abs(tent+0.8) < 1e-6) || !low && tent != 0 {
			t.Errorf("after %g s the tent stands at %g m", second, tent)
		}
	}
}

func TestWalkInIsACamera(t *testing.T) {
	p, file := moving(t)
	d := decode(t, file)
	a := d.Animations[0] // the one that viewers play unasked: it must move nothing but its camera
	if a.Name != "walk-in" || len(a.Channels) != 2 {
		t.Fatalf("animation %q with %d channels", a.Name, len(a.Channels))
	}
	node := d.Nodes[*a.Channels[0].Target.Node]
	if node.Camera == nil || node.Name != "view/walk-in" {
		t.Errorf("%s walks", node.Name)
	}
	times, places, turns := numbers(d, a.Samplers[0].Input), numbers(d, a.Samplers[0].Output), numbers(d, a.Samplers[1].Output)
	if len(times) != 5 || times[4] != 1 {
		t.Errorf("times %v, want five up to one second", times)
	}
	for k := range times {
		eye := geom.Vec{X: places[3*k], Y: places[3*k+1], Z: places[3*k+2]}
		if want := (geom.Vec{X: float64(k) / 4, Y: p.Eyes[0].Height, Z: 2 - float64(k)/2}); eye.Dist(want) > 1e-6 {
			t.Errorf("place %d is %v, want %v", k, eye, want)
		}
		// -Z turned by the quaternion is where the camera looks.
		x, y, z, w := turns[4*k], turns[4*k+1], turns[4*k+2], turns[4*k+3]
		looks := geom.Vec{X: -2 * (x*z + w*y), Y: -2 * (y*z - w*x), Z: -(1 - 2*(x*x+y*y))}
		angle := float64(k) * math.Pi / 8
		if want := (geom.Vec{X: -math.Sin(angle), Z: -math.Cos(angle)}); looks.Dist(want) > 1e-6 {
			t.Errorf("place %d looks to %v, want %v", k, looks, want)
		}
	}
}

func TestMovingIsValid(t *testing.T) {
	_, file := moving(t)
	name := filepath.Join(t.TempDir(), "moving.glb")
	if err := os.WriteFile(name, file, 0o644); err != nil {
		t.Fatal(err)
	}
	if report, ok := validate(t, name); !ok || !strings.Contains(report, " 0 errors, 0 warnings") {
		t.Errorf("not valid:\n%s", report)
	}
}
