package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"github.com/spf13/cobra"

	"boothmock/internal/plan/start"
	"boothmock/internal/try"
)

func tryCommand() *cobra.Command {
	c := &cobra.Command{
		Use: "try [SCENE]", Short: "Move works, table and walls on a page in your own browser, and see at once what it does", Args: arguments(0, 1),
		Long: "Move works, table and walls on a page in your own browser, and see at once what it does.\n" +
			"In the place of a scene, a folder of photographs gets a first scene there: with a list of works as boothmock start makes it,\n" +
			"without one a booth with bare walls, and the page asks how large the works are.",
	}
	quiet := c.Flags().Bool("no-browser", false, "only print the address, and open no browser")
	units := c.Flags().String("units", "", "in or cm: the `unit` of a first scene")
	c.RunE = func(c *cobra.Command, args []string) error {
		path := sceneArg(args)
		if info, err := os.Stat(path); err == nil && info.IsDir() {
			if path, err = sceneIn(c.OutOrStdout(), path, *units); err != nil {
				return err
			}
		}
		s, err := try.Open(path, settings(c))
		if err != nil {
			return err
		}
		defer s.Close()
		v, err := try.Serve(s)
		if err != nil {
			return fmt.Errorf("no page can be shown on this computer: %w", err)
		}
		w := c.OutOrStdout()
		fmt.Fprintln(w, "Your booth is at "+v.Address)
		fmt.Fprintln(w, indented(w, "The address works on this computer alone, and as long as this program runs: Ctrl-C ends it. Nothing is changed until you save.", ""))
		if !*quiet && v.Show() != nil {
			fmt.Fprintln(w, "No browser could be opened: copy the address into yours.")
		}
		if err := v.Run(c.Context()); err != nil && !errors.Is(err, context.Canceled) {
			return err
		}
		if name := s.Unsaved(); name != "" {
			fmt.Fprintln(w, "What was not saved is kept in "+name+".")
		}
		return c.Context().Err()
	}
	return c
}

// sceneIn is the scene in a folder: the one that is there, or a first one.
func sceneIn(w io.Writer, dir, units string) (path string, err error) {
	path = filepath.Join(dir, start.SceneFile)
	if _, err := os.Lstat(path); err == nil {
		return path, nil
	}
	_, err = drafted(w, dir, start.Options{Bare: true, Units: units}, false)
	return path, err
}
