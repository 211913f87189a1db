package main

import (
	"crypto/sha256"
	"maps"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"
)

// changing is a booth before and after its pitch was changed: the files of a build have the same names, and nearly all are others.
var changing = [2]string{pitched("6ft"), pitched("7ft")}

func pitched(width string) string {
	return "units: in\npitch: {width: " + width + `, depth: 4ft, aisle: 4ft}
walls: [{side: back, hang on: panel, top: 82}]
works:
  - {name: a, size: 12 x 18, weight: 6lb, image: a.jpg}
  - {name: b, size: 14 x 11, weight: 3lb}
  - {name: c, size: 10 x 10, weight: 2lb}
rows: [{wall: back, works: [a, b, c]}]
tags: {}
`
}

// sums are the files below a folder, by name, with the sum of their bytes; and those with passing names.
func sums(t *testing.T, dir string) (named map[string][32]byte, passing []string) {
	t.Helper()
	named = map[string][32]byte{}
	err := filepath.WalkDir(dir, func(path string, d os.DirEntry, err error) error {
		switch {
		case os.IsNotExist(err) || err == nil && d.IsDir():
			return nil
		case err != nil:
			return err
		case strings.HasSuffix(path, ".part"):
			passing = append(passing, path)
			return nil
		}
		b, err := os.ReadFile(path)
		named[strings.TrimPrefix(path, dir)] = sha256.Sum256(b)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return named, passing
}

// A build of a changed booth is killed fifty times over the one before, at moments from its first to its last. Whenever that
// is, the folder holds the build before or the new one, all of it; what was begun is gone when the next run begins to
// write, and all of it after the next that comes to its end. Only a run that dies while it gives the names, which takes a
// thousandth of a second, may leave new files beside old ones: then all new ones were whole, and every one is there.
func TestABuildThatIsKilled(t *testing.T) {
	if !long() {
		t.Skip("fifty builds take minutes")
	}
	s := session{dir: t.TempDir()}
	out := filepath.Join(s.dir, "mockup")
	lay(t, s.dir, map[string]string{"a.jpg": photograph(t)})
	var whole [2]map[string][32]byte
	complete := func(k int) (took time.Duration) {
		t.Helper()
		lay(t, s.dir, map[string]string{"booth.yaml": changing[k]})
		begun := time.Now()
		if code, _, stderr := s.run(t, "build", "booth.yaml"); code == unusable || stderr != "" {
			t.Fatalf("%d %s", code, stderr)
		}
		took = time.Since(begun)
		got, _ := sums(t, out)
		if whole[k] == nil {
			whole[k] = got
		}
		if !maps.Equal(got, whole[k]) {
			t.Error("a run after one that was killed made other files")
		}
		if _, litter := sums(t, s.dir); len(litter) > 0 {
			t.Errorf("what was begun is still there: %v", litter)
		}
		return took
	}
	length := min(complete(0), complete(1), complete(0)) // the first fills the shelf
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
	began, kept, ended, mixed := 0, 0, 0, 0
	for n := range 50 {
		if n%7 == 3 {
			os.RemoveAll(out)
		}
		if n%5 == 1 {
			os.RemoveAll(filepath.Join(s.dir, ".boothmock"))
		}
		old, litter := sums(t, out)
		next := 0
		if maps.Equal(old, whole[0]) {
			next = 1
		}
		lay(t, s.dir, map[string]string{"booth.yaml": changing[next]})
		c := s.command("build", "booth.yaml")
		if err := c.Start(); err != nil {
			t.Fatal(err)
		}
		time.Sleep(time.Duration((float64(n) + r.Float64()) / 50 * 1.1 * float64(length)))
		c.Process.Kill()
		c.Wait()
		got, begun := sums(t, out)
		if i := slices.IndexFunc(begun, func(path string) bool { return !slices.Contains(litter, path) }); i >= 0 {
			began++
			for _, path := range litter {
				if filepath.Dir(path) == filepath.Dir(begun[i]) && slices.Contains(begun, path) {
					t.Errorf("kill %d: %s is of an earlier run", n, path)
				}
			}
		}
		switch {
		case maps.Equal(got, old):
			kept++
		case maps.Equal(got, whole[next]):
			ended++
		default:
			mixed++
			waiting := 0 // for their names
			for name, sum := range whole[next] {
				if got[name] != sum {
					waiting++
				}
			}
			for name, sum := range got {
				if sum != old[name] && sum != whole[next][name] {
					t.Errorf("kill %d: %s is neither the old one nor the new one", n, name)
				}
			}
			for name := range old {
				if _, ok := got[name]; !ok {
					t.Errorf("kill %d: %s is gone", n, name)
				}
			}
			if waiting > len(begun) {
				t.Errorf("kill %d: %d files are not the new ones, and only %d wait for their names", n, waiting, len(begun))
			}
		}
		if n%5 == 4 {
			complete(next)
		}
	}
	t.Logf("a build takes %v; of 50, %d had begun to write when they were killed; %d left the folder as it was, %d made it new, %d died while they gave names", length, began, kept, ended, mixed)
	if began < 20 || kept < 20 {
		t.Errorf("only %d builds had begun to write when they were killed, and %d left the folder as it was", began, kept)
	}
}
