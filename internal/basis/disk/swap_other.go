//go:build !linux && !darwin

package disk

import (
	"errors"
	"os"
)

// swap would exchange two names in a folder at once; this system cannot.
func swap(*os.File, string, string) error { return errors.ErrUnsupported }
