package start

import (
	"path"
	"slices"
	"strings"
	"unicode"

	"boothmock/internal/fault"
	"boothmock/internal/stocklist"
)

// ways are how a photograph and a row can be known to belong together, the surest first.
var ways = []struct {
	how string
	is  func(photo string, r stocklist.Row) bool
}{
	{"the list names the file", func(photo string, r stocklist.Row) bool {
		named := strings.ToLower(strings.ReplaceAll(r.File, `\`, "/"))
		p := strings.ToLower(photo)
		return named != "" && (named == p || named == path.Base(p) || named == stem(p) || path.Base(named) == path.Base(p))
	}},
	{"the file is called like the work", func(photo string, r stocklist.Row) bool {
		p := letters(stem(photo))
		return p != "" && (p == letters(r.Title) || p == letters(r.Name) || p == letters(r.No))
	}},
	{"the file has the work's number", func(photo string, r stocklist.Row) bool {
		no := strings.TrimLeft(letters(r.No), "0")
		return no != "" && slices.ContainsFunc(pieces(stem(photo)), func(s string) bool { return strings.TrimLeft(s, "0") == no })
	}},
	{"the title is in the file's name", func(photo string, r stocklist.Row) bool {
		words, in := pieces(r.Title), pieces(stem(photo))
		if len(letters(r.Title)) > 5 && strings.Contains(letters(stem(photo)), letters(r.Title)) {
			return true
		}
		return len(letters(r.Title)) > 2 && len(words) > 0 && !slices.ContainsFunc(words, func(w string) bool { return !slices.Contains(in, w) })
	}},
	{"the file's name is in the title", func(photo string, r stocklist.Row) bool {
		in, words := pieces(r.Title), slices.DeleteFunc(pieces(stem(photo)), func(w string) bool { return strings.Trim(w, "0123456789") == "" })
		return len(strings.Join(words, "")) > 2 && !slices.ContainsFunc(words, func(w string) bool { return !slices.Contains(in, w) })
	}},
	{"the file's name is nearly the title", func(photo string, r stocklist.Row) bool {
		_, near := fault.Nearest(letters(stem(photo)), []string{letters(r.Title)})
		return near
	}},
	{"they share a word", func(photo string, r stocklist.Row) bool {
		in := pieces(r.Title)
		return slices.ContainsFunc(pieces(stem(photo)), func(w string) bool {
			return len(w) > 3 && strings.Trim(w, "0123456789") != "" && slices.Contains(in, w)
		})
	}},
}

// pair makes works of the rows, each with its photograph. A way counts only where it leaves no choice.
func (d *Draft) pair(photos []string) []*work {
	works := make([]*work, len(d.Sheet.Rows))
	for i, r := range d.Sheet.Rows {
		works[i] = &work{row: r}
	}
	left := slices.Clone(photos)
	for _, way := range ways {
		matches := func(p string, w *work) bool { return w.photo == "" && way.is(p, w.row) }
		type couple struct {
			photo string
			w     *work
		}
		var sure []couple
		for _, p := range left {
			var only *work
			n := 0
			for _, w := range works {
				if matches(p, w) {
					only = w
					n++
				}
			}
			if n != 1 {
				continue
			}
			rivals := 0
			for _, q := range left {
				if matches(q, only) {
					rivals++
				}
			}
			if rivals == 1 {
				sure = append(sure, couple{p, only})
			}
		}
		for _, c := range sure {
			c.w.photo = c.photo
			left = slices.DeleteFunc(left, func(p string) bool { return p == c.photo })
			d.Pairs = append(d.Pairs, Pair{c.photo, c.w.title(), way.how})
		}
	}
	d.Lonely = left
	return works
}

// letters are the letters and digits of a text, in lower case.
func letters(s string) string { return strings.Join(pieces(s), "") }

// pieces are the words and numbers of a text, in lower case.
func pieces(s string) []string {
	return strings.FieldsFunc(strings.ToLower(s), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
}
