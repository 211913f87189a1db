package main

import (
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"boothmock/internal/basis/unit"
	"boothmock/internal/job"
	"boothmock/internal/plan/start"
	"boothmock/internal/props/stocklist"
)

func startCommand() *cobra.Command {
	c := &cobra.Command{
		Use: "start FOLDER", Short: "Make a first scene from a folder of photographs and a list of works, and build it", Args: arguments(1, 1),
	}
	var o start.Options
	c.Flags().StringVar(&o.Sheet, "sheet", "", "the `list` of works in the folder, CSV, XLSX or ODS, if there is more than one")
	c.Flags().StringVar(&o.Units, "units", "", "in or cm: the `unit` of sizes that state none")
	again := c.Flags().Bool("again", false, "keep the scene that is there, and add works that are new in the list, as spares, and photographs that are new")
	out := c.Flags().String("out", "", outFolder+"; FOLDER/mockup if left out")
	replaceFlag(c)
	c.RunE = func(c *cobra.Command, args []string) error {
		draft, err := drafted(c.OutOrStdout(), args[0], o, *again)
		if err != nil || draft.List != "" {
			return err
		}
		if *out == "" {
			*out = filepath.Join(args[0], "mockup")
		}
		fmt.Fprintln(c.OutOrStdout())
		return build(c, filepath.Join(args[0], start.SceneFile), *out, draft.Findings()...)
	}
	return c
}

// drafted makes a first scene in a folder, or a list to fill in, and prints what was made of what.
func drafted(w io.Writer, dir string, o start.Options, again bool) (*start.Draft, error) {
	if again {
		draft, fresh, err := job.StartAgain(dir, o)
		if err == nil {
			printFresh(w, filepath.Join(dir, start.SceneFile), draft, fresh)
		}
		return draft, err
	}
	draft, written, err := job.Start(dir, o)
	if err != nil {
		return nil, err
	}
	printDraft(w, draft)
	for _, name := range written {
		fmt.Fprintf(w, "%s is new.\n", filepath.Join(dir, name))
	}
	if draft.List != "" {
		fmt.Fprintln(w, "\n"+indented(w, "Fill in the height and width of each work in "+filepath.Join(dir, start.SheetFile)+", and whatever else you like; then start again.", ""))
	}
	return draft, nil
}

// printFresh prints what was added to a scene.
func printFresh(w io.Writer, scene string, d *start.Draft, f start.Fresh) {
	if d.Sheet != nil {
		printHeadings(w, d.Sheet)
	}
	fmt.Fprintln(w)
	if len(f.Titles)+len(f.Photos) == 0 {
		fmt.Fprintln(w, indented(w, "The list and the folder have nothing that "+scene+" lacks. Sizes, prices and what is sold are read from the list each time.", ""))
	}
	if len(f.Titles) > 0 {
		fmt.Fprintf(w, "New in %s, and waiting: name one in a row, and it hangs there; boothmock arrange proposes places.\n", scene)
		for _, t := range f.Titles {
			fmt.Fprintln(w, hanging(w, "  - ", t))
		}
	}
	if n := len(f.Photos); n > 0 {
		fmt.Fprintf(w, "Photographs that are new for works of the scene: %d.\n", n)
	}
	if len(f.Clashes) > 0 {
		fmt.Fprintln(w, indented(w, "Left out, as the scene has another work of that name: "+unit.List(f.Clashes, "and")+".", ""))
	}
}

// mostListed is how many of one kind are listed: some pages of the terminal.
const mostListed = 100

// printDraft prints what was made of the folder, and what was left aside.
func printDraft(w io.Writer, d *start.Draft) {
	if d.Sheet != nil {
		printHeadings(w, d.Sheet)
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
	if len(d.Left) > 0 {
		fmt.Fprintln(w, "\nRows that do not hang:")
		var rows [][]string
		for _, l := range d.Left[:min(len(d.Left), mostListed)] {
			rows = append(rows, []string{strings.TrimPrefix(stocklist.Where(l.Row, l.At), "row "), l.What, l.Why})
		}
		printTable(w, []string{"row", "work", "because"}, rows)
		printMore(w, len(d.Left)-mostListed)
	}
	var doubts []string
	if d.Sheet != nil {
		for _, r := range d.Sheet.Doubts {
			doubts = append(doubts, fmt.Sprintf("%s, %s: %s", stocklist.Where(r.Number, r.At), r.What, r.Why))
		}
	}
	for _, l := range []struct {
		title string
		items []string
	}{
		{"What was left out of rows:", doubts},
		{"Photographs that no row speaks of:", d.Lonely},
		{"Further photographs of works that have one:", d.Further},
		{"Works without a photograph, which hang as plain surfaces:", d.Unpictured},
		{"Files that cannot be used:", d.Unusable},
	} {
		if len(l.items) == 0 {
			continue
		}
		fmt.Fprintf(w, "\n%s\n", l.title)
		for _, s := range l.items[:min(len(l.items), mostListed)] {
			fmt.Fprintln(w, hanging(w, "  - ", s))
		}
		printMore(w, len(l.items)-mostListed)
	}
	fmt.Fprintln(w)
}

func printMore(w io.Writer, more int) {
	if more > 0 {
		fmt.Fprintf(w, "  and %d more\n", more)
	}
}

// printHeadings prints how the headings of a list were read, and in how many rows something stands under each.
func printHeadings(w io.Writer, s *stocklist.Sheet) {
	name := s.Name
	switch len(s.Tabs) {
	case 0:
	case 1:
		name += ", tab " + s.Tabs[0]
	default:
		name += ", tabs " + unit.List(s.Tabs, "and")
	}
	fmt.Fprintf(w, "How %s was read:\n", name)
	var rows [][]string
	for _, c := range s.Columns {
		rows = append(rows, []string{c.Heading, c.Meaning, fmt.Sprint(c.Count)})
	}
	for _, c := range s.Unused {
		rows = append(rows, []string{c.Heading, "not used: " + c.Meaning, fmt.Sprint(c.Count)})
	}
	printTable(w, []string{"heading", "taken for", "rows"}, rows)
	if len(s.Passed) > 0 {
		fmt.Fprintln(w, indented(w, "Not read, as no list of works: "+unit.List(s.Passed, "and")+".", ""))
	}
}
