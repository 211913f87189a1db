package try

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"unicode"

	"boothmock/internal/basis/disk"
	"boothmock/internal/basis/unit"
	"boothmock/internal/plan/scene"
	"boothmock/internal/props/art"
)

// photograph brings a work by its photograph, File, that was called Name: it is copied beside the scene, and a work with a title
// and a size, Text, that is height x width, waits to be hung. A loose one stays where it lies, and File is empty.
func (s *Session) photograph(a Ask) (string, error) {
	if s.shop.Path == "" {
		return "", refuse("Save the demo as a booth of your own first: the photograph is copied into its folder")
	}
	size, err := unit.ParseSize(a.Text, s.booth.Plan.Units, true)
	if err != nil {
		return "", err
	}
	title := strings.Join(strings.Fields(a.Title), " ")
	if title == "" {
		return "", refuse("Give the work a title")
	}
	file, added := a.Name, false
	if !slices.ContainsFunc(s.looseNow(), func(l Loose) bool { return l.Name == a.Name && a.File == nil }) {
		if len(a.File) == 0 || len(a.File) > art.MaxBytes {
			return "", refuse("A photograph of %d MB at most is needed", art.MaxBytes/1_000_000)
		}
		if file, added, err = s.copied(a.Name, a.File); err != nil {
			return "", err
		}
	}
	entry := scene.Entry{{Key: "name", Value: newName(shortName(title), s.scene.Items("works"))}, {Key: "title", Value: title}, {Key: "image", Value: file}, {Key: "size", Value: size}}
	said, err := s.append("works", entry, title+" is new and waits")
	if err != nil && added {
		err = errors.Join(err, disk.Remove(filepath.Join(filepath.Dir(s.shop.Path), filepath.FromSlash(file))))
	}
	return said, err
}

// copied puts a photograph into the folder that those of the scene's works are in, under a name of its own unless the same is there.
func (s *Session) copied(name string, file []byte) (as string, added bool, err error) {
	ext := strings.ToLower(path.Ext(name))
	stem := plainStem(strings.TrimSuffix(name, path.Ext(name)))
	if plainStem(ext) == "" {
		return "", false, refuse("%s is no photograph", unit.Quote(name))
	}
	folder := ""
	for _, w := range s.index.works {
		if image, ok := w.item.Values()["image"].(string); ok {
			folder = path.Dir(filepath.ToSlash(image))
		}
	}
	dir := filepath.Dir(s.shop.Path)
	root, err := os.OpenRoot(dir)
	if err != nil {
		return "", false, err
	}
	defer root.Close()
	for n := 1; ; n++ {
		as = path.Join(folder, stem+map[bool]string{true: "", false: fmt.Sprint("-", n)}[n == 1]+"."+plainStem(ext))
		there, err := disk.Read(disk.Folder{Root: root}, as, art.MaxBytes)
		if err == nil && bytes.Equal(there, file) {
			return as, false, nil
		}
		if errors.Is(err, fs.ErrNotExist) {
			break
		}
	}
	files, err := disk.Inside(root, dir)
	if err != nil {
		return "", false, err
	}
	defer files.Close()
	if err := files.WriteNew(as, func(w io.Writer) error { _, err := w.Write(file); return err }); err != nil {
		return "", false, err
	}
	return as, true, files.Keep()
}

// plainStem is a name of letters, digits and hyphens.
func plainStem(name string) string {
	out := strings.FieldsFunc(path.Base(strings.ReplaceAll(name, `\`, "/")), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
	stem := []rune(strings.Join(out, "-"))
	return string(stem[:min(len(stem), 60)])
}

// Words that a title's first phrase ends before, and those that are no names.
var (
	links    = strings.Fields("at in on by with of from over under near after before and or for to into an am im auf mit bei von vor nach über unter und oder zu zum zur in à au aux de du des dans sur sous avec et ou del al en con y o di da su")
	articles = strings.Fields("a an the der die das ein eine le la les l un une el il lo")
)

// shortName is what a row calls a work: the last word of its title's first phrase, as "boats" for "Two boats, evening".
func shortName(title string) string {
	name := ""
	for phrase := range strings.FieldsFuncSeq(strings.ToLower(title), func(r rune) bool { return strings.ContainsRune(",;:.–—()", r) }) {
		for _, w := range strings.FieldsFunc(phrase, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) }) {
			switch {
			case name != "" && slices.Contains(links, w):
				return name
			case !slices.Contains(articles, w):
				name = w
			}
		}
		if name != "" {
			return name
		}
	}
	return "work"
}
