package job

import (
	"cmp"
	"context"
	"image"
	"slices"
	"sync"
	"sync/atomic"

	"boothmock/internal/basis/answer"
	"boothmock/internal/find/check"
	"boothmock/internal/find/hang"
	"boothmock/internal/find/order"
	"boothmock/internal/find/shade"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/finding"
	"boothmock/internal/plan/start"
	"boothmock/internal/view/light"
	"boothmock/internal/view/picture"
)

// Mockup is a booth that can be asked. Each answer is worked out when it is first asked for, and once, whoever asks and
// from however many goroutines: so a drawing in even light never waits for daylight.
type Mockup struct {
	Plan *booth.Plan

	Checks func() check.Result    // what is seen, what is in the way, what fits
	Sheet  func() hang.Sheet      // hooks, loads, wind and rain, lists
	SetUp  func() order.Rehearsal // for the scene's own people, with the practice times beside the scene, as the two below
	Strike func() order.Rehearsal
	Night  func() order.Rehearsal
	Shade  func() []finding.Finding // what the sun does while the fair is open
	IfSold func() []Sold            // what takes the place of each work when it sells
	Report func() finding.Report    // what all of these found, and the one verdict

	Lit     func() *light.Lit                     // daylight on every surface
	Preview func() *light.Lit                     // the same, roughly and soon, where little was moved since the daylight of a version before was worked out
	Stage   func() *picture.Stage                 // the booth in daylight, ready to draw
	Even    func() *picture.Stage                 // the same in even light, for drawings
	Rough   func() *picture.Stage                 // the same in the light of the preview
	Steps   func() map[order.Which][]*image.NRGBA // pictures of the steps of the three lists; nil where there is nothing to see

	StepFiles func() (map[order.Which][][]byte, error) // the same as JPEG
	Film      func() []*image.NRGBA                    // the walk into the booth, picture by picture

	day func() []hour // the fair's first day, followed

	kept sync.Map // of func() *image.NRGBA by a picture's name: see Mockup.picture

	keeps  *answer.Kept                  // answers of readers, for the next version too
	baked  atomic.Pointer[light.Lit]     // the last daylight that was worked out, of this version or one before
	staged atomic.Pointer[picture.Stage] // the last stage that was made ready, whose images the next ones take over
	full   worked                        // of this version
	rough  worked

	noting sync.Mutex
	notes  []string
}

// New makes a booth ready to be asked. The error is a fault.List: the log of practice times is damaged, or steps wait for
// each other.
//
// more are findings of whoever made the plan, such as about the list that its scene was drafted from.
func New(p *booth.Plan, more ...finding.Finding) (*Mockup, error) {
	return mockup(p, &answer.Kept{}, more)
}

func mockup(p *booth.Plan, keeps *answer.Kept, more []finding.Finding) (*Mockup, error) {
	times, err := ReadTimes(p)
	if err := cmp.Or(err, order.Check(p)); err != nil {
		return nil, err
	}
	m := &Mockup{Plan: p, keeps: keeps, full: newWorked(), rough: newWorked()}
	rehearsed := func(which order.Which) func() order.Rehearsal {
		return sync.OnceValue(func() order.Rehearsal {
			r, _ := order.Of(p, order.Options{Which: which, Times: times, Kept: keeps, Goods: m.Sheet().Goods()}) // its one error was asked for above
			return r
		})
	}
	m.SetUp, m.Strike, m.Night = rehearsed(order.SetUp), rehearsed(order.Strike), rehearsed(order.Night)
	m.Checks = sync.OnceValue(func() check.Result { return check.Again(p, keeps) })
	m.Sheet = sync.OnceValue(func() hang.Sheet { return hang.Of(p) })
	m.IfSold = sync.OnceValue(func() []Sold { return ifSold(p) })
	m.Shade = sync.OnceValue(func() []finding.Finding { return shade.Again(p, keeps) })
	m.Report = sync.OnceValue(func() finding.Report { return m.report(more) })
	m.Lit = func() *light.Lit { return m.LitUntil(context.Background()) }
	m.Preview = func() *light.Lit { return m.previewUntil(context.Background()) }
	m.Rough = sync.OnceValue(func() *picture.Stage { return m.stage(m.Preview()) })
	m.Stage = sync.OnceValue(func() *picture.Stage { return m.stage(m.Lit()) })
	m.Even = sync.OnceValue(func() *picture.Stage { return m.stage(light.Even(p)) })
	m.Steps = sync.OnceValue(func() map[order.Which][]*image.NRGBA { return m.drawSteps(newSite(p, m.Stage(), m.Even())) })
	m.day = sync.OnceValue(m.followed)
	m.StepFiles = sync.OnceValues(m.stepFiles)
	m.Film = sync.OnceValue(m.walkIn)
	return m, nil
}

