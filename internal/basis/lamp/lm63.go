package lamp

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"boothmock/internal/basis/fault"
)

// File is what a maker says of a lamp in the format of ANSI/IES LM-63 (1991, 1995, 2002, 2019).
type File struct {
	Beam
	Watts  float64
	Radius float64 // metres: of a disc as large as the opening that light comes out of; 0: not stated
}

// What a file may hold.
const (
	mostAngles = 1000
	MostBytes  = 1 << 20
)

// table are candela by vertical angle, from the axis, and by horizontal angle round it: type C photometry.
type table struct {
	vertical, horizontal []float64 // radians, ascending
	candela              [][]float64
}

// Read reads a file strictly; the error is a fault.Fault with its line and column. name is what the file is called.
func Read(name string, text []byte) (File, error) {
	r := reader{name: name}
	if len(text) > MostBytes {
		return File{}, r.wrong(1, 1, "keep to the lamp's own file", "the file is larger than a megabyte")
	}
	if !utf8.Valid(text) {
		text = []byte(strings.ToValidUTF8(string(text), "?"))
	}
	r.lines = strings.Split(strings.ReplaceAll(string(text), "\r\n", "\n"), "\n")
	if err := r.header(); err != nil {
		return File{}, err
	}
	return r.photometry()
}

// reader goes through a file number by number; line and column count from 0 here.
type reader struct {
	name      string
	lines     []string
	line, col int
	from      [2]int // where the last number began
}

func (r *reader) wrong(line, col int, hint, format string, args ...any) error {
	return fault.Fault{At: fault.Place{File: r.name, Line: line, Col: col}, Text: fmt.Sprintf(format, args...), Hint: hint}
}

// last is what is wrong with the number that was read last.
func (r *reader) last(hint, format string, args ...any) error {
	return r.wrong(r.from[0]+1, r.from[1]+1, hint, format, args...)
}

// header reads down to the line TILT=.
func (r *reader) header() error {
	first := strings.TrimPrefix(r.lines[0], "\ufeff")
	if !strings.HasPrefix(first, "IESNA") && !strings.HasPrefix(first, "IES:") {
		return r.wrong(1, 1, "its first line is, for example, IESNA:LM-63-2002", "this is no lamp file after LM-63")
	}
	for r.line = 1; r.line < len(r.lines); r.line++ {
		l := strings.TrimSpace(r.lines[r.line])
		tilt, ok := strings.CutPrefix(l, "TILT=")
		switch {
		case ok && strings.TrimSpace(tilt) == "NONE":
			r.line++
			return nil
		case ok:
			return r.wrong(r.line+1, 6, "ask the maker for a file with TILT=NONE", "lamps whose light depends on how they are tilted are not read")
		case l != "" && (l[0] != '[' || !strings.Contains(l, "]")):
			return r.wrong(r.line+1, 1, "lines before TILT= are such as [MANUFAC] name", "there is no keyword in square brackets")
		}
	}
	return r.wrong(len(r.lines), 1, "the numbers come after a line TILT=NONE", "the line TILT= is missing")
}

// number is the next one, whatever line it is on; what says what it is.
func (r *reader) number(what string) (float64, error) {
	for ; r.line < len(r.lines); r.line, r.col = r.line+1, 0 {
		l := r.lines[r.line]
		for r.col < len(l) && strings.IndexByte(" \t,\r", l[r.col]) >= 0 {
			r.col++
		}
		if r.col == len(l) {
			continue
		}
		end := r.col
		for end < len(l) && strings.IndexByte(" \t,\r", l[end]) < 0 {
			end++
		}
		word := l[r.col:end]
		r.from = [2]int{r.line, utf8.RuneCountInString(l[:r.col])}
		r.col = end
		v, err := strconv.ParseFloat(word, 64)
		if err != nil || math.IsNaN(v) || math.Abs(v) > 1e12 || strings.ContainsAny(word, "xX_pP") {
			return 0, r.last("a plain number stands here", "%q is not %s", word, what)
		}
		return v, nil
	}
	return 0, r.wrong(len(r.lines), 1, "the file may be cut off", "it ends before %s", what)
}

