package main

import (
	"fmt"
	"io"

	"github.com/spf13/cobra"
	"golang.org/x/image/colornames"

	"boothmock/internal/basis/disk"
	"boothmock/internal/basis/unit"
	"boothmock/internal/job"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/kinds"
	"boothmock/internal/view/picture"
)

// explainColours lists the colours that have names, and draws a page of them if a file is named for it.
func explainColours(c *cobra.Command, out string) error {
	w := c.OutOrStdout()
	var rows [][]string
	for _, k := range kinds.TradeColours {
		hex, _ := k.Colour.MarshalText()
		rows = append(rows, []string{k.Name, string(hex), k.Doc})
	}
	printTable(w, []string{"colour", "digits", "what looks so"}, rows)
	fmt.Fprintf(w, "\n%s\n", indented(w, "Judged by eye, for daylight: common practice, no source. Hold your own cloth against it, or write its digits in quotes, such as \"#8b8f94\".", ""))
	fmt.Fprintf(w, "\n%s\n", indented(w, "The names of SVG 1.1, which web pages use, have their meaning there; brown is a brick red, for one, and parcel brown is not: "+unit.List(colornames.Names, "and")+".", ""))
	if out == "" {
		return nil
	}
	file, err := picture.FileNamed(out)
	if err != nil {
		return err
	}
	to := over(c, &booth.Plan{})
	if err := to.Check(out); err != nil {
		return err
	}
	return disk.Write(out, to, unlessStopped(c, func(w io.Writer) error { return file.Write(w, job.Swatches()) }))
}
