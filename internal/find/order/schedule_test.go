package order

import (
	"fmt"
	"math/rand/v2"
	"os"
	"slices"
	"strings"
	"testing"
)

// psplib reads the instance of testdata (its README names the source).
func psplib(t testing.TB) (Network, []int) {
	t.Helper()
	text, err := os.ReadFile("testdata/j301_1.txt")
	if err != nil {
		t.Fatal(err)
	}
	n := make(Network, 32)
	have := make([]int, 4)
	for _, line := range strings.Split(strings.TrimSpace(string(text)), "\n") {
		head, rest, _ := strings.Cut(line, ":")
		if strings.HasPrefix(line, "#") {
			continue
		}
		if head == "have" {
			fmt.Sscan(rest, &have[0], &have[1], &have[2], &have[3])
			continue
		}
		var j, a int
		fmt.Sscan(head, &j)
		need := make([]int, 4)
		work, after, _ := strings.Cut(rest, "->")
		fmt.Sscan(work, &n[j-1].Minutes, &need[0], &need[1], &need[2], &need[3])
		n[j-1].Name, n[j-1].Need = head, need
		for _, word := range strings.Fields(after) {
			fmt.Sscan(word, &a)
			n[a-1].After = append(n[a-1].After, j-1)
		}
	}
	return n, have
}

// holds checks a schedule minute by minute: nothing begins too early, nothing is asked for more than there is.
func holds(t testing.TB, n Network, have, start []int) (end int) {
	t.Helper()
	for j, job := range n {
		end = max(end, start[j]+job.Minutes)
		for k, a := range job.After {
			if done := start[a] + n[a].Minutes; start[j] < done || k == 0 && job.AtOnce && start[j] != done {
				t.Errorf("%s starts at %d, and %s ends at %d", job.Name, start[j], n[a].Name, done)
			}
		}
	}
	for m := range end {
		for r := range have {
			used := 0
			for j, job := range n {
				if start[j] <= m && m < start[j]+job.Minutes {
					used += job.Need[r]
				}
			}
			if used > have[r] {
				t.Errorf("minute %d: %d of resource %d are used, and there are %d", m, used, r, have[r])
			}
		}
	}
	return end
}

func TestPublishedInstance(t *testing.T) {
	n, have := psplib(t)
	if _, length, err := n.Times(); err != nil || length != 38 {
		t.Fatalf("without resources %d, want 38 (MPM-Time of the instance); %v", length, err)
	}
	start := n.Schedule(have)
	if end := holds(t, n, have, start); end != 43 {
		t.Errorf("the schedule takes %d, the optimum is 43", end)
	}
	if b := n.Bound(have); b < 38 || b > 43 {
		t.Errorf("no schedule is said to be shorter than %d, and 43 is the optimum", b)
	} else {
		t.Log("bound", b)
	}
	if again := n.Schedule(have); !slices.Equal(start, again) {
		t.Error("twice the same network, and two schedules")
	}
}

// shortest is the length of the shortest schedule, by trying every order of the jobs: the serial method finds an
// optimal schedule for at least one of them (Sprecher, Kolisch and Drexl, Eur. J. Oper. Res. 80, 1995).
func shortest(n Network, have []int) int {
	best := 1 << 30
	key := make([]float64, len(n))
	var try func(k int, left []int)
	try = func(k int, left []int) {
		if len(left) == 0 {
			best = min(best, newPlanner(n, have).serial(key).length(n))
			return
		}
		for i, j := range left {
			key[j] = float64(k)
			rest := append(slices.Clone(left[:i]), left[i+1:]...)
			try(k+1, rest)
		}
	}
	all := make([]int, len(n))
	for j := range all {
		all[j] = j
	}
	try(0, all)
	return best
}

func TestBoundShortestAndScheduleOfSmallNetworks(t *testing.T) {
	random := rand.New(rand.NewPCG(7, 7))
	met := 0
	for range 30 {
		n := make(Network, 6)
		have := []int{2, 1}
		for j := range n {
			n[j] = Job{Name: fmt.Sprint(j), Minutes: 1 + random.IntN(6), Need: []int{1 + random.IntN(2), random.IntN(2)}}
			for a := range j {
				if random.IntN(4) == 0 {
					n[j].After = append(n[j].After, a)
				}
			}
		}
		best, bound := shortest(n, have), n.Bound(have)
		end := holds(t, n, have, n.Schedule(have))
		if bound > best || end < best {
			t.Errorf("bound %d, shortest %d, schedule %d: %v", bound, best, end, n)
		}
		if end > best {
			t.Errorf("the schedule takes %d, and %d is possible: %v", end, best, n)
		}
		if bound == best {
			met++
		}
	}
	if met < 10 {
		t.Errorf("the bound is the shortest length in %d of 30 networks only", met)
	}
}

// Worked by hand. Two people. B (2 people) follows A (2 people) at once; C (1 person, 3 minutes) may come before A or
// after B, never between, though A needs only 1 and C would fit beside it.
func TestTrainIsNeverParted(t *testing.T) {
	n := Network{
		{Name: "A", Minutes: 2, Need: []int{1}},
		{Name: "B", Minutes: 2, Need: []int{2}, After: []int{0}, AtOnce: true},
		{Name: "C", Minutes: 3, Need: []int{1}},
		{Name: "D", Minutes: 1, Need: []int{1}, After: []int{1}},
	}
	start := n.Schedule([]int{2})
	// C beside A would hold B up by a minute; A waits a minute, or C comes after B.
	if end := holds(t, n, []int{2}, start); end != 6 {
		t.Errorf("takes %d (%v), want 6: C from 0 to 3 beside A from 1 to 3, B to 5, D to 6", end, start)
	}
	n[1].After = []int{0, 2} // now B waits for C too: A must wait for it, so that B can follow at once
	start = n.Schedule([]int{2})
	if holds(t, n, []int{2}, start); start[0] != 1 {
		t.Errorf("A starts at %d, want 1: %v", start[0], start)
	}
}

func BenchmarkSchedule(b *testing.B) {
	n, have := psplib(b)
	for b.Loop() {
		n.Schedule(have)
	}
}

// Turns are the pairs out of order, its inversions (Knuth, The Art of Computer Programming 3, 5.1.1: 5 9 1 8 2 6 4 7 3 has 20, from memory),
// those that start together being in order.
func TestTurns(t *testing.T) {
	if n := (schedule{5, 9, 1, 8, 2, 6, 4, 7, 3}).turns(); n != 20 {
		t.Errorf("%d turns, the book has 20", n)
	}
	r := rand.New(rand.NewPCG(1, 2))
	for range 200 {
		s, want := make(schedule, r.IntN(40)), 0
		for i := range s {
			s[i] = r.IntN(20)
			for _, before := range s[:i] {
				if before > s[i] {
					want++
				}
			}
		}
		if got := s.turns(); got != want {
			t.Fatalf("%v: %d turns, counted %d", s, got, want)
		}
	}
}
