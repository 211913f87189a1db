package job

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"path/filepath"
	"strings"

	"boothmock/internal/basis/disk"
	"boothmock/internal/basis/fault"
	"boothmock/internal/find/order"
	"boothmock/internal/handout/glb"
	"boothmock/internal/handout/pack"
	"boothmock/internal/plan/booth"
	"boothmock/internal/view/film"
)

// TimesFile is the log of practice runs beside the scene of a booth.
func TimesFile(p *booth.Plan) string {
	return strings.TrimSuffix(p.File, filepath.Ext(p.File)) + ".times.csv"
}

// ReadTimes reads the log of practice runs beside the scene; there need not be one. The error is a fault.List if the log
// is damaged.
func ReadTimes(p *booth.Plan) (order.TimesLog, error) {
	log, err := readLog(TimesFile(p))
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	return log, err
}

// readLog reads a log of times. The error is a fault.List, or fs.ErrNotExist.
func readLog(file string) (order.TimesLog, error) {
	fsys, name, shut, err := open(file)
	if err != nil {
		return nil, err
	}
	defer shut()
	text, err := disk.Read(fsys, name, 1<<20)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, fs.ErrNotExist
	case err != nil:
		return nil, fault.List{{At: fault.Place{File: file}, Text: fmt.Sprintf("the log of practice times cannot be read: %s", disk.Why(err)), Hint: "it is left as it is"}}
	}
	return order.ReadTimes(text, file)
}

// ReadSentTimes is the log beside the scene with the minutes that a helper sent from the page, as a file or, for "-", piped in;
// nil if all of them are in it already. unknown are steps among them that the booth does not have: the scene has changed since.
func ReadSentTimes(m *Mockup, file string, in io.Reader) (log order.TimesLog, unknown []booth.ID, err error) {
	var sent order.TimesLog
	if file == "-" {
		file = "input"
		var text []byte
		if text, err = io.ReadAll(io.LimitReader(in, 1<<20)); err == nil {
			sent, err = order.ReadTimes(text, file)
		}
	} else if sent, err = readLog(file); errors.Is(err, fs.ErrNotExist) {
		err = fault.List{{At: fault.Place{File: file}, Text: "there is no such file", Hint: "save the helper's text as a file"}}
	}
	if err != nil {
		return nil, nil, err
	}
	steps := map[booth.ID]bool{}
	for _, r := range m.Lists() {
		for _, s := range r.Steps {
			steps[r.Which.Logged(s.ID)] = true
		}
	}
	for _, t := range sent {
		if !steps[t.Step] {
			unknown = append(unknown, t.Step)
		}
	}
	if len(unknown) == len(sent) {
		return nil, nil, fault.List{{At: fault.Place{File: file}, Text: "none of its steps is this booth's", Hint: "is it of another scene? Nothing was added"}}
	}
	had, err := ReadTimes(m.Plan)
	if err != nil {
		return nil, nil, err
	}
	if log = had.With(sent); len(log) == len(had) {
		return nil, unknown, nil
	}
	return log, unknown, nil
}

// stepFile is the name of the picture of a step.
func stepFile(s order.Step) string {
	return fmt.Sprintf("set-up/%02d-%s.png", s.Number, fileName(string(s.ID)))
}

// writeSteps writes the sheet of a list.
func writeSteps(m *Mockup, r order.Rehearsal, w io.Writer) error {
	pictures, err := m.StepFiles()
	if err != nil {
		return err
	}
	return pack.WriteSteps(w, m.Plan, m.Sheet(), r, m.Report(), pictures[r.Which])
}

// motion is what moves in the .glb: the set-up, a step a second, people last; and the walk of the film.
func (m *Mockup) motion() glb.Motion {
	out := glb.Motion{End: float64(len(m.SetUp().Steps)), Walk: film.Walk(m.Plan, m.Checks().Way), Rate: film.PerSecond}
	shown := map[int]*glb.Rise{}
	for _, s := range m.SetUp().Steps {
		now := float64(s.Number)
		for i, low := range standing(m.Plan, s.Shows) {
			switch r := shown[i]; {
			case r == nil:
				shown[i] = &glb.Rise{Part: m.Plan.Parts[i].ID, Shown: now, Low: low}
			case r.Low > 0 && r.Raised == 0 && low == 0:
				r.Raised = now
			}
		}
	}
	first := standing(m.Plan, nil)
	for i, part := range m.Plan.Parts {
		_, always := first[i]
		switch r := shown[i]; {
		case always:
		case r != nil:
			out.Rises = append(out.Rises, *r)
		default:
			out.Rises = append(out.Rises, glb.Rise{Part: part.ID, Shown: float64(len(m.SetUp().Steps))})
		}
	}
	return out
}

// fileName is an ID, or its beginning, as part of a file's name.
func fileName(id string) string {
	name := strings.Map(func(r rune) rune {
		switch {
		case r >= 'a' && r <= 'z', r >= '0' && r <= '9', r == '-':
			return r
		case r >= 'A' && r <= 'Z':
			return r + 'a' - 'A'
		}
		return '-'
	}, id)
	return name[:min(len(name), 100)]
}
