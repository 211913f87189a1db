package start

import (
	"cmp"
	"fmt"
	"regexp"
	"slices"
	"strings"
	"unicode"

	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/kinds"
	"boothmock/internal/props/stocklist"
)

// nameWorks gives each work its name in the scene: its title in small letters, by which the sheet knows it too. Where two
// have one title, the number in the sheet is taken, or a number is added.
func nameWorks(works []*work) {
	titles := map[string]int{}
	for _, w := range works {
		titles[letters(w.title())]++
	}
	taken, next := map[string]bool{}, map[string]int{}
	for _, w := range works {
		w.name, w.unique = strings.Join(pieces(w.title()), " "), titles[letters(w.title())] == 1
		if !w.unique && w.row.No != "" && titles[letters(w.row.No)] == 0 {
			w.name, w.unique = w.row.No, true
		}
		if w.name == "" {
			w.name, w.unique = fmt.Sprint("row ", w.row.Number), false
		}
		base := w.name
		for taken[letters(w.name)] || !w.unique && titles[letters(w.name)] > 0 { // else the sheet would be asked which of them it is
			next[base]++
			w.name, w.unique = fmt.Sprintf("%s %d", base, next[base]), false
		}
		taken[letters(w.name)] = true
	}
}

var plainText = regexp.MustCompile(`^[\p{L}][\p{L}\p{N} ./_-]*$`)

