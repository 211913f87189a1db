// Command boothmock makes a 3D mock-up of an art-fair booth from a description of its tent, drapes, tables and works.
package main

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"path/filepath"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"boothmock/internal/basis/disk"
	"boothmock/internal/basis/fault"
	"boothmock/internal/job"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/start"
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

// Main runs the command line and returns the exit code. At an interrupt the program may take a second to come to an end by
// itself; at the second one it may not. Either way every file that is there is whole, and nothing else is left.
func Main() int {
	ctx, cancel := context.WithCancel(context.Background())
	defer cancel()
	stop := make(chan os.Signal, 2)
	signal.Notify(stop, endings...)
	code := make(chan int, 1)
	out, errs := newConsole(os.Stdout), newConsole(os.Stderr)
	go func() { code <- run(ctx, out, errs) }()
	select {
	case c := <-code:
		return c
	case <-stop:
	}
	cancel()
	select {
	case c := <-code:
		if c == unusable {
			return c
		}
		return interrupted
	case <-stop:
	case <-time.After(time.Second):
	}
	disk.Stop()
	fmt.Fprintln(errs, stopped)
	return interrupted
}

const stopped = "stopped; every file that was written is whole"

// run runs the command line.
func run(ctx context.Context, out, errs *console) int {
	root := command()
	root.SetOut(out)
	root.SetErr(errs)
	err := root.ExecuteContext(ctx)
	if lost := out.failed(); lost != nil {
		err = fmt.Errorf("what there is to say cannot be written: %w", disk.Why(lost))
	}
	var faults fault.List
	switch {
	case err == nil:
		return fine
	case errors.Is(err, errFailed):
		return failed
	case errors.Is(err, context.Canceled):
		fmt.Fprintln(errs, stopped)
		return interrupted
	case errors.As(err, &faults):
		fmt.Fprint(errs, faults.Show(job.Source))
	default:
		fmt.Fprintln(errs, "boothmock:", err)
	}
	return unusable
}

func command() *cobra.Command {
	root := &cobra.Command{
		Use:     "boothmock",
		Version: version(),
		Short:   "A 3D mock-up of your art-fair booth: what visitors see, and whether anything is in the way",
		Long: "boothmock reads a scene (tent, drapes, table, works with their sizes) and makes pictures from a visitor's eye,\n" +
			"a 3D model for any viewer, and a list of what is hidden, what is in the way and what does not fit.\n" +
			"Without a scene it takes booth.yaml in the folder where you are, and where there is none the built-in demo.",
		SilenceUsage: true, SilenceErrors: true,
		CompletionOptions: cobra.CompletionOptions{HiddenDefaultCmd: true},
	}
	root.Flags().BoolP("version", "v", false, "say which version this is")
	root.SetVersionTemplate("boothmock {{.Version}}\n")
	root.SetFlagErrorFunc(func(c *cobra.Command, err error) error {
		return fmt.Errorf("%w (%s --help lists them)", err, c.CommandPath())
	})
	cobra.AddTemplateFunc("switches", func(usages string) string { // how the library marks a switch is left out; the columns stay
		const mark = "[=true|false]"
		return strings.ReplaceAll(usages, mark, strings.Repeat(" ", len(mark)))
	})
	root.SetUsageTemplate(strings.ReplaceAll(root.UsageTemplate(), ".FlagUsages", ".FlagUsages | switches"))
	root.PersistentFlags().StringArray("rule", nil, "set a house `rule` for this run, such as --rule \"hanging centre=60in\"")
	root.AddCommand(buildCommand(), checkCommand(), seeCommand(), hangCommand(), rehearseCommand(), shareCommand(), paperCommand(), startCommand(), tryCommand(), pageCommand(), arrangeCommand(), compareCommand(), explainCommand())
	return root
}

// arguments lets a command have at least and at most so many.
func arguments(least, most int) cobra.PositionalArgs {
	return func(c *cobra.Command, args []string) error {
		switch {
		case len(args) < least:
			return fmt.Errorf("something is missing (write boothmock %s)", c.Use)
		case len(args) > most:
			return fmt.Errorf("%q is an unexpected argument (write boothmock %s; a name with blanks goes in quotes)", args[most], c.Use)
		}
		return nil
	}
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

// replaceFlag lets a command that writes outputs replace files that are not this program's.
func replaceFlag(c *cobra.Command) {
	c.Flags().Bool("replace", false, "replace what is in the way though boothmock did not make it; the scene and what it is made from stay, whatever you write")
}

// over is what an output of a booth, with such extensions, may be written over.
func over(c *cobra.Command, p *booth.Plan, ends ...string) disk.Over {
	replace, _ := c.Flags().GetBool("replace")
	return disk.Over{Ends: ends, Inputs: p.Inputs, Replace: replace}
}

// unlessStopped writes a file that is not kept if the program was interrupted meanwhile.
func unlessStopped(c *cobra.Command, write func(io.Writer) error) func(io.Writer) error {
	return func(w io.Writer) error { return cmp.Or(write(w), c.Context().Err()) }
}

// sceneArg is the scene that was named; or else booth.yaml where somebody stands who has one, and nothing, for the demo, where not.
func sceneArg(args []string) string {
	if len(args) > 0 {
		return args[0]
	}
	if _, err := os.Lstat(start.SceneFile); err == nil {
		return start.SceneFile
	}
	return ""
}
