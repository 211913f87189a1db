package main

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"

	"boothmock/internal/basis/disk"
	"boothmock/internal/find/order"
	"boothmock/internal/job"
	"boothmock/internal/plan/booth"
)

// practice walks through the steps: enter when a step is done, and what it took goes into the log beside the scene.
func practice(ctx context.Context, in io.Reader, out io.Writer, p *booth.Plan, r order.Rehearsal) error {
	times, err := job.ReadTimes(p)
	if err != nil {
		return err
	}
	fmt.Fprintln(out, "Press enter when a step is done. Or write the minutes that it took, s to skip it, q to stop.")
	run, noted := times.Runs()+1, 0
	watch := newWatch(r.Steps)
	lines := bufio.NewScanner(in)
	for _, s := range watch.steps {
		fmt.Fprintf(out, "\n%d  %s\n", s.Number, s.Name)
		fmt.Fprintf(out, "    %s, planned %d min\n", s.Hands(" + "), s.Minutes())
		if s.Caution != "" {
			fmt.Fprintln(out, hanging(out, "    ! ", s.Caution))
		}
		took, more := watch.ask(ctx, lines, out, s)
		if !more {
			break
		}
		if took > 0 {
			times, noted = append(times, order.Took{Run: run, Step: s.ID, Minutes: took}), noted+1
		}
	}
	if err := ctx.Err(); err != nil && noted == 0 {
		return err
	}
	if noted == 0 {
		fmt.Fprintln(out, "\nNothing was measured, and nothing is written.")
		return nil
	}
	fmt.Fprintln(out)
	return keepTimes(out, p, r, times)
}

// readTimes adds the minutes that a helper sent from the page to the log.
func readTimes(in io.Reader, out io.Writer, m *job.Mockup, file string) error {
	log, unknown, err := job.ReadSentTimes(m, file, in)
	if err != nil {
		return err
	}
	for _, id := range unknown {
		fmt.Fprintln(out, indented(out, fmt.Sprintf("The booth has no step %s any more.", id), ""))
	}
	if log == nil {
		fmt.Fprintln(out, indented(out, "These minutes are in "+job.TimesFile(m.Plan)+" already: nothing is written.", ""))
		return nil
	}
	return keepTimes(out, m.Plan, m.SetUp(), log)
}

// keepTimes writes the log beside the scene, and says what it changed.
func keepTimes(out io.Writer, p *booth.Plan, before order.Rehearsal, log order.TimesLog) error {
	file := job.TimesFile(p)
	if err := disk.Rewrite(file, log.Write); err != nil {
		return err
	}
	fmt.Fprintf(out, "Practice %d is in %s.\n", log.Runs(), file)
	m, err := job.New(p)
	if err != nil {
		return err
	}
	after := m.SetUp()
	for _, l := range after.Learnt {
		fmt.Fprintln(out, hanging(out, "  - ", l.Say()))
	}
	fmt.Fprintf(out, "The whole was planned at %d min and is now %d min.\n", before.Length, after.Length)
	return nil
}

// watch times steps that overlap. A step begins when its people are free and the steps that it waits for are done.
type watch struct {
	steps []order.Step // in the order in which they should end
	done  map[int]time.Time
	free  map[string]time.Time
	begun time.Time
	now   func() time.Time
}

func newWatch(steps []order.Step) *watch {
	w := &watch{steps: slices.Clone(steps), done: map[int]time.Time{}, free: map[string]time.Time{}, begun: time.Now(), now: time.Now}
	slices.SortStableFunc(w.steps, func(a, b order.Step) int { return a.End - b.End })
	return w
}

// ask waits until the step is done and returns the minutes that it took, 0 for unknown. more is false when the person
// stops.
func (w *watch) ask(ctx context.Context, in *bufio.Scanner, out io.Writer, s order.Step) (took float64, more bool) {
	for {
		fmt.Fprint(out, "    > ")
		text, err := line(ctx, in)
		if err != nil {
			fmt.Fprintln(out)
			return 0, false
		}
		switch text = strings.TrimSpace(text); text {
		case "":
			return w.finish(s), true
		case "s":
			w.finish(s)
			return 0, true
		case "q":
			return 0, false
		}
		m, err := strconv.ParseFloat(strings.TrimSpace(strings.TrimSuffix(text, "min")), 64)
		if err == nil && m > 0 && m <= 24*60 {
			w.finish(s)
			return m, true
		}
		fmt.Fprintln(out, "    enter, minutes such as 4 or 2.5, s or q")
	}
}

// finish notes that the step is done now, and returns the minutes since it could begin, to the tenth.
func (w *watch) finish(s order.Step) float64 {
	now, from := w.now(), w.begun
	for _, a := range s.After {
		if t := w.done[a]; t.After(from) {
			from = t
		}
	}
	for _, who := range s.Who {
		if t := w.free[who]; t.After(from) {
			from = t
		}
		w.free[who] = now
	}
	w.done[s.Number] = now
	return math.Round(now.Sub(from).Minutes()*10) / 10
}

// line reads a line; an interrupt or the end of the input is an error.
func line(ctx context.Context, in *bufio.Scanner) (string, error) {
	type read struct {
		text string
		err  error
	}
	got := make(chan read, 1)
	go func() {
		if in.Scan() {
			got <- read{text: in.Text()}
			return
		}
		got <- read{err: errors.Join(in.Err(), io.EOF)}
	}()
	select {
	case r := <-got:
		return r.text, r.err
	case <-ctx.Done():
		return "", ctx.Err()
	}
}
