package disk

import (
	"os"

	"golang.org/x/sys/unix"
)

// swap exchanges two names in a folder at once. Not every disk can.
func swap(dir *os.File, a, b string) error {
	return unix.RenameatxNp(int(dir.Fd()), a, int(dir.Fd()), b, unix.RENAME_SWAP)
}
