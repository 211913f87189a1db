package stocklist

import (
	"fmt"
	"slices"
	"strings"

	"boothmock/internal/basis/unit"
)

// measureRoles are the words of headings for height (h), width (w), length (l) and depth (d), folded.
var measureRoles = func() map[string]byte {
	out := map[string]byte{}
	for role, text := range map[byte]string{
		'h': heightWords + "|h|heights|alt|a|v|k|υ|y|縦|たて|高さ|高",
		'w': widthWords + "|w|widths|b|larg|base|an|s|g|π|横|よこ|幅|宽|寬",
		'l': "l|length|lange|laenge|lang|longueur|long",
		'd': depthWords + "|d|t|p|prof|gl|hl",
	} {
		for _, w := range list(text) {
			out[w] = role
		}
	}
	return out
}()

var between = list("x|by|mal|per|and|und|et|y|e|i|ja|og|och|ve|a|και")

// orderOf is the order of measures that a text, folded, states, a letter each (dhw: depth x height x width), and the text without it.
// Letters of one country alone, and all in running text, must have an x between them.
func orderOf(text string, running bool) (order, rest string) {
	var said []string // words, with those that are one for three apart: h x w
	for _, w := range strings.Fields(text) {
		if of := strings.Split(w, "x"); len(of) > 1 && !slices.ContainsFunc(of, func(m string) bool { return measureRoles[m] == 0 }) {
			w = strings.Join(of, " x ")
		}
		said = append(said, strings.Fields(w)...)
	}
	at := func(i int) byte {
		if i < len(said) {
			return measureRoles[said[i]]
		}
		return 0
	}
	for from := range said {
		order, to := string(at(from)), from+1
		for at(from) != 0 && to < len(said) && len(order) < 3 {
			next := to
			if slices.Contains(between, said[next]) && at(next+1) != 0 {
				next++
			} else if running || len(said[to]) == 1 && !strings.Contains("hwbldt", said[to]) {
				break
			}
			if at(next) == 0 {
				break
			}
			order, to = order+string(at(next)), next+1
		}
		if len(order) < 2 || order[0] == order[1] {
			continue
		}
		if strings.Contains(order, "h") { // a length beside a height is the width, and what is called width then the depth
			if strings.Contains(order, "l") {
				order = strings.NewReplacer("w", "d", "l", "w").Replace(order)
			} else if strings.Count(order, "w") == 2 { // Finnish has one letter for width and depth
				order = order[:2] + "d"
			}
		}
		return order, strings.Join(slices.Concat(said[:from], said[to:]), " ")
	}
	return "", text
}

// inOrder are height, width and depth of a size whose measures stand in an order such as dhw.
func inOrder(order string, typed unit.Size3, three bool) (unit.Size, unit.Length) {
	if !three {
		order = strings.ReplaceAll(order, "d", "")
	}
	size, depth := unit.Size{A: typed.A, B: typed.B}, typed.C
	for i, v := range []unit.Length{typed.A, typed.B, typed.C}[:min(3, len(order))] {
		switch order[i] {
		case 'h':
			size.A = v
		case 'd':
			depth = v
		default:
			size.B = v
		}
	}
	return size, depth
}

// adopt gives columns of sizes that say neither order nor unit those that a line beside the table states: all sizes w x h in cm.
func (h *headings) adopt(beside []line) {
	order, unit, from := "", "", ""
	for _, l := range beside {
		for i := range l.cells {
			text := l.text(i)
			if l.cells[i].long || text == from {
				continue
			}
			o, _ := orderOf(folded(text), true)
			u := unitOfNote(text)
			if o != "" && order != "" && o != order || u != "" && unit != "" && u != unit {
				return // it is not known which one counts
			}
			if o != "" || u != "" {
				from = text
			}
			if o != "" {
				order = o
			}
			if u != "" {
				unit = u
			}
		}
	}
	if from == "" {
		return
	}
	stated := slices.ContainsFunc(h.columns, func(c column) bool { return c.unit != "" && slices.Contains(measures, c.means) })
	used := false
	for i := range h.columns {
		c := &h.columns[i]
		if (c.means == sizeMeaning || c.means == framedSizeMeaning || c.means == sheetMeaning) && c.order == "" && order != "" {
			c.order, used = order, true
		}
		if slices.Contains(measures, c.means) && !stated && unit != "" {
			c.unit, used = unit, true
		}
	}
	if used {
		h.notes = append(h.notes, fmt.Sprintf("Beside the table stands “%s”: sizes that say nothing else are read so.", from))
	}
}

// unitOfNote is the unit of lengths that a line of text speaks of: (inches), all in cm. One behind a number is of something else.
func unitOfNote(text string) (found string) {
	said := strings.Fields(folded(text))
	for i, w := range said {
		u := unitWords[w]
		if !slices.Contains([]string{"in", "cm", "mm"}, u) || w == "in" || i > 0 && strings.ContainsAny(said[i-1], "0123456789") {
			continue
		}
		if found != "" && found != u {
			return ""
		}
		found = u
	}
	return found
}
