package unit

import (
	"errors"
	"math"
	"math/rand/v2"
	"strings"
	"testing"
)

// International yard and pound, 1959 (NIST SP 811, appendix B.8; the digits of the pound and the ounce from memory):
// 1 in = 0.0254 m, 1 ft = 0.3048 m, 1 lb = 0.45359237 kg, 1 oz = 0.028349523125 kg, all exact.
func TestPublishedConversions(t *testing.T) {
	for s, want := range map[string]float64{
		"1in": 0.0254, "1ft": 0.3048, "36in": 0.9144, "10 ft": 3.048, "80in": 2.032, "1cm": 0.01, "1mm": 0.001, "1m": 1,
	} {
		l, err := ParseLength(s, Inches, false)
		if err != nil || l.M() != want {
			t.Errorf("%s is %v m (%v), want %v", s, l.M(), err, want)
		}
	}
	for s, want := range map[string]float64{"1lb": 0.45359237, "1oz": 0.028349523125, "1kg": 1, "1g": 0.001, "1 lb 8 oz": 0.680388555} {
		w, err := ParseWeight(s, Inches, false)
		if err != nil || w.Kg() != want {
			t.Errorf("%s is %v kg (%v), want %v", s, w.Kg(), err, want)
		}
	}
	if Ounce.Kg() != 0.028349523125 {
		t.Errorf("an ounce is %v kg", Ounce.Kg())
	}
}

// CCO (Cataloging Cultural Objects) 3.2.1.2.1 shows a size as "198 x 233 x 82 cm (78 x 91 3/4 x 32 1/4 inches)":
// 77.953, 91.732 and 32.283 in, whose nearest eighths are quarters too.
func TestCatalogueExample(t *testing.T) {
	s, err := ParseSize3("198 x 233 x 82 cm", Inches, false)
	if err != nil {
		t.Fatal(err)
	}
	if got := s.Format(Centimetres); got != "198 x 233 x 82 cm" {
		t.Errorf("printed as %q", got)
	}
	if got := s.Format(Inches); got != "78 x 91 3/4 x 32 1/4 in" {
		t.Errorf("printed as %q, the catalogue has 78 x 91 3/4 x 32 1/4", got)
	}
}

func TestParseLength(t *testing.T) {
	for _, c := range []struct {
		s    string
		want Length
	}{
		{"24in", 24 * Inch}, {`24"`, 24 * Inch}, {"24 in", 24 * Inch}, {"24 inches", 24 * Inch}, {"24 IN.", 24 * Inch},
		{"5ft", 5 * Foot}, {`5'6"`, 66 * Inch}, {"5'6", 66 * Inch}, {`5'-6"`, 66 * Inch}, {"5ft 6 1/2in", 66.5 * Inch},
		{"5 ft. 6½ in.", 66.5 * Inch}, {"5′ 6″", 66 * Inch}, {"5’6”", 66 * Inch}, {"5''", 5 * Inch}, {"5’’", 5 * Inch},
		{"18 1/2in", 18.5 * Inch}, {"18-1/2 in", 18.5 * Inch}, {"18½in", 18.5 * Inch}, {"18 1⁄2 in", 18.5 * Inch}, {"½in", 0.5 * Inch},
		{"1/16 in", Inch / 16}, {"6.5in", 6.5 * Inch}, {".5in", 0.5 * Inch}, {"0in", 0},
		{"60cm", 0.6}, {"1.2m", 1.2}, {"600mm", 0.6}, {"1m 20cm", 1.2}, {"2.4 metres", 2.4}, {"61.3 cm", 0.613},
		{"-3in", -3 * Inch}, {"−3 in", -3 * Inch}, {"- 1/2 in", -0.5 * Inch}, {"  24\u00a0in ", 24 * Inch},
	} {
		for _, stated := range []bool{false, true} {
			got, err := ParseLength(c.s, Centimetres, stated)
			if err != nil || math.Abs(float64(got-c.want)) > 1e-15 {
				t.Errorf("%q: %v (%v), want %v", c.s, got, err, c.want)
			}
		}
	}
	for s, want := range map[string][2]Length{"24": {24 * Inch, 0.24}, "6.5": {6.5 * Inch, 0.065}, "½": {0.5 * Inch, 0.005}, "18 1/2": {18.5 * Inch, 0.185}, "0": {}} {
		for sys := range want {
			got, err := ParseLength(s, System(sys), true)
			if err != nil || math.Abs(float64(got-want[sys])) > 1e-15 {
				t.Errorf("bare %q in %v: %v (%v), want %v", s, System(sys), got, err, want[sys])
			}
		}
	}
}

