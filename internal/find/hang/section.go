package hang

import (
	"slices"
	"strings"

	"boothmock/internal/basis/unit"
	"boothmock/internal/basis/wind"
)

// Section is a part of the sheet in words, for the terminal and for paper alike.
type Section struct {
	Title  string
	Intro  []string
	Tables []Table
	Notes  []string
}

// Table is rows of words under a head. Wide gives the columns' widths in hundredths of the whole. A Form has fields to write in.
type Table struct {
	Title string
	Head  []string
	Wide  []float64
	Rows  [][]string
	Form  bool
}

// Sections is the whole sheet in the order in which people need it.
func (s Sheet) Sections() []Section {
	var out []Section
	for _, w := range s.Walls {
		out = append(out, s.WallSection(w))
	}
	out = append(out, s.FirstSection(), s.LoadSection())
	if s.Weather != nil {
		out = append(out, s.WindSection(), s.RainSection())
	}
	if len(s.Loose) > 0 {
		out = append(out, s.LooseSection())
	}
	out = append(out, s.ListSection(), s.StockSection())
	return slices.DeleteFunc(out, Section.Empty)
}

// Empty says whether there is nothing to say.
func (x Section) Empty() bool { return len(x.Tables)+len(x.Notes) == 0 }

// filled are the tables that have rows.
func filled(tables ...Table) []Table {
	return slices.DeleteFunc(tables, func(t Table) bool { return len(t.Rows) == 0 })
}

// FirstSection is what to know before the first hook.
func (s Sheet) FirstSection() Section { return Section{Title: "Before you start", Notes: s.Cautions} }

// length is a length without its unit, which the section's introduction names.
func (s Sheet) length(m float64) string {
	return strings.TrimSuffix(s.full(m), " "+s.system.String())
}

func (s Sheet) full(m float64) string {
	return unit.AsIn(s.currency, unit.Length(m).Format(s.system))
}
func (s Sheet) weight(kg float64) string {
	return unit.AsIn(s.currency, unit.Weight(kg).Format(s.system))
}
func (s Sheet) force(n float64) string { return unit.AsIn(s.currency, asWeight(n).Format(s.system)) }

// speed is a wind that something stands, in the units of its readers.
func (s Sheet) speed(v float64) string {
	if v >= anyWind {
		return "any"
	}
	return wind.Speed(v).Below(s.system)
}

const none = "-"

// known is a weight, or the word for one that is not stated.
func (s Sheet) known(kg float64) string {
	if kg == 0 {
		return "unknown"
	}
	return s.weight(kg)
}

func (s Sheet) newtons(n *float64) string {
	if n == nil {
		return "unknown"
	}
	return s.force(*n)
}
