package try

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"

	"boothmock/internal/props/art"
)

// Loose is a photograph that lies beside those of the scene, and no work shows it: it can be brought as it lies there.
type Loose struct {
	Name  string `json:"name"`
	Image string `json:"image"` // its address
}

// mostLoose is how many are offered: as many as a booth may be started from.
const mostLoose = 500

// lookForLoose finds the photographs in the scene's own folder, and in those that something was read from.
func (s *Session) lookForLoose(inputs []string) {
	s.loose = nil
	if s.shop.Path == "" {
		return
	}
	root, err := os.OpenRoot(filepath.Dir(s.shop.Path))
	if err != nil {
		return
	}
	defer root.Close()
	folders := []string{"."}
	for _, file := range inputs {
		dir, err := filepath.Rel(root.Name(), filepath.Dir(file))
		if err == nil && filepath.IsLocal(dir) && !slices.Contains(folders, filepath.ToSlash(dir)) {
			folders = append(folders, filepath.ToSlash(dir))
		}
	}
	for _, dir := range folders {
		list, _ := fs.ReadDir(root.FS(), dir) // one that cannot be read has none
		for _, e := range list {
			info, err := e.Info()
			if err != nil || !info.Mode().IsRegular() || !art.Is(e.Name()) || len(s.loose) == mostLoose {
				continue
			}
			name := path.Join(dir, e.Name())
			h := sha256.Sum256(fmt.Append(nil, name, info.Size(), info.ModTime()))
			s.loose = append(s.loose, Loose{name, "image/" + hex.EncodeToString(h[:12])})
		}
	}
}

// looseNow are those that are in no work by now.
func (s *Session) looseNow() []Loose {
	out := []Loose{}
	for _, l := range s.loose {
		if !slices.Contains(s.booth.Plan.Inputs, filepath.Join(filepath.Dir(s.shop.Path), filepath.FromSlash(l.Name))) {
			out = append(out, l)
		}
	}
	return out
}

// image is the photograph, as small as it is shown before it is a work's; nil if it cannot be read.
func (l Loose) image(dir string) *art.Image {
	root, err := os.OpenRoot(dir)
	if err != nil {
		return nil
	}
	defer root.Close()
	const side = 640 // pixels
	i, err := art.Load(art.NewFolder(root), art.Wish{Name: l.Name, Side: side})
	if err != nil {
		return nil
	}
	return i
}
