package disk

import (
	"os"

	"golang.org/x/sys/windows"
)

const (
	noWait      = 0
	renamesOpen = false
)

// far is the one byte that is locked: beyond the end of any file, so that nobody is kept from reading.
var far = windows.Overlapped{OffsetHigh: 1 << 30}

// hold locks a file until it is closed or its process ends. A folder cannot be locked, and is not.
func hold(f *os.File) {
	at := far
	windows.LockFileEx(windows.Handle(f.Fd()), windows.LOCKFILE_EXCLUSIVE_LOCK, 0, 1, 0, &at)
}

// sameDisk is whether two folders may be on one disk.
func sameDisk(a, b string) bool { return true }

// dead is whether nobody holds the file.
func dead(f *os.File) bool {
	at := far
	return windows.LockFileEx(windows.Handle(f.Fd()), windows.LOCKFILE_EXCLUSIVE_LOCK|windows.LOCKFILE_FAIL_IMMEDIATELY, 0, 1, 0, &at) == nil
}
