package job

import (
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"slices"

	"boothmock/internal/basis/disk"
	"boothmock/internal/basis/fault"
	"boothmock/internal/find/arrange"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/finding"
	"boothmock/internal/plan/kinds"
	"boothmock/internal/plan/scene"
)

// Arranged is what was proposed for a scene, measured on the booth that it really makes.
type Arranged struct {
	Plan          *booth.Plan // as it is
	Changed       bool
	Report        finding.Report // on the booth as it is arranged
	Before, After float64        // scores: see arrange.Score
	Bound         float64
	Views         []string          // that count
	Rows          string            // the rows to paste
	Less          []Change          // works of which less is seen, the greatest loss first
	More          []Change          // works of which more is seen
	New           []finding.Finding // what the checks have to say of it and not of the plan as it is
	Tried         int               // arrangements that the search looked at
	Refused       []finding.Finding // what would be worse in the proposal with the most to see, for which it was rejected
	Rejected      int               // proposals with more to see that would make a finding worse
	path          string
	was, text     []byte
}

// Change is a work and what is seen of it, in steradians times what it matters.
type Change struct {
	Title         string
	Before, After float64
}

// Arrange seeks a better arrangement of the works in a scene's rows. Nothing is written.
func Arrange(path string, set Settings) (*Arranged, error) {
	fsys, name, shut, err := open(path)
	if err != nil {
		return nil, err
	}
	defer shut()
	f, err := scene.ReadAs(fsys, name, path)
	if err != nil {
		return nil, err
	}
	book, wrong := ruleBook(f, fsys, set)
	plan, err := kinds.Build(f, book, fsys)
	if err := both(wrong, err); err != nil {
		return nil, err
	}
	if len(plan.Rows) == 0 {
		return nil, fault.List{{At: fault.Place{File: path}, Text: "no work hangs in a row, so there is nothing to arrange", Hint: "name your works in rows: boothmock explain rows"}}
	}
	if works := plan.Works(); works > arrange.Most {
		return nil, fault.List{{At: plan.Rows[0].At, Text: fmt.Sprintf("the booth has %d works; an arrangement is sought for %d at most", works, arrange.Most),
			Hint: "arrange a scene with some of the walls at a time"}}
	}
	now, err := New(plan)
	if err != nil {
		return nil, err
	}
	p := arrange.Propose(plan)
	a := &Arranged{Plan: plan, Report: now.Report(), Bound: p.Bound, Views: p.Views, Rows: f.Lines("rows"), path: path, was: f.Source(), text: f.Source()}
	before, by := arrange.Score(plan)
	a.Before, a.After = before, before
	a.Tried = p.Tried
	same := func(x, y booth.Row) bool { return slices.Equal(x.Works, y.Works) }
	var tried [][]booth.Row
	var share map[booth.ID]float64
	for _, rows := range append([][]booth.Row{p.Rows}, p.Others...) {
		known := func(t []booth.Row) bool { return slices.EqualFunc(t, rows, same) }
		if known(plan.Rows) || slices.ContainsFunc(tried, known) {
			continue
		}
		tried = append(tried, rows)
		if f, err = scene.Parse(f.Name, a.was); err != nil { // what is built is noted in the file
			return nil, err
		}
		p.Rows = rows
		g, err := rehung(f, plan, p)
		if err != nil {
			return nil, fmt.Errorf("the rows cannot be rewritten: %w", err)
		}
		next, err := kinds.Build(g, book, fsys)
		if err != nil {
			return nil, err
		}
		var after float64
		if after, share = arrange.Score(next); after <= before {
			continue
		}
		then, err := New(next)
		if err != nil {
			return nil, err
		}
		a.New = finding.Beyond(then.Report().Findings, a.Report.Findings)
		if worse := worse(a.Report, then.Report(), a.New); len(worse) > 0 {
			if a.Rejected++; a.Rejected == 1 {
				a.Refused = worse
			}
			a.New = nil
			continue
		}
		a.Changed, a.After, a.text, a.Rows, a.Report = true, after, g.Source(), g.Lines("rows"), then.Report()
		break
	}
	if !a.Changed {
		return a, nil
	}
	for _, part := range plan.Parts {
		c := Change{part.Name, by[part.ID], share[part.ID]}
		switch {
		case part.Work == nil:
		case c.After < 0.98*c.Before:
			a.Less = append(a.Less, c)
		case c.After > 1.02*c.Before:
			a.More = append(a.More, c)
		}
	}
	slices.SortStableFunc(a.Less, func(x, y Change) int { return cmp.Compare(y.Before-y.After, x.Before-x.After) })
	slices.SortStableFunc(a.More, func(x, y Change) int { return cmp.Compare(y.After-y.Before, x.After-x.Before) })
	return a, nil
}

// rehung is the scene with the proposal in its rows, in the names that it uses.
func rehung(f *scene.File, plan *booth.Plan, p arrange.Proposal) (*scene.File, error) {
	items := f.Items("rows")
	typed := map[booth.ID]string{}
	for _, r := range plan.Rows {
		names, _ := items[r.Number].Values()["works"].([]any)
		for k, id := range r.Works {
			typed[id], _ = names[k].(string)
		}
	}
	for _, r := range p.Rows {
		was, _ := items[r.Number].Values()["works"].([]any)
		names := make([]any, len(r.Works))
		for k, id := range r.Works {
			names[k] = typed[id]
		}
		var err error
		if f, err = renamed(f, scene.Path{{Key: "rows"}, {Nth: r.Number}, {Key: "works"}}, was, names); err != nil {
			return nil, err
		}
	}
	return f, nil
}

// renamed is the scene with other names in a list, each in the place of an old one; comments stay with the place.
func renamed(f *scene.File, list scene.Path, was, names []any) (*scene.File, error) {
	for k := range max(len(was), len(names)) {
		at := append(slices.Clone(list), scene.Step{Nth: min(k, len(names))})
		var err error
		switch {
		case k >= len(names):
			f, err = f.Delete(at)
		case k >= len(was):
			f, err = f.Insert(at, names[k])
		case was[k] != names[k]:
			f, err = f.Set(at, names[k])
		}
		if err != nil {
			return nil, err
		}
	}
	return f, nil
}

// worse are the new findings for which a booth is no better than before: failures, and cautions unless as many others are gone.
func worse(before, after finding.Report, news []finding.Finding) (out []finding.Finding) {
	gone := 0
	for _, f := range finding.Beyond(before.Findings, after.Findings) {
		if f.Level == finding.Caution {
			gone++
		}
	}
	cautions := 0
	for _, f := range news {
		if f.Level == finding.Caution {
			cautions++
		}
	}
	for _, f := range news {
		if f.Level == finding.Fail || f.Level == finding.Caution && cautions > gone {
			out = append(out, f)
		}
	}
	return out
}

// Write puts the proposed rows into the scene's file; every other byte stays.
func (a *Arranged) Write() error {
	return rewrite(a.path, a.was, a.text)
}

// rewrite puts a text into a scene's file in the place of what was read from it, unless that has been changed meanwhile.
func rewrite(path string, was, text []byte) error {
	if !bytes.Equal(Source(path), was) {
		return errors.New(path + " has been changed in the meantime, and was left alone: start again")
	}
	path, err := filepath.EvalSymlinks(path) // within the scene's folder, or it could not have been read
	if err != nil {
		return err
	}
	return disk.Rewrite(path, func(w io.Writer) error { _, err := w.Write(text); return err })
}
