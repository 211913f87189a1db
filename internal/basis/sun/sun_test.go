package sun

import (
	"math"
	"testing"
	"time"

	"boothmock/internal/basis/geom"
)

const deg = math.Pi / 180

func near(t *testing.T, what string, got, want, by float64) {
	t.Helper()
	if !(math.Abs(got-want) <= by) {
		t.Errorf("%s: %v, want %v within %v", what, got, want, by)
	}
}

// NREL/TP-560-34302, Reda and Andreas, Solar Position Algorithm, table A5.1, and two more points worked out with it. Theirs
// have the pressure and temperature of the place; 0.02 degrees is what this method promises.
func TestWorkedExamples(t *testing.T) {
	for _, c := range []struct {
		at                string
		lat, lon          float64
		altitude, azimuth float64
	}{
		{"2003-10-17T12:30:30-07:00", 39.742476, -105.1786, 90 - 50.11162202, 194.34024051},
		{"2015-06-12T09:34:11-04:00", -3.107, -60.025, 90 - 44.1425, 51.608},
		{"2012-12-22T12:00:00Z", -41, 0, 90 - 17.5658, 359.08592},
	} {
		at, err := time.Parse(time.RFC3339, c.at)
		if err != nil {
			t.Fatal(err)
		}
		p := At(at, Place{c.lat * deg, c.lon * deg})
		near(t, c.at+" altitude", p.Altitude/deg, c.altitude, 0.02)
		near(t, c.at+" azimuth", p.Azimuth/deg, c.azimuth, 0.02)
	}
}

// The NOAA solar calculator's spreadsheet, 2010-06-21, 40 N 105 W: the sun below the horizon, where there is no refraction.
func TestNight(t *testing.T) {
	at := time.Date(2010, 6, 21, 7, 6, 0, 0, time.UTC)
	p := At(at, Place{40 * deg, -105 * deg})
	near(t, "altitude", p.Altitude/deg, -26.5537621191813, 0.02)
	near(t, "azimuth", p.Azimuth/deg, 1.09867118388445, 0.02)
}

// SPA's example says when the sun's upper edge, lifted by 0.5667 degrees, is on the horizon. It works by days of universal
// time: its sunset is that of 17 October there, which is the evening of the 16th on the spot.
func TestSunriseAndSunset(t *testing.T) {
	place := Place{39.742476 * deg, -105.1786 * deg}
	edge := func(h, m, s int) float64 {
		return (At(time.Date(2003, 10, 17, h, m, s, 0, time.UTC), place).Altitude + Radius) / deg
	}
	near(t, "at sunrise, 06:12:43", edge(6+7, 12, 43), 0, 0.1)
	near(t, "at sunset, 17:20:19", edge(17+7-24, 20, 19), 0, 0.1)
}

// A shadow of ten units follows from the altitude by similar triangles: SPA's example has 11.9648, at 14.34 degrees from north.
func TestShadow(t *testing.T) {
	p := At(time.Date(2003, 10, 17, 19, 30, 30, 0, time.UTC), Place{39.742476 * deg, -105.1786 * deg})
	for _, faces := range []float64{0, 90, 180, 217} { // the shadow does not turn with the booth
		d := p.Toward(faces * deg)
		x, z := -d.X/d.Y*10, -d.Z/d.Y*10
		near(t, "length", math.Hypot(x, z), 11.9648, 0.01)
		near(t, "direction", turn(math.Atan2(-x, z)+faces*deg)/deg, 14.34024, 0.02)
		near(t, "unit vector", d.Len(), 1, 1e-12)
	}
}

// The entrance of a booth that faces south has the noon sun of the north straight before it, and the evening sun on the right
// of whoever looks out, who looks along +Z and has -X on the right.
func TestToward(t *testing.T) {
	evening := Position{0.2, 270 * deg}.Toward(180 * deg)
	if evening.X >= -0.9 || math.Abs(evening.Z) > 1e-9 {
		t.Errorf("the evening sun: %v", evening)
	}
	if noon := (Position{0.8, 180 * deg}).Toward(180 * deg); noon.Z < 0.69 || math.Abs(noon.X) > 1e-9 {
		t.Errorf("the noon sun: %v", noon)
	}
}