func TestRefused(t *testing.T) {
	length := func(s string) error { _, err := ParseLength(s, Inches, true); return err }
	strict := func(s string) error { _, err := ParseLength(s, Inches, false); return err }
	size := func(s string) error { _, err := ParseSize(s, Inches, true); return err }
	strictSize := func(s string) error { _, err := ParseSize(s, Inches, false); return err }
	size3 := func(s string) error { _, err := ParseSize3(s, Inches, true); return err }
	weight := func(s string) error { _, err := ParseWeight(s, Inches, true); return err }
	strictWeight := func(s string) error { _, err := ParseWeight(s, Inches, false); return err }
	money := func(s string) error { _, err := ParseMoney(s); return err }
	angle := func(s string) error { _, err := ParseAngle(s); return err }
	share := func(s string) error { _, err := ParseShare(s); return err }
	minutes := func(s string) error { _, err := ParseMinutes(s); return err }
	for _, c := range []struct {
		name  string
		parse func(string) error
		texts string // separated by |
		want  string // the message for the first of them
	}{
		{"length", length, `10 foots|tall|24 in x|5 6|5ft 14in|6in 5ft|5ft 2cm|1,200mm|61,5cm|1e3|0x10|010in in|NaN|.nan|.inf|Inf|+|-|--3in|1/0in|3/2in|1/100in|1.5 1/2in|1/2/3|1.2.3in|5.in|1_000|٣in|in|"|24lb|5ft 6in 7in|5ft 12in|1m 100cm|5in 50cm|1m 50in|1/65in|1/1in`,
			`"10 foots" is not a length: write 24in, 18 1/2in, 5ft, 5'6", 60cm or 1.2m`},
		{"comma", length, "61,5cm", `"61,5cm" is not a length: write 24in, 18 1/2in, 5ft, 5'6", 60cm or 1.2m; a point, not a comma, before decimals`},
		{"empty length", length, "|   |\t", `is empty; want a length: write 24in, 18 1/2in, 5ft, 5'6", 60cm or 1.2m`},
		{"bare length", strict, "24|18 1/2|0", "a length needs a unit: write 24in, 24ft or 24cm"},
		{"size", size, "24|24 x|x|24in x 36 x|24 x 36lb|5 x 6'6\"|tall x wide", `"24" is not a size: write 24in x 36in or 61 x 91 cm`},
		{"half a unit", size, `24in x 36|24" x 36`, `"24in x 36" has a unit for one length and not for the other: write 24in x 36in or 61 x 91 cm`},
		{"three for two", size, `24 x 36 x 2|60 x 80 x 4 cm`, `"24 x 36 x 2" is three lengths where two are wanted: the third has a key of its own, such as height or depth`},
		{"bare size", strictSize, "24 x 36", "a size needs a unit: write 24 x 36 in or 24 x 36 cm"},
		{"size of three", size3, "24 x 36|1 x 2 x 3 x 4", `"24 x 36" is not a size of three lengths: write 24in x 36in x 2in or 61 x 91 x 5 cm`},
		{"weight", weight, "heavy|5ft|6lb 16oz|6oz 2lb|1kg 200g 3g|nan|6 lb 4", `"heavy" is not a weight: write 6lb, 6 lb 4oz, 2.5kg or 800g`},
		{"bare weight", strictWeight, "6", "a weight needs a unit: write 6lb or 6kg"},
		{"money", money, "480,50|1.250|1.250,00|12,34|1,2345|,5|.50|1e9|free|€ 1.250,00|9999999999999|$", `"480,50" is not an amount of money: write 480, 1250.50 or 1,250.50`},
		{"angle", angle, "1 rad|steep|30 40|30%|", `"1 rad" is not an angle: write 30deg or 30°`},
		{"share", share, "90|1.5|most|90 in|9 0%", `"90" is not a share: write 90% or 0.9`},
		{"time", minutes, "soon|-5min|1h 80min|20min 1h|1 2 3|5 in|99999999 h|1h 2h", `"soon" is not a time: write 15min or 1h 20min`},
	} {
		for i, s := range strings.Split(c.texts, "|") {
			err := c.parse(s)
			var e *Error
			if !errors.As(err, &e) || e.Hint == "" {
				t.Errorf("%s: %q gave %v", c.name, s, err)
			} else if i == 0 && err.Error() != c.want {
				t.Errorf("%s: got\n%s\nwant\n%s", c.name, err, c.want)
			}
		}
	}
	if err := length(strings.Repeat("1", 1000) + "in"); err == nil || len(err.Error()) > 200 {
		t.Errorf("a thousand digits: %v", err)
	}
}

