package start

import (
	"path"
	"slices"
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"

	"boothmock/internal/fault"
)

// snap is a photograph's name as it is compared.
type snap struct {
	photo            string
	path, base, stem string   // in lower case
	letters          string   // of the stem
	words, plain     []string // of the stem; plain: without numbers
}

func newSnap(photo string) snap {
	p := strings.ToLower(norm.NFC.String(photo))
	n := snap{photo: photo, path: p, base: path.Base(p), stem: stem(p), letters: letters(stem(photo)), words: pieces(stem(photo))}
	for _, w := range n.words {
		if strings.Trim(w, "0123456789") != "" {
			n.plain = append(n.plain, w)
		}
	}
	return n
}

// claim is what a row says of a work, as it is compared.
type claim struct {
	*work
	file, base            string   // in lower case
	title, name, no, bare string   // letters; bare: the number without noughts before it
	words                 []string // of the title
}

func newClaim(w *work) claim {
	named := strings.ToLower(strings.ReplaceAll(w.row.File, `\`, "/"))
	no := letters(w.row.No)
	return claim{w, named, path.Base(named), letters(w.row.Title), letters(w.row.Name), no, strings.TrimLeft(no, "0"), pieces(w.row.Title)}
}

// ways are how a photograph and a row can be known to belong together, the surest first.
var ways = []struct {
	how string
	is  func(p snap, c claim) bool
}{
	{"the list names the file", func(p snap, c claim) bool {
		return c.file != "" && (c.file == p.path || c.file == p.base || c.file == p.stem || c.base == p.base)
	}},
	{"the file is called like the work", func(p snap, c claim) bool {
		return p.letters != "" && (p.letters == c.title || p.letters == c.name || p.letters == c.no)
	}},
	{"the file has the work's number", func(p snap, c claim) bool {
		return c.bare != "" && slices.ContainsFunc(p.words, func(s string) bool { return strings.TrimLeft(s, "0") == c.bare })
	}},
	{"the title is in the file's name", func(p snap, c claim) bool {
		if len(c.title) > 5 && strings.Contains(p.letters, c.title) {
			return true
		}
		return len(c.title) > 2 && len(c.words) > 0 && !slices.ContainsFunc(c.words, func(w string) bool { return !slices.Contains(p.words, w) })
	}},
	{"the file's name is in the title", func(p snap, c claim) bool {
		letters := 0
		for _, w := range p.plain {
			letters += len(w)
		}
		return letters > 2 && !slices.ContainsFunc(p.plain, func(w string) bool { return !slices.Contains(c.words, w) })
	}},
	{"the file's name is nearly the title", func(p snap, c claim) bool {
		_, near := fault.Nearest(p.letters, []string{c.title})
		return near
	}},
	{"they share a word", func(p snap, c claim) bool {
		return slices.ContainsFunc(p.plain, func(w string) bool { return len(w) > 3 && slices.Contains(c.words, w) })
	}},
}

// pair makes works of the rows, each with its photograph. A way counts only where it leaves no choice. Every photograph is
// held against every row, seven times: limits keep that to some seconds.
func (d *Draft) pair(photos []string) []*work {
	works := make([]*work, len(d.Sheet.Rows))
	claims := make([]claim, len(works))
	for i, r := range d.Sheet.Rows {
		works[i] = &work{row: r}
		claims[i] = newClaim(works[i])
	}
	left := make([]snap, len(photos))
	for i, p := range photos {
		left[i] = newSnap(p)
	}
	for _, way := range ways {
		matches := func(p snap, c claim) bool { return c.photo == "" && way.is(p, c) }
		type couple struct {
			photo string
			w     *work
		}
		var sure []couple
		for _, p := range left {
			var only claim
			n := 0
			for _, c := range claims {
				if matches(p, c) {
					only = c
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
				sure = append(sure, couple{p.photo, only.work})
			}
		}
		for _, c := range sure {
			c.w.photo = c.photo
			left = slices.DeleteFunc(left, func(p snap) bool { return p.photo == c.photo })
			d.Pairs = append(d.Pairs, Pair{c.photo, c.w.title(), way.how})
		}
	}
	for _, p := range left {
		d.Lonely = append(d.Lonely, p.photo)
	}
	return works
}

// letters are the letters and digits of a text, in lower case.
func letters(s string) string { return strings.Join(pieces(s), "") }

// pieces are the words and numbers of a text, in lower case.
func pieces(s string) []string {
	return strings.FieldsFunc(strings.ToLower(norm.NFC.String(s)), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
}
