//go:build (!unix && !windows) || aix || solaris

package disk

import "os"

const (
	noWait      = 0
	renamesOpen = false
)

// hold does nothing: there are no locks.
func hold(*os.File) {}

// sameDisk is whether two folders may be on one disk.
func sameDisk(a, b string) bool { return true }

// dead is whether it may be tried to remove the file.
func dead(*os.File) bool { return true }