func TestParseOthers(t *testing.T) {
	for s, want := range map[string]Size{
		"24 x 36": {24 * Inch, 36 * Inch}, "24x36": {24 * Inch, 36 * Inch}, "24×36 in": {24 * Inch, 36 * Inch}, `24" X 36"`: {24 * Inch, 36 * Inch},
		"24 1/2 x 18 in": {24.5 * Inch, 18 * Inch}, "61 x 91 cm": {0.61, 0.91}, "24 by 36": {24 * Inch, 36 * Inch}, "24½ x 36¼": {24.5 * Inch, 36.25 * Inch},
		"2ft x 36in": {24 * Inch, 36 * Inch}, `5'6" x 2'`: {66 * Inch, 24 * Inch}, "60cm x 2ft": {0.6, 24 * Inch}, "24*36": {24 * Inch, 36 * Inch}, "0 x -3": {0, -3 * Inch},
	} {
		got, err := ParseSize(s, Inches, true)
		if err != nil || math.Abs(float64(got.A-want.A)) > 1e-15 || math.Abs(float64(got.B-want.B)) > 1e-15 {
			t.Errorf("%q: %v (%v), want %v", s, got, err, want)
		}
	}
	for s, want := range map[string]Weight{"6lb": 6 * Pound, "6 lb 4oz": 6.25 * Pound, "12 oz": 12 * Ounce, "6lb 15oz": 6*Pound + 15*Ounce, "2.5kg": 2.5, "800g": 0.8, "6": 6 * Pound, "6 1/2 lbs": 6.5 * Pound, "½ lb": Pound / 2} {
		if got, err := ParseWeight(s, Inches, true); err != nil || math.Abs(float64(got-want)) > 1e-15 {
			t.Errorf("%q: %v (%v), want %v", s, got, err, want)
		}
	}
	if got, err := ParseWeight("6", Centimetres, true); err != nil || got != 6 {
		t.Errorf("a bare 6 in a metric scene: %v (%v)", got, err)
	}
	for s, want := range map[string]Money{"480": 48000, "$480": 48000, "480 €": 48000, "1,250.50": 125050, "1250.5": 125050, "1,250": 125000, "-3": -300, "-$5": -500, "0": 0, "£ 1,234,567.89": 123456789} {
		if got, err := ParseMoney(s); err != nil || got != want {
			t.Errorf("%q: %v (%v), want %v", s, got, err, want)
		}
	}
	for s, want := range map[string]float64{"30deg": 30, "30°": 30, "30": 30, "-12.5 degrees": -12.5} {
		if got, err := ParseAngle(s); err != nil || math.Abs(got.Degrees()-want) > 1e-12 {
			t.Errorf("%q: %v° (%v), want %v", s, got.Degrees(), err, want)
		}
	}
	for s, want := range map[string]Share{"90%": 0.9, "0.9": 0.9, "1": 1, "2.5 %": 0.025, "0": 0, "½": 0.5, "130%": 1.3} {
		if got, err := ParseShare(s); err != nil || got != want {
			t.Errorf("%q: %v (%v), want %v", s, got, err, want)
		}
	}
	for s, want := range map[string]Minutes{"15min": 15, "1h 20min": 80, "1 h": 60, "1.5h": 90, "20": 20, "2h15": 135, "1h 59min": 119, "1000000": 1_000_000, "0": 0, "1 1/2 hours": 90} {
		if got, err := ParseMinutes(s); err != nil || got != want {
			t.Errorf("%q: %v (%v), want %v", s, got, err, want)
		}
	}
	for s, want := range map[string]System{"in": Inches, "Inches": Inches, "cm": Centimetres, "centimeters": Centimetres} {
		if got, err := ParseSystem(s); err != nil || got != want {
			t.Errorf("%q: %v (%v), want %v", s, got, err, want)
		}
	}
	for s, want := range map[string]Length{"1/64in": Inch / 64, "1/2 in": Inch / 2, "5ft 11in": 71 * Inch, "1m 99cm": 1.99} {
		if got, err := ParseLength(s, Inches, false); err != nil || math.Abs(float64(got-want)) > 1e-15 {
			t.Errorf("%q: %v (%v), want %v", s, got, err, want)
		}
	}
	if _, ok := writingOf("1.250.00"); ok {
		t.Error("one sign stands for thousands and for cents")
	}
	if _, err := ParseSystem("furlongs"); err == nil || err.Error() != `"furlongs" is not a system of units: write in or cm` {
		t.Errorf("furlongs: %v", err)
	}
}

