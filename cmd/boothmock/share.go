package main

import (
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"boothmock/internal/booth"
	"boothmock/internal/disk"
	"boothmock/internal/job"
)

func shareCommand() *cobra.Command {
	c := &cobra.Command{
		Use: "share [SCENE]", Short: "Write one page to hand over: walk the booth, hang, set up, tick lists; on a phone, without a network", Args: arguments(0, 1),
	}
	out := c.Flags().String("out", "share.html", "`file` to write, a page; a picture and a short film for messages are written beside it")
	whom := c.Flags().String("for", "helper", "`whom` it is for: helper; or organiser, a PDF of what organisers ask for, without prices")
	replaceFlag(c)
	c.RunE = func(c *cobra.Command, args []string) error {
		plan, err := job.Load(sceneArg(args), settings(c))
		if err != nil {
			return err
		}
		switch *whom {
		case "helper":
		case "organiser":
			if !c.Flags().Changed("out") {
				*out = "organiser.pdf"
			}
			return shareWithOrganiser(c, plan, *out)
		default:
			return fmt.Errorf("--for %s: the booth is shared with a helper or an organiser (write --for helper or --for organiser)", *whom)
		}
		base := strings.TrimSuffix(*out, filepath.Ext(*out))
		files := []struct {
			name  string
			over  disk.Over
			write func(*job.Mockup, io.Writer) error
		}{
			{*out, over(c, plan, ".html", ".htm"), job.WritePage},
			{base + ".jpg", over(c, plan), job.WritePreview},
			{base + ".gif", over(c, plan), job.WriteFilm},
		}
		for _, f := range files {
			if err := f.over.Check(f.name); err != nil {
				return err
			}
		}
		m, err := job.New(plan)
		if err != nil {
			return err
		}
		set, err := disk.In(filepath.Dir(*out))
		if err != nil {
			return err
		}
		defer set.Close()
		for _, f := range files {
			if err := set.Write(filepath.Base(f.name), f.over, unlessStopped(c, func(w io.Writer) error { return f.write(m, w) })); err != nil {
				return err
			}
		}
		if err := set.Keep(); err != nil {
			return err
		}
		w := c.OutOrStdout()
		fmt.Fprintln(w, indented(w, files[0].name+" is the whole booth in one file: send it to your helper, it opens on any phone without a network.", ""))
		fmt.Fprintln(w, indented(w, fmt.Sprintf("%s is a picture and %s a short film to send with it.", files[1].name, files[2].name), ""))
		printNotes(c, m)
		fmt.Fprintln(w)
		printMends(w, m.Report())
		return verdict(m.Report())
	}
	return c
}

// shareWithOrganiser writes the paper for the organiser.
func shareWithOrganiser(c *cobra.Command, plan *booth.Plan, out string) error {
	over := over(c, plan, ".pdf")
	if err := over.Check(out); err != nil {
		return err
	}
	m, err := job.New(plan)
	if err != nil {
		return err
	}
	if err := disk.Write(out, over, unlessStopped(c, func(w io.Writer) error { return job.WriteOrganiser(m, w) })); err != nil {
		return err
	}
	w := c.OutOrStdout()
	fmt.Fprintln(w, indented(w, out+" is what an organiser asks for: plan, walls, clear ways, ballast, electricity and flame labels as the scene states them. No price is in it.", ""))
	for _, t := range [][2]string{{plan.Electricity, "electricity"}, {plan.FlameLabels, "flame labels"}} {
		if t[0] == "" {
			fmt.Fprintln(w, indented(w, fmt.Sprintf("The scene does not state its %s: write %s: and what is so in your own words.", t[1], t[1]), ""))
		}
	}
	fmt.Fprintln(w)
	printMends(w, m.Report())
	return verdict(m.Report())
}
