package light

import (
	"math"
	"reflect"
	"testing"

	"boothmock/internal/basis/geom"
)

// noon is a high sun from before the booth, five times as strong as the whole sky.
var noon = Daylight{Toward: geom.Vec{Y: 0.8, Z: 0.6}, Direct: 5, Radius: 0.00465}

// Without a sun another time is the same light, to the last bit.
func TestAnotherTimeWithoutSun(t *testing.T) {
	p, lit := baked()
	again := lit.At(p, Daylight{})
	if !reflect.DeepEqual(lit.Surfaces, again.Surfaces) || again.Sun != nil {
		t.Error("the light has changed")
	}
}

// The ground in the open gets the sun's light times the sine of its altitude; an upright face that looks at the sun the cosine;
// in a hall nothing does.
func TestSunInTheOpen(t *testing.T) {
	p, lit := baked()
	sunny := lit.At(p, noon)
	looked := 0
	for i, s := range sunny.Surfaces {
		if !p.Parts[s.Part].Flat || p.Parts[s.Part].Parent != "" {
			continue
		}
		for k, v := range s.Mesh.Vertices {
			if v.P.Z < 2 {
				continue
			}
			looked++
			if got := float64(s.Sun[k]) * sunny.Sun.Open(v.P, s.Part, nil); math.Abs(got-5*0.8) > 1e-6 {
				t.Errorf("the ground at %v gets %v from the sun, want 4", v.P, got)
			}
			if l := lit.Surfaces[i]; len(l.Light) > k && l.Mesh.Vertices[k].P == v.P && s.Light[k][1] < l.Light[k][1]-1e-6 {
				t.Errorf("under the sun the sky gives less")
			}
		}
	}
	if looked == 0 {
		t.Fatal("no ground in the open")
	}
	if indoor := *p; true {
		indoor.Pitch.Indoor = true
		if hall := Bake(&indoor).At(&indoor, noon); hall.Sun != nil {
			t.Error("the sun shines in a hall")
		}
	}
}

// Light that comes through the canopy is the sun's: under it the works get more light, and more from a canopy that lets more through.
func TestCanopyGlowsInTheSun(t *testing.T) {
	p, _ := baked()
	mean := func(day Daylight) float64 {
		r := newRoom(p, nil, nothing)
		r.under(p, day)
		r.settle()
		_, lights := r.works(p, nil)
		sum := 0.0
		for _, l := range lights {
			sum += luminance(l) / float64(len(lights))
		}
		return sum
	}
	if cloudy, sunny := mean(Daylight{}), mean(noon); sunny < 1.5*cloudy {
		t.Errorf("works get %.3f in the sun, %.3f under clouds", sunny, cloudy)
	}
}
