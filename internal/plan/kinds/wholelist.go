package kinds

import (
	"cmp"
	"slices"

	"boothmock/internal/plan/booth"
	"boothmock/internal/props/stocklist"
)

// wholeList finds which works of the list are not in the booth, if the scene says that all are to be.
func (s *Site) wholeList() {
	const key = "whole list"
	if !s.file.Yes(key) || s.unread["sheet"] {
		return
	}
	if s.sheet == nil {
		s.file.Faults().Add(s.file.Whole().At(key), "name it as sheet, or take this away", "there is no list")
		return
	}
	byRow, byTitle := map[string]*workEntry{}, map[string][]*workEntry{} // works with a row of their name, and the others
	for _, e := range s.order {
		if n, ok := s.rowOf[e.Name]; ok {
			byRow[n] = e
		} else {
			t := plainName(e.Title)
			byTitle[t] = append(byTitle[t], e)
		}
	}
	var lacks []booth.Missing
	ask := func(m booth.Missing) {
		e := byRow[m.Row]
		if t := plainName(m.Title); e == nil && len(byTitle[t]) > 0 {
			e, byTitle[t] = byTitle[t][0], byTitle[t][1:]
		}
		switch {
		case e == nil:
			lacks = append(lacks, m)
		case e.hung == nil && e.On == "" && !e.Sold && e.Status != string(stocklist.Spare) && e.Size.C == 0:
			m.Lack, m.ID = booth.Unplaced, id("work", e.Name)
			lacks = append(lacks, m)
		}
	}
	for _, u := range s.sheet.Unread {
		ask(booth.Missing{At: u.At, Number: u.Number, Row: stocklist.Where(u.Number, u.At), Title: u.What, Lack: booth.Unread, Why: u.Why})
	}
	for _, r := range s.sheet.Rows {
		if r.Sold || r.Away != stocklist.ForSale || r.Stands != "" {
			continue
		}
		lack := booth.Unplaced
		if !r.Likely() {
			lack = booth.Unsized
		}
		ask(booth.Missing{At: r.At, Number: r.Number, Row: stocklist.Where(r.Number, r.At), Title: cmp.Or(r.Title, r.Name, r.No, "without a title"), Lack: lack})
	}
	slices.SortStableFunc(lacks, func(a, b booth.Missing) int {
		return cmp.Or(cmp.Compare(a.At.File, b.At.File), cmp.Compare(a.Number, b.Number))
	})
	s.Plan.Missing = lacks
}
