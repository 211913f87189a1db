package main

import (
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"boothmock/internal/job"
)

func shareCommand() *cobra.Command {
	c := &cobra.Command{
		Use: "share [SCENE]", Short: "Write one page to hand over: walk the booth, hang, set up, tick lists; on a phone, without a network", Args: cobra.MaximumNArgs(1),
	}
	out := c.Flags().String("out", "share.html", "page to write; a picture for messages is written beside it")
	c.RunE = func(c *cobra.Command, args []string) error {
		preview := strings.TrimSuffix(*out, filepath.Ext(*out)) + ".jpg"
		if preview == *out {
			return fmt.Errorf("--out %s is the name of the picture beside the page: give the page a name that ends in .html", *out)
		}
		plan, err := job.Load(sceneArg(args), settings(c))
		if err != nil {
			return err
		}
		m, err := job.Make(plan)
		if err != nil {
			return err
		}
		if err := c.Context().Err(); err != nil {
			return err
		}
		if err := job.WriteFile(*out, func(w io.Writer) error { return job.WritePage(m, w) }); err != nil {
			return err
		}
		if err := job.WriteFile(preview, func(w io.Writer) error { return job.WritePreview(m, w) }); err != nil {
			return err
		}
		fmt.Fprintf(c.OutOrStdout(), "%s is the whole booth in one file: send it to your helper, it opens on any phone without a network.\n%s is a picture to send with it.\n", *out, preview)
		return nil
	}
	return c
}
