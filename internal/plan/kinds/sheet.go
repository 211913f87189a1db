package kinds

import (
	"path"
	"slices"
	"strings"
	"unicode"

	"boothmock/internal/basis/fault"
	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/scene"
	"boothmock/internal/props/stocklist"
)

// readSheet reads the sheet that the scene names, if it names one.
func (s *Site) readSheet() {
	name, ok := s.file.Text("sheet")
	if !ok {
		return
	}
	s.unread["sheet"] = true
	at := s.file.Whole().At("sheet")
	file, tab := stocklist.Tab(name)
	clean, err := scene.Inside(file)
	if err != nil {
		s.file.Faults().Add(at, "keep the sheet beside the scene", "%s", err)
		return
	}
	if tab != "" {
		clean += "/" + tab
	}
	list, err := stocklist.Read(s.fsys, clean, s.file.Units, s.file.UnitsStated)
	if err != nil {
		f, _ := err.(fault.Fault)
		s.file.Faults().Add(at, f.Hint, "%s: %s", f.At, f.Text)
		return
	}
	s.sheet = list
	s.bySheet = [2]map[string][]stocklist.Row{{}, {}}
	for _, r := range list.Rows {
		rest := []string{r.Title}
		if r.File != "" {
			rest = append(rest, strings.TrimSuffix(path.Base(r.File), path.Ext(r.File)))
		}
		for k, names := range [2][]string{{r.Name, r.No}, rest} {
			for i, name := range names {
				if names[i] = plainName(name); i == 0 || names[i] != names[0] {
					s.bySheet[k][names[i]] = append(s.bySheet[k][names[i]], r)
				}
			}
		}
	}
	s.illegible, s.rowOf = map[string]stocklist.Remark{}, map[string]string{}
	for _, u := range slices.Backward(list.Unread) { // of two with one name the first counts
		s.illegible[plainName(u.What)] = u
	}
	delete(s.unread, "sheet")
}

// fromSheet adds what the sheet says of a work, where the scene says nothing. It is found by its name: the sheet's name,
// number, title or photograph.
func (s *Site) fromSheet(it scene.Item, e *Work) {
	if s.sheet == nil {
		return
	}
	row, ok := s.inSheet(it, e)
	if !ok {
		return
	}
	s.rowOf[e.Name] = stocklist.Where(row.Number, row.At)
	if !it.Has("title") && row.Title != "" {
		e.Title = row.Title
	}
	if !it.Has("image") && row.File != "" {
		e.Image = path.Join(path.Dir(s.sheet.Name), strings.ReplaceAll(row.File, `\`, "/"))
	}
	if !it.Has("size") && row.Size.A > 0 {
		e.Size.Size = row.Size
		if !row.Likely() {
			it.Fault("name", "look whether its unit is right", "row %d of %s: a size of %s is out of range", row.Number, row.At.File, row.Size.Format(s.file.Units))
		}
	}
	if !it.Has("paper") && !it.Has("size") {
		e.Paper = row.Paper
	}
	if !it.Has("depth") && row.Depth > 0 {
		e.Depth = min(row.Depth, 12*unit.Inch)
	}
	if !it.Has("weight") && row.Weight > 0 {
		e.Weight = row.Weight
	}
	if !it.Has("price") && row.Price > 0 {
		e.Price = row.Price
	}
	if !it.Has("medium") {
		e.Medium = row.Medium
	}
	if !it.Has("edition") {
		e.Edition = row.Edition
	}
	if !it.Has("year") {
		e.Year = row.Year
	}
	if !it.Has("value") {
		e.Value = row.Value
	}
	if !it.Has("link") {
		e.Link = row.Link
	}
	if !it.Has("family") {
		e.Family = row.Family
	}
	if !it.Has("status") {
		e.Status, e.away = string(row.Status), string(row.Away)
	}
	if !it.Has("sold") {
		e.Sold = row.Sold
	}
}

// inSheet is the row of a work. That there is none is a fault only if the scene itself does not say how large the work is.
func (s *Site) inSheet(it scene.Item, e *Work) (stocklist.Row, bool) {
	key := plainName(e.Name)
	for _, rows := range s.bySheet {
		found := rows[key]
		if len(found) > 1 {
			it.Fault("name", "use the number that it has in the sheet as its name", "rows %d and %d of %s are both %q", found[0].Number, found[1].Number, s.sheet.Name, e.Name)
			return stocklist.Row{}, false
		}
		if len(found) == 1 {
			return found[0], true
		}
	}
	if it.Has("size") {
		return stocklist.Row{}, false
	}
	if u, ok := s.illegible[key]; ok {
		it.Fault("name", "mend it in the sheet, or say the size here", "row %d of %s cannot be read: %s", u.Number, u.At.File, u.Why)
		return stocklist.Row{}, false
	}
	hint := "name it as the sheet does, or say its size here"
	if s.few() {
		var names []string
		for _, r := range s.sheet.Rows {
			names = append(names, r.Title, r.Name)
		}
		if near, ok := fault.Nearest(e.Name, names); ok {
			hint = "did you mean " + unit.Quote(near) + "?"
		}
	}
	it.Fault("name", hint, "there is no work %q in %s", e.Name, s.sheet.Name)
	return stocklist.Row{}, false
}

// plainName is a name as it is compared: its letters and digits, in lower case.
func plainName(s string) string {
	return strings.Map(func(r rune) rune {
		if !unicode.IsLetter(r) && !unicode.IsDigit(r) {
			return -1
		}
		return unicode.ToLower(r)
	}, s)
}
