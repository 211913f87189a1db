package main

import (
	"fmt"
	"image"
	"io"
	"os"
	"strings"

	"github.com/spf13/cobra"

	"boothmock/internal/basis/disk"
	"boothmock/internal/basis/fault"
	"boothmock/internal/basis/unit"
	"boothmock/internal/job"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/finding"
	"boothmock/internal/view/film"
	"boothmock/internal/view/picture"
)

func seeCommand() *cobra.Command {
	c := &cobra.Command{
		Use: "see [SCENE]", Short: "Make one picture from one place", Args: arguments(0, 1),
	}
	from := c.Flags().String("from", "entrance", "the `view` to stand at, or the drawing (boothmock explain views)")
	eye := c.Flags().String("eye", "adult", "whose `eye`: adult, tall, short, wheelchair, child, or a height such as 47in")
	size := c.Flags().String("size", "1920x1080", "`size` of the picture, width x height in pixels")
	at := c.Flags().String("at", "", "a `time` of the fair such as 15:00, with the sun where it stands then; even grey light if left out")
	show := c.Flags().String("show", "", "`hidden`: hatch what the eye does not see of works; on walls and plan, from the entrance")
	most := c.Flags().String("max", "", "the most `bytes` that a JPEG may have, such as 2MB: the best quality within it is sought")
	frames := c.Flags().String("film", "", "write the pictures of the walk-in film into this `folder` instead")
	out := c.Flags().String("out", "", "`file` to write, .png, .jpg or .webp; the view's name .png if left out")
	replaceFlag(c)
	c.RunE = func(c *cobra.Command, args []string) error {
		plan, err := job.Load(sceneArg(args), settings(c))
		if err != nil {
			return err
		}
		if *frames != "" {
			return writeFrames(c, plan, *frames)
		}
		p, err := pictureNamed(plan, *from)
		if err != nil {
			return err
		}
		o, err := look(plan, *show, *eye, *size)
		if err != nil {
			return err
		}
		if *out == "" {
			*out = p.Name + ".png"
		}
		over := over(c, plan)
		if err := over.Check(*out); err != nil {
			return err
		}
		file, err := fileWithin(*out, *most)
		if err != nil {
			return err
		}
		m, err := job.New(plan)
		if err != nil {
			return err
		}
		if *at != "" {
			if m, err = atTime(m, p, *at); err != nil {
				return err
			}
		}
		if err := c.Context().Err(); err != nil {
			return err
		}
		if err := disk.Write(*out, over, unlessStopped(c, func(w io.Writer) error { return file.Write(w, p.Draw(m, o)) })); err != nil {
			return err
		}
		if *most != "" {
			printFile(c.OutOrStdout(), *out, o.Width, o.Height)
		}
		line := *out + ": " + strings.TrimSuffix(p.Doc, ".")
		if p.View != nil {
			line += "; eye at " + unit.Length(p.View.From(o.Eye).Y).Format(plan.Units)
		}
		if *at != "" && m.Dark() {
			line += "; the sun is down and there are no lamps, so it is dark"
		}
		fmt.Fprintln(c.OutOrStdout(), line)
		if blank := unpictured(plan); p.Name == "application" && len(blank) > 0 {
			fmt.Fprintln(c.OutOrStdout(), indented(c.OutOrStdout(), finding.Several(blank, "A jury sees one blank board, as this work has no photograph", "A jury sees %d blank boards, as these works have no photographs", "Name them as image: in the scene")+".", ""))
		}
		printMends(c.OutOrStdout(), m.Report())
		return verdict(m.Report())
	}
	return c
}

// unpictured are the titles of works on view of which there is no photograph.
func unpictured(plan *booth.Plan) (titles []string) {
	for _, p := range plan.Parts {
		if p.Work != nil && p.Work.Image == nil && p.Work.Round == nil {
			titles = append(titles, p.Work.Title)
		}
	}
	return titles
}

// look is how a picture is to be taken, by what was typed.
func look(plan *booth.Plan, show, eye, size string) (o job.Look, err error) {
	switch show {
	case "":
	case "hidden":
		o.Hidden = true
	default:
		return o, fmt.Errorf("--show %s cannot be shown (write --show hidden)", show)
	}
	if o.Eye, err = eyeNamed(plan, eye); err != nil {
		return o, err
	}
	o.Width, o.Height, err = pixels(size)
	return o, err
}

