package main

import (
	"cmp"

	"github.com/spf13/cobra"

	"boothmock/internal/job"
)

func checkCommand() *cobra.Command {
	c := &cobra.Command{
		Use: "check [SCENE]", Short: "Only look for what is hidden, in the way or does not fit", Args: arguments(0, 1),
	}
	asJSON := c.Flags().Bool("json", false, "print the findings as JSON")
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
			err = job.WriteFindings(m, c.OutOrStdout())
		} else {
			printReport(c.OutOrStdout(), m)
		}
		return cmp.Or(err, verdict(m.Report()))
	}
	return c
}