// IES 1984 (from memory): at 90 degrees 127.5 klx · exp(-0.21); all of a clear noon is near 100 klx, which agrees with the
// everyday figure; an overcast sky gives no shadow.
func TestAmounts(t *testing.T) {
	near(t, "clear, straight up", Clear.Direct(90*deg), 127_500*math.Exp(-0.21), 1)
	near(t, "clear, 30 degrees", Clear.Direct(30*deg), 83_772, 10)
	near(t, "partly cloudy, 30 degrees", Mixed.Direct(30*deg), 25_742, 10)
	near(t, "clear sky, 30 degrees", Clear.Diffuse(30*deg), 11_760, 10)
	near(t, "partly cloudy sky, 30 degrees", Mixed.Diffuse(30*deg), 22_800, 1)
	near(t, "clear, end of civil twilight", Clear.Diffuse(-6*deg), 3.4, 1e-9)
	near(t, "overcast, 30 degrees", Overcast.Diffuse(30*deg), 10_800, 1)
	for _, k := range []Sky{Clear, Mixed, Overcast} {
		near(t, "twilight begins with the light of the day", k.Diffuse(-1e-9), k.Diffuse(0), 1e-3)
		if k.Direct(-0.01) != 0 || k.Diffuse(-13*deg) != 0 || k == Overcast && k.Direct(1) != 0 {
			t.Errorf("%s: light without a sun", k)
		}
	}
}

// The CIE clear sky of 1973 (Kittler; CIE 22), as textbooks have it: 0.27385 is 1 - exp(-0.32), and 0.91 is what is left of
// 1 - 10 exp(-3π/2). Type 12 of the general sky is the same. The overcast sky's horizon is a third as bright as its zenith
// (Moon and Spencer), whatever the sun does.
func TestSkyIsTheCIEs(t *testing.T) {
	toward := func(altitude, azimuth float64) geom.Vec { return Position{altitude * deg, azimuth * deg}.Toward(0) }
	of1973 := func(cos, far, cosSun float64) float64 {
		part := func(x float64) float64 { return 0.91 + 10*math.Exp(-3*x) + 0.45*math.Cos(x)*math.Cos(x) }
		return part(far) * (1 - math.Exp(-0.32/cos)) / (0.27385 * part(math.Acos(cosSun)))
	}
	for _, c := range [][4]float64{{90, 0, 30, 0}, {30, 0, 30, 0}, {45, 180, 30, 0}, {5, 90, 60, 10}, {60, 200, 5, 20}} {
		d, s := toward(c[0], c[1]), toward(c[2], c[3])
		want := of1973(d.Y, math.Acos(min(1, d.Dot(s))), s.Y)
		near(t, "clear sky", Clear.Luminance(d, s), want, 0.001*want)
	}
	for _, k := range []Sky{Clear, Mixed, Overcast} {
		near(t, "zenith", k.Luminance(geom.Up, toward(40, 100)), 1, 1e-12)
	}
	near(t, "overcast horizon", Overcast.Luminance(toward(0, 30), toward(50, 30)), 1./3, 1e-12)
	sum, n := 0.0, 1000 // the light of an overcast sky on level ground: 7 pi/9 of its zenith's brightness (textbook)
	for i := range n {
		h := (float64(i) + 0.5) / float64(n) * math.Pi / 2
		sum += Overcast.Luminance(geom.Vec{X: math.Cos(h), Y: math.Sin(h)}, geom.Up) * math.Sin(h) * math.Cos(h) * 2 * math.Pi * math.Pi / 2 / float64(n)
	}
	near(t, "overcast sky on level ground", sum, 7*math.Pi/9, 1e-5)
	if at, off := Mixed.Luminance(toward(40, 0), toward(40, 0)), Mixed.Luminance(toward(40, 180), toward(40, 0)); at < 3*off {
		t.Errorf("between clouds it is %.2f as bright about the sun and %.2f opposite", at, off)
	}
}
