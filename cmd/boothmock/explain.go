package main

import (
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"

	"boothmock/internal/basis/fault"
	"boothmock/internal/basis/unit"
	"boothmock/internal/job"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/kinds"
	"boothmock/internal/plan/scene"
	"boothmock/internal/props/stocklist"
)

func explainCommand() *cobra.Command {
	c := &cobra.Command{
		Use: "explain kinds|sheet|checks|rules|views|colours|schema|KIND [SCENE]", Short: "Say what a scene can hold, what is checked, and by which numbers",
		Args: arguments(1, 2), ValidArgs: []string{"kinds", "sheet", "checks", "rules", "views", "colours", "schema"},
	}
	out := c.Flags().String("out", "", "with colours: a picture `file` to draw them in, .png, .jpg or .webp")
	all := c.Flags().Bool("all", false, "with sheet: every word of headings and states, in all languages, and how each cell is read")
	replaceFlag(c)
	c.RunE = func(c *cobra.Command, args []string) error {
		w := c.OutOrStdout()
		if *out != "" && args[0] != "colours" {
			return fmt.Errorf("--out: only colours have a picture (write explain colours --out %s)", *out)
		}
		switch args[0] {
		case "colours":
			return explainColours(c, *out)
		case "kinds":
			for _, k := range kinds.Plain {
				fmt.Fprintf(w, "%s\n%s\n\n", k.Key, indented(w, k.Doc, "    "))
			}
			for _, k := range kinds.All {
				explainKind(w, k)
			}
			return nil
		case "sheet":
			explainSheet(w, *all)
			return nil
		case "schema":
			return job.WriteJSON(w, kinds.Schema())
		case "checks":
			for _, k := range job.Asked() {
				fmt.Fprintf(w, "%s\n%s\n", k.Name, indented(w, k.Doc+" Source: "+k.Source+".", "    "))
			}
			return nil
		case "rules", "views":
			plan, err := job.Load(sceneArg(args[1:]), settings(c))
			if err != nil {
				return err
			}
			if args[0] == "rules" {
				explainRules(w, plan)
			} else {
				explainViews(w, plan)
			}
			return nil
		}
		names := c.ValidArgs
		for _, k := range kinds.All {
			if k.Key == args[0] {
				explainKind(w, k)
				return nil
			}
			names = append(names, k.Key)
		}
		hint := "kinds, sheet, checks, rules, views, colours, schema, or one kind such as tables"
		if near, ok := fault.Nearest(args[0], names); ok {
			hint = fmt.Sprintf("did you mean %s?", near)
		}
		return fmt.Errorf("there is nothing to explain about %q (%s)", args[0], hint)
	}
	return c
}

// explainRules says by which numbers the booth is checked.
func explainRules(w io.Writer, plan *booth.Plan) {
	var rows [][]string
	for _, r := range plan.Rules.Explain(plan.Units) {
		rows = append(rows, []string{r.Name, r.Value, r.Layer, r.Source})
	}
	printTable(w, []string{"rule", "value", "set by", "source"}, rows)
}

// explainViews says where pictures can be taken from, and which drawings there are.
func explainViews(w io.Writer, plan *booth.Plan) {
	var rows [][]string
	for _, p := range job.Pictures(plan) {
		eye := "-" // a drawing
		if p.View != nil {
			eye = unit.Length(p.View.From(plan.Eyes[0]).Y).Format(plan.Units)
		}
		rows = append(rows, []string{p.Name, eye, p.Doc})
	}
	printTable(w, []string{"view", "eye", "what it shows"}, rows)
}

// explainSheet says how a list of works is read: shortly, or with every word that is known.
func explainSheet(w io.Writer, all bool) {
	say := func(text string) { fmt.Fprintln(w, indented(w, text, "")) }
	var works [][]string
	for _, r := range stocklist.Example {
		works = append(works, []string{r[1], r[2], r[3], r[5], r[7], r[8]}) // as much as a line holds
	}
	printTable(w, works[0], works[1:])
	fmt.Fprintln(w)
	say("A list of works is a CSV, XLSX or ODS file like this one, with a row of headings and a row for each work. Headings may stand in any order, and most are understood in twenty languages; start says what it took each for.")
	fmt.Fprintln(w)
	if !all {
		for _, m := range stocklist.Manners {
			fmt.Fprintln(w, hanging(w, "- ", m.Short))
		}
		fmt.Fprintln(w)
		say("Every word of headings and states, and how each cell is read: boothmock explain sheet --all")
		return
	}
	say("Of the lines below the first that has a word of the heading counts. Case and accents do not matter.")
	fmt.Fprintln(w)
	var rows [][]string
	for _, v := range stocklist.Vocabulary {
		words := strings.ReplaceAll(strings.ReplaceAll(v.Words, "_", " "), "|", ", ")
		if v.With != "" {
			words += "; with " + strings.ReplaceAll(strings.ReplaceAll(v.With, "_", " "), "|", ", ")
		}
		rows = append(rows, []string{v.Called, v.Use, words})
	}
	printTable(w, []string{"taken for", "used", "words of the heading"}, rows)
	fmt.Fprintln(w)
	for _, m := range stocklist.Manners {
		say(strings.TrimSpace(m.Short + " " + m.More))
		fmt.Fprintln(w)
	}
	say("Words of a status, in a column of its own, in that of prices, of places or at the beginning of a note:")
	fmt.Fprintln(w)
	rows = nil
	for _, s := range stocklist.States {
		is := string(s.Is)
		if is == "" {
			is = "for sale"
		}
		rows = append(rows, []string{is, strings.ReplaceAll(s.Words, "|", ", ")})
	}
	printTable(w, []string{"status", "words"}, rows)
}

func explainKind(w io.Writer, k kinds.Kind) {
	list := ""
	if k.Many {
		list = fmt.Sprintf(" (a list, at most %d)", k.Most)
	}
	fmt.Fprintf(w, "%s%s\n%s\n", k.Key, list, indented(w, k.Doc, "    "))
	explainFields(w, scene.Fields(k.Fields), "    ")
	fmt.Fprintln(w)
}

func explainFields(w io.Writer, fields []scene.Field, margin string) {
	for _, f := range fields {
		text := f.Doc
		if f.Type != "" {
			text += "; " + f.Type
		}
		if f.Range != "" {
			text += ", " + f.Range
		}
		switch {
		case f.Must:
			text += ". Needed"
		case f.Default != "":
			text += ". Usually " + f.Default
		}
		fmt.Fprintf(w, "%s%s:\n%s\n", margin, f.Key, indented(w, text, margin+"    "))
		explainFields(w, f.Of, margin+"    ")
	}
}
