package lamp

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"boothmock/internal/basis/fault"
)

// Samples are written by the format's own rules, ANSI/IES LM-63-2002 (as described in makers' manuals; the standard itself was not at
// hand): header, keywords, TILT, ten numbers, three numbers, angles, candela by horizontal angle.

// sample is a file with the angles and the candela given, 1000 cd x factor.
func sample(head, numbers, vertical, horizontal string, candela ...string) string {
	return head + "\n[TEST] none\n[MANUFAC] nobody\nTILT=NONE\n" + numbers + "\n1.0 1.0 9\n" + vertical + "\n" + horizontal + "\n" + strings.Join(candela, "\n") + "\n"
}

// even is a lamp of 100 cd in all directions below it: 2π·100 = 628.3 lm.
func even(head string) string {
	return sample(head, "1 -1 1 3 1 1 2 -0.06 -0.06 0", "0 45 90", "0", "100 100 100")
}

func TestReadEvenLamp(t *testing.T) {
	for _, head := range []string{"IESNA91", "IESNA:LM-63-1995", "IESNA:LM-63-2002", "IES:LM-63-2019"} {
		f, err := Read("even.ies", []byte(even(head)))
		if err != nil {
			t.Fatalf("%s: %v", head, err)
		}
		near(t, "lumens", f.Lumens, 200*math.Pi, 1e-6)
		near(t, "watts", f.Watts, 9, 0)
		near(t, "radius", f.Radius, 0.03, 1e-12)
		near(t, "30 degrees", f.Toward(30*deg, 1), 100, 1e-9)
		near(t, "behind", f.Toward(120*deg, 1), 0, 0)
		near(t, "brighter", f.With(400*math.Pi).Toward(0, 0), 200, 1e-6)
	}
}

// Lambert's lamp of 1,000/π cd on the axis, by cosines every 5 degrees, has 1,000 lm; straight lines between the angles lie within 0.2 %.
func TestReadLambert(t *testing.T) {
	var v, c []string
	for a := 0; a <= 90; a += 5 {
		v, c = append(v, fmt.Sprint(a)), append(c, fmt.Sprintf("%.4f", 1000/math.Pi*math.Max(0, math.Cos(float64(a)*deg))))
	}
	f, err := Read("l.ies", []byte(sample("IESNA:LM-63-2002", "1 1000 1 19 1 1 1 0.3 0.3 0", strings.Join(v[:10], " ")+"\n"+strings.Join(v[10:], ","), "0", strings.Join(c, " "))))
	if err != nil {
		t.Fatal(err)
	}
	near(t, "lumens", f.Lumens, 1000, 2)
	near(t, "feet: as a disc of the same area", f.Radius, 0.3*0.3048/math.Sqrt(math.Pi), 1e-9)
	near(t, "at 60 degrees", f.Toward(60*deg, 0), 500/math.Pi, 1e-3)
}

// A quarter, half and a whole turn; a part of a turn is mirrored.
func TestReadTurns(t *testing.T) {
	for _, c := range []struct {
		horizontal string
		candela    []string
		round      map[float64]float64 // degrees to candela at 45 degrees off the axis
	}{
		{"0 90", []string{"10 20", "10 40"}, map[float64]float64{0: 15, 90: 25, 45: 20, 180: 15, 270: 25, 135: 20, 315: 20}},
		{"0 90 180", []string{"10 20", "10 40", "10 80"}, map[float64]float64{0: 15, 90: 25, 180: 45, 270: 25, 225: 35}},
		{"90 180 270", []string{"10 20", "10 40", "10 80"}, map[float64]float64{90: 15, 180: 25, 270: 45, 0: 25, 45: 20}},
		{"0 90 180 270 360", []string{"10 20", "10 40", "10 80", "10 10", "10 20"}, map[float64]float64{0: 15, 90: 25, 180: 45, 270: 10, 315: 12.5, 360: 15}},
	} {
		f, err := Read("t.ies", []byte(sample("IESNA:LM-63-2002", fmt.Sprintf("1 -1 1 2 %d 1 2 0 0 0", len(c.candela)), "0 90", c.horizontal, c.candela...)))
		if err != nil {
			t.Fatalf("%s: %v", c.horizontal, err)
		}
		for a, want := range c.round {
			near(t, fmt.Sprintf("%s at %v", c.horizontal, a), f.Toward(45*deg, a*deg), want, 1e-9)
		}
	}
}

