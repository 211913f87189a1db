package main

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"boothmock/internal/booth"
	"boothmock/internal/fault"
	"boothmock/internal/job"
	"boothmock/internal/light"
	"boothmock/internal/picture"
	"boothmock/internal/unit"
)

func seeCommand() *cobra.Command {
	c := &cobra.Command{
		Use: "see [SCENE]", Short: "Make one picture from one place", Args: cobra.MaximumNArgs(1),
	}
	from := c.Flags().String("from", "entrance", "the view to stand at (boothmock explain views)")
	eye := c.Flags().String("eye", "adult", "whose eye: adult, tall, short, wheelchair, child, or a height such as 47in")
	size := c.Flags().String("size", "1920x1080", "width x height of the picture in pixels")
	out := c.Flags().String("out", "", "file to write; the view's name .png if left out")
	c.RunE = func(c *cobra.Command, args []string) error {
		plan, err := job.Load(sceneArg(args), settings(c))
		if err != nil {
			return err
		}
		v, err := viewNamed(plan, *from)
		if err != nil {
			return err
		}
		o := picture.Options{}
		if o.Eye, err = eyeNamed(plan, *eye); err != nil {
			return err
		}
		if o.Width, o.Height, err = pixels(*size); err != nil {
			return err
		}
		if *out == "" {
			*out = v.Name + ".png"
		}
		stage := picture.NewStage(plan, light.Bake(plan))
		if err := c.Context().Err(); err != nil {
			return err
		}
		if err := job.WriteFile(*out, func(w io.Writer) error { return picture.WritePNG(w, stage.Draw(v, o)) }); err != nil {
			return err
		}
		fmt.Fprintf(c.OutOrStdout(), "%s: %s; eye at %s\n", *out, strings.TrimSuffix(v.Doc, "."), unit.Length(v.From(o.Eye).Y).Format(plan.Units))
		return nil
	}
	return c
}

func viewNamed(p *booth.Plan, name string) (booth.View, error) {
	i := slices.IndexFunc(p.Views, func(v booth.View) bool { return v.Name == name })
	if i < 0 {
		var names []string
		for _, v := range p.Views {
			names = append(names, v.Name)
		}
		hint := "there is " + strings.Join(names, ", ")
		if near, ok := fault.Nearest(name, names); ok {
			hint = fmt.Sprintf("did you mean %s?", near)
		}
		return booth.View{}, fmt.Errorf("there is no view %q (%s)", name, hint)
	}
	return p.Views[i], nil
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
