package main

import (
	"fmt"
	"path/filepath"

	"github.com/spf13/cobra"

	"boothmock/internal/finding"
	"boothmock/internal/job"
)

func buildCommand() *cobra.Command {
	c := &cobra.Command{
		Use: "build [SCENE]", Short: "Make everything: pictures, 3D model, findings", Args: arguments(0, 1),
	}
	out := c.Flags().String("out", "mockup", "`folder` to write into")
	c.RunE = func(c *cobra.Command, args []string) error { return build(c, sceneArg(args), *out) }
	return c
}

// build makes everything of a scene in a folder, and prints the report; more is what there is to say besides.
func build(c *cobra.Command, scene, out string, more ...finding.Finding) error {
	plan, err := job.Load(scene, settings(c))
	if err != nil {
		return err
	}
	if err := c.Context().Err(); err != nil {
		return err
	}
	m, err := job.New(plan, more...)
	if err != nil {
		return err
	}
	bar := newProgress(c.ErrOrStderr(), len(job.Outputs(m)))
	err = job.Build(c.Context(), m, out, bar.step)
	bar.clear()
	if err != nil {
		return err
	}
	printReport(c.OutOrStdout(), m)
	printNotes(c, m)
	fmt.Fprintf(c.OutOrStdout(), "\n%d files are in %s. Look at %s first.\n",
		len(job.Outputs(m)), out, filepath.Join(out, plan.Views[0].Name+".png"))
	return verdict(m.Report())
}

// printNotes prints what somebody should read about the files that were written.
func printNotes(c *cobra.Command, m *job.Mockup) {
	for _, s := range m.Notes() {
		fmt.Fprintln(c.ErrOrStderr(), indented(c.ErrOrStderr(), s, ""))
	}
}
