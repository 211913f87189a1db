package rules

import (
	"boothmock/internal/unit"
)

// Minutes is a rule that is a time.
type Minutes struct {
	Name    string
	Default unit.Minutes
	Doc     string
	Source  string
}

// In is the rule's value in the book.
func (r Minutes) In(b Book) unit.Minutes { return unit.Minutes(b.number(r.Name, float64(r.Default))) }

func (r Minutes) name() string { return r.Name }

func (r Minutes) parse(text string, _ unit.System, _ bool) (float64, error) {
	m, err := unit.ParseMinutes(text)
	if err == nil && m > 240 {
		err = &unit.Error{Text: unit.Quote(text) + " is out of range", Hint: "from 0 to 4 h"}
	}
	return float64(m), err
}

func (r Minutes) line(b Book, _ unit.System) Line {
	return Line{Name: r.Name, Value: r.In(b).Format(), Doc: r.Doc, Source: r.Source}
}
