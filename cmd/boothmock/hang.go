package main

import (
	"cmp"
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"boothmock/internal/basis/disk"
	"boothmock/internal/find/hang"
	"boothmock/internal/job"
)

func hangCommand() *cobra.Command {
	c := &cobra.Command{
		Use: "hang [SCENE]", Short: "Say where every hook goes, what it carries and what to bring; write the print pack", Args: arguments(0, 1),
	}
	out := c.Flags().String("out", "print-pack.pdf", "`file` to write, a PDF")
	strips := c.Flags().Bool("strips", false, "add full-size strips that mark the hooks along each wall")
	replaceFlag(c)
	asJSON := c.Flags().Bool("json", false, "print the sheet as JSON and write no PDF")
	c.RunE = func(c *cobra.Command, args []string) error {
		plan, err := job.Load(sceneArg(args), settings(c))
		if err != nil {
			return err
		}
		m, err := job.New(plan)
		if err != nil {
			return err
		}
		if *asJSON {
			return cmp.Or(job.WriteSheet(m, c.OutOrStdout()), verdict(m.Report()))
		}
		over := over(c, plan, ".pdf")
		if err := cmp.Or(c.Context().Err(), over.Check(*out)); err != nil {
			return err
		}
		if err := disk.Write(*out, over, unlessStopped(c, func(w io.Writer) error { return job.WritePack(m, w, *strips) })); err != nil {
			return err
		}
		printSheet(c.OutOrStdout(), m.Sheet())
		w := c.OutOrStdout()
		fmt.Fprintln(w, "\n"+indented(w, "The print pack is "+*out+". Print it at 100 %, not fitted to the page.", "")+"\n")
		printMends(w, m.Report())
		return verdict(m.Report())
	}
	return c
}

// printSheet prints every section of the sheet.
func printSheet(w io.Writer, s hang.Sheet) {
	for i, sec := range s.Sections() {
		if i > 0 {
			fmt.Fprintln(w)
		}
		fmt.Fprintln(w, sec.Title)
		for _, p := range sec.Intro {
			fmt.Fprintln(w, indented(w, p, "  "))
		}
		for _, t := range sec.Tables {
			fmt.Fprintln(w)
			if t.Title != "" {
				fmt.Fprintln(w, indented(w, t.Title, "  "))
			}
			printColumns(w, t.Head, t.Rows, t.Wide)
		}
		for k, n := range sec.Notes {
			if k == 0 {
				fmt.Fprintln(w)
			}
			fmt.Fprintln(w, hanging(w, "  - ", n))
		}
	}
}
