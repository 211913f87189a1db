package main

import (
	"fmt"
	"io"
	"path/filepath"

	"github.com/spf13/cobra"

	"boothmock/internal/basis/disk"
	"boothmock/internal/basis/unit"
	"boothmock/internal/job"
	"boothmock/internal/plan/finding"
	"boothmock/internal/view/picture"
)

func arrangeCommand() *cobra.Command {
	c := &cobra.Command{
		Use: "arrange SCENE", Short: "Propose which work hangs where, so that passers-by see most", Args: arguments(1, 1),
	}
	write := c.Flags().Bool("write", false, "put the rows of the best way, or of --way, into the scene; nothing else in it changes")
	name := c.Flags().String("way", "", "`way` whose rows are printed and written: best, calm, full, family or furniture; the best if left out")
	furniture := c.Flags().Bool("furniture", false, "say too where tables, bins and chair stand best: the way furniture")
	pictures := c.Flags().String("pictures", "", "`folder` for a picture of each way from the entrance; none are drawn if left out")
	sale := c.Flags().String("after-sale", "", "the `work` that sold: say which spare takes its place, the one that fills it best first; with --write, the scene has it there")
	replaceFlag(c)
	c.RunE = func(c *cobra.Command, args []string) error {
		if *sale != "" {
			return afterSale(c, args[0], *sale, *write)
		}
		a, err := job.Arrange(args[0], settings(c), *furniture || *name == "furniture")
		if err != nil {
			return err
		}
		chosen, err := wayNamed(a, *name)
		if err != nil {
			return err
		}
		w := c.OutOrStdout()
		printArranged(w, a, chosen)
		if *pictures != "" {
			if err := writeWays(c, a, *pictures); err != nil {
				return err
			}
		}
		fmt.Fprintln(w)
		if chosen == nil {
			printVerdict(w, a.Now.Report())
			return verdict(a.Now.Report())
		}
		report := chosen.Mockup.Report()
		printVerdict(w, report)
		if !*write {
			fmt.Fprintf(w, "\nPut these lines into %s yourself, or let --write do it.\n", args[0])
			return verdict(report)
		}
		if err := c.Context().Err(); err != nil {
			return err
		}
		if err := a.Write(chosen); err != nil {
			return err
		}
		fmt.Fprintf(w, "\nThe rows are in %s.\n", args[0])
		return verdict(report)
	}
	return c
}

// wayNamed is the way that was asked for; the best if none was, and nil where none is better than now.
func wayNamed(a *job.Arranged, name string) (*job.Way, error) {
	switch name {
	case "":
		return a.Best, nil
	case "best":
		if a.Best == nil {
			return nil, fmt.Errorf("no better arrangement was found (leave --way out to read what stands in the way)")
		}
		return a.Best, nil
	}
	names := []string{"best"}
	for _, v := range a.Ways {
		if v.Name == name && v.As != "" {
			return nil, fmt.Errorf("the way %s is as %s", name, v.As)
		} else if v.Name == name {
			return v, nil
		}
		names = append(names, v.Name)
	}
	return nil, fmt.Errorf("there is no way %q (there is %s)", name, unit.List(names, "and"))
}

