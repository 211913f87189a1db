package main

import (
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"boothmock/internal/job"
	"boothmock/internal/plan/finding"
)

func buildCommand() *cobra.Command {
	c := &cobra.Command{
		Use: "build [SCENE]", Short: "Make everything: pictures, 3D model, findings", Args: arguments(0, 1),
	}
	out := c.Flags().String("out", "mockup", outFolder)
	replaceFlag(c)
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
	built, err := job.Build(c.Context(), m, out, over(c, plan), bar.step)
	bar.clear()
	if err != nil {
		return err
	}
	printReport(c.OutOrStdout(), m)
	printNotes(c, m)
	printStayed(c, out, built.Dir, built.Why, built.Stayed)
	fmt.Fprintf(c.OutOrStdout(), "\n%d files are in %s. Look at %s first.\n",
		built.Files, built.Dir, filepath.Join(built.Dir, plan.Views[0].Name+".png"))
	return verdict(m.Report())
}

// printNotes prints what somebody should read about the files that were written.
func printNotes(c *cobra.Command, m *job.Mockup) {
	for _, s := range m.Notes() {
		fmt.Fprintln(c.ErrOrStderr(), indented(c.ErrOrStderr(), s, ""))
	}
}

// outFolder is the help of --out where that is a folder.
const outFolder = "`folder` to write into, which is exchanged as a whole; a folder within it if it holds other things"

// printStayed prints what was in the way and stays, and where the files are instead.
func printStayed(c *cobra.Command, out, dir, why string, stayed []string) {
	const most = 5 // names in one sentence
	w := c.ErrOrStderr()
	if why != "" {
		fmt.Fprintln(w, indented(w, fmt.Sprintf("%s %s: the files are in %s.", out, why, dir), ""))
	}
	if n := len(stayed); n > most {
		stayed = append(slices.Clone(stayed[:most]), fmt.Sprintf("and %d more", n-most))
	}
	if len(stayed) > 0 {
		fmt.Fprintln(w, indented(w, fmt.Sprintf("What else is in %s stays as it is: %s.", dir, strings.Join(stayed, ", ")), ""))
	}
}
