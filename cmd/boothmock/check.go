package main

import (
	"github.com/spf13/cobra"

	"boothmock/internal/check"
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
		report := check.Run(plan)
		if *asJSON {
			if err := job.WriteJSON(c.OutOrStdout(), report); err != nil {
				return err
			}
		} else {
			printReport(c.OutOrStdout(), plan, report)
		}
		return verdict(report)
	}
	return c
}

// verdict is the error that makes the command end with exit code 1.
func verdict(r check.Report) error {
	if r.Verdict == "fail" {
		return errFailed
	}
	return nil
}
