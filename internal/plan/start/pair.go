package start

import (
	"cmp"
	"crypto/sha256"
	"fmt"
	"io"
	"io/fs"
	"path"
	"slices"
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"

	"boothmock/internal/basis/fault"
	"boothmock/internal/basis/unit"
	"boothmock/internal/props/stocklist"
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

// pair makes works of the rows, each with its photograph. A way counts only where it leaves no choice; then, of several
// photographs of one work the plainest is taken, and one photograph of several works of one name is on all of them.
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
	p := &pairing{d, works, claims, snaps, meet(snaps, claims), make([]bool, len(photos)), nil}
	p.named()
	for n := range ways {
		p.alone(n)
	}
	for n := range len(ways) - 1 { // a shared word is too little to go by here
		p.several(n)
		p.shared(n)
	}
	p.again()
	for k, photo := range photos {
		if !p.gone[k] {
			d.Lonely = append(d.Lonely, photo)
		}
	}
	return works
}

// pairing is photographs and works on their way to each other.
type pairing struct {
	*Draft
	works  []*work
	claims []claim
	snaps  []snap
	fits   [][]uint8 // of photographs and works
	gone   []bool    // photographs that have found a work
	rows   []int     // that whose has given last
}

func (p *pairing) take(k, i int, how string) {
	p.works[i].photo, p.gone[k] = p.snaps[k].photo, true
	p.Pairs = append(p.Pairs, Pair{p.snaps[k].photo, p.works[i].title(), how})
}

func (p *pairing) further(k, i int) {
	p.gone[k] = true
	p.Further = append(p.Further, fmt.Sprintf("%s (%s)", p.snaps[k].photo, p.works[i].title()))
}

// named pairs what the list names: one file may be named by several rows, and one row may name further files.
func (p *pairing) named() {
	for k := range p.snaps {
		rows := p.whose(k, 0)
		for _, i := range rows {
			if p.works[i].photo == "" && (len(rows) == 1 || p.claims[i].base == p.snaps[k].base || p.claims[i].file == p.snaps[k].stem) {
				p.take(k, i, ways[0].how)
			}
		}
	}
	for k, s := range p.snaps {
		for i, w := range p.works {
			if !p.gone[k] && slices.ContainsFunc(w.row.More, func(f string) bool {
				f = strings.ToLower(norm.NFC.String(f))
				return f == s.path || f == s.base || f == s.stem
			}) {
				p.further(k, i)
			}
		}
	}
}

// mostShared is how many works may have one photograph that their rows do not name.
const mostShared = 6

// whose are the works without a photograph that a photograph fits in the way n. They stand until the next question.
func (p *pairing) whose(k, n int) []int {
	p.rows = p.rows[:0]
	for i, w := range p.works {
		if w.photo == "" && p.fits[k][i]&(1<<n) != 0 {
			p.rows = append(p.rows, i)
		}
	}
	return p.rows
}

// alone pairs a photograph and a work that in the way n have only each other.
func (p *pairing) alone(n int) {
	only, rivals := make([]int, len(p.snaps)), make([]int, len(p.works)) // the one work of a photograph; photographs of a work
	for k := range p.snaps {
		only[k] = -1
		if p.gone[k] {
			continue
		}
		rows := p.whose(k, n)
		for _, i := range rows {
			rivals[i]++
		}
		if len(rows) == 1 {
			only[k] = rows[0]
		}
	}
	for k, i := range only {
		if i >= 0 && rivals[i] == 1 {
			p.take(k, i, ways[n].how)
		}
	}
}

// several takes, of photographs that in the way n have no other work, the plainest: the one that says least besides the title,
// and no view of a detail, of the back or of a room.
func (p *pairing) several(n int) {
	of := make([][]int, len(p.works))
	for k := range p.snaps {
		if p.gone[k] {
			continue
		}
		if rows := p.whose(k, n); len(rows) == 1 {
			of[rows[0]] = append(of[rows[0]], k)
		}
	}
	for i, photos := range of {
		if len(photos) < 2 {
			continue
		}
		best := slices.MinFunc(photos, func(a, b int) int {
			x, y := p.snaps[a], p.snaps[b]
			return cmp.Or(cmp.Compare(x.besides(), y.besides()), cmp.Compare(len(x.words), len(y.words)), cmp.Compare(len(x.photo), len(y.photo)), cmp.Compare(x.photo, y.photo))
		})
		p.take(best, i, fmt.Sprintf("%s, the plainest of %d", ways[n].how, len(photos)))
		for _, k := range photos {
			if k != best {
				p.further(k, i)
			}
		}
	}
}

