package order

import (
	"errors"
	"slices"
	"strings"
	"testing"
)

// net reads "A7 B8 C3(A) G11(C,E)": a letter, minutes, and what it waits for.
func net(t *testing.T, text string) Network {
	t.Helper()
	var n Network
	number := map[string]int{}
	for _, word := range strings.Fields(text) {
		head, after, _ := strings.Cut(strings.TrimSuffix(word, ")"), "(")
		j := Job{Name: head[:1]}
		for _, c := range head[1:] {
			j.Minutes = 10*j.Minutes + int(c-'0')
		}
		if after != "" {
			for _, a := range strings.Split(after, ",") {
				k, ok := number[a]
				if !ok {
					t.Fatalf("%s waits for %s, which is not there yet", word, a)
				}
				j.After = append(j.After, k)
			}
		}
		number[j.Name] = len(n)
		n = append(n, j)
	}
	return n
}

// Published networks. times are ES, EF, LS, LF of each job.
func TestTimesOfPublishedNetworks(t *testing.T) {
	for _, c := range []struct {
		source, net string
		length      int
		times       []Times
		critical    string
	}{
		{
			// ES, EF, the critical path and 23 weeks are printed in the source; LS and LF are derived.
			source: "Render, Stair and Hanna, Quantitative Analysis for Management (the Dave Fletcher problem; smartsolve.ai)",
			net:    "A7 B8 C3(A) D1(A) E4(B) F5(B) G11(C,E) H7(D,F)", length: 23, critical: "BEG",
			times: []Times{{0, 7, 2, 9}, {0, 8, 0, 8}, {7, 10, 9, 12}, {7, 8, 15, 16}, {8, 12, 8, 12}, {8, 13, 11, 16}, {12, 23, 12, 23}, {13, 20, 16, 23}},
		},
		{
			// All times of C and F and the critical path are printed; the rest follows.
			source: "studylib.net/doc/8378728",
			net:    "A6 B2(A) C2(A) D3(B) F2(C) E4(D,F) G1(E)", length: 16, critical: "ABDEG",
			times: []Times{{0, 6, 0, 6}, {6, 8, 6, 8}, {6, 8, 7, 9}, {8, 11, 8, 11}, {8, 10, 9, 11}, {11, 15, 11, 15}, {15, 16, 15, 16}},
		},
		{
			// The times are printed; what waits for what is inferred from them.
			source: "slideplayer.com/slide/3283910",
			net:    "A4 B3(A) C5(A) D2(A) E5(B,C) F6(C,D) G4(E,F) H3(G)", length: 22, critical: "ACFGH",
			times: []Times{{0, 4, 0, 4}, {4, 7, 7, 10}, {4, 9, 4, 9}, {4, 6, 7, 9}, {9, 14, 10, 15}, {9, 15, 9, 15}, {15, 19, 15, 19}, {19, 22, 19, 22}},
		},
		{
			// Arrows 1-2, 1-3, 2-4, 3-4, 3-5, 4-5, 5-6 as A to G. All times are printed.
			source: "Taylor, Introduction to Management Science, chapter 8 (ar.scribd.com/doc/47113515)",
			net:    "A7 B10 C6(A) D5(B) E4(B) F3(C,D) G2(E,F)", length: 20, critical: "BDFG",
			times: []Times{{0, 7, 2, 9}, {0, 10, 0, 10}, {7, 13, 9, 15}, {10, 15, 10, 15}, {10, 14, 14, 18}, {15, 18, 15, 18}, {18, 20, 18, 20}},
		},
	} {
		n := net(t, c.net)
		times, length, err := n.Times()
		if err != nil || length != c.length || !slices.Equal(times, c.times) {
			t.Errorf("%s:\n got %d %v %v\nwant %d %v", c.source, length, times, err, c.length, c.times)
			continue
		}
		order, _ := n.Order()
		got := ""
		for _, j := range order {
			if times[j].Slack() == 0 && n[j].Minutes > 0 {
				got += n[j].Name
			}
		}
		if got != c.critical {
			t.Errorf("%s: critical %s, want %s", c.source, got, c.critical)
		}
	}
}

func TestLoopIsNamed(t *testing.T) {
	n := Network{{Name: "mesh", After: []int{3}}, {Name: "look"}, {Name: "drape", After: []int{0}}, {Name: "hooks", After: []int{2, 1}}, {Name: "works", After: []int{3}}}
	_, err := n.Order()
	var loop Loop
	if !errors.As(err, &loop) {
		t.Fatalf("no loop: %v", err)
	}
	if got, want := loop.Say(n), "mesh waits for hooks waits for drape waits for mesh"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

// Of jobs that the network leaves open the lower number comes first.
func TestOrderKeepsTheListsOwn(t *testing.T) {
	n := net(t, "A1 B1 C1(A) D1")
	n[1].After = []int{3}
	order, err := n.Order()
	if want := []int{0, 2, 3, 1}; err != nil || !slices.Equal(order, want) {
		t.Errorf("got %v %v, want %v", order, err, want)
	}
}
