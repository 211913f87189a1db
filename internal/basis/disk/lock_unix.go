//go:build unix && !aix && !solaris

package disk

import (
	"os"
	"syscall"
)

const (
	noWait      = syscall.O_NONBLOCK // opening a pipe does not wait for its other end
	renamesOpen = true
)

// hold locks a file or folder until it is closed or its process ends. A disk without locks is no fault: nothing is swept there.
func hold(f *os.File) {
	for syscall.Flock(int(f.Fd()), syscall.LOCK_EX) == syscall.EINTR {
	}
}

// sameDisk is whether two folders are on one disk.
func sameDisk(a, b string) bool {
	var x, y syscall.Stat_t
	return syscall.Stat(a, &x) == nil && syscall.Stat(b, &y) == nil && x.Dev == y.Dev
}

// dead is whether nobody holds the file.
func dead(f *os.File) bool { return syscall.Flock(int(f.Fd()), syscall.LOCK_EX|syscall.LOCK_NB) == nil }
