package main

import (
	"crypto/sha256"
	"maps"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"
)

// changing is a booth before and after its pitch was changed: the files of a build have the same names, and nearly all are others.
var changing = [2]string{pitched("6ft"), pitched("7ft")}

func pitched(width string) string {
	return "units: in\npitch: {width: " + width + `, depth: 4ft, aisle: 4ft, neighbours: none}
walls: [{side: back, hang on: panel, top: 82}]
works:
  - {name: a, size: 12 x 18, weight: 6lb, image: a.jpg}
  - {name: b, size: 14 x 11, weight: 3lb}
  - {name: c, size: 10 x 10, weight: 2lb}
rows: [{wall: back, works: [a, b, c]}]
tags: {}
`
}

// sums are the files below a folder, by name, with the sum of their bytes.
func sums(t *testing.T, dir string) map[string][32]byte {
	t.Helper()
	named := map[string][32]byte{}
	err := filepath.WalkDir(dir, func(path string, d os.DirEntry, err error) error {
		if os.IsNotExist(err) || err == nil && d.IsDir() {
			return nil
		}
		b, err := os.ReadFile(path)
		named[strings.TrimPrefix(path, dir)] = sha256.Sum256(b)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return named
}

// Builds of a changed booth are killed over the one before, at moments from their first to their last, a third of them when
// the new folder is about to take its place. Whenever that is, the folder holds the build before or the new one, all of it,
// and what others have put there; what was begun is gone after the next build. KILLS says how often, KILLS_IN where.
func TestABuildThatIsKilled(t *testing.T) {
	kills, err := strconv.Atoi(os.Getenv("KILLS"))
	if err != nil {
		if kills = 8; !long() {
			t.Skip("so many builds take minutes")
		}
	}
	s := session{dir: t.TempDir()}
	if in := os.Getenv("KILLS_IN"); in != "" {
		if s.dir, err = os.MkdirTemp(in, "killed"); err != nil {
			t.Fatal(err)
		}
		t.Cleanup(func() { os.RemoveAll(s.dir) })
	}
	out := filepath.Join(s.dir, "mockup")
	lay(t, s.dir, map[string]string{"a.jpg": photograph(t)})
	begun := func() []string {
		found, _ := filepath.Glob(filepath.Join(s.dir, ".boothmock-*"))
		return found
	}
	var whole [2]map[string][32]byte
	complete := func(k int) (took time.Duration) {
		t.Helper()
		lay(t, s.dir, map[string]string{"booth.yaml": changing[k]})
		from := time.Now()
		if code, _, stderr := s.run(t, "build", "booth.yaml"); code == unusable {
			t.Fatalf("%d %s", code, stderr)
		}
		took = time.Since(from)
		if got := sums(t, out); whole[k] != nil && !maps.Equal(got, whole[k]) {
			t.Error("a run after one that was killed made other files")
		}
		if left := begun(); len(left) > 0 {
			t.Errorf("what was begun is still there: %v", left)
		}
		return took
	}
	complete(0) // fills the shelf
	lay(t, out, map[string]string{"notes.txt": "mine", "set-up/mine.jpg": "mine too", "deep/er/x": "x"})
	length := min(complete(1), complete(0))
	whole[0] = sums(t, out)
	complete(1)
	whole[1] = sums(t, out)
	differ := 0
	for name := range whole[1] {
		if whole[0][name] != whole[1][name] {
			differ++
		}
	}
	if len(whole[0]) < 20 || differ < 15 {
		t.Fatalf("of %d files only %d differ", len(whole[0]), differ)
	}
	r := rand.New(rand.NewPCG(5, 6))
	now, left, kept, made := 1, 0, 0, 0
	for n := range kills {
		if n%5 == 1 {
			os.RemoveAll(filepath.Join(s.dir, ".boothmock"))
		}
		next := 1 - now
		lay(t, s.dir, map[string]string{"booth.yaml": changing[next]})
		c := s.command("build", "booth.yaml")
		if err := c.Start(); err != nil {
			t.Fatal(err)
		}
		if n%3 == 2 {
			for from := time.Now(); time.Since(from) < 5*length; {
				if found, _ := filepath.Glob(filepath.Join(s.dir, ".boothmock-*.build", "whole")); len(found) > 0 {
					break
				}
			}
			time.Sleep(time.Duration(r.IntN(10_000)) * time.Microsecond)
		} else {
			time.Sleep(time.Duration((float64(n) + r.Float64()) / float64(kills) * 1.1 * float64(length)))
		}
		c.Process.Kill()
		c.Wait()
		left += min(1, len(begun()))
		switch got := sums(t, out); {
		case maps.Equal(got, whole[next]):
			made++
			now = next
		case maps.Equal(got, whole[now]):
			kept++
		default:
			t.Fatalf("kill %d: of %d files %v are neither all of the build before nor all of the new one", n, len(got), slices.Sorted(maps.Keys(got)))
		}
		if n%10 == 9 {
			complete(1 - now)
			now = 1 - now
			t.Logf("%d killed: %d left something begun; %d left the folder as it was, %d made it new", n+1, left, kept, made)
		}
	}
	t.Logf("a build takes %v; of %d, %d left something begun; %d left the folder as it was, %d made it new", length, kills, left, kept, made)
	if left < kills/4 || kept < kills/4 {
		t.Errorf("only %d builds had begun to write when they were killed, and %d left the folder as it was", left, kept)
	}
}
