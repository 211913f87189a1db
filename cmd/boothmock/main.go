// Command boothmock makes a 3D mock-up of an art-fair booth from a description of its tent, drapes, tables and works.
package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"os/signal"
	"path/filepath"
	"syscall"

	"github.com/spf13/cobra"

	"boothmock/internal/fault"
	"boothmock/internal/job"
)

func main() { os.Exit(Main()) }

// Exit codes.
const (
	fine        = 0
	failed      = 1 // a check failed; the outputs are written
	unusable    = 2 // the scene or a file could not be used; nothing was written
	interrupted = 130
)

// errFailed says that a check failed: the findings have been printed.
var errFailed = errors.New("a check failed")

// Main runs the command line and returns the exit code.
func Main() int {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	go func() {
		<-ctx.Done()
		stop() // a second interrupt ends the program at once
	}()
	err := command().ExecuteContext(ctx)
	var faults fault.List
	switch {
	case err == nil:
		return fine
	case errors.Is(err, errFailed):
		return failed
	case errors.Is(err, context.Canceled):
		fmt.Fprintln(os.Stderr, "stopped; every file that was written is whole")
		return interrupted
	case errors.As(err, &faults):
		fmt.Fprint(os.Stderr, faults.Show(readSource))
	default:
		fmt.Fprintln(os.Stderr, "boothmock:", err)
	}
	return unusable
}

// readSource gives the text of a file that a fault is about, so that its line can be shown.
func readSource(file string) []byte {
	text, err := os.ReadFile(file)
	if err != nil {
		return nil
	}
	return text
}

func command() *cobra.Command {
	root := &cobra.Command{
		Use:   "boothmock",
		Short: "A 3D mock-up of your art-fair booth: what visitors see, and whether anything is in the way",
		Long: "boothmock reads a scene (tent, drapes, table, works with their sizes) and makes pictures from a visitor's eye,\n" +
			"a 3D model for any viewer, and a list of what is hidden, what is in the way and what does not fit.\n" +
			"Without a scene it shows the built-in demo.",
		SilenceUsage: true, SilenceErrors: true,
		CompletionOptions: cobra.CompletionOptions{HiddenDefaultCmd: true},
	}
	root.PersistentFlags().StringArray("rule", nil, `set a house rule for this run, such as --rule "hanging centre=60in"`)
	root.AddCommand(buildCommand(), checkCommand(), seeCommand(), hangCommand(), rehearseCommand(), shareCommand(), startCommand(), arrangeCommand(), explainCommand())
	return root
}

// settings are what a run takes from the command line and the machine.
func settings(c *cobra.Command) job.Settings {
	set := job.Settings{Environ: os.Environ()}
	set.Rules, _ = c.Flags().GetStringArray("rule")
	if dir, err := os.UserConfigDir(); err == nil {
		set.Artist = filepath.Join(dir, "boothmock", "rules.yaml")
	}
	return set
}

// sceneArg is the scene that was named, or nothing for the demo.
func sceneArg(args []string) string {
	if len(args) == 0 {
		return ""
	}
	return args[0]
}
