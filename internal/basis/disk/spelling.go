package disk

import (
	"io/fs"
	"path"
	"strings"

	"golang.org/x/text/unicode/norm"
)

// spelled is a name as its folders spell it, where they do otherwise: é may be one character, or e with an accent after it
// (forms C and D of Unicode Standard Annex 15), and most disks keep whichever they were given.
func spelled(fsys fs.FS, name string) (string, bool) {
	if strings.IndexFunc(name, func(r rune) bool { return r > 0x7f }) < 0 {
		return "", false // there is one spelling of it
	}
	at := "."
	for _, part := range strings.Split(name, "/") {
		next := path.Join(at, part)
		if _, err := fs.Stat(fsys, next); err != nil {
			entries, err := fs.ReadDir(fsys, at)
			if err != nil {
				return "", false
			}
			next = ""
			for _, e := range entries {
				if norm.NFC.String(e.Name()) == norm.NFC.String(part) {
					next = path.Join(at, e.Name())
				}
			}
			if next == "" {
				return "", false
			}
		}
		at = next
	}
	return at, at != name
}
