package job_test

import (
	"context"
	"fmt"
	"io"
	"os"
	"testing"

	"boothmock/internal/basis/disk"
	"boothmock/internal/find/check"
	"boothmock/internal/find/hang"
	"boothmock/internal/find/order"
	"boothmock/internal/handout/glb"
	"boothmock/internal/handout/pack"
	"boothmock/internal/job"
	"boothmock/internal/view/light"
	"boothmock/internal/view/picture"
	"boothmock/scenes/crowd"
)

// BenchmarkPicture draws each picture of the demo at its final size and quality. With -cpu 1 each should take 0.8 s at
// most; fauxgl's own loop and shader are measured in package picture.
func BenchmarkPicture(b *testing.B) {
	m := demo(b)
	for _, p := range job.Pictures(m.Plan) {
		b.Run(p.Name, func(b *testing.B) {
			for b.Loop() {
				p.Draw(m, job.Look{})
			}
		})
	}
}

// BenchmarkReady is what comes once before all pictures: the daylight, and the images in all their sizes.
func BenchmarkReady(b *testing.B) {
	m := demo(b)
	for b.Loop() {
		picture.NewStage(m.Plan, light.Bake(m.Plan))
	}
}

func BenchmarkBuild(b *testing.B) {
	p, err := job.Load("", job.Settings{})
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		m, err := job.New(p)
		if err != nil {
			b.Fatal(err)
		}
		if _, err := job.Build(context.Background(), m, b.TempDir(), disk.Over{}, func(string) {}); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkSize is how the parts of a run grow with the works: checks, hooks, steps and the print pack; with SIZE=all the
// light, the .glb and the page too, and 3,000 works. The table Size of DEVELOPERS.md is BenchmarkSize of cmd/boothmock.
func BenchmarkSize(b *testing.B) {
	all := os.Getenv("SIZE") == "all"
	sizes := []int{1, 30, 300}
	if all {
		sizes = append(sizes, 3000)
	}
	for _, n := range sizes {
		path, err := crowd.Write(b.TempDir(), n)
		if err != nil {
			b.Fatal(err)
		}
		p, err := job.Load(path, job.Settings{})
		if err != nil {
			b.Fatal(err)
		}
		run := func(what string, f func() error) {
			b.Run(fmt.Sprintf("%s/%d", what, n), func(b *testing.B) {
				for b.Loop() {
					if err := f(); err != nil {
						b.Fatal(err)
					}
				}
			})
		}
		run("load", func() error { _, err := job.Load(path, job.Settings{}); return err })
		run("check", func() error { check.Run(p); return nil })
		run("hang", func() error { hang.Of(p); return nil })
		run("order", func() error { _, err := order.Of(p, order.Options{}); return err })
		run("pack", func() error { return pack.Write(io.Discard, p, hang.Of(p), pack.Options{}) })
		if !all {
			continue
		}
		lit := light.Bake(p)
		run("light", func() error { light.Bake(p); return nil })
		run("glb", func() error { return glb.Write(io.Discard, p, lit, glb.Motion{}) })
		m, err := job.New(p)
		if err != nil {
			b.Fatal(err)
		}
		run("page", func() error { return job.WritePage(m, io.Discard, job.Preview) })
	}
}
