package shade

import (
	"io/fs"
	"testing"

	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/kinds"
	"boothmock/internal/plan/rules"
	"boothmock/internal/plan/scene"
	"boothmock/scenes"
)

func example(t testing.TB, text string) *booth.Plan {
	t.Helper()
	f, err := scene.Parse("a.yaml", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	p, err := kinds.Build(f, rules.Book{}, scenes.FS)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func read(t testing.TB, name string) string {
	b, err := fs.ReadFile(scenes.FS, name)
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}

func BenchmarkFindings(b *testing.B) {
	p := example(b, "fair: {dates: [2026-06-13, 2026-06-14], zone: America/Chicago, latitude: 42.5, longitude: -90, entrance faces: south-west}\n"+read(b, "demo.yaml"))
	for b.Loop() {
		Findings(p)
	}
}
