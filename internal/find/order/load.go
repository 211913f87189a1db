package order

import (
	"fmt"
	"slices"
	"strings"

	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/booth"
)

// Load is what one trip brings from the car.
type Load struct {
	Number  int       `json:"number"`
	Items   []Carried `json:"items"`
	Weight  float64   `json:"kg"`
	Assumed bool      `json:"assumed"` // some of the weights are usual ones
	Tender  bool      `json:"tender"`  // it must stay dry, and nothing heavy goes on it
	Over    bool      `json:"too_heavy"`

	tasks []int // that it is for, or that it comes from: numbers in the list of tasks
}

// Carried is a line of a load.
type Carried struct {
	What    string  `json:"what"`
	Count   int     `json:"count"`
	Weight  float64 `json:"kg"` // of all of them
	Assumed bool    `json:"assumed"`

	of int // how many there are on all loads
}

// Words is the line in words: "5 mesh panels of the back wall"; of one that is left over, "1 of the mesh panels …".
func (c Carried) Words() string {
	if c.Count == 1 && c.of > 1 {
		return "1 of the " + c.What
	}
	return counted(c.Count, c.What)
}

func counted(n int, what string) string {
	if n == 1 {
		return what
	}
	return fmt.Sprintf("%d %s", n, what)
}

// carry gives the goods to the tasks that need them first, or else to the last look; taking down, all of them go with the last
// thing that is carried away, as they are needed until then. The tasks get lists of their own.
func carry(tasks []booth.Task, goods []booth.Goods, which Which) {
	if len(tasks) == 0 || which == Night {
		return
	}
	for _, good := range goods {
		at := slices.IndexFunc(tasks, func(t booth.Task) bool {
			return which == SetUp && strings.HasPrefix(string(t.ID), good.First) && !t.AtOnce
		})
		for k := len(tasks) - 1; at < 0 && k >= 0; k-- {
			if !tasks[k].AtOnce && !slices.Contains(tasks[k].After, booth.Trips) {
				at = k
			}
		}
		if at >= 0 {
			tasks[at].Fetch = append(slices.Clone(tasks[at].Fetch), good.Cargo)
		}
	}
}

// loads fills the trolley with what the tasks need, in the order of sequence, as much as it carries each time; tender
// things travel by themselves. A thing that is heavier than the trolley carries makes a load of its own.
func loads(tasks []booth.Task, sequence []int, trolley unit.Weight) []Load {
	var out []Load
	open := map[bool]int{false: -1, true: -1} // the load that is being filled, for what is tender and for what is not
	for _, k := range sequence {
		tender := tasks[k].Tender
		for _, c := range tasks[k].Fetch {
			for range c.Count {
				kg := c.Weight.Kg()
				if open[tender] < 0 || out[open[tender]].Weight+kg > trolley.Kg()+1e-9 {
					open[tender] = len(out)
					out = append(out, Load{Number: len(out) + 1, Tender: tender})
				}
				out[open[tender]].add(c, k, kg > trolley.Kg()+1e-9)
			}
		}
	}
	return out
}

// add puts one of a cargo on the load.
func (l *Load) add(c booth.Cargo, task int, over bool) {
	kg := c.Weight.Kg()
	l.Weight += kg
	l.Assumed = l.Assumed || c.Assumed
	l.Over = l.Over || over
	if n := len(l.tasks); n == 0 || l.tasks[n-1] != task {
		l.tasks = append(l.tasks, task)
	}
	if n := len(l.Items); n > 0 && l.Items[n-1].What == c.What {
		l.Items[n-1].Count++
		l.Items[n-1].Weight += kg
		return
	}
	l.Items = append(l.Items, Carried{What: c.What, Count: 1, Weight: kg, Assumed: c.Assumed, of: c.Count})
}
