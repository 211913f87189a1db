package main

import (
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"syscall"
	"testing"

	"boothmock/scenes/crowd"
)

// BenchmarkSize is the table Size of DEVELOPERS.md: what each command takes for booths of 1, 30 and 300 works, as a whole
// process; with SIZE=all, for 3,000 too, which takes half an hour. Run it with -benchtime 1x.
func BenchmarkSize(b *testing.B) {
	bin := filepath.Join(b.TempDir(), "boothmock")
	if out, err := exec.Command("go", "build", "-o", bin, ".").CombinedOutput(); err != nil {
		b.Fatalf("%v\n%s", err, out)
	}
	sizes := []int{1, 30, 300}
	if os.Getenv("SIZE") == "all" {
		sizes = append(sizes, 3000)
	}
	for _, n := range sizes {
		dir := b.TempDir()
		if _, err := crowd.Write(dir, n); err != nil {
			b.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(dir, "works.csv"), []byte(crowd.Sheet(n)), 0o644); err != nil {
			b.Fatal(err)
		}
		for _, args := range [][]string{
			{"check"}, {"rehearse"}, {"hang"}, {"arrange"}, {"see", "--from", "entrance", "--out", "see/see.png"}, {"share", "--out", "share/share.html"}, {"build", "--out", "all"},
		} {
			b.Run(fmt.Sprintf("%d/%s", n, args[0]), func(b *testing.B) { measure(b, bin, dir, append(args, "booth.yaml")) })
		}
		b.Run(fmt.Sprintf("%d/start", n), func(b *testing.B) {
			if err := os.Remove(filepath.Join(dir, "booth.yaml")); err != nil {
				b.Fatal(err)
			}
			measure(b, bin, dir, []string{"start", "."})
		})
	}
}

// measure runs the program in dir and reports its processor time, its greatest memory, and what it wrote.
func measure(b *testing.B, bin, dir string, args []string) {
	for b.Loop() {
		before := weight(b, dir)
		c := exec.Command(bin, args...)
		c.Dir = dir
		out, err := c.CombinedOutput()
		if c.ProcessState == nil {
			b.Fatal(err)
		}
		if c.ProcessState.ExitCode() == unusable {
			b.Logf("refused: %.300s", out)
		}
		use := c.ProcessState.SysUsage().(*syscall.Rusage)
		b.ReportMetric((c.ProcessState.UserTime() + c.ProcessState.SystemTime()).Seconds(), "cpu-s")
		b.ReportMetric(float64(use.Maxrss)/1024, "MB-peak")
		b.ReportMetric(float64(weight(b, dir)-before)/1e6, "MB-written")
	}
}

// weight is how many bytes are in a folder.
func weight(b *testing.B, dir string) (n int64) {
	err := filepath.WalkDir(dir, func(_ string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		info, err := d.Info()
		if err == nil {
			n += info.Size()
		}
		return err
	})
	if err != nil {
		b.Fatal(err)
	}
	return n
}