func TestFormat(t *testing.T) {
	for _, c := range []struct {
		l                      Length
		inches, cm, feet, room string
	}{
		{24.5 * Inch, "24 1/2 in", "62.2 cm", "2 ft 1/2 in", "0.62 m"},
		{0, "0 in", "0 cm", "0 in", "0 m"},
		{0.375 * Inch, "3/8 in", "1 cm", "3/8 in", "0.01 m"},
		{-0.375 * Inch, "-3/8 in", "-1 cm", "-3/8 in", "-0.01 m"},
		{0.613, "24 1/8 in", "61.3 cm", "2 ft 1/8 in", "0.61 m"},
		{10 * Foot, "120 in", "304.8 cm", "10 ft", "3.05 m"},
		{9*Foot + 6*Inch, "114 in", "289.6 cm", "9 ft 6 in", "2.9 m"},
		{11.99 * Inch, "12 in", "30.5 cm", "1 ft", "0.3 m"},
		{-0.001 * Inch, "0 in", "0 cm", "0 in", "0 m"},
		{-66 * Inch, "-66 in", "-167.6 cm", "-5 ft 6 in", "-1.68 m"},
	} {
		for i, got := range []string{c.l.Format(Inches), c.l.Format(Centimetres), c.l.FormatFeet(Inches), c.l.FormatFeet(Centimetres)} {
			if want := []string{c.inches, c.cm, c.feet, c.room}[i]; got != want {
				t.Errorf("%v m: got %q, want %q", c.l.M(), got, want)
			}
		}
	}
	for got, want := range map[string]string{
		(6.25 * Pound).Format(Inches): "6 lb 4 oz", (12 * Ounce).Format(Inches): "12 oz", (42.5 * Pound).Format(Inches): "42.5 lb",
		(9.999 * Pound).Format(Inches): "10 lb", Weight(0).Format(Inches): "0 oz", Weight(0).Format(Centimetres): "0 g",
		Weight(0.8).Format(Centimetres): "800 g", Weight(2.5).Format(Centimetres): "2.5 kg", Weight(0.9999).Format(Centimetres): "1 kg", Weight(18.14).Format(Centimetres): "18.1 kg",
		(-2 * Pound).Format(Inches): "-2 lb",
		Money(48000).Format("$"):    "$480", Money(125050).Format("$"): "$1,250.50", Money(-5).Format("€"): "-€0.05", Money(48000).Format("CHF"): "CHF 480", Money(123456789).Format(""): "1,234,567.89",
		// as German (DIN 5008), Swiss and French people write amounts; from memory
		Money(125050).Format("1.250,00 €"): "1.250,50\u00a0€", Money(48000).Format("1.250 €"): "480\u00a0€", Money(-123456789).Format("CHF 1'250.00"): "-CHF\u00a01'234'567.89", Money(125050).Format("1 250,00 €"): "1\u00a0250,50\u00a0€", Money(125050).Format("€1250.00"): "€1250.50",
		AsIn("1.250,00 €", "61.5 x 91 cm, 2.5 kg"): "61,5 x 91 cm, 2,5 kg", AsIn("$", "61.5 x 91 cm"): "61.5 x 91 cm",
		Money(math.MinInt64).Format(""): "-92,233,720,368,547,758.08",
		Degrees(30).Format():            "30°", Share(0.9).Format(): "90%", Share(0.1354).Format(): "13.5%",
		Minutes(15).Format(): "15 min", Minutes(80).Format(): "1 h 20 min", Minutes(120).Format(): "2 h",
		Size{24.5 * Inch, 36 * Inch}.Format(Inches): "24 1/2 x 36 in", Size{0.61, 0.91}.Format(Centimetres): "61 x 91 cm",
	} {
		if got != want {
			t.Errorf("got %q, want %q", got, want)
		}
	}
}

