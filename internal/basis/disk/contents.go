package disk

import (
	"cmp"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"io"
	"os"
	"path"
	"slices"

	"boothmock/internal/basis/imprint"
)

// ContentsFile says which files of a folder belong to its set, and what is in them: so nothing else is taken away with them,
// and whoever copied the folder can find out whether all of it came along.
const ContentsFile = "contents.json"

// Entry is a file of a set.
type Entry struct {
	Name   string `json:"name"`
	Bytes  int64  `json:"bytes"`
	SHA256 string `json:"sha256"` // of the file (FIPS 180-4), in hexadecimal digits
}

type contentsList struct {
	Holds string  `json:"holds"`
	Files []Entry `json:"files"`
}

// list is the text of a contents file.
func list(holds string, entries []Entry) ([]byte, error) {
	slices.SortFunc(entries, func(a, b Entry) int { return cmp.Compare(a.Name, b.Name) })
	b, err := json.MarshalIndent(contentsList{holds, entries}, "", "  ")
	return append(imprint.InJSON(b), '\n'), err
}

// contents are the files that a folder's own list says it holds, by name; nil if it holds no such set.
func contents(root *os.Root, dir, holds string) map[string]Entry {
	b, err := Read(Folder{Root: root}, path.Join(dir, ContentsFile), 1<<24)
	if err != nil {
		return nil
	}
	var c contentsList
	if _, ours := imprint.Of(b); !ours || json.Unmarshal(b, &c) != nil || holds != "" && c.Holds != holds {
		return nil
	}
	out := map[string]Entry{}
	for _, e := range c.Files {
		out[e.Name] = e
	}
	return out
}

// unchanged is whether a file is the one of the entry.
func (e Entry) unchanged(root *os.Root, name string) bool {
	info, err := root.Lstat(name)
	if err != nil || !info.Mode().IsRegular() || info.Size() != e.Bytes {
		return false
	}
	f, err := root.OpenFile(name, os.O_RDONLY|noWait, 0)
	if err != nil {
		return false
	}
	defer f.Close()
	h := sha256.New()
	_, err = io.Copy(h, f)
	return err == nil && hex.EncodeToString(h.Sum(nil)) == e.SHA256
}