// views are words of a photograph that shows more or less than the work: in English and German.
var views = []string{"detail", "closeup", "close", "back", "rear", "verso", "side", "edge", "corner", "frame", "framed", "room", "studio", "wall", "situ", "signature", "crop", "rückseite", "seite", "ecke", "rahmen", "gerahmt", "raum", "atelier", "signatur", "ausschnitt", "hinten"}

// besides is how many words of a photograph's name are of a view.
func (s snap) besides() int {
	n := 0
	for _, w := range s.words {
		if slices.Contains(views, w) {
			n++
		}
	}
	return n
}

// shared gives a photograph to all works that it fits in the way n, if they have none and no other photograph fits them: an
// original and its prints, a print in three sizes.
func (p *pairing) shared(n int) {
	for k := range p.snaps {
		if p.gone[k] {
			continue
		}
		rows := p.whose(k, n)
		if len(rows) < 2 || len(rows) > mostShared {
			continue
		}
		rival := false
		for other := range p.snaps {
			rival = rival || other != k && !p.gone[other] && slices.ContainsFunc(rows, func(i int) bool { return p.fits[other][i]&(1<<n) != 0 })
		}
		if rival {
			continue
		}
		var called []string
		for _, i := range rows {
			p.take(k, i, ways[n].how)
			called = append(called, fmt.Sprintf("%s (%s)", p.works[i].title(), stocklist.Where(p.works[i].row.Number, p.works[i].row.At)))
		}
		p.Notes = append(p.Notes, fmt.Sprintf("%s is on several works: %s.", p.snaps[k].photo, unit.List(called, "and")))
	}
}

// identical takes photographs that are the same file as one in use out of those that no row speaks of.
func (d *Draft) identical(fsys fs.FS) {
	bySize := map[int64][]string{}
	for _, p := range d.Pairs {
		if info, err := fs.Stat(fsys, p.Photo); err == nil {
			bySize[info.Size()] = append(bySize[info.Size()], p.Photo)
		}
	}
	d.Lonely = slices.DeleteFunc(d.Lonely, func(photo string) bool {
		info, err := fs.Stat(fsys, photo)
		if err != nil || len(bySize[info.Size()]) == 0 {
			return false
		}
		sum := contents(fsys, photo)
		for _, other := range bySize[info.Size()] {
			if sum != "" && sum == contents(fsys, other) {
				d.Further = append(d.Further, photo+" (the same file as "+other+")")
				return true
			}
		}
		return false
	})
}

// contents is a sum by which a file is known; empty for one that cannot be read.
func contents(fsys fs.FS, name string) string {
	f, err := fsys.Open(name)
	if err != nil {
		return ""
	}
	defer f.Close()
	h := sha256.New()
	if _, err := io.Copy(h, f); err != nil {
		return ""
	}
	return string(h.Sum(nil))
}

// again finds photographs of works that have one, or whose rows cannot be read: what the list names is not all that there is.
func (p *pairing) again() {
	unread := make([]claim, len(p.Sheet.Unread))
	for i, u := range p.Sheet.Unread {
		unread[i] = newClaim(&work{row: stocklist.Row{Title: u.What, File: u.File}})
	}
	const sure = 0b11111 // ways in which the name of a photograph and a row have more in common than a word
	only := func(fits []uint8) int {
		at := -1
		for i, f := range fits {
			switch {
			case f&sure == 0:
			case at >= 0:
				return -1
			default:
				at = i
			}
		}
		return at
	}
	missing := meet(p.snaps, unread)
	for k := range p.snaps {
		if p.gone[k] {
			continue
		}
		if i := only(p.fits[k]); i >= 0 && p.works[i].photo != "" {
			p.further(k, i)
		} else if only(missing[k]) >= 0 {
			p.gone[k] = true
		}
	}
}

func isNumber(word string) bool { return strings.Trim(word, "0123456789") == "" }

// once is each word once.
func once(words []string) []string {
	slices.Sort(words)
	return slices.Compact(words)
}

// letters are the letters and digits of a text, in lower case, without noughts before its numbers.
func letters(s string) string {
	words := pieces(s)
	for i, w := range words {
		if isNumber(w) && strings.Trim(w, "0") != "" {
			words[i] = strings.TrimLeft(w, "0")
		}
	}
	return strings.Join(words, "")
}

// pieces are the words and numbers of a text, in lower case.
func pieces(s string) []string {
	return strings.FieldsFunc(strings.ToLower(norm.NFC.String(s)), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
}