// count is a whole number from 1 to most.
func (r *reader) count(what string, most int) (int, error) {
	v, err := r.number(what)
	if err == nil && (v != math.Trunc(v) || v < 1 || v > float64(most)) {
		err = r.last(fmt.Sprintf("a whole number from 1 to %d", most), "%v is not %s", v, what)
	}
	return int(v), err
}

// photometry reads the numbers after TILT=.
func (r *reader) photometry() (f File, err error) {
	lamps, err := r.count("the number of lamps", mostAngles)
	if err != nil {
		return f, err
	}
	var head [2]float64
	for i, what := range []string{"the lumens of a lamp", "the multiplier of the candela"} {
		if head[i], err = r.number(what); err != nil {
			return f, err
		}
		if head[i] <= 0 && (i > 0 || head[i] != -1) {
			return f, r.last("more than 0; lumens may be -1 where all are measured", "%v is not %s", head[i], what)
		}
	}
	vertical, err := r.count("the number of vertical angles", mostAngles)
	if err != nil {
		return f, err
	}
	horizontal, err := r.count("the number of horizontal angles", mostAngles)
	if err != nil {
		return f, err
	}
	if v, err := r.number("the photometric type"); err != nil {
		return f, err
	} else if v != 1 {
		return f, r.last("ask the maker for a file of type C", "photometric type %v is not read, only 1, which is C", v)
	}
	if f.Radius, err = r.opening(); err != nil {
		return f, err
	}
	factor := head[1]
	for i, what := range []string{"the ballast factor", "the ballast-lamp factor", "the watts"} {
		v, err := r.number(what)
		if err != nil {
			return f, err
		}
		if v < 0 || v == 0 && i < 2 {
			return f, r.last("more than 0", "%v is not %s", v, what)
		}
		if i < 2 {
			factor *= v
		} else {
			f.Watts = v
		}
	}
	t, err := r.table(vertical, horizontal)
	if err != nil {
		return f, err
	}
	f.Beam = Beam{table: t, scale: factor, Lumens: factor * t.flux()}
	if f.Lumens <= 0 {
		return f, r.last("", "all candela are 0")
	}
	if stated := head[0] * float64(lamps) * max(1, factor); head[0] > 0 && f.Lumens > 1.1*stated {
		return f, r.last("check the multiplier and the lumens", "%.0f lm leave the lamp, which has only %.0f lm", f.Lumens, stated)
	}
	return f, nil
}

// opening reads in which unit, how wide, long and high the opening is: its radius in metres, as that of a disc so large. Negative
// sizes are those of a round one.
func (r *reader) opening() (float64, error) {
	unit, err := r.count("the unit of length, 1 for feet or 2 for metres", 2)
	if err != nil {
		return 0, err
	}
	metre := [3]float64{0, 0.3048, 1}[unit]
	var size [3]float64
	for i, what := range []string{"the width", "the length", "the height"} {
		if size[i], err = r.number(what + " of the opening"); err != nil {
			return 0, err
		}
		if math.Abs(size[i]*metre) > 10 {
			return 0, r.last("feet (1) or metres (2)?", "no lamp is %v wide, long or high", size[i])
		}
	}
	w, l := metre*math.Abs(size[0]), metre*math.Abs(size[1])
	if size[0] < 0 {
		return w / 2, nil
	}
	return math.Sqrt(w * l / math.Pi), nil
}

