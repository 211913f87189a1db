//go:build !unix || aix || solaris

package disk

import "os"

const (
	noWait      = 0
	renamesOpen = false
)

// hold does nothing: where files that are open cannot be removed, that is the lock.
func hold(*os.File) {}

// dead is whether it may be tried to remove the file.
func dead(*os.File) bool { return true }
