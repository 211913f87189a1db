package scene

import (
	"fmt"
	"reflect"
	"regexp"
	"slices"
	"strings"

	"boothmock/internal/basis/unit"
)

// outOfRange says with which unit a value was taken, and with which other unit it would be in range.
func (c *checker) outOfRange(fd tags, v reflect.Value, typed string) error {
	e := &unit.Error{Text: typed + " is out of range", Hint: fd.rangeWords(v.Type(), c.file.Units)}
	m := numberText.FindStringSubmatch(typed)
	family := families(v, c.file.Units)
	if m == nil || family == nil {
		return e
	}
	number, own := strings.TrimSpace(m[1]), m[2]
	if own == "" {
		own = family[0][0]
		e.Text = fmt.Sprintf("%s %s is out of range", number, own)
	} else { // a unit that was typed is seldom of the wrong system
		family = slices.DeleteFunc(family, func(units []string) bool { return !slices.Contains(units, own) })
	}
	for _, units := range family {
		for _, u := range units {
			meant := number + u
			if strings.Contains(number, "x") {
				meant = number + " " + u
			}
			if u != own && c.inRange(fd, v.Type(), meant) {
				e.Hint = fmt.Sprintf("did you mean %s? It may be %s", meant, e.Hint)
				return e
			}
		}
	}
	return e
}

var numberText = regexp.MustCompile(`^([0-9./x ]*[0-9]) *([a-z]*)$`)

// families are the units that a value of the type is written in, those of the scene's own system first, and of them first
// what a bare number has; nil for a type without units.
func families(v reflect.Value, sys unit.System) [][]string {
	var own, other []string
	switch v.Interface().(type) {
	case unit.Length, unit.Size, unit.Extent, unit.Size3:
		own, other = []string{"in", "ft"}, []string{"cm", "m", "mm"}
	case unit.Weight:
		own, other = []string{"lb", "oz"}, []string{"kg", "g"}
	default:
		return nil
	}
	if sys == unit.Centimetres {
		own, other = other, own
	}
	return [][]string{own, other}
}

// inRange is whether a text would be allowed for a field of the type.
func (c *checker) inRange(fd tags, t reflect.Type, typed string) bool {
	got, err := c.file.parser(t)(typed)
	low, high, open, ok := fd.bounds(t)
	if err != nil || !ok {
		return false
	}
	for _, x := range numbers(reflect.ValueOf(got)) {
		if !(x >= low && x <= high) || open && x == low {
			return false
		}
	}
	return true
}
