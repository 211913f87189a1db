package main

import (
	"cmp"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"boothmock/internal/basis/unit"
	"boothmock/internal/find/order"
	"boothmock/internal/job"
	"boothmock/internal/plan/finding"
)

func rehearseCommand() *cobra.Command {
	c := &cobra.Command{
		Use: "rehearse [SCENE]", Short: "Say in what order to set up, who does what and when, and whether there is time", Args: arguments(0, 1),
	}
	people := c.Flags().Int("people", 0, "the `number` of people; the scene's own if left out")
	strike := c.Flags().Bool("strike", false, "taking down at the end instead")
	night := c.Flags().Bool("night", false, "leaving it for the night between two days instead")
	practise := c.Flags().Bool("time", false, "walk through the steps and note the minutes that they really take")
	asJSON := c.Flags().Bool("json", false, "print it as JSON")
	sent := c.Flags().String("times", "", "read in the minutes that a helper sent from the page: a `file`, or - for what is piped in")
	c.MarkFlagsMutuallyExclusive("strike", "night", "time", "times")
	c.MarkFlagsMutuallyExclusive("json", "time", "times")
	c.RunE = func(c *cobra.Command, args []string) error {
		plan, err := job.Load(sceneArg(args), settings(c))
		if err != nil {
			return err
		}
		if c.Flags().Changed("people") {
			if *people < 1 || *people > 20 {
				return errors.New("--people wants a number from 1 to 20")
			}
			plan = plan.SetUpBy(*people)
		}
		m, err := job.New(plan)
		if err != nil {
			return err
		}
		list := m.SetUp
		switch {
		case *strike:
			list = m.Strike
		case *night:
			list = m.Night
		}
		r := list()
		switch {
		case *sent != "":
			return readTimes(c.InOrStdin(), c.OutOrStdout(), m, *sent)
		case *practise:
			return practice(c.Context(), c.InOrStdin(), c.OutOrStdout(), plan, r)
		case *asJSON:
			err = job.WriteRehearsal(m, r, c.OutOrStdout())
		default:
			printRehearsal(c.OutOrStdout(), r, m.Report())
		}
		return cmp.Or(err, verdict(m.Report()))
	}
	return c
}

// printRehearsal prints what must be mended first, then the steps as a table, then the loads, what can hurt and what was learnt.
func printRehearsal(w io.Writer, r order.Rehearsal, report finding.Report) {
	printMends(w, report)
	fmt.Fprintln(w)
	var rows [][]string
	for _, s := range r.Steps {
		room := "-"
		if s.Room > 0 {
			room = fmt.Sprint(s.Room)
		}
		rows = append(rows, []string{fmt.Sprint(s.Number), fmt.Sprint(s.Start), fmt.Sprint(s.End), s.Hands("+"), room, string(s.ID), s.Name})
	}
	printTable(w, []string{"", "from", "to", "who", "may wait", "step", "what to do"}, rows)
	fmt.Fprintln(w, "\n"+indented(w, "Minutes from the beginning. A step with - must not be late, or the end is later.", ""))
	if len(r.Loads) > 0 {
		fmt.Fprintln(w, "\n"+indented(w, fmt.Sprintf("Loads (the trolley carries %s; the last one goes into the car first)", unit.Weight(r.Trolley).Format(r.System())), ""))
		var rows [][]string
		for _, l := range r.Loads {
			rows = append(rows, []string{fmt.Sprint(l.Number), l.Heavy(r.System()), strings.Join(l.Words(), ", ")})
		}
		printTable(w, []string{"load", "weight", "what"}, rows)
		fmt.Fprintln(w, indented(w, "~ has usual weights in it that the scene does not state.", ""))
	}
	fmt.Fprintln(w, "\nCautions")
	for i, s := range r.Steps {
		for _, f := range report.Of(r.Step(s)) {
			fmt.Fprintln(w, hanging(w, "  - ", fmt.Sprintf("Step %d: %s", s.Number, f.Sentence())))
		}
		same := func(t order.Step) bool { return t.Caution == s.Caution }
		if s.Caution == "" || slices.ContainsFunc(r.Steps[:i], same) {
			continue
		}
		var numbers []string
		for _, t := range r.Steps {
			if same(t) {
				numbers = append(numbers, fmt.Sprint(t.Number))
			}
		}
		fmt.Fprintln(w, hanging(w, "  - ", "Step "+strings.Join(numbers, ", ")+": "+s.Caution))
	}
	for _, text := range r.Cautions {
		fmt.Fprintln(w, hanging(w, "  - ", text))
	}
	if len(r.Learnt) > 0 {
		fmt.Fprintln(w, "\nLearnt from practice")
		for _, l := range r.Learnt {
			fmt.Fprintln(w, hanging(w, "  - ", l.Say()))
		}
	}
	fmt.Fprintln(w)
	fmt.Fprintln(w, indented(w, r.Summary(), ""))
}
