//go:build !js

package try

import (
	"context"
	"path/filepath"
	"time"

	"github.com/fsnotify/fsnotify"
)

// settled is how long a file must have been left alone before it is read: editors write in several steps. Measured with none;
// common practice.
const settled = 100 * time.Millisecond

// Follow shows what others write into the scene's file, until the context ends. It watches the folder, as a file that is
// replaced is another file. Where folders cannot be watched, a change is found when it is saved over.
func (s *Session) Follow(ctx context.Context) {
	w, err := fsnotify.NewWatcher()
	if err != nil {
		return
	}
	defer w.Close()
	moved, stop := s.Watch() // the demo comes to have a file when it is saved
	defer stop()
	watched, name := "", ""
	look := time.NewTimer(time.Hour)
	look.Stop()
	defer look.Stop()
	for {
		if path := s.path(); path != watched && path != "" {
			if w.Add(filepath.Dir(path)) != nil {
				return
			}
			watched, name = path, filepath.Base(path)
			look.Reset(settled) // it may have changed before it was watched
		}
		select {
		case <-ctx.Done():
			return
		case <-moved:
		case e, ok := <-w.Events:
			if !ok {
				return
			}
			if filepath.Base(e.Name) == name {
				look.Reset(settled)
			}
		case _, ok := <-w.Errors:
			if !ok {
				return
			}
		case <-look.C:
			if text, err := textOf(watched); err == nil {
				s.mu.Lock()
				if s.shop.Path == watched { // not another variant by now
					s.changed(text)
				}
				s.mu.Unlock()
			}
		}
	}
}

func (s *Session) path() string {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.shop.Path
}
