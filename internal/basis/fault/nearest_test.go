package fault

import (
	"math/rand/v2"
	"runtime"
	"strings"
	"testing"
)

// plainDistance fills the whole table of optimal string alignment (L. Boytsov, Indexing methods for approximate dictionary
// searching, 2011, section 2.2.2; from memory).
func plainDistance(a, b []rune) int {
	d := make([][]int, len(a)+1)
	for i := range d {
		d[i] = make([]int, len(b)+1)
		for j := range d[i] {
			switch {
			case i == 0 || j == 0:
				d[i][j] = i + j
				continue
			case a[i-1] == b[j-1]:
				d[i][j] = d[i-1][j-1]
			default:
				d[i][j] = 1 + min(d[i-1][j-1], d[i-1][j], d[i][j-1])
			}
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				d[i][j] = min(d[i][j], d[i-2][j-2]+1)
			}
		}
	}
	return d[len(a)][len(b)]
}

// Within reach the distance is that of the whole table; beyond, it is beyond.
func TestDistance(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	within := 0
	for range 50_000 {
		a := make([]rune, r.IntN(12))
		for i := range a {
			a[i] = 'a' + r.Int32N(3)
		}
		b := append([]rune(nil), a...)
		for range r.IntN(5) {
			switch at := r.IntN(len(b) + 1); {
			case at == len(b):
				b = append(b, 'a'+r.Int32N(3))
			case r.IntN(3) == 0:
				b = append(b[:at:at], b[at+1:]...)
			case at > 0 && r.IntN(2) == 0:
				b[at-1], b[at] = b[at], b[at-1]
			default:
				b[at] = 'a' + r.Int32N(3)
			}
		}
		got, want := distance(a, b), plainDistance(a, b)
		if want <= reach {
			within++
		}
		if got != want && (got <= reach || want <= reach) {
			t.Fatalf("%q to %q: %d, want %d", string(a), string(b), got, want)
		}
	}
	if within < 10_000 {
		t.Errorf("only %d couples were within reach", within)
	}
}

// Long words cost what their letters cost, not the square of it.
func TestNearestOfLongWords(t *testing.T) {
	const letters = 1 << 20
	word := strings.Repeat("ab", letters/2)
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	_, same := Nearest(word, []string{"x" + word})
	_, other := Nearest(word, []string{strings.Repeat("b", letters)})
	runtime.ReadMemStats(&after)
	if !same || other {
		t.Error("a letter more is not near, or another word is")
	}
	if took := after.TotalAlloc - before.TotalAlloc; took > 40*letters {
		t.Errorf("%d bytes were taken in hand for %d letters", took, letters)
	}
	a, b := []rune(word[:1000]), []rune("b"+word[:999])
	if n := testing.AllocsPerRun(10, func() { distance(a, b) }); n > 0 {
		t.Errorf("%v pieces of memory for a couple", n)
	}
}
