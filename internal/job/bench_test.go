package job_test

import (
	"context"
	"testing"

	"boothmock/internal/job"
	"boothmock/internal/light"
	"boothmock/internal/picture"
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
		m, err := job.Make(p)
		if err != nil {
			b.Fatal(err)
		}
		if err := job.Build(context.Background(), m, b.TempDir(), func(string) {}); err != nil {
			b.Fatal(err)
		}
	}
}
