package picture

import (
	"bytes"
	"image"
	"math"
	"runtime"
	"slices"
	"testing"

	"boothmock/internal/basis/geom"
	"boothmock/internal/plan/booth"
)

// count draws the stand's triangles one at a time and counts how often each sample of the picture is covered.
func count(s *stand, v booth.View, o Options) []int {
	st := s.stage()
	f := st.frame(cameraFor(v, o), &fine, nil)
	n := make([]int, o.Width*o.Height*len(fine.x))
	all := f.triangles
	for i := 1; i < len(all); i++ {
		f.triangles = []triangle{all[0], all[i]}
		f.bin()
		f.paint(f.all(), func(l *slate, x0, y0 int) {
			for y := y0; y < min(y0+tile, o.Height); y++ {
				for x := x0; x < min(x0+tile, o.Width); x++ {
					p := (y-y0)*tile + x - x0
					for k := range len(fine.x) {
						if l.whole[p] == 1 || l.whole[p] == mixed && slices.ContainsFunc(l.parts[p][:2], func(q part) bool { return q.triangle == 1 && q.samples>>k&1 == 1 }) {
							n[(y*o.Width+x)*len(fine.x)+k]++
						}
					}
				}
			}
		})
	}
	return n
}

// Triangles that share edges cover every sample of their union just once: level, upright and slanting edges, edges
// through the middles of pixels, a fan with very thin triangles, and a corner beyond the picture's border.
func TestSharedEdges(t *testing.T) {
	const side = 80
	rim := []geom.Vec{{X: 10, Y: 10}, {X: 30.5, Y: 10}, {X: 70, Y: 10}, {X: 70.25, Y: 40}, {X: 69, Y: 70}, {X: 40.5, Y: 70}, {X: 40.46875, Y: 70}, {X: 9.96875, Y: 70}, {X: 10, Y: 40.5}}
	wide := []geom.Vec{{X: -300, Y: -200}, {X: 400, Y: -200}, {X: 500, Y: 300}, {X: 20, Y: 3000}, {X: -50, Y: 33}}
	for _, c := range []struct {
		rim    []geom.Vec
		centre geom.Vec
	}{{rim, geom.Vec{X: 40.5, Y: 40.5}}, {rim, geom.Vec{X: 23.1, Y: 51.7}}, {wide, geom.Vec{X: 33.3, Y: 44.4}}} {
		s := new(stand)
		at := func(p geom.Vec) geom.Vec { return geom.Vec{X: p.X/40 - 1, Y: 2.5 - p.Y/40, Z: -1} } // pixels to the plane before the eye
		var m geom.Mesh
		m.Vertices = append(m.Vertices, geom.Vertex{P: at(c.centre), N: geom.Vec{Z: 1}})
		for i, p := range c.rim {
			m.Vertices = append(m.Vertices, geom.Vertex{P: at(p), N: geom.Vec{Z: 1}})
			m.Triangles = append(m.Triangles, [3]int{0, (i+1)%len(c.rim) + 1, i + 1})
		}
		s.add(booth.Part{}, m, booth.Look{}, full)
		got := count(s, straight, Options{Width: side, Height: side})
		covered := 0
		for i, n := range got {
			if n > 1 {
				t.Fatalf("centre %v: sample %d of pixel %d, %d is covered %d times", c.centre, i%16, i/16%side, i/16/side, n)
			}
			covered += n
		}
		for y := range side {
			for x := range side {
				if inside := x >= 11 && x < 69 && y >= 10 && y < 69; inside || len(c.rim) == len(wide) {
					for k := range 16 {
						if got[(y*side+x)*16+k] != 1 {
							t.Fatalf("centre %v: sample %d of pixel %d, %d is left out", c.centre, k, x, y)
						}
					}
				}
			}
		}
		if area := 60 * 60.0; len(c.rim) == len(rim) && math.Abs(float64(covered)/16-area) > 12 {
			t.Errorf("centre %v: %v pixels covered, the outline holds about %v", c.centre, float64(covered)/16, area)
		}
	}
}

