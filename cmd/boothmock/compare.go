package main

import (
	"fmt"
	"io"
	"slices"

	"github.com/spf13/cobra"

	"boothmock/internal/basis/disk"
	"boothmock/internal/basis/unit"
	"boothmock/internal/find/compare"
	"boothmock/internal/job"
	"boothmock/internal/plan/finding"
	"boothmock/internal/view/picture"
)

func compareCommand() *cobra.Command {
	c := &cobra.Command{
		Use: "compare A B", Short: "Say how two plans of a booth differ; the exit code is 1 if they do", Args: arguments(2, 2),
	}
	asJSON := c.Flags().Bool("json", false, "print the differences as JSON")
	all := c.Flags().Bool("all", false, "print every difference, the smallest too")
	from := c.Flags().String("from", "entrance", "the `view` from which both are drawn side by side")
	size := c.Flags().String("size", "1920x540", "`size` of that picture, width x height in pixels")
	out := c.Flags().String("out", "", "`file` for that picture, .png, .jpg or .webp; none is drawn if left out")
	replaceFlag(c)
	c.RunE = func(c *cobra.Command, args []string) error {
		var both [2]*job.Mockup
		for i, path := range args {
			plan, err := job.Load(path, settings(c))
			if err != nil {
				return err
			}
			if both[i], err = job.New(plan); err != nil {
				return err
			}
		}
		r := job.Compare(both[0], both[1])
		w := c.OutOrStdout()
		if *asJSON {
			if err := job.WriteJSON(w, r); err != nil {
				return err
			}
		} else {
			printCompared(w, r, *all)
		}
		if *out != "" {
			if err := writeBeside(c, both, *from, *size, *out); err != nil {
				return err
			}
			if !*asJSON {
				fmt.Fprintf(w, "\n%s: %s at the left, %s at the right.\n", *out, args[0], args[1])
			}
		}
		if !r.Same {
			return errFailed
		}
		return nil
	}
	return c
}

// writeBeside writes the picture of both plans from the first one's view.
func writeBeside(c *cobra.Command, both [2]*job.Mockup, from, size, out string) error {
	p, err := pictureNamed(both[0].Plan, from)
	if err != nil {
		return err
	}
	if p.View == nil {
		return fmt.Errorf("--from %s is a drawing, and two plans are drawn side by side from a view (boothmock explain views)", from)
	}
	var o job.Look
	if o.Width, o.Height, err = pixels(size); err != nil {
		return err
	}
	o.Eye = both[0].Plan.Eyes[0]
	file, err := picture.FileNamed(out)
	if err != nil {
		return err
	}
	for _, m := range both {
		if err := over(c, m.Plan).Check(out); err != nil {
			return err
		}
	}
	return disk.Write(out, over(c, both[0].Plan), unlessStopped(c, func(w io.Writer) error {
		return file.Write(w, job.Beside(both[0], both[1], *p.View, o))
	}))
}

// printCompared prints how two plans differ: what they come to first, then things and findings, of which the less important are counted
// unless all are wanted.
func printCompared(w io.Writer, r compare.Result, all bool) {
	if r.Same {
		fmt.Fprintln(w, "The two plans are alike.")
		return
	}
	for i, name := range []string{"First: ", "Second: "} {
		fmt.Fprintln(w, hanging(w, name, r.Verdicts[i]))
	}
	fmt.Fprintln(w)
	var rows [][]string
	for _, t := range r.Totals {
		rows = append(rows, []string{t.Name, t.Words[0], t.Words[1]})
	}
	share := func(v *float64) string {
		if v == nil {
			return "-"
		}
		return unit.Share(*v).Whole()
	}
	rows = append(rows, []string{"seen by passers-by, on average", share(&r.Average[0]), share(&r.Average[1])})
	printTable(w, []string{"", r.Scenes[0], r.Scenes[1]}, rows)
	rows = nil
	for _, s := range r.Seen {
		if a, b := share(s.Shares[0]), share(s.Shares[1]); a != b && (all || s.Shares[0] != nil && s.Shares[1] != nil) {
			rows = append(rows, []string{s.Title, a, b})
		}
	}
	if len(rows) > 0 {
		fmt.Fprintln(w)
		printTable(w, []string{"seen by passers-by", "first", "second"}, rows)
	}
	lines, more := compare.Lines(r.Things, all)
	if len(lines) > 0 {
		fmt.Fprintln(w)
	}
	for _, l := range lines {
		fmt.Fprintln(w, hanging(w, "- ", unit.Capital(l)))
	}
	for _, l := range []struct {
		title string
		all   []finding.Finding
	}{{"No longer in the second:", r.Gone}, {"New in the second:", r.New}} {
		told := l.all
		if !all {
			told = slices.DeleteFunc(slices.Clone(told), func(f finding.Finding) bool { return f.Level == finding.Note })
		}
		if len(told) > 0 {
			fmt.Fprintln(w, "\n"+l.title)
			printFindings(w, told)
		}
		more += len(l.all) - len(told)
	}
	if more > 0 {
		fmt.Fprintf(w, "\nWith smaller things and notes there are %d more: --all prints them.\n", more)
	}
}