// What is printed can be read again: it is the same to the rounding of the print, and prints the same once more.
func TestPrintThenParse(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	lengths := map[string]struct {
		print func(Length) string
		slack float64 // half of the last digit
	}{
		"inches":      {func(l Length) string { return l.Format(Inches) }, Inch.M() / 16},
		"centimetres": {func(l Length) string { return l.Format(Centimetres) }, 0.0005},
		"feet":        {func(l Length) string { return l.FormatFeet(Inches) }, Inch.M() / 16},
		"metres":      {func(l Length) string { return l.FormatFeet(Centimetres) }, 0.005},
	}
	for range 4_000 {
		v := (r.Float64() - 0.3) * math.Pow(10, float64(r.IntN(4)-2))
		for name, c := range lengths {
			s := c.print(Length(v))
			back, err := ParseLength(s, Inches, false)
			if err != nil || math.Abs(back.M()-v) > c.slack+1e-12 || c.print(back) != s {
				t.Fatalf("%s: %v m is printed %q, read as %v (%v), printed %q", name, v, s, back.M(), err, c.print(back))
			}
		}
		for _, sys := range []System{Inches, Centimetres} {
			size := Size3{Length(math.Abs(v)), Length(r.Float64()), Length(r.Float64())}
			s := size.Format(sys)
			if back, err := ParseSize3(s, sys, false); err != nil || back.Format(sys) != s {
				t.Fatalf("%v is printed %q, read as %v (%v)", size, s, back, err)
			}
			w := Weight(v * 10)
			s = w.Format(sys)
			back, err := ParseWeight(s, sys, false)
			if err != nil || math.Abs(back.Kg()-w.Kg()) > max(Ounce.Kg()/2, 0.05)+1e-12 || back.Format(sys) != s {
				t.Fatalf("%v kg is printed %q, read as %v (%v)", w.Kg(), s, back.Kg(), err)
			}
		}
		m := Money(r.Int64N(1e9) - 1e8)
		if back, err := ParseMoney(m.Format("")); err != nil || back != m {
			t.Fatalf("%d is printed %q, read as %d (%v)", m, m.Format(""), back, err)
		}
		n := Minutes(r.IntN(5000))
		if back, err := ParseMinutes(n.Format()); err != nil || back != n {
			t.Fatalf("%d is printed %q, read as %d (%v)", n, n.Format(), back, err)
		}
		p := Share(math.Round(r.Float64()*1000) / 1000)
		if back, err := ParseShare(p.Format()); err != nil || math.Abs(float64(back-p)) > 1e-12 {
			t.Fatalf("%v is printed %q, read as %v (%v)", p, p.Format(), back, err)
		}
		a := Degrees(math.Round(r.Float64()*3600) / 10)
		if back, err := ParseAngle(a.Format()); err != nil || math.Abs(float64(back-a)) > 1e-12 {
			t.Fatalf("%v is printed %q, read as %v (%v)", a, a.Format(), back, err)
		}
	}
}

