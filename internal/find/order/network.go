package order

import (
	"fmt"
	"strings"
)

// Job is a node of a network: something that takes time and hands.
type Job struct {
	Name    string
	Minutes int
	After   []int // numbers of the jobs that must be done before it
	AtOnce  bool  // it begins the minute that the first of After ends; what else follows that one waits for both
	Need    []int // of each resource, from beginning to end
}

// Network is jobs with their order.
type Network []Job

// Times are a job's earliest and latest start and finish when hands do not count, in minutes from the beginning
// (critical path method: Kelley and Walker, Proc. Eastern Joint Computer Conference, 1959).
type Times struct{ EarliestStart, EarliestFinish, LatestStart, LatestFinish int }

// Slack is how long the job can wait without making the whole longer.
func (t Times) Slack() int { return t.LatestStart - t.EarliestStart }

// Loop is the error of a network in which jobs wait for each other: each for the next, and the last for the first.
type Loop []int

func (l Loop) Error() string { return fmt.Sprintf("%d tasks wait for each other", len(l)) }

// Say is the loop in words.
func (l Loop) Say(n Network) string {
	var words []string
	for _, j := range append(l[:len(l):len(l)], l[0]) {
		words = append(words, n[j].Name)
	}
	return strings.Join(words, " waits for ")
}

// Order is the jobs, each after all that it waits for; where the network leaves it open, the lower number comes first.
// The error is a Loop.
func (n Network) Order() ([]int, error) {
	order := make([]int, 0, len(n))
	done := make([]bool, len(n))
	open, after := n.open()
	var ready heap
	for j := range n {
		if open[j] == 0 {
			ready.push(0, j)
		}
	}
	for len(ready) > 0 {
		next := ready.pop()
		done[next] = true
		order = append(order, next)
		for _, j := range after[next] {
			if open[j]--; open[j] == 0 {
				ready.push(0, j)
			}
		}
	}
	if len(order) < len(n) {
		return nil, n.loop(done)
	}
	return order, nil
}

// open is how many jobs each one waits for, and which ones wait for each.
func (n Network) open() (open []int, after [][]int) {
	open, after = make([]int, len(n)), make([][]int, len(n))
	for j := range n {
		open[j] = len(n[j].After)
		for _, a := range n[j].After {
			after[a] = append(after[a], j)
		}
	}
	return open, after
}

// loop finds a loop among the jobs that are not done: from any of them, always on to one that it waits for, until one
// comes up again.
func (n Network) loop(done []bool) Loop {
	at := 0
	for done[at] {
		at++
	}
	var way []int
	seen := map[int]int{}
	for {
		if k, ok := seen[at]; ok {
			return Loop(way[k:])
		}
		seen[at] = len(way)
		way = append(way, at)
		for _, a := range n[at].After {
			if !done[a] {
				at = a
				break
			}
		}
	}
}

// Times are the times of every job, and the length of the longest chain. The error is a Loop.
func (n Network) Times() ([]Times, int, error) {
	order, err := n.Order()
	if err != nil {
		return nil, 0, err
	}
	times := make([]Times, len(n))
	length := 0
	for _, j := range order {
		t := &times[j]
		for _, a := range n[j].After {
			t.EarliestStart = max(t.EarliestStart, times[a].EarliestFinish)
		}
		t.EarliestFinish = t.EarliestStart + n[j].Minutes
		length = max(length, t.EarliestFinish)
	}
	for j := range times {
		times[j].LatestFinish = length
	}
	for k := len(order) - 1; k >= 0; k-- {
		j := order[k]
		times[j].LatestStart = times[j].LatestFinish - n[j].Minutes
		for _, a := range n[j].After {
			times[a].LatestFinish = min(times[a].LatestFinish, times[j].LatestStart)
		}
	}
	return times, length, nil
}

// ahead is, for each job, which ones must be done before it, directly or not. The network must have no loop.
func (n Network) ahead() [][]bool {
	order, err := n.Order()
	if err != nil {
		panic(err) // the caller has been told
	}
	out := make([][]bool, len(n))
	for _, j := range order {
		out[j] = make([]bool, len(n))
		for _, a := range n[j].After {
			out[j][a] = true
			for k, before := range out[a] {
				out[j][k] = out[j][k] || before
			}
		}
	}
	return out
}