// Next is a mock-up of another version of the same scene. It takes over every answer of m whose inputs are the same.
func (m *Mockup) Next(p *booth.Plan, more ...finding.Finding) (*Mockup, error) {
	m.keeps.Version()
	next, err := mockup(p, m.keeps, more)
	if err == nil {
		next.baked.Store(m.baked.Load())
		next.staged.Store(m.staged.Load())
	}
	return next, err
}

// Lists are the set-up, taking down and leaving it for the night.
func (m *Mockup) Lists() []order.Rehearsal {
	return []order.Rehearsal{m.SetUp(), m.Strike(), m.Night()}
}

// stage is the booth in a light, ready to be drawn.
func (m *Mockup) stage(l *light.Lit) *picture.Stage {
	s := m.staged.Load().Next(m.Plan, l)
	m.staged.Store(s)
	return s
}

// LitUntil is Lit; when the context ends it gives up, and nil. Whoever asks next works it out.
func (m *Mockup) LitUntil(ctx context.Context) *light.Lit {
	return m.full.until(ctx, func() *light.Lit {
		l := m.baked.Load().Next(ctx, m.Plan)
		if l != nil {
			m.baked.Store(l)
		}
		return l
	})
}

// previewUntil is Preview in the same way.
func (m *Mockup) previewUntil(ctx context.Context) *light.Lit {
	return m.rough.until(ctx, func() *light.Lit { return m.baked.Load().Preview(ctx, m.Plan) })
}

// SoonUntil is light to look at until LitUntil is there: the preview, or even light if no daylight was worked out yet, since then a
// preview takes nearly as long. When the context ends it gives up, and nil.
func (m *Mockup) SoonUntil(ctx context.Context) *light.Lit {
	if m.baked.Load() == nil {
		return light.Even(m.Plan)
	}
	return m.previewUntil(ctx)
}

// worked is light that is worked out once, unless nobody waits for it any more: then whoever asks next does.
type worked struct {
	working chan struct{} // holds one while somebody does
	light   *light.Lit
}

func newWorked() worked { return worked{working: make(chan struct{}, 1)} }

func (w *worked) until(ctx context.Context, work func() *light.Lit) *light.Lit {
	select {
	case w.working <- struct{}{}:
	case <-ctx.Done():
		return nil
	}
	defer func() { <-w.working }()
	if w.light == nil {
		w.light = work()
	}
	return w.light
}

// report gathers what every reader found. A reader that has something to say gives findings, and stands here.
func (m *Mockup) report(more []finding.Finding) finding.Report {
	var wait sync.WaitGroup
	for _, ask := range []func(){func() { m.Lists() }, func() { m.Checks() }, func() { m.Shade() }} {
		wait.Go(ask)
	}
	sheet := m.Sheet()
	wait.Wait()
	return finding.Gather(m.Plan, sheet.StandsUpTo(),
		more,
		m.Checks().Findings,
		hang.Findings(m.Plan, sheet),
		order.Findings(m.Plan, m.Lists()...),
		m.Shade(),
	)
}

// Asked are all questions that findings answer, in the order in which people read about them.
func Asked() []finding.Check {
	var out []finding.Check
	for _, c := range check.All {
		out = append(out, finding.Check{Name: c.Name, Doc: c.Doc, Source: c.Source})
	}
	return append(slices.Concat(out, hang.Checks, order.Checks, shade.Checks), start.Folder)
}

// note keeps a sentence that somebody should read about an output.
func (m *Mockup) note(s string) {
	m.noting.Lock()
	defer m.noting.Unlock()
	if !slices.Contains(m.notes, s) {
		m.notes = append(m.notes, s)
	}
}

// Notes are what somebody should read about the outputs that were written, in sentences.
func (m *Mockup) Notes() []string {
	m.noting.Lock()
	defer m.noting.Unlock()
	return slices.Sorted(slices.Values(m.notes))
}