// writeWays writes a picture of the booth as it is and of each way to hang it, from where visitors come.
func writeWays(c *cobra.Command, a *job.Arranged, dir string) error {
	v := a.Now.Plan.Views[0]
	draw := func(name string, m *job.Mockup) error {
		path := filepath.Join(dir, name+".png")
		if err := over(c, a.Now.Plan).Check(path); err != nil {
			return err
		}
		return disk.Write(path, over(c, a.Now.Plan), unlessStopped(c, func(w io.Writer) error {
			return picture.WritePNG(w, job.Pictures(m.Plan)[0].Draw(m, job.Look{}))
		}))
	}
	if err := draw("now", a.Now); err != nil {
		return err
	}
	names := []string{"now"}
	for _, way := range a.All() {
		if way.As != "" {
			continue
		}
		if err := draw(way.Name, way.Mockup); err != nil {
			return err
		}
		names = append(names, way.Name)
	}
	fmt.Fprintf(c.OutOrStdout(), "\nFrom %q, in %s: %s.\n", v.Name, dir, unit.List(names, "and"))
	return nil
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

// printArranged prints what was tried, the ways to hang the works with what they cost, and the rows of the chosen one.
func printArranged(w io.Writer, a *job.Arranged, chosen *job.Way) {
	say := func(text string) { fmt.Fprintln(w, indented(w, text, "")) }
	if a.Tried > 0 {
		say(fmt.Sprintf("Tried %s ways to hang the works in your rows, each judged by how much of them somebody sees on average from %s, wires of mesh counted. Pinned works stay, and no house rule is broken more than now.", thousands(a.Tried), unit.List(a.Views, "and")))
	}
	printRefused(w, a)
	after := a.Before
	if a.Best != nil {
		after = a.Best.Score
		say("Hung the best way, passers-by see " + more(a.Before, after) + " of the works than now. " + rest(a.Bound, after))
	} else {
		say("No better arrangement was found. " + rest(a.Bound, after))
	}
	printCosts(w, a)
	if chosen == nil {
		return
	}
	fmt.Fprintf(w, "\n%s\n", chosen.Rows)
	printChanges(w, "seen more", chosen.More)
	printChanges(w, "seen less", chosen.Less)
	for _, list := range []struct {
		title string
		found []finding.Finding
	}{{"new", chosen.Costs.New}, {"gone", chosen.Costs.Gone}} {
		if len(list.found) > 0 {
			fmt.Fprintf(w, "\n%s:\n", unit.Capital(list.title))
			printFindings(w, list.found)
		}
	}
}

// printCosts prints the ways beside each other with what each comes to.
func printCosts(w io.Writer, a *job.Arranged) {
	head := []string{"", "now"}
	var own []*job.Way
	for _, v := range a.All() {
		if v.As == "" {
			head = append(head, v.Name)
			own = append(own, v)
		}
	}
	if len(own) > 0 {
		rows := [][]string{{"seen, beside now", "100 %"}}
		for _, v := range own {
			rows[0] = append(rows[0], fmt.Sprintf("%.0f %%", 100*v.Score/max(a.Before, 1e-12)))
		}
		for k, t := range own[0].Costs.Totals {
			row, some := []string{t.Name, t.Words[0]}, t.Values[0] != nil && *t.Values[0] != 0
			for _, v := range own {
				total := v.Costs.Totals[k]
				row = append(row, total.Words[1])
				some = some || total.Values[1] != nil && *total.Values[1] != 0
			}
			if some {
				rows = append(rows, row)
			}
		}
		for _, level := range []finding.Level{finding.Fail, finding.Caution} {
			count := func(r finding.Report) string {
				n := 0
				for _, f := range r.Findings {
					if f.Level == level {
						n++
					}
				}
				return fmt.Sprint(n)
			}
			row := []string{map[finding.Level]string{finding.Fail: "to mend", finding.Caution: "cautions"}[level], count(a.Now.Report())}
			for _, v := range own {
				row = append(row, count(v.Mockup.Report()))
			}
			rows = append(rows, row)
		}
		fmt.Fprintln(w)
		printTable(w, head, rows)
		fmt.Fprintln(w)
	}
	for _, v := range a.All() {
		text := v.Doc
		if v.As != "" {
			text += " - as " + v.As
		}
		fmt.Fprintln(w, hanging(w, v.Name+": ", text+"."))
	}
}

// printChanges prints of which works more or less is seen.
func printChanges(w io.Writer, title string, list []job.Change) {
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

// rest says how much more any arrangement could show.
func rest(bound, after float64) string {
	if bound <= after || after <= 0 {
		return "Whatever is tried, nobody can see more."
	}
	return fmt.Sprintf("No arrangement in these rows can show more than another %.1f %%.", 100*(bound/after-1))
}

// more is how much more is seen then than now.
func more(now, then float64) string {
	if now <= 0 {
		return "more"
	}
	return fmt.Sprintf("%.1f %% more", 100*(then/now-1))
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
