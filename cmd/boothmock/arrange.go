package main

import (
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"boothmock/internal/basis/unit"
	"boothmock/internal/job"
)

func arrangeCommand() *cobra.Command {
	c := &cobra.Command{
		Use: "arrange SCENE", Short: "Propose which work hangs where, so that passers-by see most", Args: arguments(1, 1),
	}
	write := c.Flags().Bool("write", false, "put the proposed rows into the scene; nothing else in it changes")
	sale := c.Flags().String("after-sale", "", "the `work` that sold: say which spare takes its place, with the fewest new hooks; with --write, the scene has it there")
	c.RunE = func(c *cobra.Command, args []string) error {
		if *sale != "" {
			return afterSale(c, args[0], *sale, *write)
		}
		a, err := job.Arrange(args[0], settings(c))
		if err != nil {
			return err
		}
		w := c.OutOrStdout()
		printArranged(w, a)
		fmt.Fprintln(w)
		printVerdict(w, a.Report)
		if !a.Changed {
			return verdict(a.Report)
		}
		if !*write {
			fmt.Fprintf(w, "\nPut these rows into %s yourself, or let --write do it.\n", args[0])
			return verdict(a.Report)
		}
		if err := c.Context().Err(); err != nil {
			return err
		}
		if err := a.Write(); err != nil {
			return err
		}
		fmt.Fprintf(w, "\nThe rows are in %s.\n", args[0])
		return verdict(a.Report)
	}
	return c
}

// afterSale says what hangs in the place of a work that sold.
func afterSale(c *cobra.Command, path, name string, write bool) error {
	s, err := job.AfterSale(path, name, settings(c))
	if err != nil {
		return err
	}
	w := c.OutOrStdout()
	if len(s.Heirs) == 0 {
		fmt.Fprintln(w, indented(w, "No spare fits in the place of "+s.Title+".", ""))
	} else {
		fmt.Fprintln(w, indented(w, fmt.Sprintf("In the place of %s, the best first:", s.Title), ""))
		var rows [][]string
		for _, h := range s.Heirs {
			rows = append(rows, []string{h.Title, h.Words, unit.Share(h.Seen).Whole()})
		}
		printTable(w, []string{"hang", "how", "seen by passers-by"}, rows)
	}
	if len(s.Unfit) > 0 {
		fmt.Fprintln(w)
		var rows [][]string
		for _, u := range s.Unfit {
			rows = append(rows, []string{u.Title, u.Why})
		}
		printTable(w, []string{"does not fit", "because"}, rows)
	}
	if len(s.Heirs)+len(s.Unfit) == 0 {
		fmt.Fprintln(w, indented(w, "No work waits in the scene: a work that no row and no wall has is a spare.", ""))
	}
	if len(s.Heirs) == 0 {
		return errFailed
	}
	if !write {
		return nil
	}
	if err := s.Write(); err != nil {
		return err
	}
	fmt.Fprintf(w, "\n%s hangs in %s, and %s is marked as sold.\n", s.Heirs[0].Title, path, s.Title)
	return nil
}

// printArranged prints what was tried, the proposal, what it is worth and what it costs.
func printArranged(w io.Writer, a *job.Arranged) {
	say := func(text string) { fmt.Fprintln(w, indented(w, text, "")) }
	more := func(now, then float64) string {
		if now <= 0 {
			return "more"
		}
		return fmt.Sprintf("%.1f %% more", 100*(then/now-1))
	}
	if a.Tried > 0 {
		say(fmt.Sprintf("Tried %s ways to hang the works in your rows, each judged by how much of them somebody sees on average from %s, wires of mesh counted. Pinned works stay, and no house rule is broken more than now.", thousands(a.Tried), unit.List(a.Views, "and")))
	}
	rest := "Whatever is tried, nobody can see more than now"
	if a.Bound > a.After && a.After > 0 {
		rest = "No arrangement in these rows can show more than another " + fmt.Sprintf("%.1f %%", 100*(a.Bound/a.After-1))
	}
	printRefused(w, a)
	if !a.Changed {
		say("No better arrangement was found. " + rest + ".")
		return
	}
	say(fmt.Sprintf("Hung as below, passers-by see %s of the works than now. %s.", more(a.Before, a.After), rest))
	fmt.Fprintf(w, "\n%s\n", a.Rows)
	changes := func(title string, list []job.Change) {
		if len(list) == 0 {
			return
		}
		var rows [][]string
		for _, c := range list {
			change := "not seen before"
			if c.Before > 0 {
				change = fmt.Sprintf("%+.0f %%", 100*(c.After/c.Before-1))
			}
			rows = append(rows, []string{c.Title, change})
		}
		fmt.Fprintln(w)
		printTable(w, []string{title, "as large to the eye"}, rows)
	}
	changes("seen more", a.More)
	changes("seen less", a.Less)
	if len(a.New) > 0 {
		fmt.Fprintln(w)
		var rows [][]string
		for _, f := range a.New {
			rows = append(rows, []string{painted(w, string(f.Level), levelColour[f.Level]), f.Message})
		}
		printTable(w, []string{"new", ""}, rows)
	}
}

// printRefused prints why proposals with more to see were rejected: of one reason one line, however many works it has.
func printRefused(w io.Writer, a *job.Arranged) {
	if a.Rejected == 0 {
		return
	}
	what := "One way to show more was rejected"
	if a.Rejected > 1 {
		what = fmt.Sprintf("%d ways to show more were rejected; of the best of them", a.Rejected)
	}
	fmt.Fprintln(w, indented(w, what+", this would be worse than now:", ""))
	count := map[string]int{}
	for _, f := range a.Refused {
		count[f.Check]++
	}
	told := map[string]bool{}
	for _, f := range a.Refused {
		if told[f.Check] {
			continue
		}
		told[f.Check] = true
		text := f.Message
		if n := count[f.Check]; n > 1 {
			text += fmt.Sprintf(" (and %d more like it)", n-1)
		}
		fmt.Fprintln(w, hanging(w, "  - ", text))
	}
}

// thousands is a number with a comma every three digits.
func thousands(n int) string { return unit.Money(100 * n).Format("") }
