package main

import (
	"fmt"
	"io"
	"math"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"boothmock/internal/basis/disk"
	"boothmock/internal/job"
	"boothmock/internal/plan/booth"
)

func shareCommand() *cobra.Command {
	c := &cobra.Command{
		Use: "share [SCENE]", Short: "Write one page to hand over: walk the booth, hang, set up, tick lists; on a phone, without a network", Args: arguments(0, 1),
	}
	out := c.Flags().String("out", "share.html", "`file` to write, a page; a picture and a short film, as GIF and as WebP, are written beside it")
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
			{*out, over(c, plan, ".html", ".htm"), func(m *job.Mockup, w io.Writer) error { return job.WritePage(m, w, filepath.Base(base)+".jpg") }},
			{base + ".jpg", over(c, plan), job.WritePreview},
			{base + ".gif", over(c, plan), job.WriteGIF},
			{base + ".webp", over(c, plan), job.WriteWebP},
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
		sizes := make([]int, len(files))
		for i, f := range files {
			if err := set.Write(filepath.Base(f.name), f.over, unlessStopped(c, func(w io.Writer) error { return f.write(m, counted{w, &sizes[i]}) })); err != nil {
				return err
			}
		}
		if err := set.Keep(); err != nil {
			return err
		}
		w := c.OutOrStdout()
		say := func(text string) { fmt.Fprintln(w, indented(w, text, "")) }
		sized := func(i int) string { return files[i].name + " (" + megabytes(sizes[i]) + ")" }
		say(sized(0) + " is the whole booth in one file: send it to your helper, it opens on any phone without a network.")
		say(sized(1) + " is a picture to send with it.")
		say("A short film of the walk in: " + sized(3) + " for messages, " + sized(2) + " for mail, as some mail programs show no WebP.")
		for i, f := range files {
			if text := tooLarge(f.name, sizes[i]); text != "" {
				say(text)
			}
		}
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

// What a mail and a message carry at most, in bytes: common practice, no source.
const (
	mailMost    = 10_000_000
	messageMost = 16_000_000
)

// counted counts what is written.
type counted struct {
	io.Writer
	bytes *int
}

func (c counted) Write(p []byte) (int, error) {
	n, err := c.Writer.Write(p)
	*c.bytes += n
	return n, err
}

// megabytes is a file's size in words: never less than it is.
func megabytes(n int) string {
	return fmt.Sprintf("%.1f MB", math.Ceil(float64(n)/100_000)/10)
}

// tooLarge is what to know before a file is sent; empty if it goes everywhere.
func tooLarge(name string, n int) string {
	switch {
	case n > messageMost:
		return fmt.Sprintf("%s is too large for many messengers (16 MB) and mails (10 MB): hand it over on a memory stick or by a link.", name)
	case n > mailMost:
		return fmt.Sprintf("%s is too large for many mails (10 MB): send it by a messenger, or hand it over by a link.", name)
	}
	return ""
}
