package start

import (
	"fmt"
	"math/rand/v2"
	"runtime"
	"slices"
	"strings"
	"testing"

	"boothmock/internal/props/stocklist"
)

// The words that a photograph and a title share are looked up; compared each with each they are the same.
func TestSharedWords(t *testing.T) {
	vocabulary := []string{"heron", "weir", "at", "the", "7", "007", "12", "mill", "Mill", "étang", "a"}
	r := rand.New(rand.NewPCG(3, 4))
	text := func(sep string) string {
		var words []string
		for range 1 + r.IntN(4) {
			words = append(words, vocabulary[r.IntN(len(vocabulary))])
		}
		return strings.Join(words, sep)
	}
	var snaps []snap
	var claims []claim
	for range 120 {
		snaps = append(snaps, newSnap("photos/"+text("_")+".jpg"))
		claims = append(claims, newClaim(&work{row: stocklist.Row{Title: text(" "), No: vocabulary[r.IntN(len(vocabulary))]}}))
	}
	fits := meet(snaps, claims)
	count := [8]int{}
	for k, p := range snaps {
		for i, c := range claims {
			has := func(words []string) func(string) bool {
				return func(w string) bool { return slices.Contains(words, w) }
			}
			number := func(w string) bool { return strings.Trim(w, "0123456789") == "" }
			file, title := pieces(stem(p.photo)), pieces(c.row.Title)
			plain := slices.DeleteFunc(slices.Clone(file), number)
			all := func(words []string, of func(string) bool) bool {
				return !slices.ContainsFunc(words, func(w string) bool { return !of(w) })
			}
			want := map[int]bool{
				2: c.bare != "" && slices.ContainsFunc(file, func(w string) bool { return strings.TrimLeft(w, "0") == c.bare }),
				3: len(c.title) > 5 && strings.Contains(p.letters, c.title) || len(c.title) > 2 && all(title, has(file)),
				4: len(strings.Join(plain, "")) > 2 && len(slices.Compact(slices.Sorted(slices.Values(plain)))) > 0 && all(plain, has(title)),
				6: slices.ContainsFunc(plain, func(w string) bool { return len(w) > 3 && slices.Contains(title, w) }),
			}
			for n, is := range want {
				if got := fits[k][i]&(1<<n) != 0; got != is && !(n == 4 && p.spoken <= 2) { // of a word that stands twice the letters count once
					t.Fatalf("%q and %q, %s: %v, want %v", p.photo, c.row.Title, ways[n].how, got, is)
				}
				if is {
					count[n]++
				}
			}
		}
	}
	for _, n := range []int{2, 3, 4, 6} {
		if count[n] < 100 {
			t.Errorf("%s: only %d couples", ways[n].how, count[n])
		}
	}
}

// The most rows and photographs, whose names say as much as they can and all the same, take memory for each couple, not for
// each letter of each.
func TestMostPairs(t *testing.T) {
	const rows, photos = 2000, 200
	d := &Draft{Sheet: &stocklist.Sheet{}}
	for i := range rows {
		d.Sheet.Rows = append(d.Sheet.Rows, stocklist.Row{Title: fmt.Sprintf("%s %d", strings.Repeat("ab cd ef gh ", 15), i)})
	}
	var names []string
	for i := range photos {
		names = append(names, fmt.Sprintf("%s%d.jpg", strings.Repeat("ab_cd_ef_gh_", 15), i))
	}
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	works := d.pair(names)
	runtime.ReadMemStats(&after)
	if len(works) != rows || len(d.Pairs) != photos || works[7].photo != names[7] {
		t.Errorf("%d works, %d pairs", len(works), len(d.Pairs))
	}
	if took := after.TotalAlloc - before.TotalAlloc; took > 4*rows*photos+8000*(rows+photos) {
		t.Errorf("%d MB were taken in hand", took>>20)
	}
}

// Thousands of works of one title get their names without each being compared with all before.
func TestManyOfOneName(t *testing.T) {
	const rows = 5000
	works := make([]*work, rows)
	for i := range works {
		works[i] = &work{row: stocklist.Row{Title: "Study"}}
	}
	if n := testing.AllocsPerRun(1, func() { nameWorks(works) }); n > 60*rows {
		t.Errorf("%.0f pieces of memory for %d names", n, rows)
	}
	if works[0].name != "study 1" || works[1].name != "study 2" || works[rows-1].name != fmt.Sprint("study ", rows) {
		t.Errorf("%s, %s, %s", works[0].name, works[1].name, works[rows-1].name)
	}
}

// A photograph besides the one that the list names belongs to its work, and one of a row that cannot be read is not said to be of none.
func TestFurtherPhotographs(t *testing.T) {
	photos := []string{"windfalls 1.jpg", "windfalls 2.jpg", "windfalls detail.jpg", "two_banks.jpg", "IMG_0007.jpg"}
	d := &Draft{Sheet: &stocklist.Sheet{
		Rows:   []stocklist.Row{{Number: 2, Title: "Windfalls", File: "windfalls 1.jpg"}, {Number: 3, Title: "Ladder"}},
		Unread: []stocklist.Remark{{Number: 4, What: "Two banks", Why: "each"}},
	}}
	d.pair(photos)
	if got := fmt.Sprint(d.Further, d.Lonely); got != "[windfalls 2.jpg (Windfalls) windfalls detail.jpg (Windfalls)] [IMG_0007.jpg]" {
		t.Error(got)
	}
}
