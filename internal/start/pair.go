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
	path, base, stem string          // in lower case
	letters          string          // of the stem
	words            []string        // of the stem, each once
	numbers          map[string]bool // the words without noughts before them
	plain            int             // how many words are no numbers
	spoken           int             // letters in these
}

func newSnap(photo string) snap {
	p := strings.ToLower(norm.NFC.String(photo))
	n := snap{photo: photo, path: p, base: path.Base(p), stem: stem(p), letters: letters(stem(photo)), numbers: map[string]bool{}}
	n.words = once(pieces(stem(photo)))
	for _, w := range n.words {
		n.numbers[strings.TrimLeft(w, "0")] = true
		if !isNumber(w) {
			n.plain++
			n.spoken += len(w)
		}
	}
	return n
}

// claim is what a row says of a work, as it is compared.
type claim struct {
	*work
	file, base            string   // in lower case
	title, name, no, bare string   // letters; bare: the number without noughts before it
	words                 []string // of the title, each once
}

func newClaim(w *work) claim {
	named := strings.ToLower(strings.ReplaceAll(w.row.File, `\`, "/"))
	no := letters(w.row.No)
	return claim{w, named, path.Base(named), letters(w.row.Title), letters(w.row.Name), no, strings.TrimLeft(no, "0"), once(pieces(w.row.Title))}
}

// shared is how many words the name of a photograph and a title have in common.
type shared struct {
	words int
	plain int // of them, those that are no numbers
	long  int // of these, those of more than three letters
}

// ways are how a photograph and a row can be known to belong together, the surest first.
var ways = []struct {
	how string
	is  func(p snap, c claim, s shared) bool
}{
	{"the list names the file", func(p snap, c claim, _ shared) bool {
		return c.file != "" && (c.file == p.path || c.file == p.base || c.file == p.stem || c.base == p.base)
	}},
	{"the file is called like the work", func(p snap, c claim, _ shared) bool {
		return p.letters != "" && (p.letters == c.title || p.letters == c.name || p.letters == c.no)
	}},
	{"the file has the work's number", func(p snap, c claim, _ shared) bool { return c.bare != "" && p.numbers[c.bare] }},
	{"the title is in the file's name", func(p snap, c claim, s shared) bool {
		return len(c.title) > 5 && strings.Contains(p.letters, c.title) || len(c.title) > 2 && s.words == len(c.words)
	}},
	{"the file's name is in the title", func(p snap, _ claim, s shared) bool { return p.spoken > 2 && s.plain == p.plain }},
	{"the file's name is nearly the title", func(p snap, c claim, _ shared) bool {
		const most = 100 // bytes: a longer one shares words, if anything
		if max(len(p.letters), len(c.title)) > most {
			return false
		}
		_, near := fault.Nearest(p.letters, []string{c.title})
		return near
	}},
	{"they share a word", func(_ snap, _ claim, s shared) bool { return s.long > 0 }},
}

// meet is, for every photograph and every row, the ways in which they can be known to belong together: bit n for ways[n].
// Words are looked up, not compared each with each: a title may have a hundred.
func meet(snaps []snap, claims []claim) [][]uint8 {
	titles := map[string][]int{} // the claims in whose title a word is
	for i, c := range claims {
		for _, w := range c.words {
			titles[w] = append(titles[w], i)
		}
	}
	out := make([][]uint8, len(snaps))
	in := make([]shared, len(claims))
	for k, p := range snaps {
		clear(in)
		for _, w := range p.words {
			plain := !isNumber(w)
			for _, i := range titles[w] {
				in[i].words++
				if plain {
					in[i].plain++
				}
				if plain && len(w) > 3 {
					in[i].long++
				}
			}
		}
		out[k] = make([]uint8, len(claims))
		for i, c := range claims {
			for n, way := range ways {
				if way.is(p, c, in[i]) {
					out[k][i] |= 1 << n
				}
			}
		}
	}
	return out
}

// pair makes works of the rows, each with its photograph. A way counts only where it leaves no choice.
func (d *Draft) pair(photos []string) []*work {
	works := make([]*work, len(d.Sheet.Rows))
	claims := make([]claim, len(works))
	for i, r := range d.Sheet.Rows {
		works[i] = &work{row: r}
		claims[i] = newClaim(works[i])
	}
	snaps := make([]snap, len(photos))
	for i, p := range photos {
		snaps[i] = newSnap(p)
	}
	fits := meet(snaps, claims)
	gone := make([]bool, len(photos))
	for n, way := range ways {
		only, rivals := make([]int, len(photos)), make([]int, len(works)) // the one work of a photograph; photographs of a work
		for k := range photos {
			only[k] = -1
			found := 0
			for i, w := range works {
				if !gone[k] && w.photo == "" && fits[k][i]&(1<<n) != 0 {
					rivals[i]++
					only[k] = i
					found++
				}
			}
			if found != 1 {
				only[k] = -1
			}
		}
		for k, photo := range photos {
			if i := only[k]; i >= 0 && rivals[i] == 1 {
				works[i].photo, gone[k] = photo, true
				d.Pairs = append(d.Pairs, Pair{photo, works[i].title(), way.how})
			}
		}
	}
	for k, photo := range photos {
		if !gone[k] {
			d.Lonely = append(d.Lonely, photo)
		}
	}
	return works
}

func isNumber(word string) bool { return strings.Trim(word, "0123456789") == "" }

// once is each word once.
func once(words []string) []string {
	slices.Sort(words)
	return slices.Compact(words)
}

// letters are the letters and digits of a text, in lower case.
func letters(s string) string { return strings.Join(pieces(s), "") }

// pieces are the words and numbers of a text, in lower case.
func pieces(s string) []string {
	return strings.FieldsFunc(strings.ToLower(norm.NFC.String(s)), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
}
