package job

import (
	"context"
	"fmt"
	"io"
	"runtime"
	"sync"

	"boothmock/internal/basis/disk"
	"boothmock/internal/find/order"
	"boothmock/internal/handout/glb"
	"boothmock/internal/view/film"
	"boothmock/internal/view/picture"
)

// Output is a file that a build writes.
type Output struct {
	Name  string
	Doc   string
	Write func(m *Mockup, w io.Writer) error
}

// Outputs are the files of a build of this booth, in the order in which they are begun: what takes longest comes first, so
// that no processor is idle in the end. A new output is one entry.
func Outputs(m *Mockup) []Output {
	out := []Output{
		{"walk-in.gif", "A visitor walks up the aisle and steps in, as a moving picture for a mail.", WriteGIF},
		{"share.html", "One page to hand over: walk the booth, hang, set up, tick lists; on a phone, without a network.", func(m *Mockup, w io.Writer) error { return WritePage(m, w, Preview) }},
	}
	if film.HasWebP {
		out = append(out, Output{"walk-in.webp", "The same for a message or a browser: all colours, and a quarter of the size.", WriteWebP})
	}
	for _, d := range Pictures(m.Plan) {
		out = append(out, Output{d.Name + ".png", d.Doc, func(m *Mockup, w io.Writer) error {
			return picture.WritePNG(w, m.picture(d))
		}})
	}
	if m.sunny() {
		out = append(out, Output{"day.png", "The booth from the entrance at every hour of the fair's first day, with the sun where it stands.", func(m *Mockup, w io.Writer) error {
			return picture.WritePNG(w, m.wholeDay())
		}})
	}
	for i, s := range m.SetUp().Steps {
		if blank(m.SetUp(), s) {
			continue
		}
		out = append(out, Output{stepFile(s), fmt.Sprintf("The booth after step %d: %s.", s.Number, s.Name), func(m *Mockup, w io.Writer) error {
			return picture.WritePNG(w, m.Steps()[order.SetUp][i])
		}})
	}
	return append(out,
		Output{"booth.glb", "The booth in three dimensions, for any viewer of glTF.", func(m *Mockup, w io.Writer) error {
			return glb.Write(w, m.Plan, m.Lit(), m.motion())
		}},
		Output{"findings.json", "What the checks found, every sightline and every clear width.", WriteFindings},
		Output{"hang.json", "Where every hook goes, what it carries, wind, rain and lists, as numbers.", WriteSheet},
		Output{"print-pack.pdf", "To print: walls to scale, hang sheet, price tags, lists.", func(m *Mockup, w io.Writer) error {
			return WritePack(m, w, false)
		}},
		Output{"rehearse.json", "The set-up: every step with its times, hands, loads and cautions.", func(m *Mockup, w io.Writer) error {
			return WriteRehearsal(m, m.SetUp(), w)
		}},
		Output{"timeline.svg", "The set-up as a drawing: when each step is, and which ones must not be late.", func(m *Mockup, w io.Writer) error {
			return m.SetUp().WriteTimeline(w)
		}},
		Output{"set-up.pdf", "To print: the set-up step by step, with pictures.", func(m *Mockup, w io.Writer) error { return writeSteps(m, m.SetUp(), w) }},
		Output{"strike.pdf", "To print: taking down step by step, with pictures.", func(m *Mockup, w io.Writer) error { return writeSteps(m, m.Strike(), w) }},
		Output{"night.pdf", "To print: leaving it for the night step by step, with pictures.", func(m *Mockup, w io.Writer) error { return writeSteps(m, m.Night(), w) }},
		Output{Preview, "The picture that messages show beside the page.", WritePreview},
	)
}

// Built is what a build left.
type Built struct {
	Dir    string   // where the files are
	Why    string   // why that is a folder within the one that was asked for; "" if it is that one
	Files  int      // how many there are
	Stayed []string // names of what others have put there
}

// Build writes every output of the booth into dir, which is made if it is not there, several at a time; or into a folder
// within it, if dir holds other things. done is called after each file, never twice at once. At the first error, or when the
// context is cancelled, no further file is begun and the folder stays as it was: it is exchanged as a whole.
func Build(ctx context.Context, m *Mockup, dir string, over disk.Over, done func(name string)) (Built, error) {
	return writeAll(ctx, m, dir, Outputs(m), over, done)
}

func writeAll(ctx context.Context, m *Mockup, dir string, outputs []Output, over disk.Over, done func(name string)) (Built, error) {
	var names []string
	for _, o := range outputs {
		names = append(names, o.Name)
	}
	set, err := disk.NewSet(dir, "mockup", names, over)
	if err != nil {
		return Built{}, err
	}
	defer set.Close()
	ctx, stop := context.WithCancelCause(ctx)
	defer stop(nil)
	todo := make(chan Output)
	var workers sync.WaitGroup
	var one sync.Mutex
	for range runtime.GOMAXPROCS(0) {
		workers.Go(func() {
			for o := range todo {
				err := set.Write(o.Name, func(w io.Writer) error { return o.Write(m, w) })
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
	for _, o := range outputs {
		if ctx.Err() != nil {
			break
		}
		todo <- o
	}
	close(todo)
	workers.Wait()
	if ctx.Err() != nil {
		return Built{}, context.Cause(ctx)
	}
	stayed, err := set.Keep()
	return Built{set.Dir, set.Why, len(names) + 1, stayed}, err // and the list of them
}
