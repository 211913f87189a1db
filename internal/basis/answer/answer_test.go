package answer

import (
	"sync"
	"sync/atomic"
	"testing"
)

type square int

func ask(k *Kept, n square, bytes int, worked *atomic.Int64) int {
	return Of(k, n, func() (int, int) { worked.Add(1); return int(n * n), bytes })
}

func TestOnce(t *testing.T) {
	var k Kept
	var worked atomic.Int64
	var wait sync.WaitGroup
	for range 20 {
		wait.Go(func() {
			if got := ask(&k, 7, 1, &worked); got != 49 {
				t.Errorf("7² is %d", got)
			}
		})
	}
	wait.Wait()
	if worked.Load() != 1 {
		t.Errorf("worked out %d times", worked.Load())
	}
	if c := k.Counts()["answer.square"]; c != (Count{Asked: 20, Worked: 1}) {
		t.Errorf("counted %+v", c)
	}
	ask(nil, 7, 1, &worked)
	if worked.Load() != 2 {
		t.Error("nothing keeps, and yet it was kept")
	}
}

// Two questions of one value are two questions.
func TestKeyHasItsType(t *testing.T) {
	type cube int
	var k Kept
	var worked atomic.Int64
	ask(&k, 3, 1, &worked)
	if got := Of(&k, cube(3), func() (int, int) { return 27, 1 }); got != 27 {
		t.Errorf("3³ is %d", got)
	}
}

// What the present version asked for stays, however much it is; of the rest, the oldest goes first.
func TestForget(t *testing.T) {
	k := Kept{Most: 100}
	var worked atomic.Int64
	for n := range square(4) {
		ask(&k, n, 30, &worked) // 120 bytes, all of one version
	}
	if k.Bytes() != 120 {
		t.Fatalf("%d bytes kept of the present version", k.Bytes())
	}
	k.Version()
	if k.Bytes() > 75 {
		t.Errorf("%d bytes kept of the version before", k.Bytes())
	}
	before := worked.Load()
	k.Version()
	ask(&k, 10, 30, &worked)
	ask(&k, 10, 30, &worked)
	k.Version()
	ask(&k, 11, 30, &worked)
	ask(&k, 10, 30, &worked)
	if worked.Load() != before+2 {
		t.Errorf("worked %d times for two new questions", worked.Load()-before)
	}
	for range 40 { // asks always for the same, and once for another
		k.Version()
		ask(&k, 11, 30, &worked)
	}
	if k.Bytes() != 30 {
		t.Errorf("%d bytes kept of what nobody asked for in forty versions", k.Bytes()-30)
	}
}

// What is found from the version before begins with nothing, and then with what that left.
func TestNext(t *testing.T) {
	var k Kept
	for want := range 3 {
		if got := Next(&k, func(before square) square { return before + 1 }); got != square(want+1) {
			t.Errorf("version %d: %d", want, got)
		}
	}
	if got := Next(nil, func(before square) square { return before + 1 }); got != 1 {
		t.Errorf("where nothing is kept: %d", got)
	}
}
