package main

import (
	"context"
	"fmt"
	"io"
	"os"
	"sync"

	"boothmock/internal/basis/disk"
	"boothmock/internal/basis/geom"
	"boothmock/internal/basis/sight"
	"boothmock/internal/find/arrange"
	"boothmock/internal/job"
	"boothmock/internal/plan/scene"
	"boothmock/internal/view/light"
	"boothmock/internal/view/picture"
)

// bench is one thing to measure. ready prepares it and gives a run of it, which does it so many times.
type bench struct {
	name  string
	times int
	ready func() (run func(), err error)
}

// benches are the benchmarks, all on the built-in demo but the first. A new one is one entry; -record adds it to the file,
// where its budget is then written by hand.
func benches() []bench {
	return []bench{
		{"a sight query past 30 boxes", 100_000, query},
		{"intake: scene and photographs", 1, func() (func(), error) {
			return func() { must(job.Load("", job.Settings{})) }, nil
		}},
		{"daylight", 1, made(func(m *job.Mockup) { light.Bake(m.Plan) })},
		{"a picture, 1920 x 1080", 1, made(func(m *job.Mockup) { m.Stage().Draw(m.Plan.Views[0], picture.Options{}) })},
		{"the film", 1, made(output("walk-in.gif"))},
		{"the .glb", 1, made(output("booth.glb"))},
		{"the page, its pictures drawn", 1, made(output("share.html"))},
		{"moved: scene, plan, findings", 1, moved(func(m *job.Mockup, _ *light.Lit) { m.Report() })},
		{"moved: plan and elevations", 1, moved(func(m *job.Mockup, _ *light.Lit) { drawings(m) })},
		{"moved: preview of the light", 1, moved(func(m *job.Mockup, before *light.Lit) { before.Preview(context.Background(), m.Plan) })},
		{"moved: the full light", 1, moved(func(m *job.Mockup, before *light.Lit) { before.Next(context.Background(), m.Plan) })},
		{"an arrangement", 1, made(func(m *job.Mockup) { arrange.Propose(m.Plan) })},
		{"everything: the whole build", 1, func() (func(), error) { return build, nil }},
	}
}

// query looks past rows of boxes at a wall.
func query() (func(), error) {
	box := func(lo, hi geom.Vec) geom.Convex { return geom.Box(geom.World, lo, hi) }
	var solids []sight.Solid
	for i := range 30 {
		x, z := -1.5+0.33*float64(i%10), 0.5+0.64*float64(i/10)
		solids = append(solids, sight.NewSolid(box(geom.Vec{X: x, Z: z}, geom.Vec{X: x + 0.05 + 0.08*float64(i%3), Y: 1 + 0.15*float64(i%7), Z: z + 0.1}), i))
	}
	eye, wall := geom.Vec{X: -0.13, Y: 1.52, Z: 3.05}, geom.Rect(geom.World, -0.5, 0.9, 0.5, 1.8)
	var g sight.Gaze
	return func() {
		for range 100_000 {
			g.See(eye, wall, solids, -1)
		}
	}, nil
}

var demo = sync.OnceValues(func() (*job.Mockup, error) {
	p, err := job.Load("", job.Settings{})
	if err != nil {
		return nil, err
	}
	return job.New(p)
})

// moved edits the demo's scene, so that the works of a wall hang elsewhere, and the next time the table stands elsewhere, builds the
// plan, and does something with the mock-up and the daylight of the first version.
func moved(do func(m *job.Mockup, before *light.Lit)) func() (func(), error) {
	return func() (func(), error) {
		w := &job.Workshop{}
		f, err := w.Read()
		if err != nil {
			return nil, err
		}
		m := must(job.New(must(w.Build(must(w.Read())))))
		m.Report()
		drawings(m)
		before, n := m.Lit(), 0
		paths := []scene.Path{must(scene.ParsePath("rows[right].centre")), must(scene.ParsePath("tables[prints].from front"))}
		return func() {
			f = must(f.Set(paths[n%2], fmt.Sprintf("%d 1/%d", 52+n/2%8, 2<<(n/16%3))))
			m = must(m.Next(must(w.Build(f))))
			do(m, before)
			n++
		}, nil
	}
}

// drawings are the plan and the elevations.
func drawings(m *job.Mockup) {
	for _, p := range job.Pictures(m.Plan) {
		if p.View == nil {
			p.Draw(m, job.Look{})
		}
	}
}

// made runs something on the demo. What it makes once and keeps, such as pictures, is made before.
func made(do func(m *job.Mockup)) func() (func(), error) {
	return func() (func(), error) {
		m, err := demo()
		if err == nil {
			do(m)
		}
		return func() { do(m) }, err
	}
}

// output writes one file of a build, to nowhere.
func output(name string) func(m *job.Mockup) {
	return func(m *job.Mockup) {
		for _, o := range job.Outputs(m) {
			if o.Name == name {
				must(0, o.Write(m, io.Discard))
				return
			}
		}
		panic(fmt.Sprintf("a build has no %s", name))
	}
}

// build is what boothmock build does without a scene.
func build() {
	dir := must(os.MkdirTemp("", "bench"))
	defer os.RemoveAll(dir)
	m := must(job.New(must(job.Load("", job.Settings{}))))
	must(job.Build(context.Background(), m, dir, disk.Over{}, func(string) {}))
}

// must is for what the tests say cannot go wrong with the demo.
func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}
