package job

import (
	"context"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"sync"

	"boothmock/internal/booth"
	"boothmock/internal/check"
	"boothmock/internal/glb"
	"boothmock/internal/hang"
	"boothmock/internal/light"
	"boothmock/internal/picture"
)

// Made is a booth with everything that outputs are made of.
type Made struct {
	Plan   *booth.Plan
	Report check.Report
	Sheet  hang.Sheet
	Lit    *light.Lit
	Stage  *picture.Stage
}

// Make checks the booth, lights it and makes it ready to draw.
func Make(p *booth.Plan) *Made {
	lit := light.Bake(p)
	return &Made{Plan: p, Report: check.Run(p), Sheet: hang.Of(p), Lit: lit, Stage: picture.NewStage(p, lit)}
}

// Output is a file that a build writes.
type Output struct {
	Name  string
	Doc   string
	Write func(m *Made, w io.Writer) error
}

// Outputs are the files of a build of this booth, in the order in which they are written. A new output is one entry.
func Outputs(p *booth.Plan) []Output {
	var out []Output
	for _, d := range Pictures(p) {
		out = append(out, Output{d.Name + ".png", d.Doc, func(m *Made, w io.Writer) error {
			return picture.WritePNG(w, d.Draw(m, Look{}))
		}})
	}
	return append(out,
		Output{"booth.glb", "The booth in three dimensions, for any viewer of glTF.", func(m *Made, w io.Writer) error {
			return glb.Write(w, m.Plan, m.Lit)
		}},
		Output{"findings.json", "What the checks found, every sightline and every clear width.", func(m *Made, w io.Writer) error {
			return WriteJSON(w, m.Report)
		}},
		Output{"hang.json", "Where every hook goes, what it carries, wind, rain and lists, as numbers.", func(m *Made, w io.Writer) error {
			return WriteJSON(w, m.Sheet)
		}},
		Output{"print-pack.pdf", "To print: walls to scale, hang sheet, price tags, lists.", func(m *Made, w io.Writer) error {
			return WritePack(m, w, false)
		}},
	)
}

// WriteJSON writes v as indented JSON.
func WriteJSON(w io.Writer, v any) error {
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	return e.Encode(v)
}

// Build writes every output of the booth into dir, which is made if it is not there, several at a time. done is called
// after each file, never twice at once. At the first error, or when the context is cancelled, no further file is begun.
func Build(ctx context.Context, m *Made, dir string, done func(name string)) error {
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return fmt.Errorf("cannot make the folder %s: %w", dir, err)
	}
	ctx, stop := context.WithCancelCause(ctx)
	defer stop(nil)
	todo := make(chan Output)
	var workers sync.WaitGroup
	var one sync.Mutex
	for range runtime.GOMAXPROCS(0) {
		workers.Go(func() {
			for o := range todo {
				err := WriteFile(filepath.Join(dir, o.Name), func(w io.Writer) error { return o.Write(m, w) })
				one.Lock()
				if err != nil {
					stop(err) // the first one counts
				} else {
					done(o.Name)
				}
				one.Unlock()
			}
		})
	}
	for _, o := range Outputs(m.Plan) {
		if ctx.Err() != nil {
			break
		}
		todo <- o
	}
	close(todo)
	workers.Wait()
	return context.Cause(ctx)
}
