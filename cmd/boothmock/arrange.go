package main

import (
	"fmt"
	"io"
	"math"
	"strings"

	"github.com/spf13/cobra"

	"boothmock/internal/job"
	"boothmock/internal/unit"
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

// printArranged prints the proposal, what it is worth and what it costs.
func printArranged(w io.Writer, a *job.Arranged) {
	sr := func(v float64) string { return fmt.Sprintf("%.4f sr", v) }
	views := strings.Join(a.Views, ", ")
	fmt.Fprintln(w, indented(w, fmt.Sprintf("Seen from %s, the works together now fill %s of what lies before a visitor's eye, on average.", views, sr(a.Before)), ""))
	rest := "No arrangement that keeps the rules can fill more than " + sr(a.Bound)
	if a.Bound > 0 {
		rest += fmt.Sprintf(": at most %.1f %% is left to gain", math.Max(0, 100*(a.Bound/a.After-1)))
	}
	if !a.Changed {
		fmt.Fprintln(w, indented(w, "No better arrangement was found. "+rest+".", ""))
		for _, f := range a.Refused {
			fmt.Fprintln(w, indented(w, "One with more to see was rejected: "+f.Message+".", ""))
		}
		return
	}
	fmt.Fprintln(w, indented(w, fmt.Sprintf("Arranged as below they fill %s, %.1f %% more. %s.", sr(a.After), 100*(a.After/a.Before-1), rest), ""))
	fmt.Fprintf(w, "\n%s\n", a.Rows)
	changes := func(title string, list []job.Change) {
		if len(list) == 0 {
			return
		}
		var rows [][]string
		for _, c := range list {
			rows = append(rows, []string{c.Title, sr(c.Before), sr(c.After)})
		}
		fmt.Fprintln(w)
		printTable(w, []string{title, "now", "then"}, rows)
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
