package main

import (
	"errors"
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"boothmock/internal/basis/disk"
	"boothmock/internal/whole"
)

func pageCommand() *cobra.Command {
	c := &cobra.Command{
		Use: "page --whole FILE", Short: "Write the whole program as one page, for people who install nothing: they open it in a browser", Args: arguments(0, 0),
	}
	file := c.Flags().String("whole", "", "`file` to write, a page")
	replaceFlag(c)
	c.RunE = func(c *cobra.Command, _ []string) error {
		parts, carried := whole.Carried()
		switch {
		case *file == "":
			return errors.New("the page needs a name (write for example --whole boothmock.html)")
		case !carried:
			return errors.New("this program was built without the page (bash .ci/release builds programs that carry it, and the page itself)")
		}
		replace, _ := c.Flags().GetBool("replace")
		over := disk.Over{Ends: []string{".html", ".htm"}, Replace: replace}
		if err := over.Check(*file); err != nil {
			return err
		}
		if err := disk.Write(*file, over, unlessStopped(c, func(w io.Writer) error { return whole.Write(w, parts, version()) })); err != nil {
			return err
		}
		fmt.Fprintf(c.OutOrStdout(), "%s is the whole program. Open it in a browser; it needs nothing else.\n", *file)
		return nil
	}
	return c
}
