package hang

import (
	"fmt"
	"strconv"

	"boothmock/internal/basis/unit"
)

// ListSection is everything to buy and to pack.
func (s Sheet) ListSection() Section {
	items := func(title string, list []Item) Table {
		t := Table{Title: title, Head: []string{"", "what", "need", "spare", "for"}, Wide: []float64{6, 40, 8, 8, 38}}
		for _, i := range list {
			spare, why := none, i.Why
			if i.Spare > 0 {
				spare = fmt.Sprint(i.Spare)
			}
			if i.Weight != nil {
				if why != "" {
					why += "; "
				}
				why += s.weight(*i.Weight) + " each"
			}
			t.Rows = append(t.Rows, []string{"[ ]", i.What, fmt.Sprint(i.Need), spare, why})
		}
		return t
	}
	sec := Section{Title: "What to bring", Tables: filled(items("Packing list", s.Kit), items("Hardware", s.Hardware))}
	if len(s.Cloth) > 0 {
		t := Table{
			Title: "Cloth to buy",
			Head:  []string{"for", "fullness", "flat width", "cut length", "widths of the bolt", "length to buy", "or sheets", "weight"},
			Wide:  []float64{20, 9, 12, 12, 15, 12, 11, 9},
		}
		for _, c := range s.Cloth {
			sheets, weight := none, "unknown"
			if x := c.Sheet; x != nil {
				sheets = fmt.Sprint(x.Count)
				if x.Turned {
					sheets += ", turned"
				}
				if x.Short > 0 {
					sheets += ", " + s.full(x.Short) + " short"
				}
			}
			if c.Weight != nil {
				weight = s.weight(*c.Weight)
			}
			t.Rows = append(t.Rows, []string{
				c.Name, strconv.FormatFloat(c.Fullness, 'f', -1, 64), s.full(c.Flat), s.full(c.Drop), fmt.Sprintf("%d of %s", c.Widths, s.full(c.Bolt)), unit.AsIn(s.currency, unit.Length(c.Metres).FormatFeet(s.system)), sheets, weight,
			})
		}
		sec.Tables = append(sec.Tables, t)
		sec.Notes = append(sec.Notes, fmt.Sprintf("Cloth counts %s for the pipe's pocket, %s for the lower hem and %s for each side hem (common practice, no source). Seams take a little more.", s.full(pocket), s.full(hem), s.full(sideHem)))
	}
	w := Table{Title: "Weights as far as they are stated", Head: []string{"", "known", "not stated"}, Wide: []float64{50, 25, 25}}
	known, unknown := 0.0, 0
	for _, x := range s.Weights {
		if x.Known == 0 && x.Unknown == 0 {
			continue
		}
		w.Rows = append(w.Rows, []string{x.What, s.known(x.Known), fmt.Sprint(x.Unknown)})
		known, unknown = known+x.Known, unknown+x.Unknown
	}
	if len(w.Rows) == 0 {
		return sec
	}
	w.Rows = append(w.Rows, []string{"together", s.known(known), fmt.Sprint(unknown)})
	sec.Tables = append(sec.Tables, w)
	sec.Notes = append(sec.Notes, "The car carries more than this: tables, mesh, panels and boxes are not in the weights. Look up what your car may carry.")
	return sec
}

// StockSection is the list to tick when something sells.
func (s Sheet) StockSection() Section {
	t := Table{
		Form: true,
		Head: []string{"", "title", "size, height x width", "medium", "edition", "left of it", "price", "packed", "sold", "sold to", "deposit"},
		Wide: []float64{4, 17, 13, 11, 8, 7, 8, 7, 5, 12, 8},
	}
	for k, p := range s.Stock {
		title := p.Title
		if p.Waits {
			title += " (waits)"
		}
		t.Rows = append(t.Rows, []string{fmt.Sprint(k + 1), title, p.Size, p.Medium, p.Edition, p.left(), p.Amount, "[ ]", "[ ]", "", ""})
	}
	return Section{Title: "Stock", Intro: []string{"Tick what is in the car, then what is sold. Left of an edition are the numbers after this one, if they are sold in order."}, Tables: filled(t)}
}