// yaml is a text as a value, in quotes where it must be.
func yaml(s string) string {
	switch strings.ToLower(s) {
	case "yes", "no", "on", "off", "true", "false", "null", "y", "n":
	default:
		if plainText.MatchString(s) && strings.TrimSpace(s) == s {
			return s
		}
	}
	clean := strings.Map(func(r rune) rune {
		if unicode.IsControl(r) {
			return ' '
		}
		return r
	}, s)
	return `"` + strings.NewReplacer(`\`, `\\`, `"`, `\"`).Replace(clean) + `"`
}

// bare is a length without its unit, which is the scene's.
func (b standard) bare(l unit.Length) string {
	return strings.TrimSuffix(l.Format(b.sys), " "+b.sys.String())
}

// size is a size without its unit.
func (b standard) size(s unit.Size) string {
	return strings.TrimSuffix(s.Format(b.sys), " "+b.sys.String())
}

// text is the scene.
func (b standard) text(d *Draft, works []*work, rows []*row, unhung []*work) string {
	var t strings.Builder
	line := func(format string, args ...any) { fmt.Fprintf(&t, format+"\n", args...) }
	line("# yaml-language-server: $schema=%s", kinds.SchemaFile)
	line("# A first mock-up. Change what is not so, save, and look again: boothmock build %s", SceneFile)
	line("# What else a scene can hold: boothmock explain kinds")
	line("# Sizes of works are height x width. A bare number is in %s.", map[unit.System]string{unit.Inches: "inches", unit.Centimetres: "centimetres"}[b.sys])
	line("units: %s", b.sys)
	if d.Sheet != nil {
		if c := cmp.Or(d.Sheet.Amount, d.Sheet.Currency); c != "" && c != "$" {
			line("currency: %s", yaml(c))
		}
	}
	line("")
	line("# event: what the fair is called")
	if a := artist(works); a != "" {
		line("artist: %s", yaml(a))
	} else {
		line("# artist: your name")
	}
	line("")
	if d.Sheet != nil {
		line("# Your list: sizes, prices and media come from it. A work below needs only its name there.")
		sheet := d.Sheet.Name
		if len(d.Sheet.Tabs) == 1 {
			sheet += "/" + d.Sheet.Tabs[0]
		}
		line("sheet: %s", yaml(sheet))
		line("# Whoever checks the booth is told which works of the list it lacks. Mark those that stay at home as spare, or take this away.")
		line("whole list: yes")
		line("")
	}
	line("# A standard pitch: put in the size of yours. The front is where visitors come from. Neighbours are tents on both sides")
	line("# and across the aisle: take them away if you stand alone.")
	for _, l := range b.lines {
		line("%s", l)
	}
	line("")
	line("tags: {}")
	if len(works) > 0 {
		b.hung(line, works, rows, unhung)
	}
	return t.String()
}

// hung are the works of a scene and its rows.
func (b standard) hung(line func(string, ...any), works []*work, rows []*row, unhung []*work) {
	line("")
	line("works:")
	left := map[*work]bool{}
	for _, w := range unhung {
		left[w] = true
	}
	for _, w := range works {
		if !left[w] {
			line("  - %s", b.entry(w))
		}
	}
	if len(unhung) > 0 {
		line("  # These wait: name one in a row, and it hangs there; a size with a depth is a sculpture's, which stands where on: says.")
		for _, w := range unhung {
			line("  - %s", b.entry(w))
		}
	}
	line("")
	line("# Each row is level and evenly spaced, from left to right as you face the wall from inside.")
	line("rows:")
	for _, r := range rows {
		var names []string
		for _, w := range r.works {
			names = append(names, yaml(w.name))
		}
		says := "wall: " + r.wall
		if r.centre != b.centre {
			says += ", centre: " + b.bare(r.centre)
		}
		if r.from > 0 {
			says += ", from left: " + b.bare(r.from)
		}
		if r.together {
			says += ", gap: " + b.bare(b.usual)
		}
		line("  - {%s, works: [%s]}", says, strings.Join(names, ", "))
	}
}

// artist is who made all the works, if the list says so.
func artist(works []*work) string {
	if len(works) == 0 {
		return ""
	}
	a := works[0].row.Artist
	if slices.ContainsFunc(works, func(w *work) bool { return w.row.Artist != a }) {
		return ""
	}
	return a
}

// entry is a work in the list of works.
func (b standard) entry(w *work) string {
	says := "name: " + yaml(w.name)
	if !w.unique { // the sheet cannot be asked for it
		size := w.row.Size
		if w.row.Parts > 0 {
			size = w.row.Each
		}
		says += ", title: " + yaml(w.title()) + ", size: " + b.size(size)
		if w.row.Sculpture() {
			says += " x " + b.bare(w.row.Depth)
		}
		if w.row.Paper.A > 0 {
			says += ", paper: " + b.size(w.row.Paper)
		}
		if w.row.Price > 0 {
			says += ", price: " + yaml(w.row.Price.Format(""))
		}
		if w.row.Weight > 0 {
			says += ", weight: " + yaml(w.row.Weight.Format(b.sys))
		}
		for _, t := range [][2]string{{"medium", w.row.Medium}, {"edition", w.row.Edition}, {"year", w.row.Year}, {"family", w.row.Family}, {"status", string(w.row.Status)}} {
			if t[1] != "" {
				says += ", " + t[0] + ": " + yaml(t[1])
			}
		}
	}
	if w.turned && w.unique {
		says += ", size: " + b.size(w.row.Size)
	}
	if w.row.Sculpture() && w.unique {
		says += ", size: " + b.size(w.row.Size) + " x " + b.bare(w.row.Depth)
	}
	if n := w.row.Parts; n > 0 {
		if w.unique {
			says += ", size: " + b.size(w.row.Each)
		}
		says += ", parts: [" + strings.Repeat(", {}", n)[2:] + "]"
	}
	if f := w.row.Frame; f != nil {
		says += ", frame: {" + b.frame(f) + "}"
	}
	switch {
	case w.photo != "":
		says += ", image: " + yaml(w.photo)
	case w.unique && w.row.File != "": // the list names one that is not there
		says += `, image: ""`
	}
	return "{" + says + "}"
}

const widest = 2 * unit.Inch // of a frame's face: what is wider is mostly mat; common practice, no source

// frameWidth is how far a frame with its mat stands out beyond the picture.
func frameWidth(f *stocklist.Frame) unit.Length { return cmp.Or(f.Width, kinds.UsualFrame) }

// frame is a frame as the scene has it.
func (b standard) frame(f *stocklist.Frame) string {
	var says []string
	switch {
	case f.Width > widest:
		says = append(says, "width: "+b.bare(kinds.UsualFrame), "mat: "+b.bare(f.Width-kinds.UsualFrame))
	case f.Width > 0:
		says = append(says, "width: "+b.bare(f.Width))
	}
	if f.Colour != "" {
		says = append(says, "colour: "+yaml(f.Colour))
	}
	return strings.Join(says, ", ")
}

// blankList is a list of the photographs to fill in.
func blankList(photos []string) string {
	var t strings.Builder
	t.WriteString("Photo,Title,Height,Width,Unit,Depth,Weight,Medium,Edition,Price\r\n")
	for _, p := range photos {
		words := strings.Join(strings.FieldsFunc(stem(p), func(r rune) bool { return r == '_' || r == '-' || unicode.IsSpace(r) }), " ")
		fmt.Fprintf(&t, "%s,%s,,,in,,,,,\r\n", cell(p), cell(words))
	}
	return t.String()
}

// cell is a text as a cell of a CSV. One that a spreadsheet program would take for a formula gets the mark of a text, which
// package stocklist takes away again.
func cell(s string) string {
	if s != "" && strings.ContainsRune("=+-@\t\r", rune(s[0])) {
		s = "'" + s
	}
	if strings.ContainsAny(s, ",;\"\n") {
		return `"` + strings.ReplaceAll(s, `"`, `""`) + `"`
	}
	return s
}