func TestBrokenFiles(t *testing.T) {
	good := even("IESNA:LM-63-2002")
	for _, c := range []struct{ from, to, says string }{
		{"IESNA:LM-63-2002", "lamp", "x.ies:1:1: this is no lamp file after LM-63"},
		{"[TEST] none", "TEST none", "x.ies:2:1: there is no keyword in square brackets"},
		{"TILT=NONE", "TILT=INCLUDE", "x.ies:4:6: lamps whose light depends on how they are tilted are not read"},
		{"TILT=NONE", "[TILT]", "x.ies:5:1: there is no keyword"},
		{"1 -1 1 3", "1 -1 one 3", `x.ies:5:6: "one" is not the multiplier of the candela`},
		{"1 -1 1 3", "1 -2 1 3", "x.ies:5:3: -2 is not the lumens of a lamp"},
		{"1 -1 1 3", "1 -1 0 3", "x.ies:5:6: 0 is not the multiplier"},
		{"1 -1 1 3", "1 -1 1 3.5", "x.ies:5:8: 3.5 is not the number of vertical angles"},
		{"1 -1 1 3", "1 -1 1 99999999", "x.ies:5:8: "},
		{"3 1 1 2", "3 1 2 2", "x.ies:5:12: photometric type 2 is not read"},
		{"3 1 1 2", "3 1 1 3", "x.ies:5:14: 3 is not the unit of length"},
		{"1.0 1.0 9", "1.0 0 9", "x.ies:6:5: 0 is not the ballast-lamp factor"},
		{"0 45 90", "0 45 45", "x.ies:7:6: a vertical angle of 45 comes after a greater one"},
		{"0 45 90", "10 45 90", "x.ies:7:1: a vertical angle of 10 cannot be the first"},
		{"0 45 90", "0 45 80", "x.ies:7:6: a vertical angle of 80 cannot be the last"},
		{"100 100 100", "100 100", "x.ies:10:1: it ends before a candela value"},
		{"100 100 100", "100 100 -1", "x.ies:9:9: -1 is not a candela value"},
		{"100 100 100", "100 100 100 100", "x.ies:9:13: more follows"},
		{"100 100 100", "100 100 100\nend", "x.ies:10:1: more follows"},
		{"100 100 100", "0 0 0", "all candela are 0"},
		{"100 100 100", "100 100 NaN", `x.ies:9:9: "NaN" is not a candela value`},
		{"1 -1 1 3", "1 500 1 3", "628 lm leave the lamp, which has only 500 lm"},
	} {
		text := strings.Replace(good, c.from, c.to, 1)
		_, err := Read("x.ies", []byte(text))
		var f fault.Fault
		if !errors.As(err, &f) {
			t.Errorf("%s for %s: no fault: %v", c.to, c.from, err)
			continue
		}
		if got := f.At.String() + ": " + f.Text; !strings.Contains(got, c.says) {
			t.Errorf("%s for %s: %s, want %s", c.to, c.from, got, c.says)
		}
	}
}

// Whatever the bytes are, there is a fault at a place in them, or a lamp whose light is a number.
func FuzzRead(f *testing.F) {
	f.Add([]byte(even("IESNA91")))
	f.Add([]byte(sample("IESNA:LM-63-2002", "1 1000 1 2 2 1 2 0 0 0", "0 90", "0 90", "10 20", "10 40")))
	f.Add([]byte("IESNA91\nTILT=NONE\n1 1 1 1000 1000"))
	f.Add([]byte("IES:\xff\nTILT=NONE"))
	f.Fuzz(func(t *testing.T, text []byte) {
		l, err := Read("f.ies", text)
		if err != nil {
			var at fault.Fault
			if !errors.As(err, &at) || at.At.Line < 1 || at.At.Col < 1 || at.At.Line > 1+strings.Count(string(text), "\n") {
				t.Fatalf("%v", err)
			}
			return
		}
		for a := -0.5; a < 7; a += 0.3 {
			if v := l.Toward(math.Abs(a)/2, a); !(v >= 0) || math.IsInf(v, 0) {
				t.Fatalf("%v cd", v)
			}
		}
	})
}