// table reads the angles, and the candela of each horizontal one.
func (r *reader) table(vertical, horizontal int) (*table, error) {
	t := &table{}
	var err error
	if t.vertical, err = r.angles(vertical, "a vertical angle", []float64{0}, []float64{90, 180}); err != nil {
		return nil, err
	}
	if t.horizontal, err = r.angles(horizontal, "a horizontal angle", []float64{0, 90}, []float64{0, 90, 180, 270, 360}); err != nil {
		return nil, err
	}
	if from, to := t.horizontal[0], t.horizontal[horizontal-1]; (from > 0) != (math.Abs(to-1.5*math.Pi) < 1e-9) {
		return nil, r.last("angles go from 0 to 0, 90, 180 or 360, or from 90 to 270", "horizontal angles end there")
	}
	for range horizontal {
		row := make([]float64, vertical)
		for i := range row {
			if row[i], err = r.number("a candela value"); err != nil {
				return nil, err
			}
			if row[i] < 0 {
				return nil, r.last("no direction has less than no light", "%v is not a candela value", row[i])
			}
		}
		t.candela = append(t.candela, row)
	}
	if _, err := r.number("nothing"); r.line < len(r.lines) || err == nil {
		return nil, r.last("are the numbers of angles right?", "more follows after the last candela value")
	}
	return t, nil
}

// angles reads so many, ascending, of which the first and the last are among some.
func (r *reader) angles(n int, what string, first, last []float64) ([]float64, error) {
	out := make([]float64, 0, min(n, mostAngles))
	for i := range n {
		v, err := r.number(what)
		if err != nil {
			return nil, err
		}
		switch {
		case i == 0 && !slices.Contains(first, v):
			return nil, r.last("lamps that shine down are read", "%s of %v cannot be the first", what, v)
		case i > 0 && v*math.Pi/180 <= out[i-1]:
			return nil, r.last("angles go up", "%s of %v comes after a greater one", what, v)
		case i == n-1 && !slices.Contains(last, v):
			return nil, r.last("are the numbers of angles right?", "%s of %v cannot be the last", what, v)
		}
		out = append(out, v*math.Pi/180)
	}
	return out, nil
}

// at is the candela in a direction, straight between the angles that were measured; what lies beyond them is dark, and round
// the axis the file's part of a turn is mirrored.
func (t *table) at(off, round float64) float64 {
	if off > t.vertical[len(t.vertical)-1]+1e-9 {
		return 0
	}
	round = math.Mod(round, 2*math.Pi)
	if round < 0 {
		round += 2 * math.Pi
	}
	switch last := t.horizontal[len(t.horizontal)-1]; {
	case last == 0:
		round = 0
	case t.horizontal[0] > 0: // mirrored across the plane through 90 and 270 degrees
		if round < math.Pi/2 {
			round = math.Pi - round
		} else if round > 1.5*math.Pi {
			round = 3*math.Pi - round
		}
	case last < 1.9*math.Pi && round > math.Pi:
		round = 2*math.Pi - round
	}
	if last := t.horizontal[len(t.horizontal)-1]; last > 0 && last < 0.6*math.Pi && round > math.Pi/2 {
		round = math.Pi - round
	}
	i, u := between(t.vertical, off)
	k, v := between(t.horizontal, round)
	row := func(k int) float64 {
		k = min(k, len(t.candela)-1)
		return float64(t.candela[k][i]*(1-u)) + float64(t.candela[k][min(i+1, len(t.vertical)-1)]*u)
	}
	return float64(row(k)*(1-v)) + float64(row(k+1)*v)
}

// between is the number of the last angle that is not greater than a, and the share of the way to the next one.
func between(angles []float64, a float64) (int, float64) {
	i, _ := slices.BinarySearch(angles, a)
	if i == len(angles) || i > 0 && angles[i] > a {
		i--
	}
	if i+1 >= len(angles) || a <= angles[i] {
		return i, 0
	}
	return i, (a - angles[i]) / (angles[i+1] - angles[i])
}

// flux are all lumens: the intensity over the sphere, zone by zone.
func (t *table) flux() (sum float64) {
	const rounds = 72
	for i := 0; i+1 < len(t.vertical); i++ {
		mean := 0.0
		for k := range rounds {
			a := 2 * math.Pi * (float64(k) + 0.5) / rounds
			mean += (t.at(t.vertical[i], a) + t.at(t.vertical[i+1], a)) / 2 / rounds
		}
		sum += float64(mean * 2 * math.Pi * (math.Cos(t.vertical[i]) - math.Cos(t.vertical[i+1])))
	}
	return sum
}
