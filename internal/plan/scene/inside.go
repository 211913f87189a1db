package scene

import (
	"errors"
	"io/fs"
	"path"
	"strings"

	"boothmock/internal/basis/unit"
)

// Inside is a path as typed in a scene, cleaned for use with the scene folder's fs.FS. A path that leads out of the
// folder, or is no path, is an error.
func Inside(typed string) (clean string, err error) {
	p := strings.ReplaceAll(strings.TrimSpace(typed), `\`, "/")
	switch {
	case p == "":
		return "", errors.New("the name of a file is empty")
	case strings.ContainsFunc(p, hidden) || strings.ContainsAny(p, "\n\t"):
		return "", errors.New("the name of a file holds an invisible control character")
	case path.IsAbs(p) || strings.Contains(p, ":"): // a root, a drive or an address
		return "", errors.New(unit.Quote(typed) + " is not a file in the scene's folder")
	}
	if p = path.Clean(p); !fs.ValidPath(p) || p == "." {
		return "", errors.New(unit.Quote(typed) + " is not a file in the scene's folder")
	}
	return p, nil
}