// A rectangle that ends within pixels is as bright there as the share of the pixel that it covers.
func TestEdgesAreSmooth(t *testing.T) {
	s := new(stand)
	s.add(booth.Part{}, flatMesh(quad(-1, 1, 0.3125/20, 2, -1)), booth.Look{Colour: booth.Colour{255, 255, 255}}, full)
	st := s.stage()
	f, m := st.frame(cameraFor(straight, Options{Width: 40, Height: 40}), &fine, nil), image.NewNRGBA(image.Rect(0, 0, 40, 40))
	f.draw(m, f.all(), make([]rgb, 40))
	// 255·Signal(5/16) is 151.7.
	if l, c, r := m.NRGBAAt(19, 20).R, m.NRGBAAt(20, 20).R, m.NRGBAAt(21, 20).R; l != 255 || c < 151 || c > 152 || r != 0 {
		t.Errorf("across the edge: %d, %d, %d", l, c, r)
	}
}

// Halves of one plane, partly over each other, lying flush: the later one is seen, every time, with 1 core and 2.
func TestFlushSurfaces(t *testing.T) {
	s := new(stand)
	f := geom.Upright(geom.Vec{X: -0.7, Y: 0.3, Z: -4}, geom.Vec{X: 0.9, Z: 0.5})
	s.add(booth.Part{ID: "lower"}, flatMesh(geom.Rect(f, -1, 0, 0.4, 2)), booth.Look{Colour: booth.Colour{200, 60, 60}}, full)
	s.add(booth.Part{ID: "upper"}, flatMesh(geom.Rect(f, -0.3, 0.2, 1.1, 2.3)), booth.Look{Colour: booth.Colour{60, 60, 200}}, full)
	st := s.stage()
	v := straight
	v.Look = geom.Vec{X: -0.7, Y: 1.3, Z: -4}
	o := Options{Width: 320, Height: 200}
	first := st.Draw(v, o)
	cores := runtime.GOMAXPROCS(0)
	defer runtime.GOMAXPROCS(cores)
	for i := range 40 {
		runtime.GOMAXPROCS(1 + i%2)
		if !bytes.Equal(st.Draw(v, o).Pix, first.Pix) {
			t.Fatalf("run %d gives another picture", i)
		}
	}
	pixels := [2]int{}
	for i, id := range st.IDs(v, o) {
		if id < 0 {
			continue
		}
		pixels[id]++
		if id == 0 { // the later part must have it wherever it reaches
			x, y := float64(i%320)+0.5, float64(i/320)+0.5
			inside := true
			for e := range 4 {
				ax, ay, _, _ := st.Project(v, o, s.lit.Surfaces[1].Mesh.Vertices[e].P)
				bx, by, _, _ := st.Project(v, o, s.lit.Surfaces[1].Mesh.Vertices[(e+1)%4].P)
				inside = inside && (bx-ax)*(y-ay)-(by-ay)*(x-ax) < 0
			}
			if inside {
				t.Fatalf("pixel %v, %v shows the part below", x, y)
			}
		}
	}
	if pixels[0] < 500 || pixels[1] < 500 {
		t.Errorf("pixels of each part: %v", pixels)
	}
}

// Two surfaces 2 mm apart, 12 m away, square on and at a slant, whichever comes first in the plan.
func TestTwoMillimetresApart(t *testing.T) {
	for _, facing := range []geom.Vec{{Z: 1}, {X: 1, Z: 1}, {X: 3, Z: 1}} {
		f := geom.Upright(geom.Vec{Z: -12}, facing)
		for first := range 2 {
			s := new(stand)
			for i := range 2 {
				front := (first + i) % 2
				s.add(booth.Part{}, flatMesh(geom.Rect(f.Moved(geom.Vec{Z: 0.002 * float64(front)}), -1, 0, 1, 3)), booth.Look{}, full)
			}
			v := straight
			v.Across = 0.3
			back, before := 0, 0
			for _, id := range s.stage().IDs(v, Options{Width: 400, Height: 300}) {
				switch id {
				case 1 - first:
					before++
				case first:
					back++
				}
			}
			// At a slant a strip of the back one shows at its end, 2 mm wide: at most one column of pixels.
			if before < 10000 || back > 300 {
				t.Errorf("facing %v: %d pixels of the front one, %d of the back one", facing, before, back)
			}
		}
	}
}

