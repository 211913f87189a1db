// Command paint makes the demo's pictures: it paints every work in Works as a JPEG into
// the folder given as its first argument (default "art"), or only the works named after
// it. The same program gives the same
// bytes on every run.
package main

import (
	"bytes"
	"fmt"
	"image/jpeg"
	"os"
	"path/filepath"
	"runtime"
	"sync"
)

// room is how many bytes a picture of n pixels may take, so that the whole demo stays
// under 2.2 MB and travels with the source.
func room(n int) int { return 20_000 + n*107/1000 }

func main() {
	dir := "art"
	if len(os.Args) > 1 {
		dir = os.Args[1]
	}
	only := map[string]bool{}
	for _, name := range os.Args[min(len(os.Args), 2):] {
		only[name] = true
	}
	if err := paintAll(dir, only); err != nil {
		fmt.Fprintln(os.Stderr, "paint:", err)
		os.Exit(1)
	}
}

// paintAll paints the works named in only, or all of them when it is empty.
func paintAll(dir string, only map[string]bool) error {
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return err
	}
	errs := make([]error, len(Works))
	seats := make(chan struct{}, runtime.GOMAXPROCS(0))
	var wg sync.WaitGroup
	for i, w := range Works {
		if len(only) > 0 && !only[w.Name] {
			continue
		}
		wg.Go(func() {
			seats <- struct{}{}
			defer func() { <-seats }()
			data, err := encode(w.paint(w))
			if err == nil {
				err = os.WriteFile(filepath.Join(dir, w.Name+".jpg"), data, 0o644)
			}
			errs[i] = err
		})
	}
	wg.Wait()
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}

// encode writes a JPEG at quality 86, going down in small steps until it fits its room.
func encode(c *canvas) ([]byte, error) {
	img := c.image()
	for q := 86; ; q -= 3 {
		var buf bytes.Buffer
		if err := jpeg.Encode(&buf, img, &jpeg.Options{Quality: q}); err != nil {
			return nil, err
		}
		if buf.Len() <= room(c.w*c.h) || q < 58 {
			return buf.Bytes(), nil
		}
	}
}
