package main

import (
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"boothmock/internal/basis/disk"
	"boothmock/internal/handout/pack"
	"boothmock/internal/job"
)

func paperCommand() *cobra.Command {
	var names []string
	long := "Write a paper to print, as PDF:\n"
	for _, p := range pack.Papers {
		names = append(names, p.Name)
		long += fmt.Sprintf("\n  %-10s %s", p.Name, p.Doc)
	}
	c := &cobra.Command{
		Use: "paper " + strings.Join(names, "|") + " [SCENE]", Short: "Write a price list, an insurance list or labels to print", Long: long, Args: arguments(1, 2), ValidArgs: names,
	}
	format := c.Flags().String("format", "", "`pages`: A4, Letter or A6, and A3 for the pieces; A4 where the scene is in cm, else Letter, if left out")
	large := c.Flags().Bool("large", false, "large print")
	out := c.Flags().String("out", "", "`file` to write; the paper's name .pdf if left out")
	replaceFlag(c)
	c.RunE = func(c *cobra.Command, args []string) error {
		at := slices.Index(names, args[0])
		if at < 0 {
			return fmt.Errorf("there is no paper %q (there is %s)", args[0], strings.Join(names, ", "))
		}
		o := pack.Sheets{Large: *large}
		switch strings.ToLower(*format) {
		case "":
		case "a3":
			if args[0] != "pieces" {
				return fmt.Errorf("--format A3 is for the pieces (write A4, Letter or A6)")
			}
			o.Format = "A3"
		case "a4", "a6":
			o.Format = strings.ToUpper(*format)
		case "letter":
			o.Format = "Letter"
		default:
			return fmt.Errorf("--format %s is no page that is printed here (write A4, Letter or A6)", *format)
		}
		if o.Format == "A6" && (o.Large || args[0] != "prices" && args[0] != "insurance") {
			return fmt.Errorf("--format A6 is too small for that (write A4 or Letter)")
		}
		plan, err := job.Load(sceneArg(args[1:]), settings(c))
		if err != nil {
			return err
		}
		if args[0] == "days" && plan.Fair == nil {
			return fmt.Errorf("%s does not say when the fair is (boothmock explain fair says how)", plan.File)
		}
		if *out == "" {
			*out = args[0] + ".pdf"
		}
		ends, table := ".pdf", strings.EqualFold(filepath.Ext(*out), ".csv")
		if table && args[0] != "stock" {
			return fmt.Errorf("only the stock is written as CSV (end the name in .pdf)")
		} else if table {
			ends = ".csv"
		}
		over := over(c, plan, ends)
		if err := over.Check(*out); err != nil {
			return err
		}
		m, err := job.New(plan)
		if err != nil {
			return err
		}
		if err := disk.Write(*out, over, unlessStopped(c, func(w io.Writer) error {
			if table {
				return m.Sheet().WriteStock(w)
			}
			return job.WritePaper(m, w, pack.Papers[at], o)
		})); err != nil {
			return err
		}
		w := c.OutOrStdout()
		fmt.Fprintf(w, "%s: %s\n", *out, pack.Papers[at].Doc)
		printMends(w, m.Report())
		return verdict(m.Report())
	}
	return c
}
