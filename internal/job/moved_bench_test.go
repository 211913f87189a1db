package job_test

import (
	"fmt"
	"testing"

	"boothmock/internal/job"
	"boothmock/internal/scene"
)

// BenchmarkMoved is what takes time after a table, or the works of a wall, are moved: the text edited and the plan rebuilt,
// all findings, …
func BenchmarkMoved(b *testing.B) {
	for _, edit := range []struct{ name, path string }{{"table", "tables[prints].from front"}, {"work", "rows[right].centre"}} {
		at, err := scene.ParsePath(edit.path)
		if err != nil {
			b.Fatal(err)
		}
		w := &job.Workshop{}
		f, err := w.Read()
		if err != nil {
			b.Fatal(err)
		}
		p, err := w.Build(f)
		if err != nil {
			b.Fatal(err)
		}
		m, err := job.New(p)
		if err != nil {
			b.Fatal(err)
		}
		m.Report()
		b.Run("plan/"+edit.name, func(b *testing.B) {
			for n := 0; b.Loop(); n++ {
				f, err = f.Set(at, fmt.Sprintf("%d 1/4", 20+n%20))
				if err != nil {
					b.Fatal(err)
				}
				if p, err = w.Build(f); err != nil {
					b.Fatal(err)
				}
			}
		})
		b.Run("report/"+edit.name, func(b *testing.B) {
			for n := 0; b.Loop(); n++ {
				f, err = f.Set(at, fmt.Sprintf("%d 1/4", 50+n%10))
				if err != nil {
					b.Fatal(err)
				}
				if p, err = w.Build(f); err != nil {
					b.Fatal(err)
				}
				if m, err = m.Next(p); err != nil {
					b.Fatal(err)
				}
				m.Report()
			}
		})
	}
}
