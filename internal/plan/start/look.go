package start

import (
	"io/fs"
	"path"
	"slices"
	"strings"
	"unicode"

	"boothmock/internal/props/art"
	"boothmock/internal/props/stocklist"
)

// folder is what was found in a folder.
type folder struct {
	photos, sheets []string
	unusable       []string
}

const (
	maxDepth  = 3
	maxPhotos = 500
)

var (
	noPictures = []string{".cr2", ".cr3", ".nef", ".arw", ".dng", ".raf", ".orf", ".rw2", ".psd", ".gif", ".bmp", ".svg", ".pdf"}
	noSheets   = []string{".xls", ".numbers"}
)

const timesLog = ".times.csv" // how a log of practice times ends: it is no list of works

// isFile is whether a link leads to a file in the folder.
func isFile(fsys fs.FS, name string) bool {
	info, err := fs.Stat(fsys, name)
	return err == nil && info.Mode().IsRegular()
}

// look goes through the folder and those below it, but for hidden ones and those that hold what was built.
func look(fsys fs.FS) (f folder, err error) {
	err = fs.WalkDir(fsys, ".", func(name string, d fs.DirEntry, err error) error {
		switch {
		case err != nil && name == ".":
			return nothing("check the path", "the folder cannot be read")
		case err != nil:
			f.unusable = append(f.unusable, name+" cannot be read")
			return nil
		case name == ".":
			return nil
		case strings.HasPrefix(d.Name(), "."):
			if d.IsDir() {
				return fs.SkipDir
			}
			return nil
		case d.IsDir():
			if _, err := fs.Stat(fsys, path.Join(name, "booth.glb")); err == nil || strings.Count(name, "/") >= maxDepth {
				return fs.SkipDir
			}
			return nil
		}
		ext := strings.ToLower(path.Ext(name))
		known := art.Is(name) || stocklist.Is(name)
		switch {
		case strings.HasSuffix(strings.ToLower(name), timesLog):
		case known && !d.Type().IsRegular() && !isFile(fsys, name):
			f.unusable = append(f.unusable, name+" leads out of the folder, or is no file")
		case strings.ContainsFunc(name, unicode.IsControl):
			f.unusable = append(f.unusable, "a file whose name holds an invisible character: rename it")
		case art.Is(name):
			f.photos = append(f.photos, name)
		case stocklist.Is(name):
			f.sheets = append(f.sheets, name)
		case slices.Contains(noPictures, ext):
			f.unusable = append(f.unusable, name+": this kind of file cannot be read (save it as a JPEG)")
		case slices.Contains(noSheets, ext):
			f.unusable = append(f.unusable, name+": this kind of file cannot be read (save it as XLSX or CSV)")
		}
		return nil
	})
	if err == nil && len(f.photos) > maxPhotos {
		return f, nothing("start in the folder of one fair", "there are %d photographs here, more than %d", len(f.photos), maxPhotos)
	}
	return f, err
}
