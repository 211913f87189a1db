package picture

import (
	"io"
	"testing"
)

func BenchmarkDraw(b *testing.B) {
	s := fair(1600).stage()
	triangles := 0
	for _, u := range s.surfaces {
		for _, f := range u.facets {
			triangles += f.sides - 2
		}
	}
	for b.Loop() {
		s.Draw(entrance, Options{})
	}
	b.ReportMetric(float64(triangles), "triangles")
}

func BenchmarkIDs(b *testing.B) {
	s := fair(1600).stage()
	for b.Loop() {
		s.IDs(entrance, Options{})
	}
}

func BenchmarkNewStage(b *testing.B) {
	f := fair(1600)
	for b.Loop() {
		f.stage()
	}
}

func BenchmarkWritePNG(b *testing.B) {
	m := fair(1600).stage().Draw(entrance, Options{})
	for b.Loop() {
		if err := WritePNG(io.Discard, m); err != nil {
			b.Fatal(err)
		}
	}
}