// Whatever is read is a finite number, and its print can be read again.
func FuzzParse(f *testing.F) {
	for _, s := range []string{"24in", `5'6"`, "18 1/2in", "½", "24 x 36 cm", "1,250.50", "90%", "1h 20min", "-3°", "6 lb 4oz", "1e308", ".nan", "''", "5’’"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		for _, sys := range []System{Inches, Centimetres} {
			if l, err := ParseLength(s, sys, true); err == nil {
				finite(t, s, l.M())
				if _, err := ParseLength(l.Format(sys), sys, false); err != nil && math.Abs(l.M()) < 1e6 {
					t.Errorf("%q is printed %q: %v", s, l.Format(sys), err)
				}
			}
			if z, err := ParseSize(s, sys, true); err == nil {
				finite(t, s, z.A.M(), z.B.M())
			}
			if z, err := ParseSize3(s, sys, true); err == nil {
				finite(t, s, z.A.M(), z.B.M(), z.C.M())
			}
			if w, err := ParseWeight(s, sys, true); err == nil {
				finite(t, s, w.Kg())
				w.Format(sys)
			}
		}
		if a, err := ParseAngle(s); err == nil {
			finite(t, s, float64(a))
		}
		if p, err := ParseShare(s); err == nil {
			finite(t, s, float64(p))
		}
		if m, err := ParseMoney(s); err == nil {
			if back, err := ParseMoney(m.Format("$")); err != nil || back != m {
				t.Errorf("%q is printed %q, read as %v (%v)", s, m.Format("$"), back, err)
			}
		}
		if n, err := ParseMinutes(s); err == nil && (n < 0 || n > 1e6) {
			t.Errorf("%q is %d minutes", s, n)
		}
		if q := Quote(s); len([]rune(q)) > 42 || strings.ContainsAny(q, "\n\x1b") {
			t.Errorf("quoted as %q", q)
		}
	})
}

func finite(t *testing.T, s string, vs ...float64) {
	for _, v := range vs {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			t.Errorf("%q is %v", s, v)
		}
	}
}

func TestPrintingNonsenseIsCalm(t *testing.T) {
	for _, v := range []float64{math.NaN(), math.Inf(1), math.Inf(-1), 1e300, -1e300} {
		for _, sys := range []System{Inches, Centimetres} {
			if s := Length(v).Format(sys) + Length(v).FormatFeet(sys) + Weight(v).Format(sys); s == "" {
				t.Errorf("%v prints nothing", v)
			}
		}
	}
}

func TestWholePercent(t *testing.T) {
	for s, want := range map[Share]string{0: "0%", 0.001: "1%", 0.424: "42%", 0.426: "43%", 0.999: "99%", 1: "100%", 1 - 1e-12: "100%"} {
		if got := s.Whole(); got != want {
			t.Errorf("%v: %s, want %s", float64(s), got, want)
		}
	}
}

func TestCapital(t *testing.T) {
	for s, want := range map[string]string{"": "", "the table": "The table", "étude": "Étude", "ß": "ß", "24 works": "24 works", "\xffa": "\xffa"} {
		if got := Capital(s); got != want {
			t.Errorf("%q became %q, want %q", s, got, want)
		}
	}
}

func TestList(t *testing.T) {
	for want, words := range map[string][]string{"": nil, "left": {"left"}, "left or right": {"left", "right"}, "left, back or right": {"left", "back", "right"}} {
		if got := List(words, "or"); got != want {
			t.Errorf("%q: got %q, want %q", words, got, want)
		}
	}
}

func TestBytes(t *testing.T) {
	for text, want := range map[string]int{"2MB": 2_000_000, "500 kB": 500_000, "1.5 mb": 1_500_000, "2 MiB": 2 << 20, "1 KiB": 1024, "800 bytes": 800, "2": 0, "MB": 0, "2 GB": 0, "-1MB": 0, "": 0} {
		if got, err := ParseBytes(text); got != want || (err != nil) != (want == 0) {
			t.Errorf("%q: %d, %v", text, got, err)
		}
	}
}

// An extent is two lengths or three; a fault in three lengths speaks of three.
func TestExtent(t *testing.T) {
	for _, text := range []string{"24 x 36 in", "24 x 36 x 2 in"} {
		if got, err := ParseExtent(text, Inches, false); err != nil || got.Format(Inches) != text {
			t.Errorf("%s: %s, %v", text, got.Format(Inches), err)
		}
	}
	if _, err := ParseExtent("24 x 18 x 3", Inches, false); err == nil || !strings.Contains(err.Error(), "a size needs a unit") {
		t.Errorf("three lengths without a unit: %v", err)
	}
}
