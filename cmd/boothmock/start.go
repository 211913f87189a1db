package main

import (
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"boothmock/internal/job"
	"boothmock/internal/start"
)

func startCommand() *cobra.Command {
	c := &cobra.Command{
		Use: "start FOLDER", Short: "Make a first scene from a folder of photographs and a list of works, and build it", Args: arguments(1, 1),
	}
	var o start.Options
	c.Flags().StringVar(&o.Sheet, "sheet", "", "the `list` of works in the folder, CSV or XLSX, if there is more than one")
	c.Flags().StringVar(&o.Units, "units", "", "in or cm: the `unit` of sizes that state none")
	out := c.Flags().String("out", "", outFolder+"; FOLDER/mockup if left out")
	replaceFlag(c)
	c.RunE = func(c *cobra.Command, args []string) error {
		draft, written, err := job.Start(args[0], o)
		if err != nil {
			return err
		}
		w := c.OutOrStdout()
		printDraft(w, draft)
		for _, name := range written {
			fmt.Fprintf(w, "%s is new.\n", filepath.Join(args[0], name))
		}
		if draft.List != "" {
			fmt.Fprintln(w, "\n"+indented(w, "Fill in the height and width of each work in "+filepath.Join(args[0], start.SheetFile)+", and whatever else you like; then start again.", ""))
			return nil
		}
		if *out == "" {
			*out = filepath.Join(args[0], "mockup")
		}
		fmt.Fprintln(w)
		return build(c, filepath.Join(args[0], start.SceneFile), *out, draft.Findings()...)
	}
	return c
}

// mostListed is how many of one kind are listed: some pages of the terminal.
const mostListed = 100

// printDraft prints what was made of the folder, and what was left aside.
func printDraft(w io.Writer, d *start.Draft) {
	if d.Sheet != nil {
		var columns []string
		for _, col := range d.Sheet.Columns {
			columns = append(columns, fmt.Sprintf("%s (%s)", col.Heading, col.Meaning))
		}
		fmt.Fprintln(w, indented(w, d.Sheet.Name+" was read as: "+strings.Join(columns, ", ")+".", ""))
		if len(d.Sheet.Unused) > 0 {
			fmt.Fprintln(w, indented(w, "Columns that mean nothing here: "+strings.Join(d.Sheet.Unused, ", ")+".", ""))
		}
		for _, n := range append(d.Sheet.Notes, d.Notes...) {
			fmt.Fprintln(w, indented(w, n, ""))
		}
	}
	if len(d.Pairs) > 0 {
		fmt.Fprintln(w)
		var rows [][]string
		for _, p := range d.Pairs {
			rows = append(rows, []string{p.Photo, p.Work, p.How})
		}
		printTable(w, []string{"photograph", "work", "because"}, rows)
	}
	var unread []string
	if d.Sheet != nil {
		for _, u := range d.Sheet.Unread {
			unread = append(unread, fmt.Sprintf("row %d, %s: %s", u.Number, u.What, u.Why))
		}
	}
	if slices.ContainsFunc(unread, func(u string) bool { return strings.Contains(u, "needs a unit") }) {
		unread = append(unread, "if all sizes without a unit are in inches, take "+start.SceneFile+" away and start again with --units in (or cm)")
	}
	for _, l := range []struct {
		title string
		items []string
	}{
		{"Rows that cannot be read:", unread},
		{"Photographs that no row speaks of:", d.Lonely},
		{"Works without a photograph, which hang as plain surfaces:", d.Unpictured},
		{"Works without a size, which cannot hang:", d.Unsized},
		{"Works for which there was no room:", d.Unhung},
		{"Files that cannot be used:", d.Unusable},
	} {
		if len(l.items) == 0 {
			continue
		}
		fmt.Fprintf(w, "\n%s\n", l.title)
		for _, s := range l.items[:min(len(l.items), mostListed)] {
			fmt.Fprintln(w, hanging(w, "  - ", s))
		}
		if more := len(l.items) - mostListed; more > 0 {
			fmt.Fprintf(w, "  and %d more\n", more)
		}
	}
	fmt.Fprintln(w)
}