// atTime is the mock-up at a time of the fair, for a picture.
func atTime(m *job.Mockup, p job.Picture, at string) (*job.Mockup, error) {
	if p.View == nil {
		return nil, fmt.Errorf("--at is for views: drawings to scale are in even light")
	}
	when, err := job.Time(m.Plan, at)
	if err != nil {
		return nil, fmt.Errorf("--at %s: %w", at, err)
	}
	return m.At(when), nil
}

// fileWithin is the kind of picture file that a name asks for, of so many bytes at most if that is said.
func fileWithin(name, most string) (picture.File, error) {
	file, err := picture.FileNamed(name)
	if err != nil || most == "" {
		return file, err
	}
	n, err := unit.ParseBytes(most)
	switch {
	case err != nil:
		return file, fmt.Errorf("--max %w", err)
	case n < 1000:
		return file, fmt.Errorf("--max %s is too small for a picture (write it such as 2MB or 500kB)", most)
	case file.Name != "JPEG":
		return file, fmt.Errorf("--max: only a JPEG can be made smaller by its quality (end the name in .jpg)")
	}
	file.Write = func(w io.Writer, m *image.NRGBA) error { return picture.WriteJPEGWithin(w, m, n) }
	return file, nil
}

// printFile says what was written, in the words of a form for uploads.
func printFile(w io.Writer, name string, width, height int) {
	if info, err := os.Stat(name); err == nil {
		fmt.Fprintf(w, "%s: JPEG, %d x %d pixels, sRGB, %d kB\n", name, width, height, (info.Size()+999)/1000)
	}
}

// writeFrames writes the film picture by picture, for whoever wants to make something else of it.
func writeFrames(c *cobra.Command, plan *booth.Plan, dir string) error {
	m, err := job.New(plan)
	if err != nil {
		return err
	}
	frames := m.Film()
	name := func(i int) string { return fmt.Sprintf("walk-in-%03d.png", i+1) }
	var names []string
	for i := range frames {
		names = append(names, name(i))
	}
	set, err := disk.NewSet(dir, "walk-in", names, over(c, plan))
	if err != nil {
		return err
	}
	defer set.Close()
	for i, img := range frames {
		if err := c.Context().Err(); err != nil {
			return err
		}
		if err := set.Write(name(i), func(w io.Writer) error { return picture.WritePNG(w, img) }); err != nil {
			return err
		}
	}
	stayed, err := set.Keep()
	if err != nil {
		return err
	}
	printStayed(c, dir, set.Dir, set.Why, stayed)
	fmt.Fprintf(c.OutOrStdout(), "%s: %d pictures, %d a second\n", set.Dir, len(frames), film.PerSecond)
	printVerdict(c.OutOrStdout(), m.Report())
	return verdict(m.Report())
}

func pictureNamed(p *booth.Plan, name string) (job.Picture, error) {
	var names []string
	for _, d := range job.Pictures(p) {
		if d.Name == name {
			return d, nil
		}
		names = append(names, d.Name)
	}
	hint := "there is " + strings.Join(names, ", ")
	if near, ok := fault.Nearest(name, names); ok {
		hint = fmt.Sprintf("did you mean %s?", near)
	}
	return job.Picture{}, fmt.Errorf("there is no view %q (%s)", name, hint)
}

func eyeNamed(p *booth.Plan, name string) (booth.Eye, error) {
	for _, e := range p.Eyes {
		if e.Name == name {
			return e, nil
		}
	}
	h, err := unit.ParseLength(name, p.Units, false)
	if err != nil || h < 10*unit.Centimetre || h > 4*unit.Metre {
		return booth.Eye{}, fmt.Errorf("--eye %s is no visitor and no height (write adult, tall, short, wheelchair, child, or a height such as 47in or 120cm)", name)
	}
	return booth.Eye{Name: name, Height: h.M()}, nil
}

func pixels(s string) (w, h int, err error) {
	if n, err := fmt.Sscanf(s, "%dx%d", &w, &h); n != 2 || err != nil || s != fmt.Sprintf("%dx%d", w, h) || min(w, h) < 16 || max(w, h) > 8192 {
		return 0, 0, fmt.Errorf("--size %s is no picture size (write width x height in pixels, 16 to 8192, such as 1920x1080)", s)
	}
	return w, h, nil
}