// A floor that runs from behind the eye to the distance, and a wall that the eye all but touches.
func TestNearClipping(t *testing.T) {
	s := new(stand)
	floor := flatMesh(geom.Polygon{{X: -160, Z: 50}, {X: 160, Z: 50}, {X: 160, Z: -150}, {X: -160, Z: -150}})
	s.add(booth.Part{ID: "floor"}, floor, booth.Look{}, full)
	o := Options{Width: 200, Height: 200}
	ids := s.stage().IDs(straight, o)
	for y := range 200 {
		want := -1
		if y >= 101 { // the horizon is at row 100, the floor's end 1.5/150 below it: one row
			want = 0
		}
		for x := range 200 {
			if id := ids[y*200+x]; id != want {
				t.Fatalf("pixel %d, %d shows %d, want %d", x, y, id, want)
			}
		}
	}
	s.add(booth.Part{ID: "wall"}, flatMesh(geom.Polygon{{X: 0.06, Y: 0, Z: 1}, {X: 0.06, Y: 3, Z: 1}, {X: 0.06, Y: 3, Z: -9}, {X: 0.06, Y: 0, Z: -9}}), booth.Look{TwoSided: true}, full)
	ids = s.stage().IDs(straight, o)
	for _, c := range []struct{ x, y, want int }{{199, 100, 1}, {102, 100, 1}, {140, 20, 1}, {60, 100, -1}, {60, 150, 0}, {99, 60, -1}} {
		if id := ids[c.y*200+c.x]; id != c.want {
			t.Errorf("beside the wall, pixel %d, %d shows %d, want %d", c.x, c.y, id, c.want)
		}
	}
}

func TestBacks(t *testing.T) {
	o := Options{Width: 64, Height: 64}
	for _, two := range []bool{false, true} {
		s := new(stand)
		p := quad(-1, 0.5, 1, 2.5, -2)
		p[1], p[3] = p[3], p[1] // turned away
		s.add(booth.Part{}, flatMesh(p), booth.Look{TwoSided: two}, full)
		if id := s.stage().IDs(straight, o)[32*64+32]; (id == 0) != two {
			t.Errorf("two-sided %v: the middle shows %d", two, id)
		}
	}
}

func TestDressing(t *testing.T) {
	s := new(stand)
	s.add(booth.Part{ID: "tag", Dressing: true}, flatMesh(quad(-1, 0.5, 1, 2.5, -2)), booth.Look{}, full)
	v := straight
	for _, v.Bare = range []bool{false, true} {
		if id := s.stage().IDs(v, Options{Width: 64, Height: 64})[32*64+32]; (id == -1) != v.Bare {
			t.Errorf("bare %v: the middle shows %d", v.Bare, id)
		}
	}
}

// Eight goroutines on one stage, views that differ, against the same drawn alone; and one core against two.
func TestSameBytes(t *testing.T) {
	st := fair(40).stage()
	o := Options{Width: 120, Height: 68}
	view := func(i int) booth.View {
		v := entrance
		v.Stand.X += 0.1 * float64(i)
		return v
	}
	cores := runtime.GOMAXPROCS(1)
	var alone [4]*image.NRGBA
	for i := range alone {
		alone[i] = st.Draw(view(i), o)
	}
	runtime.GOMAXPROCS(2)
	defer runtime.GOMAXPROCS(cores)
	out := make(chan bool)
	for i := range 8 {
		go func() { out <- bytes.Equal(st.Draw(view(i%4), o).Pix, alone[i%4].Pix) }()
	}
	for range 8 {
		if !<-out {
			t.Error("a picture drawn beside others differs")
		}
	}
}
